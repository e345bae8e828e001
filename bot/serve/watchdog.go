package serve

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"dogleg/bot/telegram"
	"dogleg/store"

	"github.com/coreos/go-systemd/v22/daemon"
)

// errPulse ends a transaction that was begun only to see whether it can be.
var errPulse = errors.New("nothing to be written")

// pulse says whether a message could be answered now: it takes the one place of
// those who write, which it gets only when nobody hangs on to it, and writes
// nothing. A disk that is full or slow still has a pulse, since a restart would
// mend neither.
func pulse(db *store.DB) func(context.Context) error {
	beating := make(chan struct{}, 1) // of those that hang there is one, not one a try
	return func(ctx context.Context) error {
		select {
		case beating <- struct{}{}:
		case <-ctx.Done():
			return errors.New("nothing gets written any more")
		}
		beat := make(chan error, 1)
		go func() {
			err := db.Update(func(*store.Tx) error { return errPulse })
			<-beating
			beat <- err
		}()
		select {
		case err := <-beat:
			if errors.Is(err, errPulse) {
				return nil
			}
			return err
		case <-ctx.Done():
			return errors.New("nothing gets written any more")
		}
	}
}

// watch tells systemd, if it is there, that dogleg is ready, whether updates are
// received, and, as often as it wants to hear it, that dogleg has a pulse.
// Without one it says nothing, and systemd kills it and starts it again.
//
// Ready is said at once and not only when Telegram was reached: a network that is
// away for a morning is no fault of a service that waits for it.
func watch(ctx context.Context, health *telegram.Health, log *slog.Logger) (stop func()) {
	told, err := daemon.SdNotify(false, daemon.SdNotifyReady)
	if err != nil {
		log.Warn("systemd can't be told", "error", err)
	}
	if !told {
		return func() {}
	}
	ctx, cancel := context.WithCancel(ctx)
	over := make(chan struct{})
	go func() {
		defer close(over)
		beat(ctx, health, log)
		_, _ = daemon.SdNotify(false, daemon.SdNotifyStopping)
	}()
	return func() { cancel(); <-over }
}

// statusEvery is how often systemd is told where it has no watchdog.
const statusEvery = 10 * time.Second

func beat(ctx context.Context, health *telegram.Health, log *slog.Logger) {
	every, err := daemon.SdWatchdogEnabled(false)
	if err != nil || every == 0 {
		every = 2 * statusEvery
	}
	for ctx.Err() == nil {
		beatOnce(ctx, every/2, health, log)
		select {
		case <-time.After(every / 2):
		case <-ctx.Done():
		}
	}
}

func beatOnce(ctx context.Context, within time.Duration, health *telegram.Health, log *slog.Logger) {
	beating, cancel := context.WithTimeout(ctx, within)
	defer cancel()
	if err := health.Pulse(beating); err != nil {
		if ctx.Err() == nil {
			log.Error("no pulse", "error", err)
		}
		return
	}
	status := "STATUS=receiving no updates"
	switch {
	case health.Receiving.Load():
		status = "STATUS=receiving updates"
	case health.StandBy != nil && health.StandBy(beating) == nil:
		status = "STATUS=standing by"
	}
	_, _ = daemon.SdNotify(false, daemon.SdNotifyWatchdog+"\n"+status)
}
