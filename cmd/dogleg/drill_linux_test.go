package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

// This file is the failure drill: one bot on several machines, each a process of
// its own, of which one after the other is killed, or frozen as a machine is
// that swaps itself to death, while people write. The score is kept from
// outside, as in kill_linux_test.go.

var (
	drillUpdates = flag.Int("drill", 100, "how many messages TestDrill has people write")
	drillBlows   = flag.Int("blows", 1, "how many blows TestDrill deals out, if the messages last that long")
	drillNetwork = flag.Bool("network", false, "TestDrill gives the servers hosts of their own in a network of its own, of which one is then cut off the others; this needs root and Linux's ip")
)

// The machines of the drill.
const (
	natsServers = 3
	receivers   = 2
	workers     = 3
)

// How fast people write, and how many messages wait at most for their first
// answer: while nobody answers, people wait too.
const (
	drillPace    = 140 // messages a second
	drillBacklog = 1000
)

// blow is one thing that happens to one machine, and what ends it.
type blow struct {
	name         string
	machine      string
	strike, heal func()
	lasting      time.Duration
}

// TestDrill runs one bot on three servers of NATS, two receivers and three
// workers, and deals out blows. In the end every message has its one job, every
// message was answered, in order in each chat, and more than once only where
// between its answers something was dead or frozen.
func TestDrill(t *testing.T) {
	d := newDrill(t)
	d.startAll()
	done := make(chan struct{})
	var feeding sync.WaitGroup
	feeding.Go(func() { d.feed(done) })
	d.dealOut()
	if !d.server.Await(5*time.Minute, d.allAnswered) {
		d.Errorf("%d of %d messages are not answered", d.open(), *drillUpdates)
	}
	close(done)
	feeding.Wait()
	d.settle()
	d.endAll()
	d.jobs()
	d.report()
}

type drill struct {
	*testing.T
	server *loopback.Server
	folder string
	random *rand.Rand
	score  *score // knows what was said and answered
	net    network

	webhooks  [receivers]string // where they listen
	processes map[string]*machine
	log       lockedBuffer
	wrong     lockedBuffer
	suspects  []string // machines of which it is known that something is wrong; mu guards it

	mu    sync.Mutex
	dealt []dealt
	turn  int // of the receivers
	read  int // of the server's calls
	first map[question]bool
}

// dealt is a blow, and when it fell and was over.
type dealt struct {
	blow
	from, to time.Time
}

func newDrill(t *testing.T) *drill {
	server := loopback.New()
	t.Cleanup(server.Close)
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	d := &drill{
		T: t, server: server, folder: t.TempDir(), random: rand.New(rand.NewPCG(seed, 1)),
		score:     &score{T: t, server: server, said: map[int64]int64{}, chats: int64(max(20, *drillUpdates/10)), excused: map[question]int{}},
		processes: map[string]*machine{}, first: map[question]bool{},
	}
	d.net = newNetwork(t)
	for i := range receivers {
		d.webhooks[i] = freePort(t)
	}
	server.CallThrough(&http.Client{Timeout: 20 * time.Second, Transport: roundTripper(d.balance)})
	t.Cleanup(func() {
		for _, m := range d.processes {
			m.end(syscall.SIGKILL)
		}
		if t.Failed() {
			d.tell()
		}
	})
	return d
}

// tell prints what is wrong, what the machine that is wrong has warned of, the whole
// log, and what is wrong once more: a log may be cut off at either end.
func (d *drill) tell() {
	d.Helper()
	d.Logf("what is wrong:\n%s", d.wrong.tail(4000))
	d.mu.Lock()
	suspects := d.suspects
	d.mu.Unlock()
	for _, name := range suspects {
		d.Logf("what %s warned of last:\n%s", name, strings.Join(lastOf(warnings(d.log.tail(1<<30), name), 60), "\n"))
	}
	if len(suspects) == 0 {
		d.Logf("what was warned of last:\n%s", strings.Join(lastOf(warnings(d.log.tail(1<<30), ""), 120), "\n"))
	}
	d.Logf("the log:\n%s", d.log.tail(20_000))
	d.Logf("what is wrong:\n%s", d.wrong.tail(4000))
}

// warnings are the lines of a machine, or of every one, that are more than for
// information: what its log warns of, what it said when it ended, and what was done
// to it.
func warnings(log []byte, name string) (lines []string) {
	for line := range strings.Lines(string(log)) {
		line = strings.TrimRight(line, "\n")
		its := name == "" || strings.HasPrefix(line, name+": ") || strings.HasPrefix(line, "== "+name+": ")
		if its && !strings.Contains(line, " level=INFO ") && !strings.Contains(line, " level=DEBUG ") && !strings.Contains(line, " [INF] ") {
			lines = append(lines, line)
		}
	}
	return lines
}

