package main

import (
	"errors"
	"fmt"
	"os/exec"
	"syscall"
	"testing"
	"time"

	"dogleg/bot/serve"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

// stopsWithin is the time in which a service manager may count on its end.
const stopsWithin = 10 * time.Second

// TestServeStopsWhileTelegramHangs ends the real program with SIGTERM while each
// of its calls that sends a message hangs. It ends in time and in order, and
// takes nothing more from the moment on at which it lets go of its poll; of what
// it took, each job is in the file and each answer in the outbox. Started again,
// it answers all, in order and once.
func TestServeStopsWhileTelegramHangs(t *testing.T) {
	t.Parallel()
	for name, fault := range map[string]loopback.Fault{
		"without a word":  {Hang: true},
		"in mid-response": {Hang: true, Half: true},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := newScore(t)
			s.chats = 8
			s.server.Mend()
			fault.Method, fault.Times = "sendMessage", -1
			s.server.Plant(fault)

			process := s.start(sound)
			s.everyone(3)
			s.awaitHanging()
			taken := s.asked()
			s.stop(process, func() { s.everyone(1) })
			s.look()
			late := s.asked() - taken
			if waiting, jobs := len(s.server.Unconfirmed()), s.kept(); waiting != late || jobs != taken || len(s.pending) != taken {
				t.Fatalf("of %d messages taken %d have a job and %d an answer; of %d that came later %d wait",
					taken, jobs, len(s.pending), late, waiting)
			}

			s.server.Mend()
			s.lastRun()
			s.judge()
			if jobs, answers := s.kept(), len(s.answers()); jobs != s.asked() || answers != s.asked() {
				t.Errorf("of %d messages %d have a job, and %d answers were sent", s.asked(), jobs, answers)
			}
		})
	}
}

// everyone says so many messages in each chat.
func (s *score) everyone(messages int) {
	for chat := int64(1); chat <= s.chats; chat++ {
		for range messages {
			s.server.Say(chat, question{chat, s.said[chat]}.text())
			s.said[chat]++
		}
	}
}

// stop ends the program in order and does something when it has let go of its
// poll. It has to end in time.
func (s *score) stop(process *exec.Cmd, then func()) {
	s.Helper()
	polls := func() int { return len(s.server.Calls("getUpdates")) } // that have come to an end
	before, asked := polls(), time.Now()
	if err := process.Process.Signal(syscall.SIGTERM); err != nil {
		s.Fatal(err)
	}
	if !s.server.Await(patience, func() bool { return polls() > before }) {
		s.Fatalf("it doesn't let go of its poll:\n%s", &s.log)
	}
	then()
	if err := process.Wait(); err != nil {
		s.Errorf("at its end: %v\n%s", err, &s.log)
	}
	took := time.Since(asked).Round(time.Millisecond)
	if s.Logf("ended %v after SIGTERM", took); took > stopsWithin {
		s.Errorf("%v are allowed", stopsWithin)
	}
}

// awaitHanging waits until all that was said is taken and a call hangs in each
// chat, which holds up what is behind it there.
func (s *score) awaitHanging() {
	s.Helper()
	hang := func() bool {
		return len(s.server.Unconfirmed()) == 0 && len(s.server.Calls("sendMessage")) == len(s.said)
	}
	if !s.server.Await(patience, hang) {
		s.Fatalf("%d messages aren't taken, and %d calls made for %d chats:\n%s",
			len(s.server.Unconfirmed()), len(s.server.Calls("sendMessage")), len(s.said), &s.log)
	}
}

// kept counts the jobs in the file.
func (s *score) kept() (jobs int) {
	s.Helper()
	db, err := store.Open(s.path)
	if err != nil {
		s.Fatal(err)
	}
	err = db.View(func(tx *store.Tx) error {
		for chat := range s.said {
			jobs += len(tx.Person(serve.ChatOf(chat).Person(fmt.Sprint(chat))).Jobs())
		}
		return nil
	})
	if err := errors.Join(err, db.Close()); err != nil {
		s.Fatal(err)
	}
	return jobs
}
