package cutlist

import (
	"fmt"
	"strconv"
	"strings"

	"dogleg/bot/wording"
	"dogleg/store"
)

// Board is the cut list as one message that is kept up to date: its text, and a
// button for each piece that checks it off or opens it again. Whoever is at the
// saw and whoever measures look at the same one.
type Board struct {
	Text    string
	Buttons [][]Button // rows
	Anew    bool       // it was asked for: to be shown below, and no longer where it was
	Moved   string     // what is said where it was
}

// mostButtons is how many pieces have a button, the open ones first: as many
// as a message may have.
const mostButtons = 100

// Board is the list as it stands, in the way that it is spoken.
func (l *List) Board(o wording.Options) *Board {
	cuts := l.Kept.Cuts()
	b := &Board{Text: boardText(piecesOf(cuts), o), Anew: l.Showing, Moved: Say(o, "list below")}
	for _, done := range []bool{false, true} {
		for _, c := range cuts {
			if c.Done.IsZero() != done && len(b.Buttons) < mostButtons {
				b.Buttons = append(b.Buttons, []Button{{Label: checkLabel(pieceOf(c), o), Press: pressOf(c)}})
			}
		}
	}
	return b
}

// What a button does to a piece. It names the piece by its number, and the time and
// the message that it was added at and by, since a new list counts from 1 again; and what it
// does is the same however often it is pressed.
const (
	pressDone = "done"
	pressOpen = "open"
)

func pressOf(c store.Cut) string {
	does := pressDone
	if !c.Done.IsZero() {
		does = pressOpen
	}
	return fmt.Sprintf("%s %d %s", does, c.Number, stampOf(c))
}

func stampOf(c store.Cut) string {
	stamp := strconv.FormatInt(c.When.UnixNano(), 36)
	if c.Message != 0 {
		stamp += "." + strconv.FormatInt(c.Message, 36)
	}
	return stamp
}

// Pressed does what a button says, and answers in a line.
func (l *List) Pressed(press string) Part {
	fields := strings.Fields(press)
	if len(fields) != 3 {
		return l.tell(false, "dead button")
	}
	for _, c := range l.Kept.Cuts() {
		if strconv.FormatUint(c.Number, 10) != fields[1] || stampOf(c) != fields[2] {
			continue
		}
		l.Touched = true
		l.Talk.Note(Deed{Did: DidPieces, Cuts: []store.Cut{c}})
		switch fields[0] {
		case pressDone:
			return said(true, l.strikeOff(c))
		case pressOpen:
			return said(true, l.reopen(c))
		}
	}
	l.Touched = true // so that the list comes up to date
	return l.tell(false, "piece gone")
}