func lastOf(lines []string, most int) []string { return lines[max(0, len(lines)-most):] }

// Errorf notes what is wrong, to be told with the log.
func (d *drill) Errorf(format string, values ...any) {
	d.Fail()
	fmt.Fprintf(&d.wrong, format+"\n", values...)
}

// Fatalf is Errorf, and ends the drill.
func (d *drill) Fatalf(format string, values ...any) {
	d.Errorf(format, values...)
	d.FailNow()
}

type roundTripper func(*http.Request) (*http.Response, error)

func (f roundTripper) RoundTrip(r *http.Request) (*http.Response, error) { return f(r) }

// balance is the balancer with its certificate: it passes calls on to one
// receiver after the other, and a call that one doesn't take fails.
func (d *drill) balance(r *http.Request) (*http.Response, error) {
	d.mu.Lock()
	d.turn++
	to := d.turn % receivers
	d.mu.Unlock()
	r = r.Clone(r.Context())
	r.URL.Scheme, r.URL.Host = "http", d.webhooks[to]
	return http.DefaultTransport.RoundTrip(r)
}

func (d *drill) startAll() {
	for i := range natsServers {
		d.start("nats", i)
	}
	for i := range workers {
		d.start("worker", i)
	}
	for i := range receivers {
		d.start("receiver", i)
	}
	if !d.server.Await(time.Minute, func() bool { return len(d.server.Calls("setWebhook")) > 0 }) {
		d.Fatal("no receiver has said where to call")
	}
}

// start starts a machine, or starts it anew.
func (d *drill) start(group string, i int) {
	d.Helper()
	var command *exec.Cmd
	if group == "nats" {
		command = d.net.server(i, filepath.Join(d.folder, fmt.Sprint("nats", i)))
	} else {
		command = exec.Command("dogleg", "serve")
		command.Env = append(os.Environ(), d.environment(group, i)...)
	}
	name := fmt.Sprint(group, " ", i)
	command.Stderr = prefixed{name, &d.log}
	if err := command.Start(); err != nil {
		d.Fatal(err)
	}
	m := &machine{name: name, process: command.Process, ended: make(chan struct{})}
	go func() {
		m.how = command.Wait()
		close(m.ended)
		if !m.asked.Load() {
			fmt.Fprintf(&d.log, "== %s: has ended by itself: %v\n", name, m.how)
			d.blame(name)
			d.Errorf("%s has ended by itself: %v", name, m.how)
		}
	}()
	d.processes[name] = m
}

// machine is a process that is watched: one that ends unasked is noticed then.
type machine struct {
	name    string
	process *os.Process
	asked   atomic.Bool   // to end
	ended   chan struct{} // closed when it has
	how     error         // and then how
}

// end asks it to end, and waits.
func (m *machine) end(with syscall.Signal) error {
	m.asked.Store(true)
	_ = m.process.Signal(with)
	<-m.ended
	return m.how
}

// blame notes which machine's log tells most of what is wrong.
func (d *drill) blame(name string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if !slices.Contains(d.suspects, name) {
		d.suspects = append(d.suspects, name)
	}
}

func (d *drill) environment(group string, i int) []string {
	own := filepath.Join(d.folder, fmt.Sprint(group, i))
	if err := os.MkdirAll(own, 0o700); err != nil {
		d.Fatal(err)
	}
	env := []string{
		"DOGLEG_TOKEN=" + loopback.Token, "DOGLEG_API_ENDPOINT=" + d.server.Base(),
		"DOGLEG_STORE=" + d.net.address(), "DOGLEG_RATE=1000",
		"DOGLEG_DB=" + filepath.Join(own, "dogleg.db"),
	}
	if group == "receiver" {
		return append(env, "DOGLEG_ROLES=receive",
			"DOGLEG_WEBHOOK_URL=https://bot.example.org/juniper",
			"DOGLEG_WEBHOOK_LISTEN="+d.webhooks[i])
	}
	return append(env, "DOGLEG_ROLES=work")
}

// feed has people write until all is written.
func (d *drill) feed(done <-chan struct{}) {
	random := rand.New(rand.NewPCG(1, 2))
	for {
		select {
		case <-done:
			return
		case <-time.After(time.Second / 20):
		}
		left := *drillUpdates - d.asked()
		d.score.say(random, min(drillPace/20, left, drillBacklog-d.open()))
	}
}

func (d *drill) asked() int {
	d.score.mu.Lock()
	defer d.score.mu.Unlock()
	return d.score.asked()
}

// open counts the messages without an answer.
func (d *drill) open() int {
	asked := d.asked()
	d.mu.Lock()
	defer d.mu.Unlock()
	calls := d.server.Calls("sendMessage")
	for _, call := range calls[d.read:] {
		d.first[d.answered(call)] = true
	}
	d.read = len(calls)
	return asked - len(d.first)
}

