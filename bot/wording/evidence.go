package wording

import (
	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// mannerOf says how a figured length is printed. What is sawn at an unsure
// figure must not come out short, so such a figure errs on the long side: of
// the piece by what it may lack, of the pipes that stand by what may be too
// much between them.
func mannerOf(a *figure.Answer, l figure.Length) manner {
	m := manner{about: unsure(a) && rests(a, l.Role), up: l.Up}
	if m.about {
		m.left = leftLong(a, l.Role, a.Band)
	}
	m.up = m.up && m.left == 0
	return m
}

// leftLong is what a figure is left long by, so that no edge is sawn short:
// less than nothing where a shorter figure leaves more pipe.
func leftLong(a *figure.Answer, r parser.Role, band geometry.Length) geometry.Length {
	switch r {
	case parser.Cut, parser.PipeLength:
		if !given(&a.Ask, figure.Length{Role: r, Length: cutOf(a)}) {
			return band
		}
	case parser.FirstPiece, parser.SecondPiece:
		return band
	case parser.EndGap:
		if !given(&a.Ask, figure.Length{Role: r, Length: endGapOf(a)}) {
			return -band
		}
	case parser.TrimOff:
		if a.Kind == parser.Mark && trimOf(a) > 0 {
			return -band
		}
	case parser.MarkAt:
		if a.Kind == parser.Around { // one takeoff before the first bend's center
			narrower := geometry.Length(0)
			if a.Gap.Least > 0 {
				narrower = a.Gap.Length - a.Gap.Least
			}
			return -a.Ends[0].Takeoff.Band - narrower
		}
		if readsOnTape(&a.Ask) {
			return band
		}
		return -band
	default: // no edge that is sawn
	}
	return 0
}

func cutOf(a *figure.Answer) geometry.Length {
	l, _ := a.Length(parser.Cut)
	return l
}

func trimOf(a *figure.Answer) geometry.Length {
	l, _ := a.Length(parser.TrimOff)
	return l
}

func endGapOf(a *figure.Answer) geometry.Length {
	l, _ := a.Length(parser.EndGap)
	return l
}

// readsOnTape says whether a mark is a reading of the tape that the pipe's end
// was read on: then the more it reads the more pipe stays.
func readsOnTape(ask *parser.Ask) bool {
	_, reads := ask.Length(parser.Reading)
	_, sticksOut := ask.Length(parser.StickOut)
	return reads || sticksOut
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
	if a.Kind == parser.Offset && !triangle && !piece {
		return true // made of the fittings alone: a street fitting in another
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
		parser.PipeOf, parser.JointOf, parser.FittingOf, parser.UnitOf,
		parser.Leg, parser.OtherLeg, parser.Diagonal, parser.Place, parser.Straight, parser.Arc, parser.Girth,
		parser.Cutback, parser.EndPiece, parser.MiddlePiece, parser.Fishmouth:
		return true
	case parser.Least, parser.Spigot, parser.Inlet, parser.Outlet, parser.CutOut, parser.FarEnd, parser.FarSet,
		parser.StopAt, parser.OtherStopAt, parser.Laying, parser.FirstPiece, parser.SecondPiece:
	case parser.Cut, parser.EndGap, parser.TrimOff, parser.PipeLength, parser.MarkAt, parser.TakeoffOf, parser.Face,
		parser.Depth, parser.Room, parser.DryFit:
	}
	return false
}
