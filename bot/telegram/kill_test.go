package telegram_test

import (
	"context"
	"fmt"
	"log/slog"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

// Where these are set, the test binary is a bot to be killed.
const (
	victimBase = "DOGLEG_TEST_VICTIM_BASE"
	victimFile = "DOGLEG_TEST_VICTIM_FILE"
)

func TestMain(m *testing.M) {
	if base := os.Getenv(victimBase); base != "" {
		os.Exit(victim(base, os.Getenv(victimFile)))
	}
	os.Exit(m.Run())
}

// mostUnstruck is how many messages may have been sent and not be struck off.
const mostUnstruck = 256

func victim(base, path string) int {
	db, err := store.Open(path)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	begun, err := store.OpenBegun(path + ".begun")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	timing := quick
	timing.Hear, timing.Typing = soon, time.Hour
	err = telegram.Serve(context.Background(), telegram.Config{
		Token: loopback.Token, Base: base,
		Memory: &memory{db: db, answer: heardUnlessDead, full: map[string]telegram.Answer{
			"draw": {Text: "drawn", Files: []telegram.File{{Name: "poison.png", Picture: true, Recipe: []byte(`"poison"`)}}},
		}},
		Ear:   ear(func(context.Context, string) (telegram.Heard, error) { die(); return telegram.Heard{}, nil }),
		Paint: func(telegram.File) (telegram.File, bool) { die(); return telegram.File{}, false },
		Begin: begun.Begin,
		Log:   slog.New(slog.DiscardHandler), Pace: unmetered, Timing: timing, Budget: boundless,
	})
	fmt.Fprintln(os.Stderr, err)
	return 1
}

// poison is a question that kills the process, as one does that needs more memory than
// there is.
const poison = "poison"

func die() {
	if self, err := os.FindProcess(os.Getpid()); err == nil {
		_ = self.Kill()
	}
	select {}
}

func heardUnlessDead(q telegram.Question) string {
	if q.Text == poison {
		die()
	}
	return "heard " + q.Text
}

// What kills the process, each time it is begun, is set aside when it has killed it
// three times: its sender is told, and everybody else is answered.
func TestWhatKillsTheProcessIsSetAside(t *testing.T) {
	for name, c := range map[string]struct {
		send func(*loopback.Server)
		want string // what its sender is told in the end
		puts int    // updates in quarantine
	}{
		"a message":   {func(api *loopback.Server) { api.Say(2, poison) }, "Something went wrong here", 1},
		"a picture":   {func(api *loopback.Server) { api.Say(2, "draw") }, "drawn", 0},
		"a recording": {func(api *loopback.Server) { api.Keep("note", []byte("note")); api.Post(2, voiceOf("note")) }, "I couldn't get at that recording", 0},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			api := loopback.New()
			defer api.Close()
			path := filepath.Join(t.TempDir(), "juniper.db")
			for n := range 3 {
				api.Say(1, fmt.Sprint("before ", n))
			}
			c.send(api)
			for n := range 3 {
				api.Say(3, fmt.Sprint("after ", n))
			}
			api.Say(2, "and then")
			told := func(chat, want string) bool { // what was on its way at a death comes twice
				return slices.ContainsFunc(textsTo(api)[chat], func(text string) bool { return strings.HasPrefix(text, want) })
			}
			answered := func() bool {
				return told("1", "heard before 2") && told("2", c.want) && told("2", "heard and then") && told("3", "heard after 2")
			}
			deaths := 0
			for ; !answered(); deaths++ {
				if deaths > 5 {
					t.Fatalf("killed %d times: %v", deaths, textsTo(api))
				}
				bot := startVictim(t, api.Base(), path)
				over := make(chan struct{})
				go func() { _ = bot.Wait(); close(over) }()
				if !endsBefore(over, answered) {
					deaths--
					_ = bot.Process.Kill()
				}
				<-over
			}
			if deaths != 3 {
				t.Errorf("it has killed %d times, want 3", deaths)
			}
			m := openMemory(t, path)
			if got := m.quarantined(t); len(got) != c.puts {
				t.Errorf("%d in quarantine, want %d", len(got), c.puts)
			}
			m.close(t)
		})
	}
}

