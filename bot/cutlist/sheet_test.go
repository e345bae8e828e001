package cutlist_test

import (
	"bytes"
	"errors"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"
	"time"

	"dogleg/bot/cutlist"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
)

// sawList is a list of n pieces of the stack, from 10 in up.
func sawList(t testing.TB, n int) ([]cutlist.Piece, []cutlist.Buy) {
	t.Helper()
	s, _ := catalog.SystemByID("pvc-dwv")
	var pieces []cutlist.Piece
	for i := range n {
		pieces = append(pieces, cutlist.Piece{
			Number: uint64(i + 1), Length: geometry.Length(10 + i%80), Pipe: cutlist.Pipe{System: s, Size: "2"},
			Fittings: [2]catalog.Fitting{catalog.BendOf(45), catalog.BendOf(45)}, Name: "laundry", Floor: "second floor", Done: i%7 == 1,
		})
	}
	var buys []cutlist.Buy
	for _, lot := range cutlist.Lots(cutlist.Open(pieces)) {
		b, err := cutlist.Plan(lot, 120, 0.125)
		if err != nil {
			t.Fatal(err)
		}
		buys = append(buys, b)
	}
	return pieces, buys
}

var miter = cutlist.Saw{Name: "miter saw", Kerf: 0.125}

// On each bar the cuts follow one another with a kerf between, and with the
// rest they are the stick. Each says how long it is and what the tape reads
// where it ends, hooked on the end of the stick.
func TestBarsAreToScale(t *testing.T) {
	_, buys := sawList(t, 40)
	bars := 0
	for _, block := range cutlist.PlanSheet(buys, miter, wording.Options{}).Blocks {
		for _, row := range block.Rows {
			at := 0.0
			for _, c := range row.Bar.Cuts {
				if math.Abs(c.From.Inches()-at) > 1e-9 || !strings.Contains(row.Text, c.Number+" ") {
					t.Errorf("%s begins at %v, want %v, in %q", c.Number, c.From, at, row.Text)
				}
				at += c.Long.Inches()
				if want := geometry.Length(at).Tape(16).String(); c.At != want || c.Label != c.Long.Tape(16).String()+`"` {
					t.Errorf("%s: %q long, to cut at %q; want %v and %q", c.Number, c.Label, c.At, c.Long, want)
				}
				at += 0.125
			}
			if rest := row.Bar.Rest().Inches(); at > 120.125+1e-9 || math.Abs(max(0, 120-at)-rest) > 1e-9 {
				t.Errorf("cut up to %v, the rest is %v", at, rest)
			}
			bars++
		}
	}
	if bars != len(buys[0].Sticks) {
		t.Errorf("%d bars for %d sticks", bars, len(buys[0].Sticks))
	}
}

func TestTruckSheetHasABoxForEachPiece(t *testing.T) {
	pieces, buys := sawList(t, 9)
	sheet := cutlist.TruckSheet(pieces, buys, "3 Nov 2026", wording.Options{})
	boxes := map[sketch.Box]int{}
	for _, block := range sheet.Blocks {
		for _, row := range block.Rows {
			boxes[row.Box]++
		}
	}
	if boxes[sketch.OpenBox] != 7 || boxes[sketch.DoneBox] != 2 {
		t.Errorf("boxes: %v", boxes)
	}
	if sheet.Title != "Cut list: 7 open, 2 done" || sheet.Under != "3 Nov 2026" {
		t.Errorf("title %q over %q", sheet.Title, sheet.Under)
	}
	first := sheet.Blocks[0].Rows[0]
	if first.Number != "#1" || first.Large != `10"` || first.Text != "45s, laundry, second floor" {
		t.Errorf("the first row is %q", []string{first.Number, first.Large, first.Text})
	}
}

// A picture may be ten thousand points high and wide together, as chats show
// them; a sheet is one page, and the same each time.
func TestSheetsOfAllSizes(t *testing.T) {
	when := time.Date(2026, time.November, 3, 16, 0, 0, 0, time.UTC)
	for _, n := range []int{1, 14, 60, 200} {
		pieces, buys := sawList(t, n)
		var picture, paper, again bytes.Buffer
		if err := cutlist.PlanSheet(buys, miter, wording.Options{}).PNG(&picture); err != nil {
			t.Fatal(err)
		}
		shape, err := png.DecodeConfig(&picture)
		if err != nil || shape.Width+shape.Height > 10000 {
			t.Errorf("%d pieces: %d by %d, %v", n, shape.Width, shape.Height, err)
		}
		for _, to := range []*bytes.Buffer{&paper, &again} {
			if err := cutlist.TruckSheet(pieces, buys, "3 Nov 2026", wording.Options{}).PDF(to, when); err != nil {
				t.Fatal(err)
			}
		}
		text := paper.String()
		if !strings.HasPrefix(text, "%PDF-") || strings.Count(text, "/Type /Page\n") != 1 || paper.Len() > 200<<10 {
			t.Errorf("%d pieces: no PDF of one page, of %d bytes", n, paper.Len())
		}
		if !bytes.Equal(paper.Bytes(), again.Bytes()) {
			t.Errorf("%d pieces: the same sheet is other bytes", n)
		}
	}
}

// A picture of five hundred pieces would take two hundred megabytes to be painted.
func TestLargeSheetIsNoPicture(t *testing.T) {
	_, buys := sawList(t, 500)
	if err := cutlist.PlanSheet(buys, miter, wording.Options{}).PNG(io.Discard); !errors.Is(err, sketch.ErrTooLarge) {
		t.Errorf("500 pieces: %v", err)
	}
}

func BenchmarkSticks200(b *testing.B) {
	_, buys := sawList(b, 200)
	for b.Loop() {
		var picture bytes.Buffer
		if err := cutlist.PlanSheet(buys, miter, wording.Options{}).PNG(&picture); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTruck200(b *testing.B) {
	pieces, buys := sawList(b, 200)
	for b.Loop() {
		var paper bytes.Buffer
		if err := cutlist.TruckSheet(pieces, buys, "3 Nov 2026", wording.Options{}).PDF(&paper, time.Time{}); err != nil {
			b.Fatal(err)
		}
	}
}
