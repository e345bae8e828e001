package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"dogleg/bot"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

// A database after years: a million jobs, so many of each person.
const (
	users      = 50_000
	jobsOfEach = 20
)

// BenchmarkScale answers the same people out of a file with a million jobs and
// out of a new one: what a message costs, what one's own list, a search in it and
// being forgotten cost, how soon serve is up, and how much memory it holds.
func BenchmarkScale(b *testing.B) {
	folder := inMemory(b)
	large, small := filepath.Join(folder, "large.db"), filepath.Join(folder, "small.db")
	fill(b, large, users)
	fill(b, small, 1)
	for _, message := range []struct{ text, what, aim string }{
		{"set 11-1/2 45s 2 pvc", "an update among a million jobs, against one person's", "≤ 1.5 ×"},
		{"jobs", "history", "≤ 1.5 ×"},
		{"jobs 2 pvc", "search", "≤ 1.5 ×"},
	} {
		b.Run(message.text, func(b *testing.B) { scaled(b, large, small, message.what, message.text, message.aim) })
	}
	b.Run("serve", func(b *testing.B) { startedAtScale(b, large, small) })
	b.Run("forget me", func(b *testing.B) { scaled(b, large, small, "forget me", "forget me", "≤ 1.5 ×") })
}

// fill makes a database of so many people, each with the same jobs.
func fill(b *testing.B, path string, count int) {
	db, err := store.Open(path)
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close()
	var once bot.Forgetful
	new(bot.Conversation).Handle(bot.Message{Text: "set 10-3/8 45s 2 pvc dwv", When: time.Now()}, &once)
	job := once.Jobs()[0]
	const together = 500
	for from := 0; from < count; from += together {
		err := db.Update(func(tx *store.Tx) error {
			for i := from; i < min(from+together, count); i++ {
				person := tx.Person(personAt(i))
				for range jobsOfEach {
					person.AddJob(job)
				}
			}
			return nil
		})
		if err != nil {
			b.Fatal(err)
		}
	}
}

// personAt is somebody in a private chat. Numbers of as many digits stand in the
// file in their order.
func personAt(i int) store.Key {
	number := strconv.Itoa(10_000_000 + i)
	return store.ChatOf("telegram", number).Person(number)
}

// scaled answers a message out of both files, without keeping what it changes.
func scaled(b *testing.B, large, small, what, text, aim string) {
	var ours, floor []time.Duration
	for _, file := range []struct {
		path  string
		count int
		took  *[]time.Duration
	}{{large, users, &ours}, {small, 1, &floor}} {
		db, err := store.Open(file.path)
		if err != nil {
			b.Fatal(err)
		}
		for i := range max(b.N, 50) {
			*file.took = append(*file.took, timed(func() { answerOnce(db, personAt(i*7919%file.count), text) }))
		}
		if err := db.Close(); err != nil {
			b.Fatal(err)
		}
	}
	compared(b, what, middle(ours), middle(floor), "of-small", aim)
}

// errKeepNothing ends a transaction so that the next finds the same.
var errKeepNothing = fmt.Errorf("a benchmark keeps nothing")

func answerOnce(db *store.DB, who store.Key, text string) {
	_ = db.Update(func(tx *store.Tx) error {
		var conversation bot.Conversation
		conversation.Handle(bot.Message{Text: text, When: time.Now()}, tx.Person(who))
		if text == "forget me" {
			conversation.Handle(bot.Message{Text: "yes", When: time.Now()}, tx.Person(who))
		}
		return errKeepNothing
	})
}

// startedAtScale runs the real program on both files until it is at the server, and
// answers a few hundred people from the large one.
func startedAtScale(b *testing.B, large, small string) {
	var ours, floor []time.Duration
	var memory int
	for b.Loop() {
		took, _ := servedFrom(b, small, 0)
		floor = append(floor, took)
		took, memory = servedFrom(b, large, 500)
		ours = append(ours, took)
	}
	compared(b, "start of serve", middle(ours), middle(floor), "of-small", "< 1 s")
	b.ReportMetric(float64(memory), "MB")
	found(finding{"memory of serve, of its own", fmt.Sprintf("%d MB", memory), "", "", "< 150 MB"})
}

// servedFrom starts serve and says how soon it is at the server, and how many megabytes it
// holds after answering so many people. Pages of the file, which the system
// keeps as it likes, are not counted.
func servedFrom(b *testing.B, path string, count int) (start time.Duration, megabytes int) {
	api := loopback.New()
	defer api.Close()
	process := exec.Command("dogleg", "serve", "--db", path)
	process.Env = append(os.Environ(), "DOGLEG_TOKEN="+loopback.Token, "DOGLEG_API_ENDPOINT="+api.Base())
	var log bytes.Buffer
	process.Stderr = &log
	began := time.Now()
	if err := process.Start(); err != nil {
		b.Fatal(err)
	}
	defer func() {
		_ = process.Process.Signal(os.Interrupt)
		_ = process.Wait()
	}()
	if !api.Await(5*time.Minute, func() bool { return len(api.Calls("getMe")) > 0 }) {
		b.Fatalf("serve does not start:\n%s", &log)
	}
	start = time.Since(began)
	for i := range count {
		api.Say(int64(10_000_000+i*97%users), "set 11-1/2 45s 2 pvc")
	}
	if !api.Await(5*time.Minute, func() bool { return len(api.Unconfirmed()) == 0 }) {
		b.Fatalf("not all is answered:\n%s", &log)
	}
	return start, ownMemory(b, process.Process.Pid)
}

// ownMemory is what a process holds that is no file's, in megabytes.
func ownMemory(b *testing.B, pid int) int {
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		b.Fatal(err)
	}
	for line := range strings.Lines(string(status)) {
		if fields := strings.Fields(line); fields[0] == "RssAnon:" {
			kilobytes, _ := strconv.Atoi(fields[1])
			return kilobytes >> 10
		}
	}
	b.Fatal("the system does not say how much memory a process has")
	return 0
}
