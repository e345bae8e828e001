package telegram_test

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"
	"time"

	"dogleg/bot/telegram/loopback"
)

// speaker makes of words a recording that holds them, and counts.
type speaker struct {
	made    atomic.Int32
	trouble error
	hangs   atomic.Bool
}

func (s *speaker) Speak(ctx context.Context, text string) ([]byte, error) {
	s.made.Add(1)
	if s.hangs.Load() {
		<-ctx.Done()
		return nil, ctx.Err()
	}
	return []byte("OggS" + text), s.trouble
}

// speaking is a job that can say answers aloud.
func speaking(t *testing.T) (*job, *speaker) {
	j, s := newJob(t), new(speaker)
	j.config.Speaker = s
	j.config.Timing.Speak = soon
	return j, s
}

// spoken awaits the voice notes that the server took, and returns the calls.
func (j *job) spoken(n int) []loopback.Call {
	j.Helper()
	taken := func() (taken []loopback.Call) {
		for _, c := range j.api.Calls("sendVoice") {
			if c.Status == 200 {
				taken = append(taken, c)
			}
		}
		return taken
	}
	j.await("voice notes", func() bool { return len(taken()) >= n })
	j.settle()
	if got := len(taken()); got != n {
		j.Fatalf("%d voice notes, want %d", got, n)
	}
	return taken()
}

// The same words are recorded once; then the server is told the name of what it
// has.
func TestAnswerIsSaidAloud(t *testing.T) {
	j, s := speaking(t)
	j.start()
	j.api.Say(12, outLoud+"cut nine inches")
	first := j.spoken(1)[0]
	if got := string(first.Files["voice"]); got != "OggScut nine inches" || first.Params["chat_id"] != "12" {
		t.Errorf("sent %q to %s", got, first.Params["chat_id"])
	}
	j.says(12, "heard out loud: cut nine inches")
	j.api.Say(13, outLoud+"cut nine inches")
	again := j.spoken(2)[1]
	if again.Params["voice"] == "" || len(again.Files) > 0 {
		t.Errorf("sent again as %+v", again)
	}
	j.api.Say(13, outLoud+"cut ten inches")
	j.spoken(3)
	if n := s.made.Load(); n != 2 {
		t.Errorf("%d recordings made of two texts", n)
	}
}

// Where voice notes can't be sent or made, the text has gone before, and what
// comes later goes on.
func TestTextWhereNothingCanBeSaid(t *testing.T) {
	for name, spoil := range map[string]func(*job, *speaker){
		"forbidden": func(j *job, _ *speaker) {
			j.api.Plant(loopback.Refuse("sendVoice", 400, "Bad Request: VOICE_MESSAGES_FORBIDDEN"))
		},
		"no voice":           func(j *job, _ *speaker) { j.config.Speaker = nil },
		"a voice that fails": func(_ *job, s *speaker) { s.trouble = errors.New("hoarse") },
	} {
		t.Run(name, func(t *testing.T) {
			j, s := speaking(t)
			spoil(j, s)
			j.start()
			j.api.Say(12, outLoud+"cut nine inches")
			j.says(12, "heard out loud: cut nine inches")
			j.settle()
			j.api.Say(12, "set 12")
			j.says(12, "heard out loud: cut nine inches", "heard set 12")
			j.spoken(0)
		})
	}
}

// What was to be said when the bot stopped, or was just being recorded, is said
// by the next run.
func TestSpokenAnswerOutlivesTheProcess(t *testing.T) {
	for name, c := range map[string]struct {
		hold   func(*job, *speaker)
		caught func(*job, *speaker) bool // it is where it is held
	}{
		"sending": {
			func(j *job, _ *speaker) { j.api.Plant(loopback.TooMany("sendVoice", 3600)) },
			func(j *job, _ *speaker) bool { return len(j.api.Calls("sendVoice")) > 0 },
		},
		"recording": {
			func(_ *job, s *speaker) { s.hangs.Store(true) },
			func(_ *job, s *speaker) bool { return s.made.Load() > 0 },
		},
	} {
		t.Run(name, func(t *testing.T) {
			j, s := speaking(t)
			j.config.Timing.Finish = time.Millisecond
			c.hold(j, s)
			j.start()
			j.api.Say(12, outLoud+"cut nine inches")
			j.says(12, "heard out loud: cut nine inches")
			j.await("its turn", func() bool { return c.caught(j, s) })
			if err := j.end(); err != nil {
				t.Fatal(err)
			}
			s.hangs.Store(false)
			j.start()
			if got := string(j.spoken(1)[0].Files["voice"]); got != "OggScut nine inches" {
				t.Errorf("said %q", got)
			}
		})
	}
}
