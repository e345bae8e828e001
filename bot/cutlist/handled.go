package cutlist

import (
	"slices"

	"dogleg/store"
)

// A message that checks pieces off, opens them again or drops them may be edited
// like any other: done 2 becomes done 3. Then the pieces are first put back as
// they were before it, and what it says now is done to these.

// handled is what a message did to pieces of the list.
type handled struct {
	Message int64       // its number
	Before  []store.Cut // the pieces as they were
}

// mostHandled is how many messages that did something to pieces are remembered:
// who edits a message edits one of the last.
const mostHandled = 5

func (l *List) noteHandled(h handled) {
	if len(h.Before) == 0 || h.Message == 0 {
		return
	}
	l.State.Handled = lastOf(append(l.State.Handled, h), mostHandled)
}

// HandBack puts the list back as it was before this message was first said, where
// it was edited: what it added is gone, what it did to pieces is undone. It returns
// the pieces that it did something to.
func (l *List) HandBack() []store.Cut {
	if !l.Message.Edited || l.Message.ID == 0 {
		return nil
	}
	l.takeOff()
	var back []store.Cut
	for _, h := range l.State.Handled {
		if h.Message != l.Message.ID {
			continue
		}
		for _, c := range h.Before {
			if c, changed := l.putBack(c); changed {
				back = append(back, c)
			}
		}
	}
	l.State.Handled = slices.DeleteFunc(l.State.Handled, func(h handled) bool { return h.Message == l.Message.ID })
	return back
}

// putBack makes a piece what it was: open, or sawn. One that is gone is put on
// the list once more, with a number of its own.
func (l *List) putBack(c store.Cut) (now store.Cut, changed bool) {
	list := l.Kept
	for _, now := range list.Cuts() {
		if now.Number != c.Number || stampOf(now) != stampOf(c) {
			continue
		}
		changed = !now.Done.Equal(c.Done)
		now.Done = c.Done
		list.ChangeCut(now)
		l.Touched = l.Touched || changed
		return now, changed
	}
	c.Number = list.AddCut(c)
	l.Touched = true
	return c, c.Number != 0
}

// AsBefore names those pieces that were put back and then left so.
func (l *List) AsBefore(back []store.Cut) []string {
	var lines []string
	for _, c := range back {
		for _, now := range l.Kept.Cuts() {
			if now.Number == c.Number && now.Done.Equal(c.Done) {
				lines = append(lines, l.say("on the list", "piece", l.pieceLine(now)))
			}
		}
	}
	return lines
}
