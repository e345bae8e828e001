package parser

import (
	"math"
	"slices"
	"strings"

	"dogleg/geometry"
)

// angleLabels takes the number for the angle that a fitting turns.
func (s *scene) angleLabels(out []label, i int, q *quantity) []label {
	angle, cost := s.angleOf(i, q)
	if infinite(cost) {
		return out
	}
	l := label{role: AngleOf, term: -1, cost: cost, angle: angle}
	l.odd = angle <= 0 || angle > 90
	return append(out, l)
}

func infinite(v float64) bool { return math.IsInf(v, 0) }

// angleOf is the angle that a number would be, and what it costs to take it so.
func (s *scene) angleOf(i int, q *quantity) (geometry.Angle, float64) {
	bend := s.besideBend(i)
	if q.parts > 2 && q.value < 1 && bend && (q.unit == noUnit) {
		return geometry.Angle(360 / float64(q.parts)), 0
	}
	angle := usualAngle(q)
	standard := slices.Contains(geometry.Bends(), angle) || angle == 67.5
	switch {
	case q.unit == degree && s.trims():
		return geometry.Angle(q.number), 0 // cut down to 22 degrees, and no less
	case q.unit == degree:
		return angle, 0
	case q.unit == foot || q.unit == metric || q.bad != "":
		return 0, math.Inf(1)
	case q.plural && q.number >= 5:
		return angle, 0
	case standard && q.unit == noUnit && i+1 < len(s.elements) && s.elements[i+1].term.is(senseMethod) && meant(s.elements[i+1].term, senseHint) == "piece":
		return angle, 0 // end to center of the 90
	case q.number > 5 && q.number < 90 && len(q.broken) == 0 && s.afterNinety(i):
		return angle, 0.3 // a 90 to 47
	case bend && !standard && i+1 < len(s.elements) && s.elements[i+1].term.is(senseMethod):
		return 0, math.Inf(1) // between two fittings 22.75 c-c
	case bend && q.number >= 5 && (q.unit == noUnit || q.weak):
		if standard {
			return angle, 0.1
		}
		if strings.Contains(q.text, "/") || q.unit == inch {
			return 0, math.Inf(1) // codos 20-1/8, a 10in LR elbow
		}
		return angle, 0.6
	case s.multiplies() || s.trims():
		switch {
		case q.unit != noUnit || q.number < 5 || q.number > 90:
		case s.trims() && q.number < 12:
			return angle, 1.2 // more likely the size: a weld elbow of 6 to 30 degrees
		case s.trims():
			return geometry.Angle(q.number), 0.4 // to 67, and no half more
		default:
			return angle, 0.4
		}
	case q.unit == inch && !q.weak:
		return 0, math.Inf(1)
	}
	if !standard || q.number < 12 && (q.whole || !s.hasRole(Set)) {
		return 0, math.Inf(1)
	}
	if i > 0 && s.elements[i-1].term.is(senseMethod) && (i == 1 || s.elements[i-2].quantity == nil) {
		return 0, math.Inf(1) // center to center 45, two tees
	}
	cost := rarity(angle)
	if q.weak {
		cost += 0.4
	}
	if i > 0 && s.elements[i-1].term.is(senseWith) {
		cost -= 0.3
	}
	if s.otherAngle(i) {
		cost += 2 // 30 30s: the first is a length
	}
	return angle, cost
}

// rarity is what it costs to take a number for a bend of an angle: the less the
// more of them are sold.
func rarity(angle geometry.Angle) float64 {
	switch angle {
	case geometry.EighthBend, geometry.SixteenthBend:
		return 0.6
	case 60:
		return 0.8
	case geometry.QuarterBend:
		return 0.9
	}
	return 1.4
}

// otherAngle says whether some other number is plainly the angle.
func (s *scene) otherAngle(i int) bool {
	for j := range s.elements {
		e := &s.elements[j]
		if j != i && e.quantity != nil && (e.quantity.plural && e.quantity.number >= 5 || e.quantity.unit == degree) {
			return true
		}
	}
	return false
}

// usualAngle reads the short names of bends: a 22 turns 22½, an 11 11¼.
func usualAngle(q *quantity) geometry.Angle {
	switch q.number {
	case 22:
		return geometry.SixteenthBend
	case 11:
		return geometry.ThirtySecondBend
	case 67:
		return 67.5
	case 5, 5.5:
		return geometry.SixtyFourthBend
	}
	return geometry.Angle(q.number)
}

// besideBend says whether a word for a bend stands right beside the number.
func (s *scene) besideBend(i int) bool {
	after := i + 1
	for after < len(s.elements) && (s.elements[after].term.is(senseStreet) || s.elements[after].term.is(senseSweep) || s.elements[after].mark == "-" || s.elements[after].term.is(senseMaterial)) {
		after++
	}
	if after < len(s.elements) && (s.elements[after].term.is(senseBend) || s.elements[after].term.is(senseAngle) && !s.asked(after)) {
		return true
	}
	before := i - 1
	for before >= 0 && (s.elements[before].term.is(senseLink) || s.elements[before].mark == ":" || s.elements[before].mark == "=") {
		before--
	}
	if before < 0 {
		return false
	}
	t := s.elements[before].term
	return t.is(senseBend) || t.is(senseAngle) || t.is(senseStreet) || t.is(senseSweep)
}
