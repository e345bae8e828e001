package parser

import "dogleg/geometry"

// Answer reads a bare answer to a question: "45" to which angle, "2 pvc" to
// which pipe, "threaded" to which joint. It says false where the text is no
// answer to it.
func Answer(text string, wanted Role) (Ask, bool) {
	clean := plain(text)
	if len(clean) == 0 || len(clean) > longestMessage {
		return Ask{}, false
	}
	for _, s := range scenes(clean, adjusted(elements(clean))) {
		if a, ok := s.answer(wanted); ok {
			return a, true
		}
	}
	return Ask{}, false
}

// answer gives the one number of a scene to the role that was asked for.
func (s *scene) answer(wanted Role) (Ask, bool) {
	at, numbers := -1, 0
	for i := range s.elements {
		e := &s.elements[i]
		if e.quantity != nil && !s.isSchedule(i) {
			at, numbers = i, numbers+1
		}
	}
	r := &reading{scene: s}
	if numbers == 1 {
		l, ok := s.answerLabel(at, wanted)
		if !ok {
			return Ask{}, false
		}
		r.at, r.labels = []int{at}, []label{l}
	}
	if numbers > 1 {
		return Ask{}, false
	}
	a := r.build()
	a.Kind, a.FollowUp = Unstated, true
	return *a, !a.Empty()
}

func (s *scene) answerLabel(i int, wanted Role) (label, bool) {
	q := s.elements[i].quantity
	switch wanted {
	case AngleOf, FittingOf:
		if q.unit == foot || q.unit == metric || q.bad != "" {
			return label{}, false
		}
		angle := usualAngle(q)
		if q.parts > 2 && q.value < 1 {
			angle = geometry.Angle(360 / float64(q.parts))
		}
		return label{role: AngleOf, term: -1, angle: angle}, angle > 0 && angle <= 90
	case SizeOf, PipeOf:
		size, ok := realSize(s.material, sizeOf(q), q)
		return label{role: SizeOf, term: -1, size: size}, ok
	case Grade:
		value := q.value
		return label{role: Grade, term: -1, cost: value}, q.unit == grade || q.isLength()
	case LineCount:
		return label{role: LineCount, term: -1, count: true}, q.whole
	case JointOf:
		return label{}, false
	}
	return label{role: wanted, term: -1}, q.isLength()
}
