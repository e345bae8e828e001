package bot

import "encoding/json"

// File is a file that goes with a reply. One that takes long to be made has no
// content yet but a recipe, of which [Conversation.Paint] makes it when it is
// wanted.
type File struct {
	Name    string // with its ending: "cut-list-2026-11-03.csv"
	Content []byte
	Picture bool // to be shown, where the transport can show one

	Recipe json.RawMessage // nil where the content is there
}
