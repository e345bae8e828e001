package bot

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

func (t *turn) noteHandled(h handled) {
	if len(h.Before) == 0 || h.Message == 0 {
		return
	}
	t.talk.Handled = lastOf(append(t.talk.Handled, h), mostHandled)
}

// handBack puts the list back as it was before this message was first said, where
// it was edited: what it added is gone, what it did to pieces is undone. It returns
// the pieces that it did something to.
func (t *turn) handBack() []store.Cut {
	if !t.message.Edited || t.message.ID == 0 {
		return nil
	}
	t.takeOff()
	var back []store.Cut
	for _, h := range t.talk.Handled {
		if h.Message != t.message.ID {
			continue
		}
		for _, c := range h.Before {
			if c, changed := t.putBack(c); changed {
				back = append(back, c)
			}
		}
	}
	t.talk.Handled = slices.DeleteFunc(t.talk.Handled, func(h handled) bool { return h.Message == t.message.ID })
	return back
}

// putBack makes a piece what it was: open, or sawn. One that is gone is put on
// the list once more, with a number of its own.
func (t *turn) putBack(c store.Cut) (now store.Cut, changed bool) {
	list := t.listMemory()
	for _, now := range list.Cuts() {
		if now.Number != c.Number || stampOf(now) != stampOf(c) {
			continue
		}
		changed = !now.Done.Equal(c.Done)
		now.Done = c.Done
		list.ChangeCut(now)
		t.touched = t.touched || changed
		return now, changed
	}
	c.Number = list.AddCut(c)
	t.touched = true
	return c, c.Number != 0
}

// asBefore names those pieces that were put back and then left so.
func (t *turn) asBefore(back []store.Cut) []string {
	var lines []string
	for _, c := range back {
		for _, now := range t.listMemory().Cuts() {
			if now.Number == c.Number && now.Done.Equal(c.Done) {
				lines = append(lines, t.sayOfList("on the list", "piece", t.pieceLine(now)))
			}
		}
	}
	return lines
}
