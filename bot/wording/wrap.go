package wording

import (
	"strings"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// mitered lists what is marked around a pipe that is cut off at an angle, or to
// sit on another.
func (o Options) mitered(a *figure.Answer) []string {
	var lines []string
	if a.CutAngle != 0 {
		lines = append(lines, o.say("cut off square", "angle", degrees(a.CutAngle)))
	}
	lines = append(lines, o.say("wrap marks"))
	for _, d := range a.Ordinates {
		if d.Eighth <= 4 {
			lines = append(lines, o.ordinate(d))
		}
	}
	_, pieced := a.Length(parser.EndPiece)
	short, sits := o.figureOf(a, parser.TakeoffOf)
	switch {
	case a.Kind == parser.Miter && !pieced && a.Ask.Pieces > 2:
		lines = append(lines, o.say("say the radius"))
	case a.Kind == parser.Saddle && sits:
		lines = append(lines, o.say("fishmouth sits", "length", short))
	}
	return lines
}

// wrapped says what part of the way around a turn is.
func (o Options) wrapped(a *figure.Answer) []string {
	return []string{o.say("wrap is", "angle", degrees(a.Angle))}
}

// inline says where what stands in the travel goes, and what the pieces are where
// there are more than two.
func (o Options) inline(a *figure.Answer) []string {
	var lines []string
	for _, in := range a.Inline {
		m := manner{about: unsure(a)}
		lines = append(lines, o.say("center of inline", "fitting", o.fitting(in.Fitting), "length", o.bare(in.Place, m)))
	}
	if len(a.Pieces) > 2 {
		lines = append(lines, o.allPieces(a))
	}
	return lines
}

// allPieces lists the pieces in their order.
func (o Options) allPieces(a *figure.Answer) string {
	return o.say("all pieces", "pieces", strings.Join(Pieces(a, o), ", "))
}

// piece is the length of one of several pieces: one that is not sure is left long.
func (o Options) piece(a *figure.Answer, l geometry.Length) string {
	m := manner{about: unsure(a)}
	if m.about {
		m.left = a.Band
	}
	return o.bare(l, m)
}

// riser lists the readings of one tape, from below: each center, each piece.
func (o Options) riser(a *figure.Answer) []string {
	lines := []string{o.say("one tape")}
	m := manner{about: unsure(a)}
	for _, s := range a.Stations {
		at := o.bare(s.Center, exactly)
		if s.Fitting == (catalog.Fitting{}) {
			lines = append(lines, o.say("riser end", "reading", at))
		} else {
			lines = append(lines, o.say("riser center", "reading", at, "fitting", o.fitting(s.Fitting)))
		}
		if s.Cut > 0 {
			lines = append(lines, o.say("riser piece", "length", o.piece(a, s.Cut), "from", o.bare(s.Above, m), "to", o.bare(s.Above+s.Cut, m)))
		}
	}
	return lines
}

// beside reads back what is asked besides lengths and fittings: pieces, what
// stands in the travel, where fittings stand on a tape, what a pipe sits on.
func (o Options) beside(ask parser.Ask) []string {
	var parts []string
	if ask.Pieces > 0 {
		parts = append(parts, o.say("pieces", "number", decimals(float64(ask.Pieces), 0)))
	}
	for _, in := range ask.Inline {
		key := "in the travel"
		if ask.Kind == parser.Piece {
			key = "in the line"
		}
		parts = append(parts, o.say(key, "fitting", o.fitting(in.Fitting)))
		for _, m := range []parser.Measure{{Role: parser.Laying, Length: in.Laying}, {Role: parser.Place, Length: in.Place}} {
			if m.Length > 0 {
				parts = append(parts, o.measure(m))
			}
		}
	}
	for _, s := range ask.Stations {
		name := o.say("plain end")
		if s.Fitting != (catalog.Fitting{}) {
			name = o.fitting(s.Fitting)
		}
		parts = append(parts, o.say("station", "fitting", name, "reading", o.stated(s.Reading, "")))
	}
	if ask.Kind == parser.Saddle && ask.Ends[1].Size != "" {
		parts = append(parts, o.say("sits on", "size", string(ask.Ends[1].Size)))
	}
	return parts
}

// InlineRecord is something that stands in the travel.
type InlineRecord struct {
	Fitting string  `json:"fitting"`
	Laying  float64 `json:"laying"`
	Place   float64 `json:"place"` // of its center, from the first fitting's
}

// StationRecord is a fitting, or a plain end, on a line that is marked from one
// tape: the readings of its center and of where the pipes stop there.
type StationRecord struct {
	Fitting string  `json:"fitting,omitempty"`
	Center  float64 `json:"center"`
	Below   float64 `json:"below"`
	Above   float64 `json:"above"`
	Piece   float64 `json:"piece,omitempty"` // that begins there
}

// WrapRecord is one mark around a pipe: so many eighths of the way around from the
// throat, so far along the wall, and so far past the square line there.
type WrapRecord struct {
	Eighth int     `json:"eighth"`
	Around float64 `json:"around"`
	Past   float64 `json:"past"`
}

// pieces puts in what there is where more than one piece is cut, and what is
// marked around a pipe.
func (r *Record) pieces(a *figure.Answer) {
	for _, p := range a.Pieces {
		r.Pieces = append(r.Pieces, p.Inches())
	}
	for _, in := range a.Inline {
		r.Inline = append(r.Inline, InlineRecord{in.Fitting.Key(), in.Laying.Length.Inches(), in.Place.Inches()})
	}
	for _, s := range a.Stations {
		name := ""
		if s.Fitting != (catalog.Fitting{}) {
			name = s.Fitting.Key()
		}
		r.Stations = append(r.Stations, StationRecord{name, s.Center.Inches(), s.Below.Inches(), s.Above.Inches(), s.Cut.Inches()})
	}
	if a.Kind == parser.Miter || a.Kind == parser.Saddle {
		for _, m := range a.Ordinates {
			r.WrapMarks = append(r.WrapMarks, WrapRecord{m.Eighth, m.Arc.Inches(), m.Back.Inches()})
		}
	}
	if a.Legs[0] > 0 {
		r.Turns = []float64{a.Legs[0].Degrees(), a.Legs[1].Degrees()}
	}
	r.Header = string(a.Header)
}

// jointsGiven puts in what a message states of these.
func jointsGiven(ask parser.Ask, given map[string]any) {
	if ask.Pieces > 0 {
		given["pieces"] = ask.Pieces
	}
	var inline []InlineRecord
	for _, in := range ask.Inline {
		inline = append(inline, InlineRecord{in.Fitting.Key(), in.Laying.Inches(), in.Place.Inches()})
	}
	if len(inline) > 0 {
		given["inline"] = inline
	}
	if len(ask.Stations) > 0 {
		var readings []float64
		for _, s := range ask.Stations {
			readings = append(readings, s.Reading.Inches())
		}
		given["stations"] = readings
	}
}
