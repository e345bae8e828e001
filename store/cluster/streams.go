package cluster

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"
	"github.com/nats-io/nuid"
)

// What stands in the metadata of each stream: that it is ours, and by which
// layout. A newer dogleg that lays them out differently counts up.
const (
	layoutKey = "dogleg"
	layout    = "1"
	idKey     = "dogleg-id" // of this very stream: one made anew has another
)

// Bounds of what is kept for a while only.
const (
	updatesKept  = 48 * time.Hour // twice as long as Telegram keeps them
	updatesBytes = 256 << 20      // some hundred thousand: hours at Telegram's pace
	repeatsKnown = 10 * time.Minute
	clipsKept    = time.Hour
	hearingKept  = 10 * time.Minute
)

// prepare makes or checks all that is kept of the bot.
func (c *Cluster) prepare(ctx context.Context) error {
	if err := c.request(ctx, "JetStream", func(ctx context.Context) error {
		_, err := c.js.AccountInfo(ctx)
		return err
	}); err != nil {
		return err
	}
	replicas := c.replicas()
	for _, make := range []func(context.Context, int) error{
		c.makeUpdates, c.makeJournal, c.makeHearing, c.makeLeases, c.makeSnapshots, c.makeClips,
	} {
		if err := make(ctx, replicas); err != nil {
			return err
		}
	}
	return nil
}

// replicas is on how many servers everything is kept.
func (c *Cluster) replicas() int {
	switch {
	case c.options.Replicas > 0:
		return c.options.Replicas
	case c.conn.ConnectedClusterName() != "":
		return 3
	}
	return 1
}

func (c *Cluster) makeUpdates(ctx context.Context, replicas int) (err error) {
	c.updates, err = c.stream(ctx, jetstream.StreamConfig{
		Name: c.name("updates"), Subjects: []string{c.subject("updates.*")}, Replicas: replicas,
		MaxAge: updatesKept, MaxBytes: updatesBytes, Discard: jetstream.DiscardNew, Duplicates: repeatsKnown,
	})
	return err
}

func (c *Cluster) makeJournal(ctx context.Context, replicas int) (err error) {
	c.journal, err = c.stream(ctx, jetstream.StreamConfig{
		Name: c.name("journal"), Subjects: []string{c.subject("journal")}, Replicas: replicas,
	})
	return err
}

func (c *Cluster) makeHearing(ctx context.Context, replicas int) error {
	stream, err := c.stream(ctx, jetstream.StreamConfig{
		Name: c.name("hearing"), Subjects: []string{c.subject("hearing")}, Replicas: replicas,
		Retention: jetstream.WorkQueuePolicy, MaxAge: hearingKept,
	})
	if err != nil {
		return err
	}
	return c.request(ctx, c.name("hearing"), func(ctx context.Context) (err error) {
		c.hearing, err = stream.CreateOrUpdateConsumer(ctx, jetstream.ConsumerConfig{
			Durable: "hearing", AckPolicy: jetstream.AckExplicitPolicy, AckWait: hearingAckWait,
		})
		return err
	})
}

func (c *Cluster) makeLeases(ctx context.Context, replicas int) error {
	config := jetstream.KeyValueConfig{
		Bucket: c.name("leases"), TTL: c.options.Lease, Replicas: replicas, Metadata: fresh(),
	}
	if err := c.bucket(ctx, "KV_"+config.Bucket, replicas, func(ctx context.Context) (err error) {
		c.leases, err = c.js.KeyValue(ctx, config.Bucket)
		if errors.Is(err, jetstream.ErrBucketNotFound) {
			c.leases, err = c.js.CreateKeyValue(ctx, config)
		}
		return err
	}); err != nil {
		return err
	}
	return c.request(ctx, config.Bucket, func(ctx context.Context) error {
		status, err := c.leases.Status(ctx)
		if err == nil {
			c.leaseTime = status.TTL() // who made the bucket has decided
		}
		return err
	})
}

func (c *Cluster) makeSnapshots(ctx context.Context, replicas int) (err error) {
	c.snapshots, err = c.objects(ctx, jetstream.ObjectStoreConfig{
		Bucket: c.name("snapshots"), Replicas: replicas, Compression: true, Metadata: fresh(),
	})
	return err
}

func (c *Cluster) makeClips(ctx context.Context, replicas int) (err error) {
	c.clips, err = c.objects(ctx, jetstream.ObjectStoreConfig{
		Bucket: c.name("clips"), Replicas: replicas, TTL: clipsKept, Metadata: fresh(),
	})
	return err
}

