package sketch

import (
	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/parser"
)

// example is a piece of work on Juniper Street that shows what a word means, by
// the view and by what is dimensioned in it; no role is all of them.
type example struct {
	ask, view string
	role      parser.Role
}

// The pieces of work that words are shown on.
const (
	laundryStack = "set 10-3/8 45s 2 pvc dwv takeoff 1-7/16"
	kitchenDrain = "roll 7-1/2 rise 4-1/4 45s 1-1/2 pvc dwv takeoff 1-1/16"
	oneElbow     = "takeoff 2 pvc dwv 45 face 2-1/4 depth 3/4"
	straight     = "26 center to center, 90s, 3/4 copper takeoff 1/2"
	bank         = "3 lines 8 apart, set 15 45s"
	beam         = "around a beam, reach 6, clearance 1, 45s, 2 pvc dwv"
	drain        = "fall over 22 ft at 1/4 per foot, 3 pvc dwv"
	bathroom     = "set 14 in 30 of room, 2 pvc dwv"
)

// examples are the words of the glossary that a picture helps with.
var examples = map[string]example{
	"offset":           {laundryStack, "offset", ""},
	"set":              {laundryStack, "offset", parser.Set},
	"run":              {laundryStack, "offset", parser.Run},
	"travel":           {laundryStack, "offset", parser.Travel},
	"cut":              {laundryStack, "offset", parser.Cut},
	"end gap":          {laundryStack, "offset", parser.EndGap},
	"rolling offset":   {kitchenDrain, "box", ""},
	"roll":             {kitchenDrain, "end", parser.Roll},
	"rise":             {kitchenDrain, "end", parser.Rise},
	"takeoff":          {oneElbow, "fitting", parser.TakeoffOf},
	"face":             {oneElbow, "fitting", parser.Face},
	"depth":            {oneElbow, "fitting", parser.Depth},
	"stop":             {oneElbow, "fitting", parser.TakeoffOf},
	"center to center": {straight, "piece", parser.CenterToCenter},
	"spacing":          {bank, "parallel", parser.Spacing},
	"stagger":          {bank, "parallel", parser.Stagger},
	"reach":            {beam, "around", parser.Reach},
	"clearance":        {beam, "around", parser.Clearance},
	"fall":             {drain, "fall", parser.Drop},
	"room":             {bathroom, "bends", parser.Room},
}

// Word shows what a word of the glossary means, by its first English name, under a
// title, on a
// piece of work with nothing else dimensioned. The error is [ErrNothingToDraw]
// for a word that no picture helps with.
func Word(name, title string, o wording.Options) (*Drawing, error) {
	if name == "multiplier" {
		return Triangle(geometry.EighthBend, title, o)
	}
	e, ok := examples[name]
	if !ok {
		return nil, ErrNothingToDraw
	}
	a, err := figure.Solve(parser.Likeliest(e.ask), figure.Settings{Division: o.Division, Metric: o.Metric})
	if err != nil {
		return nil, err
	}
	for _, v := range (sketcher{a, o}).views() {
		if v.Name == e.view {
			v.showOnly(e.role)
			return &Drawing{Title: title, Views: []View{v}}, nil
		}
	}
	return nil, ErrNothingToDraw
}

// showOnly leaves of the dimensions the one of a role, in red; no role leaves
// them all.
func (v *View) showOnly(r parser.Role) {
	v.Caption = nil
	if r == "" {
		return
	}
	var kept []Dimension
	for _, d := range v.Dimensions {
		if d.Role == r && len(kept) == 0 {
			d.Main, d.Row = true, min(max(d.Row, -1), 1)
			kept = append(kept, d)
		}
	}
	v.Dimensions = kept
}
