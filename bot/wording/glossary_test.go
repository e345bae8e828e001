package wording_test

import (
	"strings"
	"testing"

	"dogleg/bot/training"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/parser"
)

// Whatever a reply calls a figure, a fitting, a joint or a way of laying the
// tape has an entry.
func TestWhatAReplyCallsThingsIsExplained(t *testing.T) {
	plain := map[string]bool{ // words of everybody
		"result": true, "number of lines": true, "size": true, "that figure": true, "roll angle, from plumb": true,
		"gap at each joint": true, "obstacle length": true, "joint": true, "unit": true,
	}
	ask := func(what, word string) {
		if plain[word] || word == "" {
			return
		}
		if _, ok := training.Meaning(word, wording.Options{}); !ok {
			t.Errorf("%s is called %q, which has no entry", what, word)
		}
	}
	for _, role := range constants(t, "../../parser/ask", "Role") {
		ask("role "+role, wording.RoleName(parser.Role(role), wording.Options{}))
	}
	for _, method := range constants(t, "../../parser/ask", "Method") {
		ask("method", strings.ReplaceAll(method, "-", " "))
	}
	for _, s := range catalog.Systems() {
		ask("joint", string(s.Joint))
		for _, f := range s.Fittings() {
			ask("fitting", string(f.Shape))
		}
	}
}
