package store_test

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"dogleg/store"
)

// BenchmarkMessages measures what one message costs to keep, by how many share
// a transaction: a commit waits for the disk, a write doesn't.
func BenchmarkMessages(b *testing.B) {
	for _, together := range []int{1, 10, 100} {
		b.Run(fmt.Sprintf("%d together", together), func(b *testing.B) { keepMessages(b, fresh(b), together) })
	}
}

// BenchmarkShipped measures the same on a copy that ships what was written, to
// where it costs nothing, and the other half of it: writing that into another copy.
func BenchmarkShipped(b *testing.B) {
	for _, together := range []int{1, 10, 100} {
		db, j := shipping(b)
		b.Run(fmt.Sprintf("%d together", together), func(b *testing.B) { keepMessages(b, db, together) })
		there := freshCopy(b)
		b.Run(fmt.Sprintf("%d together, applied", together), func(b *testing.B) {
			for n := 0; n < b.N; n += together {
				at := position(b, there)
				if at == uint64(len(j.all)) {
					b.StopTimer()
					there, at = freshCopy(b), 0
					b.StartTimer()
				}
				if err := there.Apply(j.all[at], at+1); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// keepMessages keeps b.N messages, of a thousand people.
func keepMessages(b *testing.B, db *store.DB, together int) {
	for n := 0; n < b.N; n += together {
		update(b, db, func(tx *store.Tx) {
			for i := n; i < n+together; i++ {
				chat := store.ChatOf("telegram", strconv.Itoa(i%1000))
				tx.Person(chat.Person("7")).AddJob(store.Job{Name: "laundry", Asked: "10 set 45s 2 pvc"})
				tx.StrikeOff(tx.Queue(chat, []byte("the reply")))
				tx.MarkDone(strconv.Itoa(i))
			}
		})
	}
}

// BenchmarkCompact compacts a file of 200 MB while somebody writes a job after
// another, and takes the longest that one of these waited. Before, while nothing is
// compacted, is the floor.
func BenchmarkCompact(b *testing.B) {
	db := open(b, filepath.Join(b.TempDir(), "juniper.db"))
	db.Keep = 1 << 20
	for range 200 {
		update(b, db, func(tx *store.Tx) {
			for n := range 50 {
				tx.Person(upstairs.Person(fmt.Sprint(n))).AddJob(store.Job{Asked: strings.Repeat("12 set 45s ", 1800)})
			}
		})
	}
	longest := func(during func()) (waited time.Duration) {
		over := make(chan struct{})
		go func() { during(); close(over) }()
		for {
			select {
			case <-over:
				return waited
			default:
				began := time.Now()
				update(b, db, func(tx *store.Tx) { tx.Person(dana).AddJob(store.Job{Asked: "12 set 45s"}) })
				waited = max(waited, time.Since(began))
			}
		}
	}
	var before, meanwhile time.Duration
	for b.Loop() {
		before = max(before, longest(func() { time.Sleep(time.Second) }))
		meanwhile = max(meanwhile, longest(func() {
			if err := db.Compact(b.Context()); err != nil {
				b.Error(err)
			}
		}))
	}
	b.ReportMetric(float64(before.Microseconds())/1000, "ms-longest-before")
	b.ReportMetric(float64(meanwhile.Microseconds())/1000, "ms-longest-meanwhile")
}