// answered is the message that a call answers.
func (d *drill) answered(call loopback.Call) question {
	chat, err := strconv.ParseInt(call.Params["chat_id"], 10, 64)
	if err != nil || call.Status != http.StatusOK {
		d.Errorf("a call that was refused: %+v", call)
	}
	return d.score.answeredBy(chat, call.Params["text"])
}

func (d *drill) allAnswered() bool {
	return d.asked() == *drillUpdates && d.open() == 0 && len(d.server.Unconfirmed()) == 0
}

// dealOut deals out blows as long as people write, each when the one before is
// over: never more than one machine is away.
func (d *drill) dealOut() {
	order := d.blows()
	for i := 0; i < *drillBlows && !d.allAnswered(); i++ {
		d.pass(500, 1500)
		d.fall(order[i%len(order)])
	}
}

// blows are all there are, in an order by chance.
func (d *drill) blows() []blow {
	var all []blow
	for group, count := range map[string]int{"nats": natsServers, "receiver": receivers, "worker": workers} {
		for i := range count {
			name := fmt.Sprint(group, " ", i)
			all = append(all,
				blow{group + " killed", name, func() { d.kill(name) }, func() { d.start(group, i) }, 500 * time.Millisecond},
				blow{group + " frozen", name, func() { d.signal(name, syscall.SIGSTOP) }, func() { d.signal(name, syscall.SIGCONT) }, 6 * time.Second})
			if group == "nats" && *drillNetwork {
				all = append(all, blow{group + " cut off", name, func() { d.net.cut(d.T, i, "down") }, func() { d.net.cut(d.T, i, "up") }, 8 * time.Second})
			}
		}
	}
	slices.SortFunc(all, func(a, b blow) int { return strings.Compare(a.name+a.machine, b.name+b.machine) })
	d.random.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all
}

func (d *drill) kill(name string) { _ = d.processes[name].end(syscall.SIGKILL) }

// signal fails where the machine has ended, which was noted then.
func (d *drill) signal(name string, s syscall.Signal) {
	d.Helper()
	m := d.processes[name]
	select {
	case <-m.ended:
		d.FailNow()
	default:
		_ = m.process.Signal(s)
	}
}

// fall deals out one blow and ends it.
func (d *drill) fall(b blow) {
	d.Helper()
	from := time.Now()
	fmt.Fprintf(&d.log, "== %s: %s\n", b.machine, b.name)
	b.strike()
	time.Sleep(b.lasting)
	b.heal()
	fmt.Fprintf(&d.log, "== %s: goes on\n", b.machine)
	d.mu.Lock()
	defer d.mu.Unlock()
	d.dealt = append(d.dealt, dealt{b, from, time.Now()})
}

// pass lets some milliseconds pass.
func (d *drill) pass(least, most int) {
	time.Sleep(time.Duration(least+d.random.IntN(most-least)) * time.Millisecond)
}

// settle waits until all that was sent is struck off. After a takeover some is
// sent anew, which may go on after the last first answer.
func (d *drill) settle() {
	d.Helper()
	for range 60 {
		if d.save(); d.unsent() == 0 {
			return
		}
		time.Sleep(time.Second)
	}
	d.Errorf("%d messages are in the outbox a minute after all were answered", d.unsent())
}

// save saves what the machines share.
func (d *drill) save() {
	d.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	if err := os.RemoveAll(d.backup()); err != nil {
		d.Fatal(err)
	}
	backup := exec.CommandContext(ctx, "dogleg", "backup", d.backup())
	backup.Env = append(os.Environ(), d.environment("worker", 0)...)
	if said, err := backup.CombinedOutput(); err != nil {
		d.Fatalf("no backup: %v: %s", err, said)
	}
}

// unsent counts what was in the outbox when all was saved.
func (d *drill) unsent() (count int) {
	d.Helper()
	db, err := store.Open(d.backup())
	if err != nil {
		d.Fatal(err)
	}
	err = db.View(func(tx *store.Tx) error {
		count = len(tx.Outbox())
		return nil
	})
	if err := errors.Join(err, db.Close()); err != nil {
		d.Fatal(err)
	}
	return count
}

// endAll ends the workers and receivers as a service manager does, the servers
// last, and keeps a copy of what they hold.
func (d *drill) endAll() {
	for _, name := range slices.Sorted(maps.Keys(d.processes)) {
		if strings.HasPrefix(name, "nats") {
			continue
		}
		asked := time.Now()
		fmt.Fprintf(&d.log, "== %s: asked to end\n", name)
		if err := d.processes[name].end(syscall.SIGTERM); err != nil {
			d.blame(name)
			d.Errorf("%s at its end: %v", name, err)
		}
		d.Logf("%s ended %v after SIGTERM", name, time.Since(asked).Round(time.Millisecond))
		delete(d.processes, name)
	}
	d.save()
}

