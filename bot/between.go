package bot

import (
	"slices"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// turnedThrough is an ask whose bends were told by the angle that is left between
// the pipes, as some of metric pipe are sold: a 92.5, a 135. It is taken for the
// bend that makes up the rest to a straight line, if the pipe that was named, or
// any where none was, has that one, and says so.
func turnedThrough(m *parser.Misunderstanding) (parser.Ask, bool) {
	between := m.Read.Angle
	turn := 180 - between
	if m.Trouble != parser.NoSuchAngle || between <= 90 || between >= 180 || !hasBend(m.Read.Pipe, turn) {
		return parser.Ask{}, false
	}
	ask := m.Read
	ask.Angle = turn
	for end := range ask.Ends {
		if f := &ask.Ends[end].Fitting; f.Angle == between {
			f.Angle = turn
		}
	}
	ask.Taken = append(slices.Clone(ask.Taken), parser.Taken{
		Text: catalog.AngleName(between), Read: catalog.AngleName(turn) + "°", Not: catalog.AngleName(between) + "°",
	})
	return ask, true
}

// hasBend says whether a pipe, as far as it was said, has a bend.
func hasBend(p catalog.Pipe, turn geometry.Angle) bool {
	return slices.ContainsFunc(catalog.Match(p), func(s catalog.System) bool { return s.Has(catalog.BendOf(turn)) })
}
