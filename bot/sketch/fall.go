package sketch

import (
	"math"
	"strconv"
	"strings"

	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/parser"
)

// shownFall is how much of the length a graded line comes down in the picture
// at least: a quarter inch per foot, drawn as it is, is the width of the line.
const shownFall = 0.2

// fall draws a graded line from its high to its low end with the way it flows,
// and the fall drawn so many times too large and saying so.
func (s sketcher) fall() []View {
	long, hasLong := s.answer.Length(parser.Long)
	drop, hasDrop := s.answer.Length(parser.Drop)
	if !hasLong || !hasDrop || drop <= 0 {
		return nil
	}
	v := View{Name: "fall"}
	times := max(1, math.Round(shownFall*float64(long/drop)))
	shown := drop * geometry.Length(times)
	upper, lower := Point{0, shown}, Point{long, 0}
	corner := Point{long, shown}
	v.Bands = append(v.Bands, Band{StandingPipe, []Point{upper, lower}, s.outside(), [2]bool{true, true}})
	v.Lines = append(v.Lines, Line{DashStroke, []Point{upper, corner}})
	v.flowOn(upper, lower)
	v.Dimensions = append(v.Dimensions, Dimension{
		Role: parser.Long, Axis: Along, From: upper, To: lower, Through: lower, Row: -1, Label: s.inFeet(parser.Long, long),
	})
	s.dimension(&v, Dimension{Role: parser.Drop, Axis: Plumb, From: lower, To: corner, Through: corner, Row: -1})
	for i := range v.Dimensions {
		v.Dimensions[i].Main = v.Dimensions[i].Role == s.answer.Main
	}
	v.Labels = append(v.Labels, Label{At: Point{long * 0.42, shown}, Side: up, Text: s.grade(), Main: s.answer.Main == parser.Grade})
	v.Labels = append(
		v.Labels,
		Label{At: upper, Side: up, Text: s.invert(parser.Upper, wordHighEnd)},
		Label{At: lower, Side: down, Text: s.invert(parser.Lower, wordLowEnd)},
		Label{At: upper.Toward(from(upper, lower), 0.68*apart(upper, lower)).Toward(from(upper, lower).square(), 0.03*long), Side: from(upper, lower).square(), Text: s.say(wordFlow), Size: Small},
	)
	if times > 1 {
		v.Caption = append(v.Caption, s.say(wordSteeper)+" "+strconv.Itoa(int(times)))
	}
	return []View{v}
}

// grade says how steep the line is, by the foot and in percent.
func (s sketcher) grade() string {
	percent := strconv.FormatFloat(math.Round(s.answer.Grade.Percent()*100)/100, 'f', -1, 64) + " %"
	if s.options.Metric {
		times := 100 / s.answer.Grade.Percent()
		if whole := math.Round(times); math.Abs(times-whole) < 0.005 {
			return s.say(wordOneIn) + " " + strconv.Itoa(int(whole)) + " = " + percent
		}
		return percent
	}
	return s.tape(geometry.Length(s.answer.Grade.InchesPerFoot())) + " " + s.say(wordPerFoot) + " = " + percent
}

// invert names an end of the line, by its invert where that is known.
func (s sketcher) invert(r parser.Role, end word) string {
	if l, ok := s.length(r); ok {
		return s.given(r, l)
	}
	return s.say(end)
}

// flowOn draws an arrow beside the line, down it.
func (v *View) flowOn(upper, lower Point) {
	along, long := from(upper, lower), apart(upper, lower)
	tail := upper.Toward(along, 0.58*long).Toward(along.square(), 0.03*long)
	tip, barb := tail.Toward(along, 0.2*long), 0.018*long
	back := tip.Toward(along.back(), barb)
	v.Lines = append(v.Lines,
		Line{ThickStroke, []Point{tail, tip}},
		Line{ThickStroke, []Point{back.Toward(along.square(), barb), tip, back.Toward(along.square().back(), barb)}},
	)
}

// inFeet is what is said of a length that nobody pictures in inches, nor in
// millimeters.
func (s sketcher) inFeet(r parser.Role, l geometry.Length) string {
	meters := math.Round(l.Millimeters()) / 1000
	switch {
	case s.options.Metric && meters >= 1:
		return wording.RoleName(r, s.options) + " " + strconv.FormatFloat(meters, 'f', -1, 64) + " m"
	case s.options.Metric || l < geometry.Foot:
		return s.given(r, l)
	}
	feet := l.Tape(s.options.Division).FeetInches()
	if whole, ok := strings.CutSuffix(feet, "' 0\""); ok {
		feet = whole + " " + s.say(wordFeet)
	}
	return wording.RoleName(r, s.options) + " " + feet
}
