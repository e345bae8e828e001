package practice

import (
	"math"
	"strconv"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Problem is one problem, as far as its kind needs: the rest is zero.
type Problem struct {
	Kind     Kind
	System   string // catalog.System.ID
	Size     catalog.Size
	Fittings [2]catalog.Fitting
	Takeoffs [2]geometry.Length

	Set     geometry.Length
	Roll    geometry.Length
	Rise    geometry.Length
	Centers geometry.Length
	Spacing geometry.Length
	Dry     geometry.Length `json:",omitempty"` // the set that the dry fit showed
	Apart   geometry.Length `json:",omitempty"` // how far apart the standing ends are as they are
	Long    geometry.Length // of the line that falls, whole feet, or meters
	Grade   geometry.Slope
	Metric  bool `json:",omitempty"` // told in millimeters
}

// Angle is what the bends turn, of two that differ the first; zero where there is
// no bend.
func (p Problem) Angle() geometry.Angle {
	switch {
	case p.Kind == Branch:
		return geometry.EighthBend // the wye's own
	case p.Kind.Turns(), p.Kind == TwoAngles:
		return p.Fittings[0].Angle
	}
	return 0
}

// Wanted is the role of what is asked for.
func (p Problem) Wanted() parser.Role { return p.Kind.wanted() }

// Ask is the problem as dogleg itself would be asked.
func (p Problem) Ask() parser.Ask {
	ask := parser.Ask{Kind: parser.Offset, Want: p.Wanted(), Angle: p.Angle(), Pipe: p.pipe()}
	switch p.Kind {
	case Travel, Cut, EndGap, Branch, TwoAngles:
		ask.Measures = p.measured(parser.Set)
	case Trimming:
		ask.Kind, ask.Measures = parser.Check, p.measured(parser.DryFit, parser.Set)
	case Marking:
		ask.Kind, ask.Measures = parser.Mark, p.measured(parser.Set, parser.GapNow)
	case Rolling:
		ask.Rolling = true
		ask.Measures = p.measured(parser.Roll, parser.Rise)
	case Piece:
		ask.Kind, ask.Measures = parser.Piece, p.measured(parser.CenterToCenter)
	case Stagger:
		ask.Kind, ask.Lines = parser.Parallel, 2
		ask.Measures = p.measured(parser.Set, parser.Spacing)
	case Fall:
		ask.Kind, ask.Grade = parser.Fall, p.Grade
		ask.Measures = p.measured(parser.Long)
	}
	if p.Takeoffs[0] != 0 {
		for end := range ask.Ends {
			ask.Ends[end] = parser.End{Fitting: p.Fittings[end], Takeoff: p.Takeoffs[end]}
		}
	}
	return ask
}

func (p Problem) measured(roles ...parser.Role) []parser.Measure {
	var measures []parser.Measure
	for _, r := range roles {
		m := parser.Measure{Role: r, Length: p.length(r)}
		switch {
		case p.Metric && r == parser.Long:
			m.Text = strconv.Itoa(int(math.Round(m.Length.Millimeters()/1000))) + " m"
		case p.Metric:
			m.Text = m.Length.Metric(0)
		case r == parser.Long: // nobody measures a drain in inches
			m.Text = strconv.Itoa(int(math.Round(m.Length.Inches()/12))) + " ft"
		}
		measures = append(measures, m)
	}
	return measures
}

func (p Problem) length(r parser.Role) geometry.Length {
	switch r {
	case parser.Set:
		return p.Set
	case parser.Roll:
		return p.Roll
	case parser.Rise:
		return p.Rise
	case parser.CenterToCenter:
		return p.Centers
	case parser.Spacing:
		return p.Spacing
	case parser.Long:
		return p.Long
	case parser.DryFit:
		return p.Dry
	case parser.GapNow:
		return p.Apart
	}
	return 0
}

func (p Problem) pipe() catalog.Pipe {
	s, _ := catalog.SystemByID(p.System)
	return catalog.Pipe{Material: s.Material, Joint: s.Joint, Use: s.Use, Schedule: s.Schedule, Size: p.Size}
}
