package telegram

import (
	"errors"
	"testing"
	"time"
)

// An hour without a network, as the real timing goes through it: the tries stay
// few, and the first after the network is back comes within a minute, even where
// a poll still hung in the void then.
func TestAnHourWithoutNetwork(t *testing.T) {
	s := newEdge(Config{})
	away := errors.New("no route to host")
	tries, longest := 0, time.Duration(0)
	for gone := time.Duration(0); gone < time.Hour; tries++ {
		wait := s.patience(away, tries)
		if wait <= 0 {
			t.Fatal("a hot loop")
		}
		gone += wait
		longest = max(longest, wait)
	}
	if tries > 600 {
		t.Errorf("%d tries in an hour", tries)
	}
	if back := longest + s.Timing.PollEnds; back > time.Minute {
		t.Errorf("polls again after %v", back)
	}
	if back := longest + s.Timing.Send; back > time.Minute {
		t.Errorf("sends again after %v", back)
	}
}

// What is done when the bot is told to stop: finish, and confirm.
func TestStopsWithinTenSeconds(t *testing.T) {
	timing := Config{}.withDefaults().Timing
	if takes := timing.Finish + timing.Toast; takes > 9*time.Second {
		t.Errorf("takes up to %v, and the disk needs its time too", takes)
	}
	if timing.PollEnds <= timing.Poll+5*time.Second {
		t.Error("a poll is given up before it can end")
	}
	if timing.PollEnds > 20*time.Second {
		t.Errorf("a poll that hangs costs %v", timing.PollEnds)
	}
}
