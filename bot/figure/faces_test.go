package figure_test

import (
	"errors"
	"testing"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/parser"
)

// A hub-and-spigot piece measured face to face: the pipe's spigot goes 2-1/2 into
// the one fitting's hub (2 in, figure 21-45 of Modern Plumbing, 2022), the other's
// spigot rests at the bottom of the pipe's own hub, 2-1/2 deep as well. Laid from
// there it is 29 + 2-1/2 long, and sawn 29 + 2-1/2 + 2-1/2. Between two hubs a
// piece with two plain ends goes 2-1/2 into both: 34 too.
func TestFaceToFaceOnHubPipe(t *testing.T) {
	hub2 := catalog.Pipe{Material: catalog.CastIron, Joint: catalog.Hub, Size: "2"}
	a := solve(t, pipe(ask(parser.Piece, 90, by(parser.CenterToCenter, 29, parser.FaceToFace)), hub2), figure.Settings{})
	wantLength(t, a, parser.Cut, 31.5)
	wantLength(t, a, parser.PipeLength, 34)
	if a.Provisional {
		t.Error("it is only about so, though the depth is in print")
	}
}

// A depth that is only recalled is the least: the socket may be 1/8 deeper at each
// end, so that the piece is left a quarter long. 29 + 2 × 1-3/4 is 32-1/2.
func TestARecalledDepthLeavesThePieceLong(t *testing.T) {
	drain4 := catalog.Pipe{Material: catalog.PVC, Use: catalog.DWV, Size: "4"}
	a := solve(t, pipe(ask(parser.Piece, 90, by(parser.CenterToCenter, 29, parser.FaceToFace)), drain4), figure.Settings{})
	wantLength(t, a, parser.Cut, 32.5)
	if !a.Provisional || a.Band.Inches() != 0.25 || a.TakesOff.Inches() != 0.25 {
		t.Errorf("about: %v, %v longer, %v comes off", a.Provisional, a.Band, a.TakesOff)
	}
}

// A face that is to be kept and is just what the table makes of a takeoff that
// nobody checked is asked about, and taken when it was sent once more, or when it
// was asked about as a takeoff before. 1-1/2 and a depth of 3/4 make 2-1/4.
func TestAFaceOfTheTableIsAskedAbout(t *testing.T) {
	faced := func(face float64, stands figure.OwnTakeoff) error {
		a := pipe(ask(parser.Takeoff, 45), drain2)
		a.Store = true
		put(&a.Ends[0].Face, face)
		put(&a.Ends[1].Face, face)
		_, err := figure.Solve(a, figure.Settings{StandsBy: stands})
		return err
	}
	var asked *figure.Impossible
	if err := faced(2.25, figure.OwnTakeoff{}); !errors.As(err, &asked) || asked.Cause != figure.NotMeasured || asked.Subject != figure.MeasuredFace {
		t.Errorf("a face of the table's: %v", err)
	}
	if err := faced(2.125, figure.OwnTakeoff{}); err != nil {
		t.Errorf("another face: %v", err)
	}
	stands := figure.OwnTakeoff{System: "pvc-dwv", Fitting: "45", Size: "2"}
	for _, said := range []float64{1.5, 2.25} {
		put(&stands.Length, said)
		if err := faced(2.25, stands); err != nil {
			t.Errorf("sent once more: %v", err)
		}
	}
}

// put sets a length, in inches.
func put[T ~float64](to *T, inches float64) { *to = T(inches) }
