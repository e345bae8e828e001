package sketch

import (
	"regexp"
	"slices"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// Unsolved is the picture of a problem: that of its answer, with nothing on it that
// the problem doesn't say. What is wanted stands there by its name, with a question
// mark. The error is [ErrNothingToDraw].
func Unsolved(a *figure.Answer, posed string, o wording.Options) (*Drawing, error) {
	o = o.For(a.Ask)
	views := sketcher{a, o}.views()
	if len(views) == 0 {
		return nil, ErrNothingToDraw
	}
	known := numbers.FindAllString(posed, -1)
	wanted := wording.RoleName(a.Main, o) + " ?"
	for i := range views {
		for n, d := range views[i].Dimensions {
			if d.Role == a.Main {
				views[i].Dimensions[n].Label = wanted
			}
		}
		views[i].Dimensions = slices.DeleteFunc(views[i].Dimensions, func(d Dimension) bool { return !given(a, d.Role) })
		views[i].blank(func(text string) bool { return saidIn(known, text) })
	}
	return &Drawing{Title: wording.Capital(wanted), Understood: posed, Views: views}, nil
}

// given says whether a figure is one of the problem, or what it wants.
func given(a *figure.Answer, r parser.Role) bool {
	if r == a.Main || r == parser.TakeoffOf || r == parser.Bare {
		return true
	}
	return slices.ContainsFunc(a.Ask.Measures, func(m parser.Measure) bool { return m.Role == r })
}

// numbers are those in words: 24-1/2, 45.
var numbers = regexp.MustCompile(`\d+(?:[-./]\d+)*`)

// saidIn says whether all numbers of a text are known.
func saidIn(known []string, text string) bool {
	for _, n := range numbers.FindAllString(text, -1) {
		if !slices.Contains(known, n) {
			return false
		}
	}
	return true
}

// blank takes off a view all that says a number which is not known.
func (v *View) blank(known func(string) bool) {
	v.Dimensions = slices.DeleteFunc(v.Dimensions, func(d Dimension) bool { return !known(d.Label) })
	v.Labels = slices.DeleteFunc(v.Labels, func(l Label) bool { return !known(l.Text) })
	v.Caption = slices.DeleteFunc(v.Caption, func(line string) bool { return !known(line) })
	for i, a := range v.Arcs {
		if !known(a.Label) {
			v.Arcs[i].Label = ""
		}
	}
	if !known(v.Over) {
		v.Over = ""
	}
}
