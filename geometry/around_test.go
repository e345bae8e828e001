package geometry_test

import (
	"math"
	"testing"

	"dogleg/geometry"
)

// The values were computed independently at full precision, the clearance by
// brute force.
var obstacles = []struct {
	name                         string
	obstacle                     geometry.Obstacle
	angle                        geometry.Angle
	keep, set, first             geometry.Length
	travel, run                  geometry.Length
	firstReads, firstLean, upper string
}{
	{
		"reach 5-1/4, clear 1, 2-3/8 pipe, 45s",
		geometry.Obstacle{Reach: 5.25, Clearance: 1, Outside: 2.375},
		45,
		2.1875, 7.4375, 8.343592167691146, 10.518213370149896, 7.4375, "8-5/16", "heavy", "8-3/8",
	},
	{
		"reach 3-1/2, clear 3/4, 1.9 pipe, 22-1/2s",
		geometry.Obstacle{Reach: 3.5, Clearance: 0.75, Outside: 1.9},
		22.5,
		1.7, 5.2, 12.892061548885511, 13.588254834714316, 12.553910524340095, "12-7/8", "heavy", "12-15/16",
	},
	{
		"reach 7, clear 1-1/2, 3-1/2 pipe, 60s",
		geometry.Obstacle{Reach: 7, Clearance: 1.5, Outside: 3.5},
		60,
		3.25, 10.25, 7.794228634059949, 11.83568051838733, 5.917840259193666, "7-13/16", "light", "7-13/16",
	},
}

func TestObstacle(t *testing.T) {
	for _, c := range obstacles {
		t.Run(c.name, func(t *testing.T) {
			near(t, "keep", figure(t)(c.obstacle.Keep()), c.keep, exact)
			set := figure(t)(c.obstacle.SmallestSet())
			near(t, "smallest set", set, c.set, exact)
			first := figure(t)(c.obstacle.FirstBend(c.angle))
			near(t, "first bend", first, c.first, exact)
			reads(t, "first bend", first, c.firstReads, c.firstLean)
			if got := first.TapeUp(geometry.Sixteenths).String(); got != c.upper {
				t.Errorf("first bend to the safe side reads %s, want %s", got, c.upper)
			}
			o := must[geometry.Offset](t)(geometry.SetAngle(set, c.angle))
			near(t, "travel", o.Travel, c.travel, exact)
			near(t, "run", o.Run, c.run, exact)
		})
	}
}

// The line is laid as points on a plane and the nearest one to the obstacle is
// searched for, at the smallest set and at larger ones.
func TestObstacleClearanceByBruteForce(t *testing.T) {
	for _, c := range obstacles {
		t.Run(c.name, func(t *testing.T) {
			first := figure(t)(c.obstacle.FirstBend(c.angle))
			smallest := figure(t)(c.obstacle.SmallestSet())
			for _, more := range []geometry.Length{0, 0.5, 3, 11} {
				got := nearest(step(t, first, smallest+more, c.angle), float64(c.obstacle.Reach))
				near(t, "nearest with more set", got, float64(c.keep), 1e-6)
			}
			got := nearest(step(t, first, smallest-0.05, c.angle), float64(c.obstacle.Reach))
			near(t, "nearest with 0.05 less set", got, float64(c.keep)-0.05, 1e-6)
			got = nearest(step(t, first-0.05, smallest+3, c.angle), float64(c.obstacle.Reach))
			near(t, "nearest with the bend 0.05 late", got, float64(c.keep)-0.05*math.Sin(float64(c.angle)*math.Pi/180), 1e-6)
		})
	}
}

// The clearance at the corner, 2.747223250267433 with bends of radius 6-1/2,
// was computed independently at full precision; the rest is measured here.
func TestRoundBendsCutTheCorner(t *testing.T) {
	c := obstacles[2]
	loss := figure(t)(c.obstacle.CornerLoss(6.5, c.angle))
	near(t, "clearance at the corner", c.keep-loss, 2.747223250267433, exact)
	near(t, "loss of a short fitting", figure(t)(c.obstacle.CornerLoss(3, c.angle)), 0, 0)
	for _, c := range obstacles {
		for _, radius := range []geometry.Length{c.keep / 2, c.keep, c.keep + 0.5, c.keep + 2} {
			loss := figure(t)(c.obstacle.CornerLoss(radius, c.angle))
			line := rounded(c.first, c.set, c.angle, radius)
			near(t, "nearest to the corner", nearest(line, float64(c.obstacle.Reach)), float64(c.keep-loss), 1e-6)
		}
	}
}

