package cluster

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// readAll reads so many updates, from behind a place.
func readAll(t *testing.T, c *Cluster, behind int64, many int) (all []string) {
	t.Helper()
	ctx := within(t, 30*time.Second)
	for len(all) < many {
		got, err := c.Next(ctx, behind, 10)
		if err != nil && ctx.Err() == nil {
			t.Logf("waited out: %v", err)
			continue
		}
		if err != nil {
			t.Fatalf("after %d updates: %v", len(all), err)
		}
		for _, u := range got {
			if u.At <= behind {
				t.Errorf("place %d comes behind %d", u.At, behind)
			}
			behind = u.At
			all = append(all, string(u.Raw))
		}
	}
	return all
}

func said(from, to int) (all []string) {
	for i := from; i <= to; i++ {
		all = append(all, fmt.Sprintf(`{"update_id":%d}`, i))
	}
	return all
}

func put(t *testing.T, c *Cluster, from, to int) {
	t.Helper()
	for i := from; i <= to; i++ {
		if err := c.Put(t.Context(), int64(i), -100200-int64(i%3), []byte(said(i, i)[0])); err != nil {
			t.Fatal(err)
		}
	}
}

func TestUpdatesComeInOrderAndOnce(t *testing.T) {
	t.Parallel()
	eachKind(t, func(t *testing.T, s *servers) {
		receiver, worker := open(t, s), open(t, s)
		put(t, receiver, 1, 25)
		put(t, worker, 20, 30) // another receiver had some of them too
		if diff := cmp.Diff(said(1, 30), readAll(t, worker, 0, 30)); diff != "" {
			t.Error(diff)
		}
		if diff := cmp.Diff(said(11, 30), readAll(t, receiver, 10, 20)); diff != "" {
			t.Error("from a place on:", diff)
		}
	})
}

func TestNextWaits(t *testing.T) {
	c := open(t, sharedServers(t, 1))
	ctx, cancel := context.WithTimeout(t.Context(), 50*time.Millisecond)
	defer cancel()
	if got, err := c.Next(ctx, 0, 10); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("of nothing: %v, %v", got, err)
	}
	var wait sync.WaitGroup
	wait.Go(func() {
		if err := c.Put(t.Context(), 1, 1, []byte(said(1, 1)[0])); err != nil {
			t.Error(err)
		}
	})
	if diff := cmp.Diff(said(1, 1), readAll(t, c, 0, 1)); diff != "" {
		t.Error(diff)
	}
	wait.Wait()
}

func TestNextReturnsNoMoreThanAsked(t *testing.T) {
	c := open(t, sharedServers(t, 1))
	put(t, c, 1, 9)
	for range 2 { // the same place once more: from there
		got, err := c.Next(t.Context(), 2, 4)
		if err != nil {
			t.Fatal(err)
		}
		if len(got) == 0 || len(got) > 4 || got[0].At != 3 {
			t.Errorf("got %d updates, the first at %d; want up to 4 from 3", len(got), got[0].At)
		}
	}
}

func TestPutGivesUpWithoutServers(t *testing.T) {
	s := startServers(t, 1)
	c := open(t, s)
	if !c.Connected() {
		t.Error("not connected at first")
	}
	s.stopAll()
	ctx := within(t, 300*time.Millisecond)
	if err := c.Put(ctx, 1, 1, nil); err == nil || !strings.Contains(err.Error(), "update 1") {
		t.Errorf("without servers: %v", err)
	}
	if _, err := c.Next(ctx, 0, 1); err == nil {
		t.Error("without servers there is a next update")
	}
	if c.Connected() {
		t.Error("connected to a server that was stopped")
	}
}

func TestNextNoticesAnotherStream(t *testing.T) {
	c := open(t, sharedServers(t, 1))
	put(t, c, 1, 3)
	if err := c.js.DeleteStream(t.Context(), c.name("updates")); err != nil {
		t.Fatal(err)
	}
	if _, err := c.Next(t.Context(), 3, 1); !errors.Is(err, ErrReplaced) {
		t.Errorf("of a stream that was taken away: %v", err)
	}
	again := open(t, sharedServers(t, 1))
	put(t, again, 4, 9)
	if _, err := c.Next(t.Context(), 3, 1); !errors.Is(err, ErrReplaced) {
		t.Errorf("of another stream: %v", err)
	}
	if again.UpdatesID() == c.UpdatesID() {
		t.Error("two streams have one name")
	}
}

func TestUpdatesDealtWithAreTakenAway(t *testing.T) {
	c := open(t, sharedServers(t, 1))
	most := updatesBehind + updatesBehind/5 + 1
	for i := 1; i <= most; i++ {
		if _, err := c.js.PublishAsync(c.subject("updates.1"), []byte("{}")); err != nil {
			t.Fatal(err)
		}
		if i%1000 == 0 || i == most {
			<-c.js.PublishAsyncComplete()
		}
	}
	if _, err := c.Next(within(t, 10*time.Second), int64(most-1), 1); err != nil {
		t.Fatal(err)
	}
	info, err := c.updates.Info(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if info.State.Msgs != updatesBehind+1 {
		t.Errorf("%d of %d are still there, want %d", info.State.Msgs, most, updatesBehind+1)
	}
}

func TestFullStreamRefusesUpdates(t *testing.T) {
	t.Parallel()
	c := open(t, sharedServers(t, 1))
	config := c.updates.CachedInfo().Config
	config.MaxBytes = 200
	if _, err := c.js.UpdateStream(t.Context(), config); err != nil {
		t.Fatal(err)
	}
	var err error
	for i := int64(1); i < 10 && err == nil; i++ {
		err = c.Put(within(t, time.Second), i, 1, []byte(`{"update_id":0}`))
	}
	if !errors.Is(err, ErrFull) {
		t.Errorf("a full stream: %v", err)
	}
	if got := readAll(t, c, 0, 1); len(got) == 0 {
		t.Error("what was put before is gone")
	}
}

// TestUpdatesWithoutANumber: one without a number is never taken for another.
func TestUpdatesWithoutANumber(t *testing.T) {
	c := open(t, sharedServers(t, 1))
	for _, raw := range []string{`"bent"`, `"bent"`, `"broken"`} {
		if err := c.Put(t.Context(), 0, 0, []byte(raw)); err != nil {
			t.Fatal(err)
		}
	}
	var got []string
	for behind := int64(0); len(got) < 3; {
		updates, err := c.Next(within(t, time.Minute), behind, 10)
		if err != nil {
			t.Fatal(err)
		}
		for _, u := range updates {
			got, behind = append(got, string(u.Raw)), u.At
		}
	}
	if want := []string{`"bent"`, `"bent"`, `"broken"`}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
