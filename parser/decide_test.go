package parser_test

import (
	"testing"

	"dogleg/parser"
)

// What is withdrawn in its own last words is not figured.
func TestWithdrawnIsNotRead(t *testing.T) {
	for _, text := range []string{"26 set 45s 6 pvc, no wait, scratch that", "12 set 45s 2 pvc. never mind", "set 12 con 45s pvc de 2, olvídalo"} {
		for _, s := range parser.Read(text, parser.Said{}) {
			if s.Ask != nil {
				t.Errorf("%q is read as %+v", text, *s.Ask)
			}
		}
	}
}

// A change is read by what was said before.
func TestReadFollowsOn(t *testing.T) {
	first := parser.Read("12 set 45s 2 pvc", parser.Said{})
	if len(first) != 1 || first[0].Ask == nil {
		t.Fatalf("%+v", first)
	}
	change := parser.Read("same but 14", parser.Said{Last: first[0].Ask})
	if len(change) != 1 || change[0].Ask == nil || !change[0].Ask.FollowUp {
		t.Fatalf("%+v", change)
	}
	whole := first[0].Ask.With(*change[0].Ask)
	if set, _ := whole.Length(parser.Set); set != 14 || whole.Angle != 45 {
		t.Errorf("%+v", whole)
	}
}
