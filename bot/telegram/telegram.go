// Package telegram carries messages in from Telegram and replies out.
//
// # In
//
// [Serve] polls the Bot API. The server forgets an update as soon as a poll
// asks for a later one, and nothing else tells it that the update arrived, so
// the order is fixed: read a batch, answer all of it in one transaction
// ([Memory]), and only when that is on the disk poll for what follows. In the
// transaction are whatever the conversation keeps, the reply in the outbox, a
// mark that the update is done, and where to read on. Killed anywhere, the bot
// finds each update either not begun or wholly answered.
//
// An update is known by its number, never by whether the number is higher than
// the last: after a week of silence they may begin again lower down. One that
// can't be decoded, or whose answer panics twice, is put in quarantine as it
// came, and those behind it go on. So is one over which the process died three times, be it
// that it ran out of memory: [Config].Begin tells of that, and its sender is told that
// something went wrong. A picture over which it died as often is left out, and a recording
// is not heard.
//
// Where Telegram is told to call ([Webhook]), each update comes in a call of its
// own, and the call is answered with 200 only when the update is on the disk;
// those that wait share a transaction. Whoever calls has to know a secret.
// Going from one to the other needs nothing but a start in the other way: what
// comes twice is known by its number.
//
// # Received elsewhere
//
// The two can be apart: [Relay] receives, by polls or by calls, and hands each
// update to a [Post]; [Serve] reads them from a [Feed]. The post says when an
// update is safe, and only then does Telegram hear of it; where to read on in the
// feed is kept in the transaction that answers, as with polls. What lies between
// the two is no matter of this package. Any number may relay, one serves: whose
// place is taken stops sending at once ([ErrDeposed]), since the outbox is now
// another's.
//
// # Out
//
// The outbox on the disk is the truth; the one in memory is only its reader.
// Each chat has its own line, sent in order, one message at a time; the lines
// go on side by side, so a chat that must wait holds up nobody else. What was
// sent is struck off the disk with the next batch, or 20 ms later, or in the
// thick of it 100 ms.
//
// How much waits is bounded in bytes. In memory are [Config].Held of it, the rest
// is read when its turn comes. A chat with [Config].Line bytes in its line is told so
// once and answered no more until they are fewer; when there are [Config].Window over
// all chats polling stops and Telegram keeps the rest, for 24 hours.
//
// A picture is painted when it is its turn to be sent ([Config].Paint), one after
// the other: its text is figured with the others, and only its own chat waits for it.
//
// Every refusal has one consequence, written down in wire/verdict.go: wait, try
// again, say it plainer, go to the chat's new number, give up, or stop.
//
// # What is said
//
// A recording is answered in two steps. First it is only noted, in the outbox,
// as what is yet to be heard; then, apart from everything else, one after the
// other or by several hearers at once, notes are fetched and heard ([Ear]), and
// what was heard is answered in a transaction that strikes the note off. Text never waits for that, and a
// note that was not yet answered when the bot was killed is heard at the next
// start. See notes.go.
//
// # The cut list
//
// A chat's cut list is one message with a button for each piece ([Board]). Which
// message that is, is kept in the same transaction as the list itself when it is
// queued, and by its number once it was sent; every change of the list is queued
// as an edit of it, and of several that wait in the line only the last is sent.
// A button is let go of when what it did is on the disk. See boards.go.
//
// # When it speaks
//
// In a private chat always. In a group only to those who speak to it: by a
// command, by its name, by replying to it, or by pressing a button under their
// own answer; see addressed.go and press.go. An admin may have it answer all
// that asks for a figure. It never speaks to other bots, and never more than
// once to one message. A message that is edited has its answer edited. What is
// typed behind its name in other chats is answered by a card; see inline.go.
//
// # Floods
//
// Each user has a budget of messages, and so has each group; a message that takes
// long to be figured counts as several; who is beyond it
// is told so once, and what comes then is marked as done and not answered until
// it has recovered (budget.go). So of a flood no more than one budget is figured
// before the next person's message, which is under a second of work; the rest
// costs a mark in the file each. The server hands updates out in the order they
// came, a hundred at a time, so that somebody behind ten thousand of them waits
// for a hundred polls too, and nothing on this side changes that. Replies have a
// line for each chat. Of the notes to be heard, those go first whose user was
// heard longest ago, and each may have a few waiting (notes.go).
//
// # Caveats
//
// The Bot API has no key by which it knows a message sent twice. If the
// connection breaks after the server has taken a message and before it has
// said so, the message is sent again: a figure twice is better than none. So is one
// that is still under way when the bot has stopped, by the next run; no other. For
// the same reason a figure held up for long is still sent, as a reply to its
// question; what it says of the pipe has not grown old.
//
// Which message answered which is kept for the last hundred of each person; an
// edit of an older one gets a new message instead of a changed one. So does one
// whose answer was a picture, or came in several parts.
//
// The token is part of every address. It is cut out of every error and of
// every line logged; see wire/client.go and wire/redact.go.
//
// Updates are polled here and not by the Telegram library, whose polling confirms
// before it handles.
package telegram

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"sync"
	"time"

	"dogleg/bot/telegram/wire"
)

