package bot

import (
	"fmt"
	"strconv"
	"strings"

	"dogleg/bot/cutlist"
	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/parser"
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

// boardOptions are how the list of a group speaks.
type boardOptions struct {
	Language parser.Language
	Division geometry.Division
	Metric   bool
}

// mostButtons is how many pieces have a button, the open ones first: as many
// as a message may have.
const mostButtons = 100

// board is the list as it stands. In a group it speaks as it was last asked
// for, whoever changes it.
func (t *turn) board(anew bool) *Board {
	o := t.options(t.talk.Language)
	if g := t.group(); g != nil {
		if anew || g.Board == nil {
			g.Board = &boardOptions{o.Language, o.Division, o.Metric}
			t.keepGroup(g)
		}
		o = wording.Options{Language: g.Board.Language, Division: g.Board.Division, Metric: g.Board.Metric}
	}
	cuts := t.listMemory().Cuts()
	b := &Board{Text: cutlist.BoardText(t.pieces(), o), Anew: anew, Moved: cutlist.Say(o, "list below")}
	for _, done := range []bool{false, true} {
		for _, c := range cuts {
			if c.Done.IsZero() != done && len(b.Buttons) < mostButtons {
				b.Buttons = append(b.Buttons, []Button{{Label: cutlist.CheckLabel(pieceOf(c), o), Press: pressOf(c)}})
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

// pressed does what a button says, and answers in a line.
func (t *turn) pressed(press string) part {
	s := parser.Statement{Text: press}
	fields := strings.Fields(press)
	if len(fields) != 3 {
		return said(s, false, t.sayOfList("dead button"))
	}
	for _, c := range t.listMemory().Cuts() {
		if strconv.FormatUint(c.Number, 10) != fields[1] || stampOf(c) != fields[2] {
			continue
		}
		t.touched = true
		t.noteDeed(deed{Did: didPieces, Cuts: []store.Cut{c}})
		switch fields[0] {
		case pressDone:
			return said(s, true, t.strikeOff(c))
		case pressOpen:
			return said(s, true, t.reopen(c))
		}
	}
	t.touched = true // so that the list comes up to date
	return said(s, false, t.sayOfList("piece gone"))
}
