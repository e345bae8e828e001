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
	err = telegram.Serve(context.Background(), telegram.Config{
		Token: loopback.Token, Base: base,
		Memory: &memory{db: db, answer: func(q telegram.Question) string { return "heard " + q.Text }},
		Log:    slog.New(slog.DiscardHandler), Pace: unmetered, Timing: quick, Budget: boundless,
	})
	fmt.Fprintln(os.Stderr, err)
	return 1
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
	var first []string
	for _, text := range j.delivered(chat) {
		if !slices.Contains(first, text) {
			first = append(first, text)
		}
	}
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
