package cluster

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"
	"github.com/nats-io/nuid"
)

// ErrUnheard: a worker had the clip and couldn't make anything of it; its own
// words are in the error.
var ErrUnheard = errors.New("the clip could not be heard")

// Headers of a note in the queue, and of the answer.
const (
	clipHeader  = "Dogleg-Clip"  // the clip's name in the object store
	replyHeader = "Dogleg-Reply" // where the answer goes
	errorHeader = "Dogleg-Error" // why there is none
)

// How a note goes from worker to worker.
const (
	hearingAckWait = 10 * time.Second // for a sign of life
	hearingBeat    = 3 * time.Second
	hearingTries   = 3 // workers that die over a note
	answerFor      = 15 * time.Second
	answerAgain    = time.Second
)

// Ask has a clip heard by whoever is free, and returns what he answered. It
// waits as long as ctx lasts. Where a worker dies over the clip, another gets
// it. A worker's own error is [ErrUnheard].
func (c *Cluster) Ask(ctx context.Context, clip io.Reader) ([]byte, error) {
	said, err := c.ask(ctx, nuid.Next(), clip)
	if err != nil {
		return nil, fmt.Errorf("a clip to be heard: %w", err)
	}
	return said, nil
}

func (c *Cluster) ask(ctx context.Context, name string, clip io.Reader) ([]byte, error) {
	sound, err := io.ReadAll(clip)
	if err != nil {
		return nil, err
	}
	defer c.dropClip(ctx, name)
	if err := c.putClip(ctx, name, sound); err != nil {
		return nil, err
	}
	inbox := c.conn.NewInbox()
	answers, err := c.conn.SubscribeSync(inbox)
	if err != nil {
		return nil, err
	}
	defer func() { _ = answers.Unsubscribe() }()
	if err := c.queue(ctx, name, inbox); err != nil {
		return nil, err
	}
	return answer(ctx, answers)
}

// clipFor is how long moving a clip may take in one go.
const clipFor = 10 * time.Second

// putClip stores the clip.
func (c *Cluster) putClip(ctx context.Context, name string, clip []byte) error {
	return c.patientlyFor(ctx, clipFor, writes, func(ctx context.Context) error {
		_, err := c.clips.PutBytes(ctx, name, clip)
		return err
	})
}

// dropFor is how long taking a clip away may take; it goes by itself later.
const dropFor = time.Second

func (c *Cluster) dropClip(ctx context.Context, name string) {
	ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), dropFor)
	defer cancel()
	_ = c.clips.Delete(ctx, name)
}

// queue puts a note into the queue.
func (c *Cluster) queue(ctx context.Context, clip, reply string) error {
	msg := nats.NewMsg(c.subject("hearing"))
	msg.Header.Set(clipHeader, clip)
	msg.Header.Set(replyHeader, reply)
	return c.patiently(ctx, writes, func(ctx context.Context) error {
		_, err := c.js.PublishMsg(ctx, msg, jetstream.WithMsgID(clip), jetstream.WithRetryAttempts(0))
		return err
	})
}

// answer waits for the answer, and says that it has come.
func answer(ctx context.Context, answers *nats.Subscription) ([]byte, error) {
	msg, err := answers.NextMsgWithContext(ctx)
	if err != nil {
		return nil, fmt.Errorf("no answer: %w", err)
	}
	_ = msg.Respond(nil) // if that gets lost, the answer comes once more, to nobody
	if why := msg.Header.Get(errorHeader); why != "" {
		return nil, fmt.Errorf("%w: %s", ErrUnheard, why)
	}
	return msg.Data, nil
}

// Listen hears clips, one at a time, until ctx ends, and then returns nil. An
// error of hear goes to who asked. What hear returns must fit into a message.
func (c *Cluster) Listen(ctx context.Context, hear func(context.Context, io.Reader) ([]byte, error)) error {
	var waited pauses
	said := 0
	for ctx.Err() == nil {
		note, err := c.note(ctx)
		switch {
		case err == nil:
			waited, said = pauses{}, 0
			c.handle(ctx, note, hear)
		case ctx.Err() != nil:
		case c.believed(err, &said):
			return fmt.Errorf("the queue of clips: %w", err)
		default:
			_ = waited.pause(ctx)
		}
	}
	return nil
}

