package sketch

import (
	"dogleg/catalog"
	"dogleg/parser"
)

// takeoff draws one fitting cut open, with a pipe at rest in it: what to
// measure, from where to where.
func (s sketcher) takeoff() []View {
	e, outside := s.answer.Ends[0], s.outside()
	t := e.Takeoff
	if t.Length <= 0 || outside <= 0 {
		return nil
	}
	v := View{Name: "fitting"}
	center := Point{}
	f := fitting{center, left, leg(e, right), e, outside}
	if e.Fitting.Shape == catalog.Wye {
		f.out = right
	}
	rest, face := center.Toward(left, t.Length), center.Toward(left, t.CenterToFace())
	begin := rest.Toward(left, 1.6*outside+t.Insertion)
	half := outside * hubSwell / 2
	f.drawOn(&v)
	v.Bands = append(v.Bands, Band{StandingPipe, []Point{begin, rest}, outside, [2]bool{true, false}})
	v.Lines = append(
		v.Lines,
		Line{CenterStroke, []Point{begin, center, center.Toward(f.out, 1.2*t.CenterToFace())}},
		Line{CutStroke, []Point{rest.Toward(up, half), rest.Toward(down, half)}},
		Line{ThinStroke, []Point{center.Toward(up, half), center.Toward(down, half)}},
	)
	below := center.Toward(down, half)
	v.Dimensions = append(v.Dimensions, Dimension{
		Role: parser.TakeoffOf, Axis: Level, From: rest, To: center, Through: below, Row: -1,
		Label: s.known(parser.TakeoffOf, t.Length), Main: true,
	})
	if t.Insertion > 0 {
		v.Dimensions = append(
			v.Dimensions,
			Dimension{Role: parser.Face, Axis: Level, From: face, To: center, Through: below, Row: -2, Label: s.known(parser.Face, t.CenterToFace())},
			Dimension{Role: parser.Depth, Axis: Level, From: face, To: rest, Through: center.Toward(up, half), Row: 1, Label: s.known(parser.Depth, t.Insertion)},
		)
	}
	f.doubtOn(&v)
	if s.unsure() {
		v.Caption = append(v.Caption, s.say(wordUnsure))
	}
	return []View{v}
}
