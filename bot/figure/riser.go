package figure

import (
	"cmp"
	"slices"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// Station is a fitting, or a plain end, on a line that is marked from one tape.
type Station struct {
	Fitting catalog.Fitting
	Center  geometry.Length // reading of its center, or of the plain end
	Below   geometry.Length // reading where the pipe below it stops
	Above   geometry.Length // and where the one above it begins
	Cut     geometry.Length // the piece that begins there; 0 at the last
}

// riser figures a straight line of fittings from one tape, from finished floor or
// an invert upward: each center, and each piece with the readings of its two ends.
func (w *work) riser() error {
	stations := slices.Clone(w.ask.Stations)
	slices.SortStableFunc(stations, func(a, b parser.Station) int { return cmp.Compare(a.Reading, b.Reading) })
	if len(stations) < 2 {
		return &Missing{Wanted: parser.Reading}
	}
	for _, s := range stations {
		if s.Fitting != (catalog.Fitting{}) && (s.Below == 0 || s.Above == 0) {
			if err := w.pipe(); err != nil {
				return err
			}
		}
	}
	gap := w.gapIn(w.answer.System)
	w.answer.Gap = gap
	for i, s := range stations {
		below, above, err := w.station(s, i == 0, i == len(stations)-1)
		if err != nil {
			return err
		}
		at := Station{Fitting: s.Fitting, Center: s.Reading, Below: s.Reading - below, Above: s.Reading + above}
		if s.Fitting != (catalog.Fitting{}) {
			at.Below, at.Above = at.Below-gap.Length, at.Above+gap.Length
		}
		w.answer.Stations = append(w.answer.Stations, at)
	}
	return w.riserPieces()
}

// station is what a fitting takes of the pipe below it and above it. A branch
// fitting's outlet is the lower end: a drain comes down.
func (w *work) station(s parser.Station, first, last bool) (below, above geometry.Length, err error) {
	if s.Fitting == (catalog.Fitting{}) {
		return 0, 0, nil
	}
	below, above = s.Below, s.Above
	if below == 0 && !first {
		if below, err = w.stationSide(s.Fitting, catalog.Outlet); err != nil {
			return 0, 0, err
		}
	}
	if above == 0 && !last {
		above, err = w.stationSide(s.Fitting, catalog.Inlet)
	}
	return below, above, err
}

func (w *work) stationSide(f catalog.Fitting, side catalog.Side) (geometry.Length, error) {
	if f.Shape.BranchShape() {
		t, ok := w.sideAt(0, f, side)
		if !ok {
			return 0, &Impossible{Cause: NoTakeoff, Subject: string(w.answer.Size) + " " + f.At(side).Key(), System: w.answer.System}
		}
		w.side(t)
		return t.Length, nil
	}
	t, err := w.knownIn(w.answer.System, 0, f)
	if err != nil {
		return 0, err
	}
	if t.Band > handsCut {
		return 0, w.measureFirst(joint{ends: [2]End{{Fitting: f, Takeoff: t}}})
	}
	w.side(t)
	return t.Length, nil
}

// riserPieces figures the pieces between the fittings, and lays the line out.
func (w *work) riserPieces() error {
	all := w.answer.Stations
	walker := walk.From(walk.Point{X: all[0].Center})
	walker.Forward(all[0].Above - all[0].Center)
	for i := range len(all) - 1 {
		cut := all[i+1].Below - all[i].Above
		if cut <= hairline {
			return &Impossible{Cause: TooShort, Subject: string(parser.Cut)}
		}
		all[i].Cut = cut
		w.answer.Pieces = append(w.answer.Pieces, cut)
		terms := []Quantity{length(parser.Reading, all[i+1].Below), less(parser.Reading, all[i].Above)}
		w.add(RuleRiser, length(parser.Cut, cut), terms...)
		walker.Forward(cut)
		walker.Forward(all[i+1].Center - all[i+1].Below)
		if i+2 < len(all) {
			walker.Forward(all[i+1].Above - all[i+1].Center)
		}
	}
	w.answer.Main = parser.Long
	long := all[len(all)-1].Center - all[0].Center
	w.figured(parser.Long, long)
	w.add(RuleRiserLong, length(parser.Long, long), length(parser.Reading, all[len(all)-1].Center), less(parser.Reading, all[0].Center))
	return w.landed(walker.Path(), walk.Point{X: all[len(all)-1].Center})
}
