package cluster

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/nats-io/nats.go/jetstream"
	"github.com/nats-io/nuid"
)

// Objects in the store of snapshots: their names are the kind, the place in the
// journal at which they stand, and a word of their own. The place of a snapshot
// may be before what is in it: what it says already is passed over.
const (
	snapshotKind = "snapshot"
	loadedKind   = "loaded"
	journalKey   = "journal" // in its metadata: the journal it belongs to
)

// When and how snapshots are made.
const (
	longJournal  = 16 << 20 // bytes; more where the last snapshot is larger
	snapshotFor  = 10 * time.Minute
	retryAfter   = time.Minute
	listFor      = 5 * time.Second
	stalledAfter = 10 * time.Second
	downloads    = 3 // tries
)

// longest is how many bytes the journal may have until a snapshot is made.
func (k *Copy) longest() int64 { return max(longJournal, k.saved.Load()) }

func (k *Copy) tellFilled() {
	select {
	case k.filled <- struct{}{}:
	default: // has been told
	}
}

// tend makes snapshots while this process leads: when the journal is long, and
// when somebody was forgotten, so that nothing of them is left in it.
func (k *Copy) tend(ctx context.Context) {
	if info, err := k.c.journalInfo(ctx); err == nil {
		k.since.Store(int64(info.State.Bytes))
	}
	for ctx.Err() == nil {
		wait := tidyEvery
		k.tidy(ctx)
		if k.forgot.Load() || k.since.Load() > k.longest() {
			if err := k.Snapshot(ctx); err != nil && ctx.Err() == nil {
				k.c.log.Error("no snapshot could be made; the journal grows until one is", "error", err)
				wait = retryAfter
				_ = sleep(ctx, shortestRetry)
			}
		}
		k.untilFilled(ctx, wait)
	}
}

// shortestRetry is for when writing goes on and tells at once that the journal
// is long.
const shortestRetry = 10 * time.Second

func (k *Copy) untilFilled(ctx context.Context, wait time.Duration) {
	timer := time.NewTimer(wait)
	defer timer.Stop()
	select {
	case <-ctx.Done():
	case <-timer.C:
	case <-k.filled:
	}
}

// Snapshot keeps the whole database as it is now, and takes away from the
// journal what is in it, and older snapshots. Nothing is taken away before the
// snapshot was read back whole.
func (k *Copy) Snapshot(ctx context.Context) (err error) {
	k.saving.Lock()
	defer k.saving.Unlock()
	ctx, cancel := context.WithTimeout(ctx, snapshotFor)
	defer cancel()
	since := k.since.Load()
	forgot := k.forgot.Swap(false)
	defer func() {
		if err != nil && forgot {
			k.forgot.Store(true)
		}
	}()
	at, err := k.db.Position()
	if err != nil {
		return err
	}
	size, err := k.keep(ctx, at)
	if err != nil {
		return fmt.Errorf("a snapshot: %w", err)
	}
	err = k.c.patiently(ctx, writes, func(ctx context.Context) error {
		return k.c.journal.Purge(ctx, jetstream.WithPurgeSequence(at+1))
	})
	if err != nil {
		return fmt.Errorf("shortening the journal: %w", err)
	}
	k.since.Add(-since)
	k.saved.Store(size)
	k.snapshots.Add(1)
	k.c.log.Info("a snapshot was made", "at", at, "bytes", size)
	return errors.Join(k.c.prune(ctx, at), k.sweepUploads(ctx))
}

// keep stores a snapshot, and reads it back.
func (k *Copy) keep(ctx context.Context, at uint64) (size int64, err error) {
	path := k.path + ".snapshot"
	defer os.Remove(path)
	file, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR|os.O_TRUNC, 0o600)
	if err != nil {
		return 0, err
	}
	defer file.Close()
	if err := k.db.Backup(file); err != nil {
		return 0, err
	}
	if size, err = file.Seek(0, io.SeekEnd); err != nil {
		return 0, err
	}
	name, err := k.c.upload(ctx, snapshotKind, at, file)
	if err == nil {
		err = k.c.download(ctx, name, os.DevNull)
	}
	return size, err
}

// upload stores a file.
func (c *Cluster) upload(ctx context.Context, kind string, at uint64, file io.ReadSeeker) (name string, err error) {
	if _, err := file.Seek(0, io.SeekStart); err != nil {
		return "", err
	}
	name = fmt.Sprintf("%s-%d-%s", kind, at, nuid.Next())
	_, err = c.snapshots.Put(ctx, jetstream.ObjectMeta{
		Name: name, Metadata: map[string]string{journalKey: c.ids[c.name("journal")]},
	}, file)
	return name, err
}

// download fetches an object whole into a file; its digest is compared.
func (c *Cluster) download(ctx context.Context, name, path string) error {
	var waited pauses
	for try := 1; ; try++ {
		err := c.downloadOnce(ctx, name, path)
		if err == nil || try == downloads {
			return err
		}
		if ended := waited.pause(ctx); ended != nil {
			return fmt.Errorf("%w: %w", ended, err)
		}
	}
}

