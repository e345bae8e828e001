package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"dogleg/bot"
	"dogleg/bot/serve"
	"dogleg/bot/telegram"
	"dogleg/store"

	"golang.org/x/sys/unix"
)

// BenchmarkMessage measures what one message costs, for deploy/README.md: time
// of a core, whatever else the machine does meanwhile, and room on the disk for
// people who wrote twenty. Ten messages share a transaction.
//
//	go test -run '^$' -bench Message -benchtime 2000x ./cmd/dogleg
func BenchmarkMessage(b *testing.B) {
	for name, say := range map[string]string{
		"text":    "set %d 45s 2 pvc takeoff 1-1/8",
		"picture": "set %d 45s 2 pvc takeoff 1-1/8\ndraw it",
	} {
		b.Run(name, func(b *testing.B) { benchmarkMessage(b, say) })
	}
}

func benchmarkMessage(b *testing.B, say string) {
	path := filepath.Join(b.TempDir(), "dogleg.db")
	db, err := store.Open(path)
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close()
	m := serve.Memory{DB: db, Conversation: new(bot.Conversation)}
	paint := serve.PaintedBy(m.Conversation)
	before, sent := coreTime(), 0
	for n := 0; n < b.N; n += 10 {
		err := m.Update(func(tx telegram.Tx) error {
			for i := n; i < min(n+10, b.N); i++ {
				chat := int64(1 + i/20)
				answer, err := tx.Answer(telegram.Question{
					Chat: chat, User: strconv.FormatInt(chat, 10), ID: int64(i + 1),
					Text: fmt.Sprintf(say, 10+i%20), When: time.Unix(1_790_000_000+int64(i), 0),
				})
				if err != nil {
					return err
				}
				for _, f := range answer.Files {
					painted, _ := paint(f)
					sent += len(painted.Content)
				}
				tx.StrikeOff(tx.Queue(chat, []byte(answer.Text)))
				tx.MarkDone(strconv.Itoa(i))
			}
			return nil
		})
		if err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric((coreTime()-before).Seconds()*1000/float64(b.N), "core-ms/message")
	b.ReportMetric(float64(sent)/1000/float64(b.N), "sent-kB/message")
	if info, err := os.Stat(path); err == nil {
		b.ReportMetric(float64(info.Size())/1000/float64(b.N), "disk-kB/message")
	}
}

// coreTime is what this process has used of the cores.
func coreTime() time.Duration {
	var used unix.Rusage
	if err := unix.Getrusage(unix.RUSAGE_SELF, &used); err != nil {
		return 0
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
