package wording

import (
	"strconv"
	"strings"

	"dogleg/catalog"
	"dogleg/parser"
)

// Typed writes an ask as one would text it, so that it can be sent back as it
// stands: "set 7-5/8 45s 1-1/2 pvc". It is English and in full even where the
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
	words = append(words, typedTurn(ask), o.grade(ask.Grade))
	for _, m := range o.endsGiven(ask.Ends) {
		words = append(words, strings.ReplaceAll(m, ",", ""))
	}
	p := ask.Pipe
	words = append(words, string(p.Size), typedMaterial(p.Material), strings.ToLower(string(p.Use)), string(p.Joint))
	return strings.Join(spoken(words), " ")
}

func typedMeasure(m parser.Measure) string {
	o := Options{}
	length := o.stated(m.Length, m.Text)
	length, _, _ = strings.Cut(length, " (") // no feet: one length, written once
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

func typedMaterial(m catalog.Material) string {
	return strings.ReplaceAll(string(m), "-", " ")
}
