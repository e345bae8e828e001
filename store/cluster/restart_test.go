//go:build cluster

package cluster

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestUpdatesSurviveServersThatRestartOneByOne(t *testing.T) {
	s := startServers(t, 3)
	receiver, worker := open(t, s), open(t, s)
	const each = 15
	var wait sync.WaitGroup
	wait.Go(func() {
		for i := 1; i <= 4*each; i++ {
			for receiver.Put(t.Context(), int64(i), 7, []byte(said(i, i)[0])) != nil && t.Context().Err() == nil {
				t.Log("waited out: a put")
			}
			if i%each == 0 && i/each <= 3 {
				n := s.each[i/each-1]
				s.stop(n)
				s.start(n)
			}
		}
	})
	if diff := cmp.Diff(said(1, 4*each), readAll(t, worker, 0, 4*each)); diff != "" {
		t.Error(diff)
	}
	wait.Wait()
}

func TestLeadingThroughServersThatRestartOneByOne(t *testing.T) {
	s := startServers(t, 3)
	w := startWorker(t, s, hasty)
	db := w.db()
	var wrote atomic.Int64
	ctx, cancel := context.WithCancel(t.Context())
	var wait sync.WaitGroup
	wait.Go(func() {
		for i := 1; ctx.Err() == nil; {
			err := mark(db, fmt.Sprint(i))
			switch {
			case err == nil:
				wrote.Store(int64(i))
				i++
			case errors.Is(err, ErrDeposed):
				db = w.db()
			default:
				t.Logf("waited out: %v", err)
			}
		}
	})
	for _, n := range s.each {
		s.stop(n)
		before := wrote.Load()
		eventually(t, "written with two servers", func() bool { return wrote.Load() > before+3 })
		s.start(n)
		before = wrote.Load()
		eventually(t, "written with three servers", func() bool { return wrote.Load() > before+3 })
	}
	cancel()
	wait.Wait()
	if missing := lacks(t, db, 1, int(wrote.Load())); missing != nil {
		t.Errorf("of %d that were acknowledged %v are missing", wrote.Load(), missing)
	}
	sameAs(t, db, startWorker(t, s).copy)
}
