package cluster

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"dogleg/store"
)

// payload is about what one message of a user's writes, and about an update.
var payload = strings.Repeat("juniper ", 125)

// eachKindOf is eachKind for benchmarks, with servers of their own.
func eachKindOf(b *testing.B, bench func(*testing.B, *servers)) {
	for _, many := range []int{1, 3} {
		b.Run(fmt.Sprintf("servers=%d", many), func(b *testing.B) { bench(b, startServers(b, many)) })
	}
}

// BenchmarkUpdate is a transaction of 1 KB: in a file of this machine, and with
// the journal.
func BenchmarkUpdate(b *testing.B) {
	update := func(b *testing.B, db *store.DB) {
		n := 0
		for b.Loop() {
			n++
			if err := db.Update(func(tx *store.Tx) error {
				tx.Quarantine(fmt.Sprint(n), []byte(payload))
				return nil
			}); err != nil {
				b.Fatal(err)
			}
		}
	}
	b.Run("file", func(b *testing.B) {
		db, err := store.Open(filepath.Join(b.TempDir(), "juniper.db"))
		if err != nil {
			b.Fatal(err)
		}
		defer db.Close()
		update(b, db)
	})
	eachKindOf(b, func(b *testing.B, s *servers) { update(b, startWorker(b, s).db()) })
}

// BenchmarkPut is an update of 1 KB put, one after the other.
func BenchmarkPut(b *testing.B) {
	eachKindOf(b, func(b *testing.B, s *servers) {
		c := open(b, s)
		n := int64(0)
		for b.Loop() {
			n++
			if err := c.Put(b.Context(), n, n%50, json.RawMessage(payload)); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkAsk is a clip of 20 KB that is heard in no time.
func BenchmarkAsk(b *testing.B) {
	eachKindOf(b, func(b *testing.B, s *servers) {
		c := open(b, s)
		defer listening(b, open(b, s), shout)()
		for b.Loop() {
			if _, err := c.Ask(b.Context(), strings.NewReader(strings.Repeat(payload, 20))); err != nil {
				b.Fatal(err)
			}
		}
	})
}
