package practice_test

import (
	"math"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/catalog"
	"dogleg/geometry"
)

// planted is what an apprentice sends who makes a slip: the figures are worked here
// with the multipliers of the trade's tables, and with nothing of the program.
type planted struct {
	slip    practice.Slip
	reply   float64
	decimal bool
}

// onSixteenths is how a tape reads a figure.
func onSixteenths(inches float64) float64 { return math.Round(inches*16) / 16 }

func plant(t *testing.T, p practice.Problem, all []planted) {
	t.Helper()
	for _, s := range all {
		reply := s.reply
		if !s.decimal {
			reply = onSixteenths(reply)
		}
		m := p.Mark(practice.Said{Length: geometry.Length(reply), Decimal: s.decimal}, figure.ExactFigures)
		if m.Right || m.Slip != s.slip && m.Or != s.slip {
			t.Errorf("%s: %s comes to %v, which is marked %+v", p.Kind, s.slip, reply, m)
		}
	}
}

// The slips that a teacher sees daily, on a cut with 45s: set 19, takeoffs of
// 1-3/16. 19 × 1.41421 − 2.375 = 24.495, on the tape 24-1/2.
func TestSlipsOfACut(t *testing.T) {
	const set, takeoff, root2 = 19, 1.1875, 1.41421356
	p := practice.Problem{Kind: practice.Cut, Set: set, Fittings: bends(45), Takeoffs: [2]geometry.Length{takeoff, takeoff}}
	plant(t, p, []planted{
		{practice.NoMultiplier, set - 2*takeoff, false}, // 16-5/8: on 45s the set is the run, and nobody asked for it
		{practice.FourTakeoffs, set*root2 - 4*takeoff, false},
		{practice.ThreeTakeoffs, set*root2 - 3*takeoff, false},
		{practice.AddedOne, set*root2 + takeoff, false},
		{practice.OtherBend, set*2.61312593 - 2*takeoff, false}, // of 22-1/2s
		{practice.OtherBend, set*1.15470054 - 2*takeoff, false}, // of 60s
		{practice.OnePlace, set*1.4 - 2*takeoff, false},
		{practice.TakeoffFirst, (set - 2*takeoff) * root2, false},
		{practice.Decimals, 24.8, true}, // 24-8/16
		{practice.Decimals, 24.08, true},
		{practice.SetAlone, set, false},
		{practice.EndsForCut, set + 2*takeoff, false},
		{practice.TapeStart, set*root2 - 2*takeoff + 1, false},
		{practice.TapeStart, set*root2 - 2*takeoff - 1, false},
		{practice.Parts, 24 + 4./16, false}, // .495: four tenths, eighths of it are four
		{practice.NoTakeoff, set * root2, false},
		{practice.OneTakeoff, set*root2 - takeoff, false},
		{practice.AddedEnds, set*root2 + 2*takeoff, false},
	})
}

// On 22-1/2s: 8-1/2 × 2.61313 − 2.5 = 19.712, 19-11/16.
func TestSlipsOfACutWithSixteenthBends(t *testing.T) {
	const set, takeoff = 8.5, 1.25
	p := practice.Problem{Kind: practice.Cut, Set: set, Fittings: bends(22.5), Takeoffs: [2]geometry.Length{takeoff, takeoff}}
	plant(t, p, []planted{
		{practice.OtherBend, set*1.41421356 - 2*takeoff, false},
		{practice.RunForTravel, set*2.41421356 - 2*takeoff, false},
		{practice.RunAlone, set * 2.41421356, false},
		{practice.NoMultiplier, set - 2*takeoff, false},
		{practice.Decimals, 19.11, true},
	})
}

// The ends apart, and the cut sent in their place: 15 on 60s, takeoffs 1-1/16. The
// run is 15 × 0.57735 = 8.660, the ends are 10.785 apart.
func TestSlipsOfTheEnds(t *testing.T) {
	const set, takeoff = 15, 1.0625
	p := practice.Problem{Kind: practice.EndGap, Set: set, Fittings: bends(60), Takeoffs: [2]geometry.Length{takeoff, takeoff}}
	plant(t, p, []planted{
		{practice.CutForEnds, set*1.15470054 - 2*takeoff, false},
		{practice.TravelForRun, set*1.15470054 + 2*takeoff, false},
		{practice.SetAlone, set, false},
		{practice.FourTakeoffs, set*0.57735027 + 4*takeoff, false},
		{practice.TakeoffFirst, (set + 2*takeoff) * 0.57735027, false},
		{practice.OtherBend, set*2.41421356 + 2*takeoff, false},
	})
}

// Roll 13, rise 19-5/8, 45s, takeoffs 1-3/16: the true set is 23.540.
func TestSlipsOfARollingOffset(t *testing.T) {
	const roll, rise, takeoff, root2 = 13, 19.625, 1.1875, 1.41421356
	p := practice.Problem{Kind: practice.Rolling, Roll: roll, Rise: rise, Fittings: bends(45), Takeoffs: [2]geometry.Length{takeoff, takeoff}}
	plant(t, p, []planted{
		{practice.NoRoot, (169+385.140625)*root2 - 2*takeoff, false},
		{practice.Subtracted, 14.7013*root2 - 2*takeoff, false}, // √(385.14 − 169)
		{practice.Difference, 6.625*root2 - 2*takeoff, false},
		{practice.Averaged, 16.3125*root2 - 2*takeoff, false},
		{practice.NoMultiplier, 23.5403 - 2*takeoff, false}, // sent 21-3/16: the multiplier is out, and no run
		{practice.RollAndRise, 32.625*root2 - 2*takeoff, false},
	})
}

