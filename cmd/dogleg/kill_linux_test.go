package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"dogleg/bot/serve"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"

	"golang.org/x/sys/unix"
)

// This file kills the real program while people write to it, and keeps the
// score from outside: what the server was asked and told, and what is in the
// file.

var (
	mostKills = flag.Int("kills", 16, "how often TestServeIsKilled kills the program")
	strace    = flag.String("strace", "", "the strace that slows the disk in some runs of TestServeIsKilled; none does without")
	volume    = flag.String("volume", "", "a small disk for TestServeIsKilled, to be filled; without, a limit on the size of files stands for a full one")
)

// phase is what is done to the disk while the program runs.
type phase int

const (
	sound     phase = iota
	fillsUp         // it is full from some moment on, until the kill
	frees           // it is full for a while, and the kill comes after that
	startFull       // it is full from the start
	slow            // every wait for it takes slowDisk longer
	phases
)

var phaseNames = [phases]string{"sound", "full at the kill", "full for a while before", "full from the start on", "slow"}

const (
	backlog  = 40 // messages that wait for their first answer, all the time
	slowDisk = 60 * time.Millisecond
)

// TestServeIsKilled kills the program with SIGKILL at random moments while
// messages come in and the disk is sound, full or slow, and starts it again on
// the same file. After each kill, every message that the server was told is
// done has its one job in the file. In the end every message was answered, in
// order in each chat: once, and once more for each kill at which its answer was
// in flight, sent and not yet struck off the outbox.
//
// That can't be helped: the server takes a message and says so in one response,
// it has no key by which it would know the same message again, and a response
// that never arrived looks like a message that never did.
func TestServeIsKilled(t *testing.T) {
	s := newScore(t)
	s.draw()
	enough := s.feed()
	for s.kills() < *mostKills {
		s.run(phase(s.random.IntN(int(phases))))
	}
	enough()
	s.lastRun()
	s.report()
}

// question is one message: the n-th of a chat.
type question struct{ chat, n int64 }

// text asks for a set that no other message of the chat asks for. In some chats each
// piece goes on the list.
func (q question) text() string {
	if q.listed() {
		return q.ask() + "\nadd"
	}
	return q.ask()
}

func (q question) ask() string { return fmt.Sprintf("set %s 45s 2 pvc", setOf(q.n)) }

func (q question) listed() bool { return q.chat%3 == 0 }

// draw has every other chat want a picture with each answer.
func (s *score) draw() {
	db, err := store.Open(s.path)
	if err != nil {
		s.Fatal(err)
	}
	err = db.Update(func(tx *store.Tx) error {
		for chat := int64(2); chat <= s.chats; chat += 2 {
			tx.Person(serve.ChatOf(chat).Person(fmt.Sprint(chat))).SetNote(store.Settings, []byte(`{"Draw":true}`))
		}
		return nil
	})
	if err := errors.Join(err, db.Close()); err != nil {
		s.Fatal(err)
	}
}

// setOf is 10 and n sixteenths as the tape has it.
func setOf(n int64) string {
	whole, part, of := 10+n/16, n%16, 16
	for part > 0 && part%2 == 0 {
		part, of = part/2, of/2
	}
	if part == 0 {
		return fmt.Sprint(whole)
	}
	return fmt.Sprintf("%d-%d/%d", whole, part, of)
}

// sets finds the n of a set.
var sets = func() map[string]int64 {
	of := map[string]int64{}
	for n := range int64(store.KeptJobs) {
		of[setOf(n)] = n
	}
	return of
}()

var readBack = regexp.MustCompile(`(?m)^(?:<[a-z]+>)?Set ([^,]+),`)

// answeredBy finds out which message of a chat a reply answers.
func (s *score) answeredBy(chat int64, reply string) question {
	if m := readBack.FindStringSubmatch(reply); m != nil {
		if n, ok := sets[m[1]]; ok {
			return question{chat, n}
		}
	}
	s.Errorf("a reply to nothing that was asked:\n%s", reply)
	return question{}
}