// Config is what Serve needs. The zero values of all but Token and Memory are
// those of real use.
type Config struct {
	Token   string
	Base    string // of the Bot API server, without a slash at the end
	Memory  Memory
	Ear     Ear      // nil: recordings are answered by asking for words
	Speaker Speaker  // nil: nothing is said aloud
	Webhook *Webhook // nil: polling
	Feed    Feed     // nil: none; else updates come from it alone
	Log     *slog.Logger
	Health  *Health
	// Delivered, if it is set, is told how long an answer was under way.
	Delivered func(time.Duration)
	Now       func() time.Time

	Pace    Pace
	Paid    bool // messages may cost something: Telegram lets more than FreeRate pass
	Budget  Budget
	Timing  Timing
	Hearers int // recordings heard at once, each of another user; 1 by default
	Senders int // requests in flight at once
	Window  int // bytes unsent, above which polling stops
	Held    int // bytes unsent that are in memory; what goes beyond is read when its turn comes
	Line    int // bytes unsent in one chat, above which it is answered no more until they are fewer

	// Begin, if it is set, notes what the process has in hand, in words that mean the same
	// to the next one, and says how many have died over it. The returned function is
	// called when that is over, whichever way.
	Begin func(what string) (deaths int, end func())

	// Paint makes the content of a file that has a recipe, when it is sent. It is
	// false where that can't be done: then the file is left out.
	Paint func(File) (File, bool)
}

// Timing holds every duration that matters.
type Timing struct {
	Poll     time.Duration // the server holds an empty poll so long; whole seconds
	PollEnds time.Duration // when a poll without any response is given up
	Send     time.Duration // when any other call is given up, ours or Telegram's to the webhook
	Toast    time.Duration // when answering a button is given up
	Strike   time.Duration // from sent to struck off, where nothing more is sent meanwhile
	Retry    time.Duration // first wait after a failure; it doubles up to RetryMax
	RetryMax time.Duration
	Rival    time.Duration // wait after finding that another process polls
	Breath   time.Duration // least time between two polls that bring nothing
	Finish   time.Duration // for what is in hand, when stopping
	Hear     time.Duration // when fetching and hearing a recording is given up
	Header   time.Duration // for the header of a call to the webhook to come in
	Body     time.Duration // and for all of it
	Speak    time.Duration // when making a recording is given up
	Typing   time.Duration // from one sign that a recording is being heard to the next
}

// Near a limit the server may hold a send for 15 seconds. A call that hangs and
// the wait after it are together less than a minute, so that the bot is back
// within one when the network is; what is done at the end, less than ten seconds.
var realTiming = Timing{
	Poll: 10 * time.Second, PollEnds: 17 * time.Second,
	Send: 30 * time.Second, Toast: 2 * time.Second,
	Strike: 20 * time.Millisecond,
	Retry:  time.Second, RetryMax: 15 * time.Second,
	Rival: 30 * time.Second, Breath: time.Second, Finish: 7 * time.Second,
	Hear: time.Minute, Speak: 10 * time.Second, Typing: 4 * time.Second,
	Header: 5 * time.Second, Body: 10 * time.Second,
}

// DefaultBase is Telegram's own server.
const DefaultBase = "https://api.telegram.org"

