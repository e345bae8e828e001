package bot_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"dogleg/bot"
	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/parser"
)

// TestATemplateIsPaintedWhenItIsSent: what is wrapped around a pipe is a PDF, made
// of what the answer asks; one that says nothing to wrap makes none.
func TestATemplateIsPaintedWhenItIsSent(t *testing.T) {
	c := new(bot.Conversation)
	ask := parser.Ask{Kind: parser.Miter, Angle: 45, Pipe: catalog.Pipe{Material: catalog.Steel, Joint: catalog.ButtWeld, Size: "4"}}
	for _, kind := range []parser.Kind{parser.Miter, parser.Wrap} {
		ask.Kind = kind
		recipe, err := json.Marshal(map[string]any{"Of": "template", "Ask": ask, "Settings": figure.Settings{}})
		if err != nil {
			t.Fatal(err)
		}
		f, ok := c.Paint(bot.File{Name: "wrap-1.pdf", Recipe: recipe})
		if wrapped := kind == parser.Miter; ok != wrapped || wrapped && !bytes.HasPrefix(f.Content, []byte("%PDF-")) {
			t.Errorf("%s: painted %v, %d bytes", kind, ok, len(f.Content))
		}
	}
}