// endsBefore says whether a process is over before something holds.
func endsBefore(over <-chan struct{}, holds func() bool) bool {
	for deadline := time.Now().Add(soon); !holds() && time.Now().Before(deadline); {
		select {
		case <-over:
			return true
		case <-time.After(5 * time.Millisecond):
		}
	}
	return false
}

// textsTo are the texts that the server took, by chat.
func textsTo(api *loopback.Server) map[string][]string {
	texts := map[string][]string{}
	for _, call := range api.Calls("sendMessage") {
		if chat := call.Params["chat_id"]; call.Status == 200 {
			texts[chat] = append(texts[chat], call.Params["text"])
		}
	}
	return texts
}

// The bot is killed, without warning and at any moment, again and again while
// messages come in. Afterwards each was answered, in order in each chat, and
// kept once; some were answered twice, which can't be helped, but no more than
// were on their way.
func TestKilledAgainAndAgainLosesNothing(t *testing.T) {
	const chats, each, kills = 8, 60, 10
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))

	api := loopback.New()
	defer api.Close()
	api.Plant(loopback.Fault{Method: "sendMessage", Delay: 5 * time.Millisecond, Times: -1})
	path := filepath.Join(t.TempDir(), "juniper.db")
	for n := range each {
		for chat := range int64(chats) {
			api.Say(chat+1, fmt.Sprint(n))
		}
	}
	struck := 0 // kills that left work undone
	for range kills {
		bot := startVictim(t, api.Base(), path)
		before := len(api.Calls("sendMessage"))
		api.Await(soon, func() bool { return len(api.Calls("sendMessage")) > before || len(api.Unconfirmed()) == 0 })
		time.Sleep(time.Duration(random.IntN(20)) * time.Millisecond)
		if err := bot.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = bot.Wait()
		if len(api.Calls("sendMessage")) < chats*each {
			struck++
		}
	}
	if struck < kills/2 {
		t.Errorf("only %d of %d kills left anything undone", struck, kills)
	}
	j := &job{T: t, api: api, log: new(syncedBuffer), memory: openMemory(t, path)}
	j.config = telegram.Config{
		Token: loopback.Token, Base: api.Base(), Memory: j.memory,
		Log: slog.New(slog.NewTextHandler(j.log, nil)), Pace: unmetered, Timing: quick, Budget: boundless,
	}
	j.start()
	j.settle()
	if err := j.end(); err != nil {
		t.Error(err)
	}
	for chat := range int64(chats) {
		j.answeredAll(chat+1, each)
	}
	if sent := len(api.Calls("sendMessage")); sent > chats*each+kills*mostUnstruck {
		t.Errorf("%d sent for %d questions", sent, chats*each)
	}
	j.memory.close(t)
}

func startVictim(t *testing.T, base, path string) *exec.Cmd {
	t.Helper()
	bot := exec.Command(os.Args[0])
	bot.Env = append(os.Environ(), victimBase+"="+base, victimFile+"="+path)
	bot.Stderr = os.Stderr
	if err := bot.Start(); err != nil {
		t.Fatal(err)
	}
	return bot
}

// answeredAll fails the test unless a chat's questions 0, 1, 2 … were all
// answered, the first time in order, and each kept as one job.
func (j *job) answeredAll(chat int64, questions int) {
	j.Helper()
	first := firsts(j.delivered(chat))
	var want, kept, asked []string
	for n := range questions {
		want = append(want, fmt.Sprintf("heard %d", n))
		asked = append(asked, fmt.Sprint(n))
	}
	for _, k := range j.jobsOf(chat) {
		kept = append(kept, k.Asked)
	}
	if !slices.Equal(first, want) {
		j.Errorf("chat %d got %q, want %q", chat, first, want)
	}
	if !slices.Equal(kept, asked) {
		j.Errorf("of chat %d is kept %q, want %q", chat, kept, asked)
	}
}
