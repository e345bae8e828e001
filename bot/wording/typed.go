package wording

import (
	"math"
	"strconv"
	"strings"

	"dogleg/catalog"
	"dogleg/parser"
)

// Typed writes an ask as one would text it, so that it can be sent back as it
// stands: "set 7-5/8, 45s, 1-1/2 pvc". It is English, which every user's parser
// reads.
func Typed(ask parser.Ask) string { return Options{}.typed(ask) }

// TypedIn is Typed in the language of the conversation, where that reads back as
// the same ask.
func TypedIn(ask parser.Ask, o Options) string {
	if o.Language == parser.Spanish {
		if text := (Options{Language: o.Language}).typed(ask); readsBack(text, ask) {
			return text
		}
	}
	return Options{}.typed(ask)
}

// TypedAll is TypedIn for asks that one message makes, one after the other.
func TypedAll(asks []parser.Ask, o Options) string {
	var each []string
	for _, a := range asks {
		each = append(each, TypedIn(a, o))
	}
	return strings.Join(each, "; ")
}

// readsBack says whether a text is read as an ask: the same figures of the same
// pipe.
func readsBack(text string, ask parser.Ask) bool {
	statements := parser.Parse(text)
	if len(statements) != 1 || statements[0].Ask == nil {
		return false
	}
	got := statements[0].Ask
	same := Options{}.typed(*got) == Options{}.typed(ask)
	return same && got.Pipe.Size == ask.Pipe.Size && got.Pipe.Material == ask.Pipe.Material
}

func (o Options) typed(ask parser.Ask) string {
	var words []string
	for _, m := range ask.Measures {
		if !ofTheFitting(m.Role) || ask.Ends == ([2]parser.End{}) {
			words = append(words, o.typedMeasure(m))
		}
	}
	if ask.Lines > 0 {
		words = append(words, o.say("lines", "number", strconv.Itoa(ask.Lines)))
	}
	words = append(words, o.typedTurn(ask))
	if ask.Grade != 0 {
		words = append(words, o.say("at grade", "grade", o.grade(ask.Grade)))
	}
	words = append(words, o.For(ask).endsGiven(ask.Ends)...)
	return strings.Join(spoken(append(words, o.typedPipe(ask.Pipe))), ", ")
}

func (o Options) typedPipe(p catalog.Pipe) string {
	if p == (catalog.Pipe{Size: p.Size}) && p.Size != "" {
		return o.say("pipe of size", "size", string(p.Size))
	}
	return strings.Join(spoken([]string{
		string(p.Size), o.typedMaterial(p.Material), strings.ToLower(string(p.Use)), o.typedJoint(p),
	}), " ")
}

func (o Options) typedMeasure(m parser.Measure) string {
	length, _, feet := strings.Cut(o.stated(m.Length, m.Text), " (") // one length, written once
	if whole := m.Length.Feet(); feet && whole == math.Trunc(whole) {
		length = o.say("feet", "number", strconv.Itoa(int(whole)))
	}
	text := o.role(m.Role, length)
	if m.Role == parser.GapNow {
		text = o.say("typed gap now", "length", length)
	}
	if m.Method != "" && m.Method != parser.Centers {
		text += " " + o.method(m.Method)
	}
	return text
}

func (o Options) typedTurn(ask parser.Ask) string {
	first, second := ask.Ends[0].Fitting, ask.Ends[1].Fitting
	switch {
	case first.Shape == "" && ask.Angle == 0:
		return ""
	case first.Shape == "" && tradeBend(ask.Angle):
		return o.fittings(catalog.BendOf(ask.Angle))
	case first.Shape == "":
		return bendName(ask.Angle) + " " + o.say("ear degrees")
	case first == second:
		return o.fittings(first)
	}
	return o.turn(ask)
}

// typedJoint is how a pipe is joined, as one types it; plastic is glued and copper
// soldered without a word.
func (o Options) typedJoint(p catalog.Pipe) string {
	if p.Material != "" && (p.Joint == catalog.Solvent || p.Joint == catalog.Solder) {
		return ""
	}
	return o.term(string(p.Joint))
}

// typedMaterial is a material as one types it.
func (o Options) typedMaterial(m catalog.Material) string {
	if o.Language == parser.Spanish {
		return strings.ToLower(o.material(m))
	}
	return strings.ReplaceAll(string(m), "-", " ")
}
