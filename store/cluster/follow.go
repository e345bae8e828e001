package cluster

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/nats-io/nats.go/jetstream"
)

// errGap: the journal lacks what is behind the copy, and no snapshot is to be
// seen that has it. There is one, for nothing is taken away before.
var errGap = errors.New("the journal lacks what comes next, and no snapshot has it")

// How a copy follows.
const (
	quietFor  = 2 * time.Second // then the journal itself is asked where it stands
	tidyEvery = time.Hour
)

// follow writes into the copy what others write, until ctx ends.
func (k *Copy) follow(ctx context.Context) error {
	if err := k.rewind(); err != nil {
		return err
	}
	var waited pauses
	said := 0
	tidied := time.Time{}
	for ctx.Err() == nil {
		if time.Since(tidied) > tidyEvery {
			k.tidy(ctx)
			tidied = time.Now()
		}
		err := k.followOne(ctx)
		switch {
		case err == nil:
			waited, said = pauses{}, 0
		case ctx.Err() != nil && k.db != nil:
		case k.db == nil || k.c.believed(err, &said): // without a database there is nothing to go on with
			return fmt.Errorf("following the journal, at %d: %w", k.read, err)
		default:
			k.c.log.Warn("following the journal has to wait", "error", err)
			_ = waited.pause(ctx)
		}
	}
	return nil
}

// tidy takes out of the file what is left of people who were forgotten.
func (k *Copy) tidy(ctx context.Context) {
	if !k.db.Forgotten() {
		return
	}
	k.forgot.Store(true)
	if err := k.db.Compact(ctx); err != nil && ctx.Err() == nil {
		k.c.log.Error("a copy can't be compacted", "error", err)
	}
}

// followOne takes one message of the journal, or looks where it stands if none
// comes.
func (k *Copy) followOne(ctx context.Context) error {
	quiet, cancel := context.WithTimeout(ctx, quietFor)
	defer cancel()
	k.reader.seek(k.read)
	got, err := k.reader.next(quiet)
	switch {
	case err == nil:
		return k.take(ctx, got)
	case ctx.Err() == nil && quiet.Err() != nil:
		_, err = k.fillGap(ctx)
	}
	return err
}

// take writes what a message says into the copy.
func (k *Copy) take(ctx context.Context, got read) error {
	if got.at != k.read+1 {
		return k.leap(ctx)
	}
	if object := got.Headers().Get(loadHeader); object != "" {
		return k.takeObject(ctx, object)
	}
	changes, whole, err := k.torn.add(got.Headers(), got.Data())
	if err != nil {
		return fmt.Errorf("at %d: %w", got.at, err)
	}
	if whole {
		err = k.db.Apply(changes, got.at)
	}
	if err == nil {
		k.stand(got.at)
	}
	return err
}

// leap goes over a gap, or fails if that isn't possible.
func (k *Copy) leap(ctx context.Context) error {
	before := k.read
	_, err := k.fillGap(ctx)
	if err == nil && k.read == before {
		err = errGap
	}
	return err
}

// takeObject makes an object the copy.
func (k *Copy) takeObject(ctx context.Context, object string) error {
	draft := k.path + ".new"
	if err := k.c.download(ctx, object, draft); err != nil {
		if errors.Is(err, jetstream.ErrObjectNotFound) { // taken away since, for a snapshot
			return k.load(ctx, k.read)
		}
		return err
	}
	return k.replace(draft)
}

// fillGap looks whether the journal still has what is behind the copy, and goes
// to the newest snapshot if it hasn't. It says up to where there is something.
func (k *Copy) fillGap(ctx context.Context) (last uint64, err error) {
	info, err := k.c.journalInfo(ctx)
	if err != nil {
		return 0, err
	}
	if info.State.FirstSeq > k.read+1 {
		k.c.log.Info("the copy begins anew with a snapshot", "copy", k.read, "journal", info.State.FirstSeq)
		err = k.load(ctx, k.read)
	}
	return info.State.LastSeq, err
}

// catchUp follows up to what is in the journal now.
func (k *Copy) catchUp(ctx context.Context) error {
	return k.c.surely(ctx, k.catchUpOnce)
}

func (k *Copy) catchUpOnce(ctx context.Context) error {
	last, err := k.fillGap(ctx)
	for err == nil && k.read < last && ctx.Err() == nil {
		err = k.followOne(ctx)
	}
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	return err
}

// journalInfo asks the journal where it stands.
func (c *Cluster) journalInfo(ctx context.Context) (info *jetstream.StreamInfo, err error) {
	err = c.patiently(ctx, reads, func(ctx context.Context) error {
		info, err = c.same(ctx, c.name("journal"))
		return err
	})
	return info, err
}
