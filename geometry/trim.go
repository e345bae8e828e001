package geometry

import "math"

// Elbow is a butt-weld elbow that is cut off to turn an odd angle. Radius is
// of its centerline: 1½ times the nominal size for a long-radius elbow, once
// for a short-radius one (ASME B16.9; from memory).
type Elbow struct {
	Radius  Length
	Outside Length // diameter
	Angle   Angle  // that is kept
}

// BendTakeoff is from the corner where the centerlines meet to where a bend of
// this radius begins: radius · tan (a/2), the length of a tangent from a corner
// to a circle (welders call it tan of half the angle × size × 1.5; no book was
// found that prints it). A stock small 45 has straight ends as well and is longer: use
// its table value.
//
// The same length says where to bend around a round tank, the radius being from
// the tank's center to the pipe's: Woodson, Plumber's and Pipe Fitter's
// Calculations Manual, 2005, "Round obstacles", prints × .4142 for 45s.
func BendTakeoff(radius Length, a Angle) (Length, error) {
	if err := firstProblem(length("radius", radius), angle(a)); err != nil {
		return 0, err
	}
	return radius * Length(a.Half().Tan()), nil
}

// Takeoff is the takeoff of the cut elbow.
func (e Elbow) Takeoff() (Length, error) { return BendTakeoff(e.Radius, e.Angle) }

// Back, Side and Throat are the arcs from the elbow's face to the cut, over its
// outer wall, its side and its inner wall: a circle's radius times the angle in
// radians (Hamilton, Math to Build On, 1993, "Cutting elbows"). Lay a tape that
// bends along the wall; a stiff rule measures the chord, which is shorter.
func (e Elbow) Back() (Length, error) { return e.arc(1) }

// Side is the arc along the centerline; see [Elbow.Back].
func (e Elbow) Side() (Length, error) { return e.arc(0) }

// Throat is the arc over the inner wall; see [Elbow.Back].
func (e Elbow) Throat() (Length, error) { return e.arc(-1) }

// arc is along the wall where it lies this many half diameters outside of the
// centerline.
func (e Elbow) arc(out float64) (Length, error) {
	if err := firstProblem(length("radius", e.Radius), length("outside diameter", e.Outside), angle(e.Angle)); err != nil {
		return 0, err
	}
	if e.Radius <= e.Outside/2 {
		return 0, &Problem{TooTight, "radius", e.Radius.Inches()}
	}
	return (e.Radius + e.Outside/2*Length(out)) * Length(e.Angle.Radians()), nil
}

// Ordinate is one of eight marks around a pipe or an elbow, through which the
// line of an odd cut is drawn.
type Ordinate struct {
	Eighth int    // of the way around, 0 at the throat and 4 at the back
	Around Length // from the throat, along the wall
	Along  Length // from the square line, or from the elbow's face, to the cut
}

// Ordinates are the marks on a cut elbow, from its face along the wall: the
// wall lies (Outside/2) · cos of the way around inside of the centerline.
func (e Elbow) Ordinates() ([]Ordinate, error) {
	if _, err := e.Throat(); err != nil {
		return nil, err
	}
	return ordinates(e.Outside, func(inward float64) (Length, error) { return e.arc(-inward) })
}

// Miter is a turn made of pipe alone, cut at an angle and welded: two pieces
// and one weld, or more for an easier turn.
type Miter struct {
	Outside Length // diameter
	Turn    Angle  // in all
	Welds   int    // 1 for two pieces
}

// CutAngle is how far off square each end is cut: turn / (2 · welds), half of
// each weld's turn on either side of it.
func (m Miter) CutAngle() (Angle, error) {
	if err := firstProblem(length("outside diameter", m.Outside), angle(m.Turn)); err != nil {
		return 0, err
	}
	if m.Welds < 1 {
		return 0, &Problem{NotPositive, "welds", float64(m.Welds)}
	}
	return m.Turn / Angle(2*m.Welds), nil
}

// Cutback is how much longer the cut end is at the back than at the throat:
// outside diameter · tan of the cut angle. Half of it goes on each side of the
// base line (NAVEDTRA 14251, Steelworker, vol. 2, 1996, p. 3-15 and after).
// Some books call that half the cutback.
func (m Miter) Cutback() (Length, error) {
	a, err := m.CutAngle()
	if err != nil {
		return 0, err
	}
	return m.Outside * Length(a.Tan()), nil
}

// Ordinates are the marks on a mitered end, from the square line through its
// shortest point: cutback · (1 - cos of the way around) / 2, since a slanting
// plane cuts the round wall in a cosine.
func (m Miter) Ordinates() ([]Ordinate, error) {
	cutback, err := m.Cutback()
	if err != nil {
		return nil, err
	}
	return ordinates(m.Outside, func(inward float64) (Length, error) {
		return cutback * Length((1-inward)/2), nil
	})
}

// ordinates makes the eight marks; along is told how far inward of the
// centerline the wall lies there, 1 at the throat and -1 at the back.
func ordinates(outside Length, along func(inward float64) (Length, error)) ([]Ordinate, error) {
	inward := [8]float64{1, math.Sqrt2 / 2, 0, -math.Sqrt2 / 2, -1, -math.Sqrt2 / 2, 0, math.Sqrt2 / 2}
	marks := make([]Ordinate, len(inward))
	for i := range marks {
		l, err := along(inward[i])
		if err != nil {
			return nil, err
		}
		marks[i] = Ordinate{Eighth: i, Around: outside * Length(math.Pi*float64(i)/8), Along: l}
	}
	return marks, nil
}

// At is how far past the square line through its shortest point a mitered end
// reaches over a line of the wall so far around from the throat.
func (m Miter) At(x Angle) (Length, error) {
	cutback, err := m.Cutback()
	if err != nil {
		return 0, err
	}
	if err := firstProblem(wayAround(x)); err != nil {
		return 0, err
	}
	return cutback * Length((1-math.Cos(x.Radians()))/2), nil
}

// Pieces are the lengths, along the centerline, of the pieces of a mitered turn of
// more than one weld on a centerline of this radius: an end piece reaches
// radius · tan of the cut angle past where the turn begins, a middle piece is two of
// those (2 · R · tan (turn / 2N), from a piping engineer's page; of 90° in four
// welds on 381 mm it prints 151.6 and 75.8).
func (m Miter) Pieces(radius Length) (end, middle Length, err error) {
	a, err := m.CutAngle()
	if err != nil {
		return 0, 0, err
	}
	if err := firstProblem(length("radius", radius)); err != nil {
		return 0, 0, err
	}
	if radius <= m.Outside/2 {
		return 0, 0, &Problem{TooTight, "radius", radius.Inches()}
	}
	end = radius * Length(a.Tan())
	return end, 2 * end, nil
}
