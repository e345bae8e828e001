package wording

import (
	"math"

	"dogleg/bot/figure"
	"dogleg/geometry"
	"dogleg/parser"
)

// roll says, for a rolling offset, the true set and how far the fitting is
// turned: in degrees up from level, and as a rise and a roll that a level and
// a rule can show.
func (o Options) roll(a *figure.Answer) []string {
	if !a.Rolling {
		return nil
	}
	turn := o.say("turn", "degrees", decimals(math.Round(90-a.RollAngle.Degrees()), 0))
	if ratio := o.ratio(a); ratio != "" {
		turn += ": " + ratio
	}
	set, ok := a.Length(parser.Set)
	if !ok || a.Main == parser.Set {
		return []string{turn}
	}
	return []string{capital(o.say("true set", "length", o.bare(set, exactly))) + ". " + turn}
}

// ratio gives the turn of the fitting as so much up in a foot across, or the
// other way round where it stands steeper than 45°.
func (o Options) ratio(a *figure.Answer) string {
	up := 90 - a.RollAngle
	switch {
	case up <= 0 || up >= 90:
		return ""
	case up > 45:
		return o.say("across in up", "length", o.bare(o.ruler()/geometry.Length(up.Tan()), exactly), "ruler", o.bare(o.ruler(), exactly))
	}
	return o.say("up in across", "length", o.bare(o.ruler()*geometry.Length(up.Tan()), exactly), "ruler", o.bare(o.ruler(), exactly))
}

// ruler is the length that a slope is set out on: a foot, or 300 mm.
func (o Options) ruler() geometry.Length {
	if o.Metric {
		return 300 * geometry.Millimeter
	}
	return geometry.Foot
}