func (c Config) withDefaults() Config {
	if c.Base == "" {
		c.Base = DefaultBase
	}
	if c.Log == nil {
		c.Log = slog.Default()
	}
	c.Log = slog.New(wire.Redacting(c.Log.Handler(), c.Token))
	if c.Health == nil {
		c.Health = new(Health)
	}
	if c.Delivered == nil {
		c.Delivered = func(time.Duration) {}
	}
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.Pace == (Pace{}) {
		c.Pace = realPace
	}
	if c.Budget == (Budget{}) {
		c.Budget = realBudget
	}
	if c.Timing == (Timing{}) {
		c.Timing = realTiming
	}
	if c.Hearers == 0 {
		c.Hearers = 1
	}
	if c.Senders == 0 {
		c.Senders = sendersAt(c.Pace.All)
	}
	if c.Window == 0 {
		c.Window = 64 << 20
	}
	if c.Held == 0 {
		c.Held = 8 << 20
	}
	if c.Line == 0 {
		c.Line = 2 << 20
	}
	if c.Begin == nil {
		c.Begin = func(string) (int, func()) { return 0, func() {} }
	}
	if c.Paint == nil {
		c.Paint = func(f File) (File, bool) { return f, f.Recipe == nil }
	}
	return c
}

// ErrToken says that the server does not know the bot's token.
var ErrToken = errors.New("the token is not known to Telegram")

func unknownToken(err error) error { return fmt.Errorf("%w: %w", ErrToken, err) }

// ErrDeposed, as the cause for which the context of [Serve] ends, says that
// another serves in our place from now on. It has the outbox, so nothing more is
// sent here.
var ErrDeposed = errors.New("another serves this bot now")

// service is one run of Serve.
type service struct {
	*edge
	outbox     *outbox
	notes      *notes
	admins     *admins
	answered   *answered
	budgets    *budgets
	toasts     sync.WaitGroup
	saidBefore saidBefore
	albums     albums
	atOnce     int // updates in the next transaction, at most
}

// Serve answers messages until the context ends, then finishes what is in hand
// and returns nil. It returns an error, soon, if the token is not known
// ([ErrToken]); everything else that goes wrong is logged, waited for and tried
// again, a network that is down at the start or a disk that is full too. Where
// the context ends because of [ErrDeposed] nothing is finished, and that is
// returned.
func Serve(ctx context.Context, c Config) error {
	s := &service{edge: newEdge(c), answered: newAnswered(), atOnce: 1}
	s.budgets = newBudgets(s.Budget)
	defer s.client.Close()
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)

	if err := s.introduce(ctx); err != nil {
		return unlessEnded(ctx, err)
	}
	s.Log.Info("serving", "bot", s.self.Username, "id", s.self.ID)
	var menu sync.WaitGroup
	menu.Go(func() { s.listCommands(ctx) })
	defer menu.Wait()

	sending, halt := context.WithCancel(context.WithoutCancel(ctx))
	defer halt()
	defer context.AfterFunc(ctx, func() {
		if unlessEnded(ctx, nil) != nil { // nothing can be sent, or may be
			halt()
		}
	})()
	s.notes = newNotes(s)
	s.outbox = newOutbox(sending, s, stop)
	finding, found := context.WithCancel(ctx)
	s.admins = newAdmins(finding, s)
	defer func() { found(); s.admins.asking.Wait() }()
	defer s.outbox.close()
	hearing := s.notes.start(ctx)
	defer hearing()
	if !s.insist(ctx, "the outbox can't be read", s.outbox.restore) {
		return unlessEnded(ctx, ctx.Err())
	}
	last, err := s.receive(ctx)
	if err = unlessEnded(ctx, err); err != nil {
		halt()
		return err
	}
	hearing() // what isn't heard yet, or known, will be at the next start
	found()
	s.admins.asking.Wait()
	s.finish(halt, last)
	return nil
}

// finish sends what is in hand as far as time allows, strikes it off, and
// tells the server what has arrived.
func (s *service) finish(halt context.CancelFunc, offset int64) {
	timer := time.AfterFunc(s.Timing.Finish, halt)
	defer timer.Stop()
	s.outbox.close()
	s.toasts.Wait()
	if offset != 0 {
		s.confirm(offset)
	}
}

// listCommands shows our commands in the menu, while messages come in already. It
// does without where that fails: the menu is a convenience, and the next start
// tries again.
func (s *service) listCommands(ctx context.Context) {
	if err := s.client.SetMyCommands(ctx, wire.Commands); err != nil && ctx.Err() == nil {
		s.Log.Warn("the menu of commands can't be set", "error", err)
	}
}
