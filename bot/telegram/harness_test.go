package telegram_test

import (
	"bytes"
	"context"
	"errors"
	"iter"
	"log/slog"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

// soon is how long a test waits for what must happen. It is long, so that a
// busy machine fails nothing; a test that passes doesn't wait.
const soon = 20 * time.Second

// quick is real timing made short enough for tests. No call is given up: on a busy
// machine that would be one that the server takes after all, and has twice. The tests
// of calls that hang say when theirs are.
var quick = telegram.Timing{
	Poll: 50 * time.Second, PollEnds: 5 * time.Second, Send: time.Hour, Toast: time.Hour,
	Strike: time.Millisecond, Retry: 5 * time.Millisecond, RetryMax: 40 * time.Millisecond,
	Rival: 20 * time.Millisecond, Breath: 10 * time.Millisecond, Finish: 5 * time.Second,
}

// unmetered lets everything go at once.
var unmetered = telegram.Pace{
	Private: telegram.Rate{Every: time.Nanosecond, Burst: 1000},
	Group:   telegram.Rate{Every: time.Nanosecond, Burst: 1000},
	All:     telegram.Rate{Every: time.Nanosecond, Burst: 1000},
}

// boundless answers everything.
var boundless = telegram.Budget{
	User: telegram.Rate{Every: time.Nanosecond, Burst: 1 << 20},
	Chat: telegram.Rate{Every: time.Nanosecond, Burst: 1 << 20},
	Look: telegram.Rate{Every: time.Nanosecond, Burst: 1 << 20},
}

// job is a bot on Juniper Street: a server, a database, and the bot that runs
// between them, until the test ends.
type job struct {
	*testing.T
	api    *loopback.Server
	memory *memory
	config telegram.Config
	log    *syncedBuffer
	path   string

	stop context.CancelFunc
	over chan error
}

// newJob makes everything and starts nothing; the test runs beside others.
func newJob(t *testing.T) *job {
	t.Parallel()
	return newJobIn(t)
}

// newJobIn does the same in a test that has several.
func newJobIn(t *testing.T) *job {
	j := &job{T: t, api: loopback.New(), log: new(syncedBuffer), path: filepath.Join(t.TempDir(), "juniper.db")}
	j.memory = openMemory(t, j.path)
	j.config = telegram.Config{
		Token: loopback.Token, Base: j.api.Base(), Memory: j.memory,
		Log:    slog.New(slog.NewTextHandler(j.log, &slog.HandlerOptions{Level: slog.LevelDebug})),
		Health: new(telegram.Health),
		Pace:   unmetered, Timing: quick, Budget: boundless,
	}
	t.Cleanup(func() {
		j.end()
		j.api.Close()
		j.memory.close(t)
		checkNoToken(t, j.log.String())
		checkCalls(t, j.api.Calls(""))
	})
	return j
}

// start runs the bot.
func (j *job) start() {
	ctx, stop := context.WithCancel(context.Background())
	j.stop, j.over = stop, make(chan error, 1)
	go func() { j.over <- telegram.Serve(ctx, j.config) }()
}

// end stops the bot and returns what Serve returned. It may be called twice.
func (j *job) end() error {
	if j.stop == nil {
		return nil
	}
	j.stop()
	j.stop = nil
	select {
	case err := <-j.over:
		return err
	case <-time.After(soon):
		j.Error("the bot does not stop")
		return nil
	}
}

// await fails the test if something doesn't happen soon, or has not happened when
// nothing has for as long: on a busy machine much may take long and yet go on.
func (j *job) await(what string, condition func() bool) {
	j.Helper()
	const most = 8 // such whiles, of one who tries in vain for ever
	for range most {
		before := j.done()
		if j.api.Await(soon, condition) {
			return
		}
		if j.done() == before {
			break
		}
	}
	if !condition() {
		j.Fatalf("never happened: %s\ncalls: %v\nlog:\n%s", what, j.api.Calls(""), j.log)
	}
}

// done counts what the bot has done: its commits, what it read of the outbox, and the
// calls that came to an end, other than polls, which do so anyway.
func (j *job) done() (all int) {
	for _, c := range j.api.Calls("") {
		if c.Method != "getUpdates" {
			all++
		}
	}
	j.memory.mu.Lock()
	defer j.memory.mu.Unlock()
	return all + j.memory.commits + int(j.memory.fetched.Load())
}

// delivered returns the texts of messages that the server took, by chat, in
// order.
func (j *job) delivered(chat int64) []string {
	var texts []string
	for _, c := range j.api.Calls("sendMessage") {
		if c.Status == 200 && c.Error == "" && c.Params["chat_id"] == strconv.FormatInt(chat, 10) {
			texts = append(texts, c.Params["text"])
		}
	}
	return texts
}

// firsts is each text where it comes first.
func firsts(texts []string) (first []string) {
	for _, text := range texts {
		if !slices.Contains(first, text) {
			first = append(first, text)
		}
	}
	return first
}

// givenUp is how many messages the bot gave up waiting for though the server meant to
// say something: those may come twice.
func (j *job) givenUp() (n int) {
	for line := range strings.Lines(j.log.String()) {
		if strings.Contains(line, "message not sent") && strings.Contains(line, context.DeadlineExceeded.Error()) {
			n++
		}
	}
	for _, c := range j.api.Calls(send) {
		if c.Error == "no response" {
			n--
		}
	}
	return max(0, n)
}

// says fails the test if a chat's messages don't come to be these, in order.
func (j *job) says(chat int64, want ...string) {
	j.Helper()
	j.await("the messages", func() bool { return len(j.delivered(chat)) >= len(want) })
	got := j.delivered(chat)
	if len(got) != len(want) {
		j.Fatalf("chat %d got %q, want %q", chat, got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			j.Errorf("chat %d, message %d: got %q, want %q", chat, i+1, got[i], want[i])
		}
	}
}

// settle waits until nothing is unsent, unconfirmed or in the outbox.
func (j *job) settle() {
	j.Helper()
	j.await("all handled", func() bool { return len(j.api.Unconfirmed()) == 0 })
	j.await("the outbox is empty", func() bool { return len(j.memory.outbox(j.T)) == 0 })
}

// memory joins a store to the edge as the program does, and can be made to
// fail.
type memory struct {
	db     *store.DB
	answer func(telegram.Question) string
	full   map[string]telegram.Answer // by question, those that are more than words

	failing atomic.Bool // no transaction comes to an end

	fetched atomic.Int64 // letters that were read from the outbox for their turn

	mu      sync.Mutex
	asked   []telegram.Question // in transactions that did
	commits int
}

var errDisk = errors.New("no space left on device")

func openMemory(t *testing.T, path string) *memory {
	t.Helper()
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return &memory{db: db, answer: func(q telegram.Question) string { return "heard " + q.Text }}
}

func (m *memory) close(t *testing.T) {
	t.Helper()
	if err := m.db.Check(); err != nil {
		t.Error(err)
	}
	if err := m.db.Close(); err != nil {
		t.Error(err)
	}
}

func (m *memory) Update(fn func(telegram.Tx) error) error {
	var asked []telegram.Question
	err := m.db.Update(func(tx *store.Tx) error {
		asked = nil
		if err := fn(transaction{tx, m, &asked}); err != nil {
			return err
		}
		if m.failing.Load() {
			return errDisk
		}
		return nil
	})
	if err == nil {
		m.mu.Lock()
		defer m.mu.Unlock()
		m.asked = append(m.asked, asked...)
		m.commits++
	}
	return err
}

func (m *memory) View(fn func(telegram.Tx) error) error {
	return m.db.View(func(tx *store.Tx) error { return fn(transaction{tx, m, nil}) })
}

func (m *memory) questions() []telegram.Question {
	m.mu.Lock()
	defer m.mu.Unlock()
	return append([]telegram.Question(nil), m.asked...)
}

func (m *memory) outbox(t *testing.T) (entries []store.Entry) {
	t.Helper()
	m.view(t, func(tx *store.Tx) { entries = tx.Outbox() })
	return entries
}

func (m *memory) cursor(t *testing.T, base string) (at int64) {
	t.Helper()
	m.view(t, func(tx *store.Tx) { at, _ = tx.Cursor(stream, store.Source{Bot: loopback.BotID, Server: base}) })
	return at
}

func (m *memory) quarantined(t *testing.T) (all []store.Quarantined) {
	t.Helper()
	m.view(t, func(tx *store.Tx) { all = tx.Quarantined() })
	return all
}

func (m *memory) view(t *testing.T, fn func(*store.Tx)) {
	t.Helper()
	if err := m.db.View(func(tx *store.Tx) error { fn(tx); return nil }); err != nil {
		t.Fatal(err)
	}
}

// transaction is a store's transaction as the edge wants it.
type transaction struct {
	*store.Tx
	of    *memory
	asked *[]telegram.Question
}

// faulty is a question at which the conversation fails.
const faulty = "a fault of ours"

// document begins a question that gets a file with the rest of it in reply.
const document = "a file of: "

// outLoud begins a question whose rest is said aloud behind the answer.
const outLoud = "out loud: "

// unkeepable is a question whose job can't be kept.
const unkeepable = "a job that breaks"

const stream = "telegram"

func chatOf(id int64) store.Chat { return store.ChatOf(stream, strconv.FormatInt(id, 10)) }

// Board and SetBoard: these tests have no cut list; cmd/dogleg's have.
func (tx transaction) Board(int64) int64      { return 0 }
func (tx transaction) SetBoard(int64, int64)  {}
func (m *memory) ForAdmins(words string) bool { return words == "answer everything" }

func (tx transaction) Answer(q telegram.Question) (telegram.Answer, error) {
	*tx.asked = append(*tx.asked, q)
	person := tx.Person(chatOf(q.Chat).Person(q.User))
	kept := store.Job{When: q.When, Asked: q.Text}
	if q.Text == unkeepable {
		kept.Ask = []byte("{") // no JSON, so it can't be written
	}
	person.AddJob(kept)
	if kept, _ := person.Exchange(q.ID); q.ID != 0 {
		kept.Question = q.ID
		person.SetExchange(kept)
	}
	if q.Text == faulty {
		return telegram.Answer{}, errors.New("half-written")
	}
	return tx.words(q), nil
}

// words is what is said to a question.
func (tx transaction) words(q telegram.Question) telegram.Answer {
	if q.Pressed != "" {
		return telegram.Answer{Text: "pressed " + q.Pressed}
	}
	if a, ok := tx.of.full[q.Text]; ok {
		return a
	}
	a := telegram.Answer{Text: tx.of.answer(q)}
	if words, ok := strings.CutPrefix(q.Text, outLoud); ok {
		a.Aloud = words
	}
	if content, ok := strings.CutPrefix(q.Text, document); ok {
		a.Files = []telegram.File{{Name: "juniper.json", Content: []byte(content)}}
	}
	return a
}

func (tx transaction) Glance(q telegram.Question) (telegram.Answer, error) { return tx.words(q), nil }

// A group named so wants to be answered always.
const openGroup = -77

func (tx transaction) HearsAll(chat int64) bool { return chat == openGroup }

func (tx transaction) Answered(e telegram.Exchange) {
	person := tx.Person(chatOf(e.Chat).Person(e.User))
	if kept, ok := person.Exchange(e.Question); ok && !e.More {
		kept.Answer = e.Answer
		person.SetExchange(kept)
	}
}

func (tx transaction) Answering(chat int64, user string, question int64) int64 {
	e, _ := tx.Person(chatOf(chat).Person(user)).Exchange(question)
	return e.Answer
}

func (tx transaction) Queue(chat int64, payload []byte) uint64 {
	return tx.Tx.Queue(chatOf(chat), payload).Number
}

func (tx transaction) Waiting() iter.Seq[telegram.Entry] {
	return func(yield func(telegram.Entry) bool) {
		for e := range tx.Tx.Waiting() {
			if !yield(entryOf(e)) {
				return
			}
		}
	}
}

func (tx transaction) Waits(number uint64) (telegram.Entry, bool) {
	tx.of.fetched.Add(1)
	e, ok := tx.Entry(number)
	if !ok {
		return telegram.Entry{}, false
	}
	return entryOf(e), true
}

func entryOf(e store.Entry) telegram.Entry {
	id, _ := strconv.ParseInt(string(e.Chat[len(stream)+1:]), 10, 64)
	return telegram.Entry{Number: e.Number, Chat: id, Payload: e.Payload}
}

func (tx transaction) StrikeOff(numbers ...uint64) {
	for _, n := range numbers {
		tx.Tx.StrikeOff(store.Entry{Number: n})
	}
}

func (tx transaction) Cursor(s telegram.Source) (int64, bool) {
	return tx.Tx.Cursor(stream, store.Source{Bot: s.Bot, Server: s.Base})
}

func (tx transaction) SetCursor(s telegram.Source, at int64) {
	tx.Tx.SetCursor(stream, store.Source{Bot: s.Bot, Server: s.Base}, at)
}

func (tx transaction) MoveChat(from, to int64) { tx.Tx.MoveChat(chatOf(from), chatOf(to)) }

// syncedBuffer is a log that can be read while it is written.
type syncedBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *syncedBuffer) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *syncedBuffer) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}