func (d *drill) backup() string { return filepath.Join(d.folder, "backup.db") }

// jobs wants exactly one job of each message, in order, and nothing unsent.
func (d *drill) jobs() {
	d.Helper()
	db, err := store.Open(d.backup())
	if err != nil {
		d.Fatal(err)
	}
	err = db.View(func(tx *store.Tx) error {
		d.score.jobs(tx)
		if waiting := tx.Outbox(); len(waiting) > 0 {
			d.Errorf("%d messages are in the outbox again", len(waiting))
		}
		return nil
	})
	if err := errors.Join(err, db.Check(), db.Close()); err != nil {
		d.Errorf("%v", err)
	}
}

// report judges the answers and prints the counts.
func (d *drill) report() {
	d.Helper()
	next, at := map[int64]int64{}, map[question][]time.Time{}
	var sent []time.Time
	for _, call := range d.server.Calls("sendMessage") {
		q := d.answered(call)
		if len(at[q]) == 0 {
			if q.n != next[q.chat] {
				d.Errorf("chat %d: message %d is answered where it is the turn of %d", q.chat, q.n, next[q.chat])
			}
			next[q.chat]++
		}
		at[q] = append(at[q], call.At)
		sent = append(sent, call.At)
	}
	counts := map[int]int{}
	for q, times := range at {
		counts[len(times)]++
		for i := range len(times) - 1 {
			if !d.hurtBetween(times[i], times[i+1]) {
				d.Errorf("%v was answered at %v and at %v, with nothing dead or frozen meanwhile", q, times[i], times[i+1])
			}
		}
	}
	for n := range 10 {
		if counts[n] > 0 {
			d.Logf("%5d answered %d times", counts[n], n)
		}
	}
	d.Logf("%5d messages in %d chats, each kept as one job", d.asked(), len(d.score.said))
	for name, n := range d.silences(sent) {
		d.Logf("%-18s %2d times; longest time without an answer %v", name, len(n), slices.Max(n).Round(10*time.Millisecond))
	}
}

// hurtBetween says whether a blow fell, or was in force, between two moments, or
// so shortly before that a sender could still be in its grip.
func (d *drill) hurtBetween(a, b time.Time) bool {
	const grip = 10 * time.Second
	return slices.ContainsFunc(d.dealt, func(blow dealt) bool {
		return blow.from.Before(b) && blow.to.Add(grip).After(a)
	})
}

// silences are the longest times without an answer that began with each blow or
// within it.
func (d *drill) silences(sent []time.Time) map[string][]time.Duration {
	longest := map[string][]time.Duration{}
	for i, blow := range d.dealt {
		until := blow.to.Add(time.Second)
		if i+1 < len(d.dealt) {
			until = d.dealt[i+1].from
		}
		var most time.Duration
		for n := range len(sent) - 1 {
			if sent[n+1].After(blow.from) && sent[n].Before(until) {
				most = max(most, sent[n+1].Sub(sent[n]))
			}
		}
		longest[blow.name] = append(longest[blow.name], most)
	}
	return longest
}

// lockedBuffer is written by several processes.
type lockedBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lockedBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lockedBuffer) tail(most int) []byte {
	l.mu.Lock()
	defer l.mu.Unlock()
	b := l.b.Bytes()
	return b[max(0, len(b)-most):]
}

// prefixed says whose line it is.
type prefixed struct {
	name string
	to   io.Writer
}

func (p prefixed) Write(b []byte) (int, error) {
	_, err := fmt.Fprintf(p.to, "%s: %s", p.name, b)
	return len(b), err
}

func TestWarningsOfTheMachineThatIsWrong(t *testing.T) {
	log := `worker 0: time=1 level=INFO msg=serving
worker 0: time=2 level=WARN msg="another one leads"
worker 1: time=2 level=WARN msg="NATS is disconnected"
== worker 0: worker frozen
worker 0: dogleg: following the journal, at 7: a gap
worker 0: time=3 level=ERROR msg="no snapshot"
`
	want := []string{
		`worker 0: time=2 level=WARN msg="another one leads"`, "== worker 0: worker frozen",
		"worker 0: dogleg: following the journal, at 7: a gap", `worker 0: time=3 level=ERROR msg="no snapshot"`,
	}
	if got := warnings([]byte(log), "worker 0"); !slices.Equal(got, want) {
		t.Errorf("got %q", got)
	}
	if got := lastOf(warnings([]byte(log), ""), 2); !slices.Equal(got, want[2:]) {
		t.Errorf("of all machines the last two: %q", got)
	}
}