// objects makes or checks an object store.
func (c *Cluster) objects(ctx context.Context, config jetstream.ObjectStoreConfig) (store jetstream.ObjectStore, err error) {
	err = c.bucket(ctx, "OBJ_"+config.Bucket, config.Replicas, func(ctx context.Context) (err error) {
		store, err = c.js.ObjectStore(ctx, config.Bucket)
		if errors.Is(err, jetstream.ErrBucketNotFound) {
			store, err = c.js.CreateObjectStore(ctx, config)
		}
		return err
	})
	return store, err
}

// stream makes or checks a stream.
func (c *Cluster) stream(ctx context.Context, config jetstream.StreamConfig) (stream jetstream.Stream, err error) {
	config.Metadata = fresh()
	err = c.bucket(ctx, config.Name, config.Replicas, func(ctx context.Context) (err error) {
		stream, err = c.js.Stream(ctx, config.Name)
		if errors.Is(err, jetstream.ErrStreamNotFound) {
			stream, err = c.js.CreateStream(ctx, config)
		}
		return err
	})
	return stream, err
}

// fresh is the metadata of a stream that is made now.
func fresh() map[string]string { return map[string]string{layoutKey: layout, idKey: nuid.Next()} }

// bucket makes or opens a stream, also one with a bucket in it, and looks
// whether it is ours.
func (c *Cluster) bucket(ctx context.Context, stream string, replicas int, open func(context.Context) error) error {
	if err := c.request(ctx, stream, open); err != nil {
		return err
	}
	return c.request(ctx, stream, func(ctx context.Context) error { return c.check(ctx, stream, replicas) })
}

// check looks whether a stream is ours, and spreads one over more servers that
// was made when there were fewer.
func (c *Cluster) check(ctx context.Context, name string, replicas int) error {
	stream, err := c.js.Stream(ctx, name)
	if err != nil {
		return err
	}
	config := stream.CachedInfo().Config
	c.ids[name] = config.Metadata[idKey]
	if got := config.Metadata[layoutKey]; got != layout {
		return fmt.Errorf("%w: %s is laid out as %q, this dogleg knows %q; use the dogleg that made it, or another bot's name",
			ErrForeign, name, got, layout)
	}
	if config.Replicas >= replicas {
		return nil
	}
	c.log.Info("a stream goes to more servers", "stream", name, "from", config.Replicas, "to", replicas)
	config.Replicas = replicas
	_, err = c.js.UpdateStream(ctx, config)
	return err
}

// request makes a request about a stream until there is an answer, and says in
// people's words what is wrong.
func (c *Cluster) request(ctx context.Context, stream string, try func(context.Context) error) error {
	err := c.patiently(ctx, writes, func(ctx context.Context) error {
		err := try(ctx)
		if denied := c.denied.latest(); err != nil && denied != nil {
			return errDenied
		}
		return err
	})
	if err != nil {
		return c.explained(stream, err)
	}
	return nil
}

// errDenied: what a server doesn't let this user do gets no answer, only a word
// beside it.
var errDenied = errors.New("denied")

// explained says what an error while preparing means and what would work.
func (c *Cluster) explained(what string, err error) error {
	var code jetstream.ErrorCode
	if api := apiError(err); api != nil {
		code = api.ErrorCode
	}
	switch {
	case errors.Is(err, ErrForeign):
		return err
	case errors.Is(err, errDenied):
		return fmt.Errorf("%w: %s: %w; let this user publish to $JS.API.>, $JS.ACK.>, $KV.>, $O.>, dogleg.> and _INBOX.>, and subscribe to _INBOX.>",
			ErrRefused, c.shown, c.denied.latest())
	case code == jetstream.JSErrCodeJetStreamNotEnabled || code == jetstream.JSErrCodeJetStreamNotEnabledForAccount:
		return fmt.Errorf("%w: %s: %w; start the servers with -js, or with jetstream in their configuration and the account's", ErrUnfit, c.shown, err)
	case code == tooFewPeers || code == notClustered:
		return fmt.Errorf("%w: %s: %s on %d servers: %w; start as many with JetStream, or a single one that is in no cluster",
			ErrUnfit, c.shown, what, c.replicas(), err)
	case code == noStorage:
		return fmt.Errorf("%w: %s: %s: %w; give JetStream more room (max_file_store)", ErrUnfit, c.shown, what, err)
	case c.passingAnswer(err):
		return fmt.Errorf("%w: JetStream at %s doesn't answer for %s: %w; is it on (-js), and are more than half of the servers up", ErrUnreachable, c.shown, what, err)
	}
	return fmt.Errorf("%s at %s: %w", what, c.shown, err)
}

// passingAnswer says whether nobody answered until patience ended.
func (c *Cluster) passingAnswer(err error) bool {
	return c.passing(err) || errors.Is(err, context.Canceled) || errors.Is(err, nats.ErrTimeout)
}
