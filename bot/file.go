package bot

// File is a file that goes with a reply.
type File struct {
	Name    string // with its ending: "cut-list-2026-11-03.csv"
	Content []byte
	Picture bool // to be shown, where the transport can show one
}