// Coming back, both inner bends must keep as far off the far corner as off the
// near one: the line back is searched as the line out is.
func TestComingBackBehindAnObstacle(t *testing.T) {
	const long = 18.5
	for _, c := range obstacles {
		o := must[geometry.Offset](t)(geometry.SetAngle(c.set, c.angle))
		between := figure(t)(c.obstacle.BetweenBends(long, o))
		second := float64(o.Run - c.first) // past the near face
		third := second + float64(between)
		fourth := third + float64(o.Run)
		back := straight([]point{{third, float64(c.set)}, {fourth, 0}, {fourth + 40, 0}})
		mirrored := make([]point, len(back))
		for i, p := range back {
			mirrored[i] = point{long - p.x, p.y}
		}
		near(t, "nearest on the way back: "+c.name, nearest(mirrored, float64(c.obstacle.Reach)), float64(c.keep), 1e-6)
	}
}

func TestComingBackNeedsRoom(t *testing.T) {
	c := obstacles[0]
	_, err := c.obstacle.BetweenBends(2, must[geometry.Offset](t)(geometry.SetAngle(30, c.angle)))
	wantProblem(t, err, geometry.NoRoom)
	_, err = c.obstacle.BetweenBends(20, must[geometry.Offset](t)(geometry.SetAngle(7, c.angle)))
	wantProblem(t, err, geometry.NoRoom)
}

type point struct{ x, y float64 }

// step is the centerline of an offset whose first bend lies this far before an
// obstacle that starts at x = 0.
func step(t *testing.T, first, set geometry.Length, a geometry.Angle) []point {
	o := must[geometry.Offset](t)(geometry.SetAngle(set, a))
	begin, end := -float64(first), float64(o.Run-first)
	return straight([]point{{begin - 40, 0}, {begin, 0}, {end, float64(set)}, {end + 40, float64(set)}})
}

// rounded is the same with bends of this radius, each tangent to its legs.
func rounded(first, set geometry.Length, a geometry.Angle, radius geometry.Length) []point {
	turn, r, s := float64(a)*math.Pi/180, float64(radius), float64(set)
	back := r * math.Tan(turn/2)
	begin := -float64(first)
	end := begin + s/math.Tan(turn)
	var line []point
	const parts = 20000
	for i := range parts + 1 {
		swung := turn * float64(i) / parts
		line = append(line, point{begin - back + r*math.Sin(swung), r - r*math.Cos(swung)})
	}
	for i := range parts + 1 {
		left := turn - turn*float64(i)/parts
		line = append(line, point{end + back - r*math.Sin(left), s - r + r*math.Cos(left)})
	}
	return append(append(straight([]point{{begin - back - 40, 0}, line[0]}), straight(line)...),
		straight([]point{line[len(line)-1], {end + back + 40, s}})...)
}

// straight fills the legs between corners with points, closer than the eye of
// any needle.
func straight(corners []point) []point {
	var line []point
	for i := 1; i < len(corners); i++ {
		a, b := corners[i-1], corners[i]
		parts := math.Ceil(math.Hypot(b.x-a.x, b.y-a.y) / 1e-3)
		for k := 0.0; k <= parts; k++ {
			line = append(line, point{a.x + (b.x-a.x)*k/parts, a.y + (b.y-a.y)*k/parts})
		}
	}
	return line
}

// nearest is how near a line comes to an obstacle that fills all of x > 0 below
// its reach. The line runs below it only where x < 0.
func nearest(line []point, reach float64) float64 {
	best := math.Inf(1)
	for _, p := range line {
		off := math.Hypot(math.Max(0, -p.x), math.Max(0, p.y-reach))
		best = math.Min(best, off)
	}
	return best
}