// score is what is known of the program from outside.
type score struct {
	*testing.T
	server *loopback.Server
	path   string
	random *rand.Rand
	log    bytes.Buffer

	mu    sync.Mutex
	said  map[int64]int64 // messages by chat
	chats int64

	killed  [phases]int
	pending []question       // whose answers were in the outbox at the last kill
	excused map[question]int // kills that may have cost another answer
}

func newScore(t *testing.T) *score {
	server := loopback.New()
	t.Cleanup(server.Close)
	for _, method := range []string{"sendMessage", "sendPhoto"} {
		server.Plant(loopback.Fault{Method: method, Delay: 5 * time.Millisecond, Times: -1})
	}
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	folder := t.TempDir()
	if *volume != "" {
		folder = *volume
	}
	return &score{
		T: t, server: server, path: filepath.Join(folder, "dogleg.db"),
		random: rand.New(rand.NewPCG(seed, 0)),
		said:   map[int64]int64{}, chats: int64(20 + *mostKills/4), excused: map[question]int{},
	}
}

func (s *score) kills() (all int) {
	for _, n := range s.killed {
		all += n
	}
	return all
}

// feed has people write, so that there is always work, until the returned
// function is called.
func (s *score) feed() (enough func()) {
	done := make(chan struct{})
	var feeding sync.WaitGroup
	random := rand.New(rand.NewPCG(s.random.Uint64(), 0))
	feeding.Go(func() {
		for {
			select {
			case <-done:
				return
			case <-time.After(10 * time.Millisecond):
				s.say(random, backlog-s.open())
			}
		}
	})
	return func() { close(done); feeding.Wait() }
}

func (s *score) say(random *rand.Rand, messages int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for range messages {
		chat := 1 + random.Int64N(s.chats)
		s.server.Say(chat, question{chat, s.said[chat]}.text())
		s.said[chat]++
	}
}