// A drain of 51 ft at 1/8 per foot falls 6-3/8.
func TestSlipsOfAFall(t *testing.T) {
	p := practice.Problem{Kind: practice.Fall, Long: 612, Grade: geometry.InchPerFoot / 8}
	plant(t, p, []planted{
		{practice.TwelfthTwice, 6.375 / 12, false},
		{practice.DoubleFall, 12.75, false}, // by 1/4
		{practice.HalfFall, 3.1875, false},
		{practice.InchesLong, 76.5, false},
	})
}

// Two lines 20-3/4 apart, set 12, on 45s: the second bends 20.75 × 0.41421 = 8.595
// sooner.
func TestSlipsOfAStagger(t *testing.T) {
	p := practice.Problem{Kind: practice.Stagger, Set: 12, Spacing: 20.75, Fittings: bends(45)}
	plant(t, p, []planted{
		{practice.SineForStep, 20.75 * 0.38268343, false},
		{practice.TravelForStep, 20.75 * 1.41421356, false},
		{practice.OffTheSet, 12 * 0.41421356, false},
		{practice.WholeAngle, 20.75, false},
	})
}

// A dry fit that shows 12-1/2 for a set of 10 is 2.5 × 1.15470 = 2.887 too long on
// 60s.
func TestSlipsOfATrim(t *testing.T) {
	p := practice.Problem{Kind: practice.Trimming, Set: 10, Dry: 12.5, Fittings: bends(60)}
	plant(t, p, []planted{
		{practice.NoMultiplier, 2.5, false},
		{practice.Divided, 2.5 / 1.15470054, false},
		{practice.BothEnds, 2 * 2.5 * 1.15470054, false},
		{practice.OtherBend, 2.5 * 1.41421356, false},
		{practice.RunForTravel, 2.5 * 0.57735027, false},
	})
}

// Set 12 on 22-1/2s, takeoffs 1-1/8, and the ends are 9 apart: the run is 28.971,
// the ends want 31.221, so 22.221 comes off.
func TestSlipsOfAMark(t *testing.T) {
	const run, takeoff, there = 12 * 2.41421356, 1.125, 9
	p := practice.Problem{Kind: practice.Marking, Set: 12, Apart: there, Fittings: bends(22.5), Takeoffs: [2]geometry.Length{takeoff, takeoff}}
	plant(t, p, []planted{
		{practice.NotThere, run + 2*takeoff, false},
		{practice.NoTakeoff, run - there, false},
		{practice.TookOffEnds, run - 2*takeoff - there, false},
		{practice.TravelForRun, 12*2.61312593 + 2*takeoff - there, false},
		{practice.CutForEnds, 12*2.61312593 - 2*takeoff, false},
	})
}

// A wye and a 45, and two bends that differ: the takeoffs are not alike.
func TestSlipsOfUnlikeEnds(t *testing.T) {
	wye := practice.Problem{
		Kind: practice.Branch, Set: 14, Fittings: [2]catalog.Fitting{{Shape: catalog.Wye}, catalog.BendOf(45)},
		Takeoffs: [2]geometry.Length{3.25, 1.75},
	}
	plant(t, wye, []planted{
		{practice.SameTakeoff, 14*1.41421356 - 6.5, false},
		{practice.SameTakeoff, 14*1.41421356 - 3.5, false},
		{practice.NoTakeoff, 14 * 1.41421356, false},
	})
	two := practice.Problem{
		Kind: practice.TwoAngles, Set: 12, Fittings: [2]catalog.Fitting{catalog.BendOf(45), catalog.BendOf(22.5)},
		Takeoffs: [2]geometry.Length{1.5, 0.75},
	}
	plant(t, two, []planted{
		{practice.OtherBend, 12*2.61312593 - 2.25, false}, // of the second
		{practice.SameTakeoff, 12*1.41421356 - 3, false},
		{practice.NoMultiplier, 12 - 2.25, false},
	})
}

// Which slip it was can't be told where two come to one figure: with takeoffs of an
// inch, one that was forgotten is a tape that was held at the 1. Both are named.
func TestTwoSlipsOfOneFigure(t *testing.T) {
	p := practice.Problem{Kind: practice.Cut, Set: 10, Fittings: bends(45), Takeoffs: [2]geometry.Length{1, 1}}
	m := p.Mark(said(onSixteenths(10*1.41421356-1)), figure.ExactFigures)
	if m.Slip != practice.OneTakeoff || m.Or != practice.TapeStart {
		t.Errorf("one takeoff of an inch, or an inch off: %+v", m)
	}
}

// What is right within a sixteenth, and not on the mark, is told as such.
func TestASixteenthOff(t *testing.T) {
	p := practice.Problem{Kind: practice.Cut, Set: 19, Fittings: bends(45), Takeoffs: [2]geometry.Length{1.1875, 1.1875}}
	for reply, near := range map[float64]bool{24.5: false, 24.495: false, 24.5625: true, 24.4375: true} {
		if m := p.Mark(said(reply), figure.ExactFigures); !m.Right || m.Near != near {
			t.Errorf("%v: %+v", reply, m)
		}
	}
	if m := p.Mark(said(24.625), figure.ExactFigures); m.Right || m.Slip != practice.Close {
		t.Errorf("an eighth off: %+v", m)
	}
	p.Metric = true
	p.Set, p.Takeoffs = 480*geometry.Millimeter, [2]geometry.Length{30 * geometry.Millimeter, 30 * geometry.Millimeter}
	for millimeters, near := range map[geometry.Length]bool{619: false, 620: true, 618: true} { // 480 × 1.41421 − 60 = 618.82
		if m := p.Mark(practice.Said{Length: millimeters * geometry.Millimeter}, figure.ExactFigures); !m.Right || m.Near != near {
			t.Errorf("%v mm: %+v", float64(millimeters), m)
		}
	}
}
