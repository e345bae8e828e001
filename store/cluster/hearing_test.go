package cluster

import (
	"context"
	"errors"
	"io"
	"strings"
	"testing"
	"time"
)

// shout hears a clip of text.
func shout(_ context.Context, clip io.Reader) ([]byte, error) {
	text, err := io.ReadAll(clip)
	if string(text) == "noise" {
		return nil, errors.New("only\nnoise")
	}
	return []byte(strings.ToUpper(string(text))), err
}

func listening(t testing.TB, c *Cluster, hear func(context.Context, io.Reader) ([]byte, error)) (stop func()) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- c.Listen(ctx, hear) }()
	return func() {
		cancel()
		if err := <-done; err != nil {
			t.Errorf("listening ended with %v", err)
		}
	}
}

func TestClipsAreHeard(t *testing.T) {
	t.Parallel()
	eachKind(t, func(t *testing.T, s *servers) {
		asks, hears := open(t, s), open(t, s)
		defer listening(t, hears, shout)()
		ctx := within(t, 20*time.Second)
		long := strings.Repeat("twelve by forty-five ", 20_000) // several pieces
		for _, clip := range []string{"twelve by forty-five", long[:300_000]} {
			got, err := asks.Ask(ctx, strings.NewReader(clip))
			if want := strings.ToUpper(clip); err != nil || string(got) != want {
				t.Errorf("a clip of %d bytes: %d bytes, %v", len(clip), len(got), err)
			}
		}
		_, err := asks.Ask(ctx, strings.NewReader("noise"))
		if !errors.Is(err, ErrUnheard) || !strings.Contains(err.Error(), "only noise") {
			t.Errorf("noise: %v", err)
		}
		if left, err := asks.clips.List(ctx); err == nil && len(left) > 0 {
			t.Errorf("%d clips are left", len(left))
		}
	})
}

func TestAskWaitsAsLongAsItsContext(t *testing.T) {
	t.Parallel()
	c := open(t, sharedServers(t, 1))
	if _, err := c.Ask(within(t, 200*time.Millisecond), strings.NewReader("hello")); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("nobody listens: %v", err)
	}
	// The note is still in the queue; whoever gets it finds that nobody waits.
	heard := make(chan struct{}, 9)
	defer listening(t, c, func(ctx context.Context, clip io.Reader) ([]byte, error) {
		heard <- struct{}{}
		return shout(ctx, clip)
	})()
	if got, err := c.Ask(within(t, 20*time.Second), strings.NewReader("again")); err != nil || string(got) != "AGAIN" {
		t.Errorf("%q, %v", got, err)
	}
	if len(heard) != 1 {
		t.Errorf("%d clips were heard, one of them for nobody", len(heard))
	}
}

func TestAnotherWorkerHearsWhatOneLeft(t *testing.T) {
	s := sharedServers(t, 1)
	asks, first, second := open(t, s), open(t, s), open(t, s)
	began := make(chan struct{})
	stop := listening(t, first, func(ctx context.Context, _ io.Reader) ([]byte, error) {
		close(began)
		<-ctx.Done()
		return nil, ctx.Err()
	})
	answer := make(chan string, 1)
	go func() {
		got, err := asks.Ask(within(t, 20*time.Second), strings.NewReader("ell"))
		if err != nil {
			t.Error(err)
		}
		answer <- string(got)
	}()
	<-began
	defer listening(t, second, shout)()
	stop()
	if got := <-answer; got != "ELL" {
		t.Errorf("heard %q", got)
	}
}
