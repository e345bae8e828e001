//go:build cluster

package cluster

import (
	"context"
	"io"
	"strings"
	"testing"
	"time"
)

// A worker dies over a clip without a word: the queue waits for its sign of life,
// and gives the clip to another.
func TestAnotherWorkerHearsWhatADeadOneHad(t *testing.T) {
	s := sharedServers(t, 1)
	asks, dies, lives := open(t, s), open(t, s), open(t, s)
	began := make(chan struct{})
	ctx, bury := context.WithCancel(t.Context())
	defer bury()
	go func() {
		_ = dies.Listen(ctx, func(ctx context.Context, _ io.Reader) ([]byte, error) {
			close(began)
			<-ctx.Done()
			return nil, ctx.Err()
		})
	}()
	answer := make(chan string, 1)
	go func() {
		got, err := asks.Ask(within(t, 40*time.Second), strings.NewReader("ell"))
		if err != nil {
			t.Error(err)
		}
		answer <- string(got)
	}()
	<-began
	dies.Close()
	defer listening(t, lives, shout)()
	if got := <-answer; got != "ELL" {
		t.Errorf("heard %q", got)
	}
}