// open counts the messages without an answer.
func (s *score) open() int {
	first := map[question]bool{}
	for _, q := range s.answers() {
		first[q] = true
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.asked() - len(first)
}

// asked counts the messages. The lock is held, or nobody writes any more.
func (s *score) asked() (all int) {
	for _, n := range s.said {
		all += int(n)
	}
	return all
}

// answers are the messages that the server took an answer to, in that order.
func (s *score) answers() []question {
	var all []question
	for _, call := range s.server.Calls("") {
		if call.Method != "sendMessage" && call.Method != "sendPhoto" {
			continue
		}
		chat, err := strconv.ParseInt(call.Params["chat_id"], 10, 64)
		if call.Status == 0 { // left without a response
			continue
		}
		if err != nil || call.Status != 200 {
			s.Errorf("a call that was refused: %+v", call)
			continue
		}
		all = append(all, s.answeredBy(chat, call.Params["text"]+call.Params["caption"]))
	}
	return all
}

// run starts the program, does to the disk what the phase wants, kills it and
// looks at what is left.
func (s *score) run(p phase) {
	if p == slow && *strace == "" {
		return
	}
	_, err := os.Stat(s.path)
	begun := err == nil // else a full disk ends it: the file can't be made
	process := s.start(p)
	if p == startFull {
		s.disk(process, full)
	}
	s.pass(500)
	if p == fillsUp || p == frees {
		s.disk(process, full)
		s.pass(200)
	}
	if p == frees {
		s.disk(process, free)
		s.pass(300)
	}
	err = process.Process.Kill()
	ended := process.Wait()
	if status, ok := errors.AsType[*exec.ExitError](ended); err == nil && ok && status.Sys().(syscall.WaitStatus).Signaled() {
		s.killed[p]++
	} else if begun {
		s.Fatalf("the program ended by itself, the disk %s: %v\n%s", phaseNames[p], ended, &s.log)
	}
	s.look()
	if *volume != "" {
		s.ballast(free)
	}
}

// pass lets some time pass.
func (s *score) pass(milliseconds int) {
	time.Sleep(time.Duration(10+s.random.IntN(milliseconds)) * time.Millisecond)
}

func (s *score) start(p phase) *exec.Cmd {
	s.Helper()
	arguments := []string{"dogleg", "serve", "--db", s.path}
	if p == slow {
		arguments = append([]string{
			*strace, "-D", "-f", "-qq", "--seccomp-bpf", "-o", os.DevNull, "-e", "trace=fdatasync,fsync",
			"-e", fmt.Sprintf("inject=fdatasync,fsync:delay_enter=%d", slowDisk.Microseconds()),
		}, arguments...)
	}
	process := exec.Command(arguments[0], arguments[1:]...)
	process.Env = append(os.Environ(), "DOGLEG_TOKEN="+loopback.Token, "DOGLEG_API_ENDPOINT="+s.server.Base())
	process.Stderr = &s.log
	if err := process.Start(); err != nil {
		s.Fatal(err)
	}
	return process
}

// full is how a disk is, or is not any more.
const full, free = true, false

// disk makes every write of the program fail that needs room, or lets them
// succeed again. On a disk of its own it is really full. Else the size of the
// program's files is limited, which needs no rights and no such disk.
func (s *score) disk(process *exec.Cmd, isFull bool) {
	s.Helper()
	if *volume != "" {
		s.ballast(isFull)
		return
	}
	limit := unix.Rlimit{Cur: unix.RLIM_INFINITY, Max: unix.RLIM_INFINITY}
	if isFull {
		limit.Cur = 1
	}
	err := unix.Prlimit(process.Process.Pid, unix.RLIMIT_FSIZE, &limit, nil)
	if err != nil && !errors.Is(err, unix.ESRCH) { // it has ended
		s.Fatal(err)
	}
}

// ballast fills the disk, or takes out again what fills it.
func (s *score) ballast(fill bool) {
	s.Helper()
	path := filepath.Join(*volume, "ballast")
	if !fill {
		if err := os.RemoveAll(path); err != nil {
			s.Fatal(err)
		}
		return
	}
	file, err := os.Create(path)
	if err != nil {
		s.Fatal(err)
	}
	defer file.Close()
	for size := 1 << 16; size > 0; {
		if _, err := file.Write(make([]byte, size)); err != nil {
			if !errors.Is(err, unix.ENOSPC) {
				s.Fatal(err)
			}
			size /= 2
		}
	}
}

// look opens what a kill left behind.
func (s *score) look() {
	s.Helper()
	if _, err := os.Stat(s.path); errors.Is(err, os.ErrNotExist) {
		if !s.nothingConfirmed() {
			s.Fatal("messages are confirmed, and there is no file")
		}
		return // killed before it was made
	}
	db, err := store.Open(s.path)
	if err != nil {
		s.Fatalf("after a kill: %v\n%s", err, &s.log)
	}
	defer db.Close()
	if err := db.Check(); err != nil {
		s.Fatalf("after a kill: %v", err)
	}
	if err := db.View(func(tx *store.Tx) error { s.jobs(tx); s.outbox(tx); return nil }); err != nil {
		s.Fatal(err)
	}
}

// nothingConfirmed tells whether the server still has every message. Nobody
// may say one meanwhile, or it would be in one of the two counts only.
func (s *score) nothingConfirmed() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return len(s.server.Unconfirmed()) == s.asked()
}

