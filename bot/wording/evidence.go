package wording

import (
	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/parser"
)

// mannerOf says how a figured length is printed.
func mannerOf(a *figure.Answer, l figure.Length) manner {
	return manner{about: unsure(a) && rests(a, l.Role), up: l.Up}
}

// unsure says whether what hangs on the takeoffs is only about so. It looks at
// the evidence itself, besides the answer's own word for it.
func unsure(a *figure.Answer) bool {
	if a.Provisional {
		return true
	}
	for _, e := range a.Ends {
		switch e.Takeoff.Evidence {
		case catalog.SecondHand, catalog.Memory, catalog.Derived:
			return true
		case catalog.Own, catalog.Said, catalog.Published, catalog.OpenData:
		}
	}
	return false
}

// rests says whether a figure hangs on a takeoff. The triangle of an offset
// does not, unless it was reached from a cut, a gap or a dry fit, for want of
// a bend's angle and one of its own lengths.
func rests(a *figure.Answer, r parser.Role) bool {
	if !onlyGeometry(r) {
		return true
	}
	bend := a.Kind == parser.Fit || a.Ask.Angle != 0 || a.Ask.Ends[0].Fitting.Angle != 0
	triangle, piece := false, false
	for _, m := range a.Ask.Measures {
		switch m.Role {
		case parser.Set, parser.Roll, parser.Rise, parser.Run, parser.Travel:
			triangle = true
		case parser.Cut, parser.EndGap, parser.Room, parser.DryFit:
			piece = true
		}
	}
	return piece && !(bend && triangle)
}

// onlyGeometry lists the roles that no takeoff enters into.
func onlyGeometry(r parser.Role) bool {
	switch r {
	case parser.Bare, parser.Set, parser.Roll, parser.Rise, parser.Run, parser.Travel,
		parser.Spacing, parser.Stagger, parser.Drop, parser.Long, parser.Start,
		parser.Clearance, parser.Reach, parser.Total, parser.CenterToCenter,
		parser.Radius, parser.Obstacle, parser.Upper, parser.Lower,
		parser.Reading, parser.StickOut, parser.GapNow, parser.Overlap, parser.JointGap,
		parser.AngleOf, parser.RollAngle, parser.Grade, parser.LineCount, parser.SizeOf,
		parser.PipeOf, parser.JointOf, parser.FittingOf:
		return true
	case parser.Cut, parser.EndGap, parser.TrimOff, parser.PipeLength, parser.MarkAt, parser.TakeoffOf, parser.Face,
		parser.Depth, parser.Room, parser.DryFit:
	}
	return false
}