// note waits for the next in the queue.
func (c *Cluster) note(ctx context.Context) (jetstream.Msg, error) {
	return c.hearing.Next(jetstream.FetchContext(ctx))
}

// handle hears one clip, while telling the queue that it is at it.
func (c *Cluster) handle(ctx context.Context, note jetstream.Msg, hear func(context.Context, io.Reader) ([]byte, error)) {
	stop := beating(note)
	defer stop()
	said, err := c.heardClip(ctx, note, hear)
	switch {
	case ctx.Err() != nil:
		_ = note.Nak() // this worker goes; another one has it at once
	case errors.Is(err, jetstream.ErrObjectNotFound): // who asked has gone
		_ = note.Term()
	default:
		c.reply(ctx, note, said, err)
	}
}

// beating tells the queue that a note is being heard.
func beating(note jetstream.Msg) (stop func()) {
	beats := time.NewTicker(hearingBeat)
	done := make(chan struct{})
	go func() {
		for {
			select {
			case <-beats.C:
				_ = note.InProgress()
			case <-done:
				return
			}
		}
	}()
	return func() { beats.Stop(); close(done) }
}

// heardClip fetches a clip and hears it.
func (c *Cluster) heardClip(ctx context.Context, note jetstream.Msg, hear func(context.Context, io.Reader) ([]byte, error)) ([]byte, error) {
	if about, err := note.Metadata(); err == nil && about.NumDelivered > hearingTries {
		return nil, fmt.Errorf("%d workers have stopped over it", hearingTries)
	}
	clip, err := c.fetchClip(ctx, note.Headers().Get(clipHeader))
	if err != nil {
		return nil, err
	}
	return hear(ctx, bytes.NewReader(clip))
}

// lagFor is how long what was stored may not be found yet: any server answers,
// also one that is behind the others.
const lagFor = 2 * time.Second

// fetchClip fetches a clip whole. It fails with jetstream.ErrObjectNotFound if
// it isn't there.
func (c *Cluster) fetchClip(ctx context.Context, name string) (clip []byte, err error) {
	var waited pauses
	for began := time.Now(); ; {
		clip, err = c.fetchClipOnce(ctx, name)
		if err == nil || time.Since(began) > lagFor && !c.passing(err) {
			return clip, err
		}
		if ended := waited.pause(ctx); ended != nil {
			return nil, ended
		}
	}
}

func (c *Cluster) fetchClipOnce(ctx context.Context, name string) ([]byte, error) {
	ctx, cancel := context.WithTimeout(ctx, clipFor)
	defer cancel()
	return c.clips.GetBytes(ctx, name)
}

// reply gives the answer to who asked, until he has it or has gone.
func (c *Cluster) reply(ctx context.Context, note jetstream.Msg, said []byte, why error) {
	msg := nats.NewMsg(note.Headers().Get(replyHeader))
	msg.Data = said
	if why != nil {
		msg.Data = nil
		msg.Header.Set(errorHeader, headerLine(why.Error()))
	}
	ctx, cancel := context.WithTimeout(ctx, answerFor)
	defer cancel()
	for ctx.Err() == nil {
		if c.replyOnce(ctx, msg) == nil || c.gone(ctx, note) {
			break
		}
		_ = sleep(ctx, answerAgain)
	}
	_ = note.Ack()
}

func (c *Cluster) replyOnce(ctx context.Context, msg *nats.Msg) error {
	ctx, cancel := context.WithTimeout(ctx, answerAgain)
	defer cancel()
	_, err := c.conn.RequestMsgWithContext(ctx, msg)
	return err
}

// gone says whether who asked doesn't wait any more: he takes the clip away.
func (c *Cluster) gone(ctx context.Context, note jetstream.Msg) bool {
	_, err := c.clips.GetInfo(ctx, note.Headers().Get(clipHeader))
	return errors.Is(err, jetstream.ErrObjectNotFound)
}

// headerLine makes a text fit into a header.
func headerLine(text string) string {
	return strings.Join(strings.Fields(text), " ")
}
