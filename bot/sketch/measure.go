package sketch

import (
	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Measure is the picture of a fitting that nobody knows the takeoff of: which
// lengths to measure on it, from where to where, by their names and without a
// figure. It is not to scale. The error is [ErrNothingToDraw] where the pipe isn't
// known.
func Measure(system catalog.System, f catalog.Fitting, size catalog.Size, o wording.Options) (*Drawing, error) {
	pipe, ok := system.Dimensions(size)
	if !ok || pipe.Outside <= 0 {
		return nil, ErrNothingToDraw
	}
	takeoff := catalog.Takeoff{Fitting: f, Size: size, Length: 1.4 * pipe.Outside, Evidence: catalog.Own}
	if depth, ok := system.Insertion(size); ok && depth.Length > 0 {
		takeoff.Insertion = 0.6 * pipe.Outside
	}
	if f.Shape == catalog.Coupling || f.Shape == catalog.Union {
		takeoff.Length = 0.2 * pipe.Outside
	}
	if f.Shape == catalog.Wye || f.Shape == catalog.Combination {
		takeoff.Length = 2.2 * pipe.Outside
	}
	e := figure.End{Fitting: f, Takeoff: takeoff}
	s := sketcher{options: o}
	title, means := wording.ToMeasure(system, f, o)
	return &Drawing{Title: title, Understood: means, Views: []View{s.toMeasure(e, pipe.Outside)}}, nil
}

// toMeasure draws the fitting cut open with a pipe at rest in it, and the names of
// what is to be measured.
func (s sketcher) toMeasure(e figure.End, outside geometry.Length) View {
	v := View{Name: "measure", Caption: []string{s.say(wordNotToScale)}}
	center, t := Point{}, e.Takeoff
	f := fitting{center, left, leg(e, right), e, outside}
	if e.Fitting.Shape == catalog.Wye { // the branch comes in with the flow
		f.out = at(135)
	}
	if e.Fitting.Street {
		f.hubsOn(&v, []Direction{f.in})
		for _, middle := range f.body(f.wide() / 2) {
			v.Bands = append(v.Bands, Band{FittingBody, middle, f.wide(), [2]bool{}})
		}
	} else {
		f.drawOn(&v)
	}
	half := outside * hubSwell / 2
	rest, face := center.Toward(left, t.Length), center.Toward(left, t.CenterToFace())
	begin := face.Toward(left, outside)
	v.Bands = append(v.Bands, Band{StandingPipe, []Point{begin, rest}, outside, [2]bool{true, false}})
	v.Lines = append(
		v.Lines,
		Line{CenterStroke, []Point{begin, center, center.Toward(f.out, 1.1*t.CenterToFace())}},
		Line{CutStroke, []Point{rest.Toward(up, half), rest.Toward(down, half)}},
	)
	below, branch := center.Toward(down, half), center.Toward(f.out, t.Length)
	name := func(role parser.Role, axis Axis, from, to, through Point, row int) {
		v.Dimensions = append(v.Dimensions, Dimension{
			Role: role, Axis: axis, From: from, To: to, Through: through, Row: row, Label: wording.RoleName(role, s.options), Main: role != parser.Face && role != parser.Depth,
		})
	}
	switch {
	case e.Fitting.Shape.BranchShape():
		name(parser.Inlet, Level, rest, center, below, -1)
		name(parser.Outlet, Level, center, center.Toward(right, t.Length), below, -1)
		name(parser.TakeoffOf, Along, branch, center, center.Toward(f.out.square().back(), half), 1)
	case e.Fitting.Street:
		name(parser.TakeoffOf, Level, rest, center, below, -1)
		name(parser.Spigot, Along, center, branch, center.Toward(f.out.square().back(), half), -1)
	default:
		name(parser.TakeoffOf, Level, rest, center, below, -1)
		if t.Insertion > 0 {
			name(parser.Face, Level, face, center, below, -2)
			name(parser.Depth, Level, face, rest, center.Toward(up, half), 1)
		}
	}
	return v
}