func (c *Cluster) downloadOnce(ctx context.Context, name, path string) error {
	ctx, cancel := context.WithTimeout(ctx, snapshotFor)
	defer cancel()
	ctx, stall := context.WithCancelCause(ctx)
	defer stall(nil)
	file, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	object, err := c.snapshots.Get(ctx, name)
	if err != nil {
		return errors.Join(err, file.Close())
	}
	stalled := time.AfterFunc(stalledAfter, func() { stall(errStalled) })
	defer stalled.Stop()
	_, err = io.Copy(file, lively{until(ctx, object), func() { stalled.Reset(stalledAfter) }})
	return errors.Join(err, file.Close())
}

// until reads an object until the context ends, and fails with its cause at once then.
// An object that is being read can't be closed meanwhile, and one of which nothing more
// comes is read until the deadline that it was asked for with: that may be minutes, for
// which a goroutine waits.
func until(ctx context.Context, object io.ReadCloser) io.Reader {
	out, in := io.Pipe()
	context.AfterFunc(ctx, func() { _ = out.CloseWithError(context.Cause(ctx)) })
	go func() {
		_, err := io.Copy(in, object)
		_ = in.CloseWithError(err)
		_ = object.Close()
	}()
	return out
}

// errStalled: an object stopped coming.
var errStalled = errors.New("nothing more of an object came")

// lively is a reader that tells of each step.
type lively struct {
	io.Reader
	step func()
}

func (l lively) Read(p []byte) (int, error) {
	n, err := l.Reader.Read(p)
	l.step()
	return n, err
}

// stored is an object in the store of snapshots.
type stored struct {
	name, kind string
	at         uint64
	size       int64
	ours       bool // it belongs to this journal
}

// list lists what is stored. A server that is behind may not know the newest.
func (c *Cluster) list(ctx context.Context) (all []stored, err error) {
	var infos []*jetstream.ObjectInfo
	err = c.patientlyFor(ctx, listFor, reads, func(ctx context.Context) error {
		infos, err = c.snapshots.List(ctx)
		if errors.Is(err, jetstream.ErrNoObjectsFound) {
			return nil
		}
		return err
	})
	for _, info := range infos {
		s := stored{name: info.Name, size: int64(info.Size), ours: info.Metadata[journalKey] == c.ids[c.name("journal")]}
		fields := strings.SplitN(info.Name, "-", 3)
		if len(fields) != 3 {
			continue
		}
		s.kind = fields[0]
		if s.at, err = strconv.ParseUint(fields[1], 10, 64); err == nil {
			all = append(all, s)
		}
	}
	return all, err
}

// newest is the newest snapshot; without a name if there is none.
func (c *Cluster) newest(ctx context.Context) (newest stored, err error) {
	all, err := c.list(ctx)
	others := false
	for _, s := range all {
		others = others || !s.ours
		if s.ours && s.kind == snapshotKind && (newest.name == "" || s.at > newest.at) {
			newest = s
		}
	}
	if err == nil && newest.name == "" && others {
		err = fmt.Errorf("%w: %s, but the snapshots of the old one are there; save them, take the bot's streams away, and load",
			ErrReplaced, c.name("journal"))
	}
	return newest, err
}

// prune takes away what a snapshot at a place makes useless.
func (c *Cluster) prune(ctx context.Context, at uint64) error {
	all, err := c.list(ctx)
	for _, s := range all {
		if s.kind == snapshotKind && s.at < at || s.kind == loadedKind && s.at <= at {
			err = errors.Join(err, c.snapshots.Delete(ctx, s.name))
		}
	}
	return err
}

// forsakenAfter is longer than any upload lasts.
const forsakenAfter = 2 * snapshotFor

// sweepUploads takes away what uploads have left that were broken off: pieces of
// no object. One that still goes on looks the same, so they go when they were
// seen long before.
func (k *Copy) sweepUploads(ctx context.Context) error {
	pieces, err := k.c.piecesOfUploads(ctx)
	if err != nil {
		return err
	}
	seen := map[string]time.Time{}
	for _, subject := range pieces {
		first, known := k.uploads[subject]
		switch {
		case !known:
			seen[subject] = time.Now()
		case time.Since(first) < forsakenAfter:
			seen[subject] = first
		default:
			err = errors.Join(err, k.c.purgeUpload(ctx, subject))
		}
	}
	k.uploads = seen
	return err
}

// piecesOfUploads are the subjects of pieces that belong to no object (yet).
func (c *Cluster) piecesOfUploads(ctx context.Context) (loose []string, err error) {
	ctx, cancel := context.WithTimeout(ctx, listFor)
	defer cancel()
	stream, err := c.js.Stream(ctx, "OBJ_"+c.name("snapshots"))
	if err != nil {
		return nil, err
	}
	info, err := stream.Info(ctx, jetstream.WithSubjectFilter("$O."+c.name("snapshots")+".C.>"))
	if err != nil {
		return nil, err
	}
	objects, err := c.snapshots.List(ctx) // after the pieces: what was whole by then is in it
	if err != nil {
		return nil, err
	}
	for subject := range info.State.Subjects {
		if !slices.ContainsFunc(objects, func(o *jetstream.ObjectInfo) bool { return strings.HasSuffix(subject, "."+o.NUID) }) {
			loose = append(loose, subject)
		}
	}
	return loose, nil
}

func (c *Cluster) purgeUpload(ctx context.Context, subject string) error {
	ctx, cancel := context.WithTimeout(ctx, listFor)
	defer cancel()
	stream, err := c.js.Stream(ctx, "OBJ_"+c.name("snapshots"))
	if err != nil {
		return err
	}
	return stream.Purge(ctx, jetstream.WithPurgeSubject(subject))
}
