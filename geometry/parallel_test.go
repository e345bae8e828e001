package geometry_test

import (
	"testing"

	"dogleg/geometry"

	"gonum.org/v1/gonum/spatial/r3"
)

// The values were computed independently at full precision, the spacing of the
// staggered diagonals by measuring it in space.
var banks = []struct {
	name                 string
	bank                 geometry.Bank
	stagger, unstaggered geometry.Length
	reads                string
}{
	{"spacing 6-1/2, 45s", geometry.Bank{Spacing: 6.5, Angle: 45}, 2.692388155425118, 4.596194077712560, "2-11/16"},
	{"spacing 4-3/4, 60s", geometry.Bank{Spacing: 4.75, Angle: 60}, 2.742413778650722, 2.375, "2-3/4"},
	{"spacing 6-1/2, 45s rolled 30°", geometry.Bank{Spacing: 6.5, Roll: 30, Angle: 45}, 2.331676539446478, 5.138701198, "2-5/16"},
	{"spacing 5, 60s rolled 50°", geometry.Bank{Spacing: 5, Roll: 50, Angle: 60}, 1.855567997421397, 4.153667255, "1-7/8"},
}

func TestBank(t *testing.T) {
	for _, c := range banks {
		t.Run(c.name, func(t *testing.T) {
			stagger := figure(t)(c.bank.Stagger())
			near(t, "stagger", stagger, c.stagger, exact)
			if got := stagger.Tape(geometry.Sixteenths).String(); got != c.reads {
				t.Errorf("stagger reads %s, want %s", got, c.reads)
			}
			near(t, "unstaggered", figure(t)(c.bank.Unstaggered()), c.unstaggered, exact)
		})
	}
}

// The spacing on the diagonal is measured between two lines in space, turned
// by another library.
func TestBankKeepsItsSpacingInSpace(t *testing.T) {
	for _, c := range banks {
		t.Run(c.name, func(t *testing.T) {
			stagger := figure(t)(c.bank.Stagger())
			near(t, "spacing on the diagonal", diagonalSpacing(c.bank, stagger), c.bank.Spacing, exact)
			near(t, "spacing without stagger", diagonalSpacing(c.bank, 0), figure(t)(c.bank.Unstaggered()), exact)
		})
	}
}

// The flat rule used on a rolling bank is the mistake this guards against: the
// spacings that it makes were computed independently at full precision.
func TestFlatStaggerIsWrongForARollingBank(t *testing.T) {
	near(t, "spacing 6-1/2, 45s rolled 30°", diagonalSpacing(banks[2].bank, 2.692388155425118), 6.722099709, exact)
	near(t, "spacing 5, 60s rolled 50°", diagonalSpacing(banks[3].bank, 2.886751345948129), 5.615852276, exact)
}

// diagonalSpacing lays two lines of the bank along x, side by side along y,
// turns both about the axis square to the offset, and measures how far apart
// the diagonals run when the second bend starts this much sooner.
func diagonalSpacing(b geometry.Bank, sooner geometry.Length) geometry.Length {
	ahead, up := r3.Vec{X: 1}, r3.Vec{Z: 1}
	axis := r3.NewRotation(b.Roll.Radians(), ahead).Rotate(up)
	diagonal := r3.NewRotation(b.Angle.Radians(), axis).Rotate(ahead)
	between := r3.Vec{X: -float64(sooner), Y: float64(b.Spacing)}
	return geometry.Length(r3.Norm(r3.Cross(between, diagonal)))
}

// The values were computed independently at full precision: every line of the
// bank has the same travel and run.
func TestLinesOfABank(t *testing.T) {
	o := must[geometry.Offset](t)(geometry.SetAngle(15.25, 45))
	near(t, "travel", o.Travel, 21.566756826189703, exact)
	near(t, "run", o.Run, 15.25, exact)
	stagger := figure(t)(geometry.Bank{Spacing: 6.5, Angle: 45}.Stagger())
	for line, starts := range []geometry.Length{0, 2.692388155, 5.384776310, 8.077164466} {
		near(t, "start", geometry.Length(line)*stagger, starts, exact)
	}
	o = must[geometry.Offset](t)(geometry.SetAngle(11.125, 60))
	near(t, "travel", o.Travel, 12.846043489469174, exact)
	near(t, "run", o.Run, 6.423021744734589, exact)
}

func TestBankRefusesARollItCannotHave(t *testing.T) {
	_, err := geometry.Bank{Spacing: 6.5, Roll: 91, Angle: 45}.Stagger()
	wantProblem(t, err, geometry.AngleRange)
	_, err = geometry.Bank{Spacing: 6.5, Roll: -1, Angle: 45}.Unstaggered()
	wantProblem(t, err, geometry.AngleRange)
}
