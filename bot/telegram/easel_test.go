package telegram_test

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

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

// Much that waits at a start is not held in memory, and goes out all the same, in
// order.
func TestLongOutboxIsReadAsItIsSent(t *testing.T) {
	j := newJob(t)
	const each = 64
	j.config.Timing.Finish = 1
	long := strings.Repeat("x", 150_000)
	j.memory.full = map[string]telegram.Answer{}
	for n := range each {
		j.memory.full[fmt.Sprint(n)] = telegram.Answer{
			Text: fmt.Sprint("file ", n), Files: []telegram.File{{Name: "juniper.csv", Content: fmt.Append(nil, n, " ", long)}},
		}
	}
	down := loopback.Fault{Method: "sendDocument", Status: 500, Times: -1}
	j.api.Plant(down)
	j.config.Line = 1 << 30
	for n := range each {
		j.api.Say(12, fmt.Sprint(n))
	}
	j.start()
	j.await("all taken in", func() bool { return j.config.Health.Unsent.Load() == each })
	if err := j.end(); err != nil {
		t.Fatal(err)
	}
	j.api.Mend()
	j.config.Timing.Finish = quick.Finish
	j.config.Health = new(telegram.Health)
	j.start()
	sent := func() (all []string) {
		for _, c := range j.api.Calls("sendDocument") {
			if c.Status == 200 {
				// Without a copy of the file: 10 MB at each call take longer than to send them.
				first, _, _ := bytes.Cut(c.Files["document"], []byte(" "))
				all = append(all, string(first))
			}
		}
		return all
	}
	j.await("all sent", func() bool { return len(sent()) == each })
	for n, got := range sent() {
		if got != strconv.Itoa(n) {
			t.Fatalf("file %d comes as number %d", n, n)
		}
	}
	j.settle()
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
