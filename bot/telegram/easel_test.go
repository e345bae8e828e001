package telegram_test

import (
	"fmt"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
)

// painter has those asked for a picture get the recipe of one, and paints it.
func (j *job) painter() (painting, painted, most *atomic.Int64) {
	painting, painted, most = new(atomic.Int64), new(atomic.Int64), new(atomic.Int64)
	j.memory.full = map[string]telegram.Answer{}
	for n := range 40 {
		j.memory.full[fmt.Sprint("draw ", n)] = telegram.Answer{
			Text: "drawn", Files: []telegram.File{{Name: "job.png", Picture: true, Recipe: []byte(strconv.Itoa(n))}},
		}
	}
	j.config.Paint = func(f telegram.File) (telegram.File, bool) {
		for now := painting.Add(1); now > most.Load(); {
			most.Store(now)
		}
		defer painting.Add(-1)
		painted.Add(1)
		return telegram.File{Name: f.Name, Picture: true, Content: []byte("picture " + string(f.Recipe))}, string(f.Recipe) != "39"
	}
	return painting, painted, most
}

// A picture is painted when it is sent, one at a time, and again where it is tried
// again: in the outbox is only what is on it.
func TestPicturesArePaintedWhenSent(t *testing.T) {
	j := newJob(t)
	_, painted, most := j.painter()
	j.api.Plant(loopback.BadGateway("sendPhoto"))
	for n := range 20 {
		j.api.Say(int64(1+n%5), fmt.Sprint("draw ", n))
	}
	j.start()
	j.await("all pictures", func() bool { return len(j.sentPhotos()) == 20 })
	j.settle()
	if painted.Load() != 21 || most.Load() != 1 {
		t.Errorf("painted %d times, %d at once", painted.Load(), most.Load())
	}
	for _, c := range j.sentPhotos() {
		if !strings.HasPrefix(string(c.Files["photo"]), "picture ") || c.Params["caption"] != "drawn" {
			t.Errorf("%q under %q", c.Params["caption"], c.Files["photo"])
		}
	}
}

func (j *job) sentPhotos() (sent []loopback.Call) {
	for _, c := range j.api.Calls("sendPhoto") {
		if c.Status == 200 {
			sent = append(sent, c)
		}
	}
	return sent
}

// What can't be painted is left out; the text goes.
func TestTextGoesWithoutAPictureThatCantBePainted(t *testing.T) {
	j := newJob(t)
	j.painter()
	j.api.Say(12, "draw 39")
	j.start()
	j.says(12, "drawn")
	j.settle()
}

// What is more than may be held in memory is read when its turn comes, and goes out
// all the same, in order; at a start that is all that waits.
func TestLongOutboxIsReadAsItIsSent(t *testing.T) {
	const each, size, held = 64, 1000, 10
	queued := func(t *testing.T, first loopback.Fault) *job {
		j := newJob(t)
		j.config.Held, j.config.Timing.Finish = held*size, time.Millisecond
		j.memory.full = map[string]telegram.Answer{}
		for n := range each {
			j.memory.full[fmt.Sprint(n)] = telegram.Answer{
				Text: fmt.Sprint("file ", n), Files: []telegram.File{{Name: "juniper.csv", Content: fmt.Append(nil, n, strings.Repeat(" ", size))}},
			}
			j.api.Say(12, fmt.Sprint(n))
		}
		j.api.Plant(first)
		j.start()
		j.await("all taken in, and the first tried", func() bool {
			return j.config.Health.Unsent.Load() == each && len(j.api.Calls("sendDocument")) > 0
		})
		return j
	}
	allSent := func(j *job) {
		var sent []string
		j.await("all sent", func() bool {
			sent = nil
			for _, c := range j.api.Calls("sendDocument") {
				if c.Status == 200 {
					sent = append(sent, strings.TrimSpace(string(c.Files["document"])))
				}
			}
			return len(sent) >= each
		})
		for n, got := range sent {
			if got != strconv.Itoa(n) {
				j.Fatalf("file %s comes as number %d", got, n)
			}
		}
		j.settle()
	}
	t.Run("in the same run", func(t *testing.T) {
		down := loopback.BadGateway("sendDocument")
		down.Times = -1
		j := queued(t, down)
		j.api.Mend()
		allSent(j)
		if n := j.memory.fetched.Load(); n < each-held || n >= each {
			t.Errorf("%d of %d letters were read when their turn came, though no more than %d fit in memory and some do", n, each, held)
		}
	})
	t.Run("at a start", func(t *testing.T) {
		j := queued(t, loopback.TooMany("sendDocument", 3600)) // nothing is under way at the end
		if err := j.end(); err != nil {
			t.Fatal(err)
		}
		j.config.Timing.Finish = quick.Finish
		j.config.Health = new(telegram.Health)
		j.start()
		allSent(j)
		if n := j.memory.fetched.Load(); n != each {
			t.Errorf("%d of %d letters were read when their turn came", n, each)
		}
	})
}

// The first transaction of a run has one update in it, and the next more: what
// ended the run before is not ahead of everything again.
func TestFirstTransactionsAreSmall(t *testing.T) {
	j := newJob(t)
	for n := range 100 {
		j.api.Say(int64(n+1), "12 set 45s")
	}
	died := make(chan int, 1)
	j.memory.answer = func(q telegram.Question) string {
		if q.Chat == 30 {
			select {
			case died <- len(j.memory.questions()):
			default:
			}
		}
		return "heard " + q.Text
	}
	j.start()
	j.settle()
	if safe := <-died; safe != 1+4+16 {
		t.Errorf("%d were on the disk when the 30th was answered, want 21", safe)
	}
}
