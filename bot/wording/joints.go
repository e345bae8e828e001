package wording

import (
	"slices"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// joints says what only fittings have whose ends or turns differ: where a run is
// cut for a branch, how far the far line is out of parallel, what a street
// fitting makes.
func (o Options) joints(a *figure.Answer) []string {
	return slices.Concat(o.street(a), o.branch(a), o.unlike(a))
}

// inItsLine tells the figures that have a line of their own.
func inItsLine(a *figure.Answer, r parser.Role) bool {
	switch r {
	case parser.CutOut, parser.Inlet, parser.Outlet:
		return a.Branch != nil
	case parser.FarEnd, parser.FarSet:
		return true
	case parser.TakeoffOf:
		return a.Kind == parser.Saddle
	case parser.Cut:
		return a.Main == parser.Least
	default:
	}
	return false
}

// figureOf is a figured length as it is printed; false where it wasn't figured.
func (o Options) figureOf(a *figure.Answer, r parser.Role) (string, bool) {
	l, ok := a.Length(r)
	return o.bare(l, mannerOf(a, figure.Length{Role: r, Length: l})), ok
}

func (o Options) street(a *figure.Answer) []string {
	if a.Main == parser.Least {
		piece, _ := o.figureOf(a, parser.Cut)
		lines := []string{o.say("fills both", "length", piece)}
		if !hubbed(a.System) {
			lines = nil
		}
		return spoken(append(lines, o.streetMakes(a.Angle, a.StreetSets)))
	}
	if _, pieced := a.Length(parser.Cut); len(a.Sides) == 1 && a.Sides[0].Fitting.Street && !pieced {
		return []string{o.say("spigot straight in")}
	}
	return nil
}

// streetMakes says which set a street fitting makes straight in another bend;
// nothing where none is made.
func (o Options) streetMakes(a geometry.Angle, sets [2]geometry.Length) string {
	switch {
	case sets[0] <= 0:
		return ""
	case sets[0] == sets[1]:
		return o.say("street makes", "bend", bendName(a), "length", o.bare(sets[0], exactly))
	}
	return o.say("street makes between", "bend", bendName(a), "least", o.roundedDown(sets[0], ""), "most", o.roundedUp(sets[1], ""))
}

// streetInstead says what a street fitting would make where two bends collide.
func (o Options) streetInstead(i *figure.Impossible) string {
	angle := geometry.EighthBend
	about := false
	if i.Partly != nil {
		angle, about = i.Partly.Angle, unsure(i.Partly)
	}
	if i.Street > 0 && i.StreetSets[0] != i.StreetSets[1] {
		return o.say(
			"street would do", "bend", bendName(angle), "length", o.bare(i.Street, manner{about: about}),
			"least", o.roundedDown(i.StreetSets[0], ""), "most", o.roundedUp(i.StreetSets[1], ""),
		)
	}
	return o.streetMakes(angle, i.StreetSets)
}

func (o Options) branch(a *figure.Answer) []string {
	var lines []string
	if b := a.Branch; b != nil && b.Known() {
		out, _ := o.figureOf(a, parser.CutOut)
		inlet, _ := o.figureOf(a, parser.Inlet)
		outlet, _ := o.figureOf(a, parser.Outlet)
		lines = append(lines, o.say("run cut", "length", out, "inlet", inlet, "outlet", outlet, "fitting", o.fitting(b.Fitting)))
	}
	if far, ok := o.figureOf(a, parser.FarEnd); ok && a.Unlike == nil {
		lines = append(lines, o.say("far from center", "length", far, "fitting", o.fitting(a.From)))
		if a.Branch == nil {
			lines = append(lines, capital(o.say("square to the step", "fitting", o.fitting(a.From))))
		}
	}
	return lines
}

func (o Options) unlike(a *figure.Answer) []string {
	u := a.Unlike
	if u == nil {
		return nil
	}
	key := "not parallel back"
	if u.Away {
		key = "not parallel away"
	}
	inEach := o.ruler() * geometry.Length(u.Off.Tan())
	line, _ := o.said(key, "angle", degrees(u.Off), "length", o.bare(inEach, exactly), "ruler", o.bare(o.ruler(), exactly))
	lines := []string{line}
	along, ok := o.figureOf(a, parser.FarEnd)
	over, _ := a.Length(parser.FarSet)
	if !ok || a.Branch != nil {
		return lines
	}
	across := o.bare(max(over, -over), mannerOf(a, figure.Length{Role: parser.FarSet, Length: over}))
	if over < 0 {
		return append(lines, o.say("far pipe beyond", "along", along, "across", across))
	}
	return append(lines, o.say("far pipe", "along", along, "across", across))
}

// offLine is how far the far line is out of parallel, 0 where it isn't.
func offLine(a *figure.Answer) geometry.Angle {
	if a.Unlike == nil {
		return 0
	}
	return a.Unlike.Off
}

// sides says which of a fitting's unlike ends were figured with, and where the
// numbers come from.
func (o Options) sides(a *figure.Answer) []string {
	var lines []string
	for _, e := range a.Sides {
		lines = append(lines, capital(o.takeoffLine("takeoff at side", e)[0]))
	}
	return lines
}

// joints puts in what fittings have whose ends or turns differ.
func (r *Record) joints(a *figure.Answer) {
	r.StreetSets = streetSets(a.StreetSets)
	if b := a.Branch; b != nil {
		r.Branch = &BranchRecord{Fitting: b.Fitting.Key(), End: b.End}
		if b.Known() {
			inlet, outlet := b.Inlet.Length.Inches(), b.Outlet.Length.Inches()
			r.Branch.Inlet, r.Branch.Outlet = &inlet, &outlet
		}
	}
	if u := a.Unlike; u != nil {
		leads := "back"
		if u.Away {
			leads = "away"
		}
		r.Unlike = &UnlikeRecord{[2]float64{u.Turns[0].Degrees(), u.Turns[1].Degrees()}, u.Off.Degrees(), leads}
	}
}

func streetSets(sets [2]geometry.Length) []float64 {
	if sets[0] <= 0 {
		return nil
	}
	return []float64{sets[0].Inches(), sets[1].Inches()}
}
