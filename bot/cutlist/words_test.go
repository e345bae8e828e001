package cutlist_test

import (
	"testing"

	"dogleg/bot/cutlist"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// What is written large has its unit beside the number, and not its feet.
func TestSawnHasItsUnit(t *testing.T) {
	spanish := wording.Options{Language: parser.Spanish}
	for _, c := range []struct {
		piece cutlist.Piece
		o     wording.Options
		want  string
	}{
		{cutlist.Piece{Length: 14.73}, wording.Options{}, `14-3/4" light`},
		{cutlist.Piece{Length: 17, About: true, Band: 0.0625}, wording.Options{}, `about 17-1/16"`},
		{cutlist.Piece{Length: 62.5}, wording.Options{}, `62-1/2"`},
		{cutlist.Piece{Length: 10}, spanish, `10"`},
		{cutlist.Piece{Length: 10}, wording.Options{Metric: true}, "254 mm"},
	} {
		if got := cutlist.Sawn(c.piece, c.o); got != c.want {
			t.Errorf("%+v: %q, want %q", c.piece, got, c.want)
		}
	}
}
