package wording

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"dogleg/catalog"
	"dogleg/parser"
)

// Typed writes an ask as one would text it, so that it can be sent back as it
// stands: "set 7-5/8, 45s, 1-1/2 pvc". It is English and in full even where the
// conversation is not, since every user's parser reads it.
func Typed(ask parser.Ask) string {
	o := Options{}
	var words []string
	for _, m := range ask.Measures {
		words = append(words, typedMeasure(m))
	}
	if ask.Lines > 0 {
		words = append(words, strconv.Itoa(ask.Lines)+" lines")
	}
	words = append(words, typedTurn(ask))
	if ask.Grade != 0 {
		words = append(words, "at "+o.grade(ask.Grade))
	}
	if !slices.ContainsFunc(ask.Measures, func(m parser.Measure) bool { return ofTheFitting(m.Role) }) { // else it is said already
		words = append(words, o.endsGiven(ask.Ends)...)
	}
	return strings.Join(spoken(append(words, typedPipe(ask.Pipe))), ", ")
}

func typedPipe(p catalog.Pipe) string {
	return strings.Join(spoken([]string{
		string(p.Size), strings.ReplaceAll(string(p.Material), "-", " "), strings.ToLower(string(p.Use)), string(p.Joint),
	}), " ")
}

func typedMeasure(m parser.Measure) string {
	o := Options{}
	length, _, feet := strings.Cut(o.stated(m.Length, m.Text), " (") // one length, written once
	if whole := m.Length.Feet(); feet && whole == math.Trunc(whole) {
		length = strconv.Itoa(int(whole)) + " ft"
	}
	text := o.role(m.Role, length)
	if m.Method != "" && m.Method != parser.Centers {
		text += " " + o.method(m.Method)
	}
	return text
}

func typedTurn(ask parser.Ask) string {
	o := Options{}
	first, second := ask.Ends[0].Fitting, ask.Ends[1].Fitting
	switch {
	case first.Shape == "" && ask.Angle == 0:
		return ""
	case first.Shape == "" && tradeBend(ask.Angle):
		return o.fittings(catalog.BendOf(ask.Angle))
	case first.Shape == "":
		return bendName(ask.Angle) + " degrees"
	case first == second:
		return o.fittings(first)
	}
	return o.turn(ask)
}
