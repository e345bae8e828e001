package geometry_test

import (
	"testing"

	"dogleg/geometry"

	"gonum.org/v1/gonum/spatial/r3"
)

// The values were computed independently at full precision.
func TestCutElbow(t *testing.T) {
	type marks struct{ mark, lean string }
	for _, c := range []struct {
		name                        string
		elbow                       geometry.Elbow
		takeoff, back, side, throat geometry.Length
		read                        [4]marks
	}{
		{
			"radius 9, 6-5/8 pipe, 37°",
			geometry.Elbow{Radius: 9, Outside: 6.625, Angle: 37},
			3.0113578755186583, 7.951065573616668, 5.811946409141117, 3.672827244665567,
			[4]marks{{"3", ""}, {"7-15/16", ""}, {"5-13/16", ""}, {"3-11/16", ""}},
		},
		{
			"radius 6, 4-1/2 pipe, 52.5°",
			geometry.Elbow{Radius: 6, Outside: 4.5, Angle: 52.5},
			2.9588725561878246, 7.559457322700441, 5.497787143782139, 3.4361169648638366,
			[4]marks{{"2-15/16", "heavy"}, {"7-9/16", ""}, {"5-1/2", ""}, {"3-7/16", ""}},
		},
		{
			"radius 4, 4-1/2 pipe, 18°",
			geometry.Elbow{Radius: 4, Outside: 4.5, Angle: 18},
			0.6335377612981451, 1.9634954084936207, 1.2566370614359172, 0.5497787143782138,
			[4]marks{{"5/8", ""}, {"1-15/16", "heavy"}, {"1-1/4", ""}, {"9/16", ""}},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			for i, m := range []struct {
				name string
				got  func() (geometry.Length, error)
				want geometry.Length
			}{
				{"takeoff", c.elbow.Takeoff, c.takeoff},
				{"back", c.elbow.Back, c.back},
				{"side", c.elbow.Side, c.side},
				{"throat", c.elbow.Throat, c.throat},
			} {
				got := figure(t)(m.got())
				near(t, m.name, got, m.want, exact)
				reads(t, m.name, got, c.read[i].mark, c.read[i].lean)
			}
		})
	}
}

func TestBackArcPerDegree(t *testing.T) {
	back := figure(t)(geometry.Elbow{Radius: 9, Outside: 6.625, Angle: 1}.Back())
	near(t, "back", back, 0.21489366415180183, exact) // computed independently
}

// Eight places on the elbow's face are swung about the center of its bend in
// small steps, by another library, and the steps measured.
func TestElbowOrdinatesAreMeasuredInSpace(t *testing.T) {
	e := geometry.Elbow{Radius: 9, Outside: 6.625, Angle: 37}
	const steps = 4000
	turn := r3.NewRotation(e.Angle.Radians()/steps, r3.Vec{Z: 1})
	for i, m := range must[[]geometry.Ordinate](t)(e.Ordinates()) {
		// the center of the bend is the origin, the pipe's center stands at x = radius
		p := r3.Add(r3.Vec{X: float64(e.Radius)}, onTheWall(e.Outside, i))
		walked := 0.0
		for range steps {
			next := turn.Rotate(p)
			walked += r3.Norm(r3.Sub(next, p))
			p = next
		}
		near(t, "arc", m.Along, geometry.Length(walked), 1e-6)
		near(t, "around", m.Around, e.Outside*geometry.Length(3.141592653589793*float64(i)/8), exact)
	}
}

// A plane through the throat, turned by the cut angle, cuts the eight lines
// along the wall of a straight pipe.
func TestMiterOrdinatesAreMeasuredInSpace(t *testing.T) {
	m := geometry.Miter{Outside: 4.5, Turn: 45, Welds: 1}
	across := r3.NewRotation(geometry.Angle(22.5).Radians(), r3.Vec{Z: 1}).Rotate(r3.Vec{Y: 1})
	throat := onTheWall(m.Outside, 0)
	for i, mark := range must[[]geometry.Ordinate](t)(m.Ordinates()) {
		off := r3.Sub(onTheWall(m.Outside, i), throat)
		along := -r3.Dot(across, off) / across.Y // where the line along y meets the plane
		near(t, "ordinate", mark.Along, geometry.Length(along), exact)
	}
}

// onTheWall is an eighth of the way around a pipe that runs along y, from the
// throat, which faces the center of the bend at negative x.
func onTheWall(outside geometry.Length, eighth int) r3.Vec {
	around := r3.NewRotation(geometry.Angle(45*eighth).Radians(), r3.Vec{Y: 1})
	return around.Rotate(r3.Vec{X: -float64(outside) / 2})
}

// Cutting angles and cutbacks. A 90° turn in four cuts on 273 mm pipe is
// printed with 27.15 mm and one in three cuts on 168 mm with 22.50 mm, half the
// cutback each (piping engineers' miter formula; the second is 22.5077 in full);
// NAVEDTRA 14251, Steelworker, vol. 2, lays a two-piece turn out with half the
// cutback on each side of the base line: .9320 for 45° on 4-1/2 pipe was
// computed independently.
func TestMiter(t *testing.T) {
	for _, c := range []struct {
		miter    geometry.Miter
		angle    geometry.Angle
		halfBack geometry.Length
		halfUnit geometry.Length
	}{
		{geometry.Miter{Outside: 273 * geometry.Millimeter, Turn: 90, Welds: 4}, 11.25, 27.15 * geometry.Millimeter, 0.005 * geometry.Millimeter},
		{geometry.Miter{Outside: 168 * geometry.Millimeter, Turn: 90, Welds: 3}, 15, 22.5077 * geometry.Millimeter, 0.00005 * geometry.Millimeter},
		{geometry.Miter{Outside: 4.5, Turn: 45, Welds: 1}, 22.5, 0.9320, 0.00005},
	} {
		near(t, "cut angle", must[geometry.Angle](t)(c.miter.CutAngle()), c.angle, exact)
		near(t, "half the cutback", figure(t)(c.miter.Cutback())/2, c.halfBack, c.halfUnit)
	}
}

func TestBendsThatCannotBeCut(t *testing.T) {
	_, err := geometry.Elbow{Radius: 2.25, Outside: 4.5, Angle: 30}.Throat()
	wantProblem(t, err, geometry.TooTight)
	_, err = geometry.Elbow{Radius: 2, Outside: 4.5, Angle: 30}.Ordinates()
	wantProblem(t, err, geometry.TooTight)
	_, err = geometry.Miter{Outside: 4.5, Turn: 45}.Ordinates()
	wantProblem(t, err, geometry.NotPositive)
}