// jobs wants one job of each message that the server was told is done, in
// order, and at most one of each other.
func (s *score) jobs(tx *store.Tx) {
	s.Helper()
	s.mu.Lock() // nobody says anything between the two counts
	defer s.mu.Unlock()
	waiting := map[int64]int64{} // messages that are not confirmed, by chat
	for _, raw := range s.server.Unconfirmed() {
		var update struct {
			Message struct{ Chat struct{ ID int64 } }
		}
		if err := json.Unmarshal(raw, &update); err != nil {
			s.Fatal(err)
		}
		waiting[update.Message.Chat.ID]++
	}
	for chat, said := range s.said {
		person := tx.Person(serve.ChatOf(chat).Person(fmt.Sprint(chat)))
		jobs := person.Jobs()
		if pieces := len(person.Cuts()); (question{chat: chat}).listed() && pieces != len(jobs) {
			s.Errorf("chat %d: %d pieces on the list of %d jobs", chat, pieces, len(jobs))
		}
		if int64(len(jobs)) < said-waiting[chat] || int64(len(jobs)) > said {
			s.Errorf("chat %d: %d jobs of %d messages, of which %d are not confirmed", chat, len(jobs), said, waiting[chat])
		}
		for n, job := range jobs {
			if want := (question{chat, int64(n)}).ask(); job.Asked != want {
				s.Errorf("chat %d: job %d is of %q, want %q", chat, n+1, job.Asked, want)
			}
		}
	}
}

// outbox notes whose answers may come once more: what was in the outbox at the
// kill before and has been sent by now, then or since.
func (s *score) outbox(tx *store.Tx) {
	s.Helper()
	sent := map[question]bool{}
	for _, q := range s.answers() {
		sent[q] = true
	}
	for _, q := range s.pending {
		if sent[q] {
			s.excused[q]++
		}
	}
	s.pending = nil
	for _, e := range tx.Outbox() {
		var letter struct{ Text string }
		chat, ok := serve.NumberOf(e.Chat)
		if err := json.Unmarshal(e.Payload, &letter); err != nil || !ok {
			s.Fatalf("an entry of the outbox that can't be read: %v", err)
		}
		s.pending = append(s.pending, s.answeredBy(chat, letter.Text))
	}
}

// lastRun lets the program finish on a sound disk, and end as it is asked to.
func (s *score) lastRun() {
	process := s.start(sound)
	if !s.server.Await(5*time.Minute, func() bool { return s.open() == 0 && len(s.server.Unconfirmed()) == 0 }) {
		s.Errorf("%d messages are not answered", s.open())
	}
	asked := time.Now()
	if err := process.Process.Signal(syscall.SIGTERM); err != nil {
		s.Fatal(err)
	}
	if err := process.Wait(); err != nil {
		s.Errorf("at its end: %v", err)
	}
	s.Logf("ended %v after SIGTERM", time.Since(asked).Round(time.Millisecond))
	s.look()
	if len(s.pending) > 0 {
		s.Errorf("still in the outbox: %v", s.pending)
	}
	if strings.Contains(s.log.String(), loopback.Token) {
		s.Error("the token is in the log")
	}
}

// report judges the answers and prints the counts.
func (s *score) report() {
	counts := s.judge()
	for p, n := range s.killed {
		s.Logf("%4d kills, the disk %s", n, phaseNames[p])
	}
	s.Logf("%4d messages in %d chats, each kept as one job", s.asked(), len(s.said))
	for n := range 10 {
		if counts[n] > 0 {
			s.Logf("%4d answered %d times", counts[n], n)
		}
	}
}

// judge wants each chat's messages answered in order, and none of them more
// often than a kill excuses. It counts those answered so many times.
func (s *score) judge() (counts map[int]int) {
	s.Helper()
	times, next := map[question]int{}, map[int64]int64{}
	for _, q := range s.answers() {
		if times[q]++; times[q] > 1 {
			continue
		}
		if q.n != next[q.chat] {
			s.Errorf("chat %d: message %d is answered where it is the turn of %d", q.chat, q.n, next[q.chat])
		}
		next[q.chat]++
	}
	counts = map[int]int{}
	for q, n := range times {
		counts[n]++
		if n > 1+s.excused[q] {
			s.Errorf("%v was answered %d times, and may have been in flight at %d kills", q, n, s.excused[q])
		}
	}
	return counts
}
