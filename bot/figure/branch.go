package figure

import (
	"cmp"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Branch is a wye, a combination or a tee that an offset leaves, or ends in: it
// sits in a run that goes on, and what it takes of that is cut out.
type Branch struct {
	End     int // of the offset that it is at
	Fitting catalog.Fitting
	Inlet   catalog.Takeoff // of its run; zero where nobody knows
	Outlet  catalog.Takeoff
}

// Known says whether both ends of its run are.
func (b *Branch) Known() bool { return b.Inlet.Length > 0 && b.Outlet.Length > 0 }

// branchAngle is the angle that a branch fitting lets a line leave the run at: a
// wye's own, an eighth where none was said; square for all others, whose branch
// is swept or not but leaves at 90.
func branchAngle(f catalog.Fitting) geometry.Angle {
	if f.Shape == catalog.Wye {
		return cmp.Or(f.Angle, geometry.EighthBend)
	}
	return geometry.QuarterBend
}

// branch puts into the answer what a branch fitting takes out of its run, and
// where the line beside it ends: along the run from the fitting's center.
func (w *work) branch(o solved, end int) {
	b := &Branch{End: end, Fitting: o.joint.ends[end].Fitting}
	b.Inlet, _ = w.sideAt(end, b.Fitting, catalog.Inlet)
	b.Outlet, _ = w.sideAt(end, b.Fitting, catalog.Outlet)
	w.answer.Branch = b
	gap := o.joint.gap.Length
	if b.Known() {
		w.side(b.Inlet)
		w.side(b.Outlet)
		out := b.Inlet.Length + b.Outlet.Length + 2*gap
		w.figured(parser.CutOut, out)
		w.figured(parser.Inlet, b.Inlet.Length+gap)
		w.figured(parser.Outlet, b.Outlet.Length+gap)
	} else {
		w.answer.NoEnds = b.Fitting
	}
	w.farEndFrom(o, end)
}

// branchSteps are those of a line that ends so far from the center of a fitting,
// and of a run that is cut for a branch fitting.
func (w *work) branchSteps(o solved) {
	gap := o.joint.gap.Length
	if far, ok := w.answer.Length(parser.FarEnd); ok && w.answer.From != (catalog.Fitting{}) {
		terms := []Quantity{length(parser.Run, o.Run), length(parser.TakeoffOf, far-o.Run-gap)}
		w.add(RuleFarEnd, length(parser.FarEnd, far), withGaps(terms, gap, 1)...)
	}
	if out, ok := w.answer.Length(parser.CutOut); ok {
		b := w.answer.Branch
		terms := []Quantity{length(parser.Inlet, b.Inlet.Length), length(parser.Outlet, b.Outlet.Length)}
		w.add(RuleCutOut, length(parser.CutOut, out), withGaps(terms, gap, 2)...)
	}
}

// withGaps are terms with so many gaps behind them, where there is one.
func withGaps(terms []Quantity, gap geometry.Length, times int) []Quantity {
	if gap == 0 {
		return terms
	}
	return append(terms, Quantity{Role: parser.JointGap, Length: gap, Times: times})
}

// keepSides takes the ends of a fitting that aren't alike to be kept as the
// user's own: a branch fitting's run, a street fitting's spigot. It says whether
// there were any.
func (w *work) keepSides(end int, f catalog.Fitting) (bool, error) {
	kept := false
	for _, side := range []catalog.Side{catalog.Spigot, catalog.Inlet, catalog.Outlet} {
		l := w.ask.Ends[end].Of(side)
		if l == 0 {
			continue
		}
		t := catalog.Takeoff{Fitting: f.At(side), Size: w.sizeAt(end), Length: l, Evidence: catalog.Said}
		how := CenterToStop
		if side == catalog.Spigot {
			how = CenterToSpigot
		}
		if err := w.keepSide(t, how); err != nil {
			return kept, err
		}
		kept = true
	}
	return kept, nil
}

func (w *work) keepSide(t catalog.Takeoff, how string) error {
	if err := w.plausible(t); err != nil {
		return err
	}
	w.figured(roleOf(t.Fitting.Side), t.Length)
	w.answer.Sides = append(w.answer.Sides, End{Fitting: t.Fitting, Takeoff: t})
	if w.ask.Store {
		t.Evidence = catalog.Own
		w.answer.Own = append(w.answer.Own, Stored{System: w.answer.System, Takeoff: t, Line: w.ask.Line, How: how, Crew: w.ask.Crew})
	}
	return nil
}

// roleOf is the role of a fitting's side.
func roleOf(s catalog.Side) parser.Role {
	switch s {
	case catalog.Spigot:
		return parser.Spigot
	case catalog.Inlet:
		return parser.Inlet
	case catalog.Outlet:
		return parser.Outlet
	}
	return parser.TakeoffOf
}
