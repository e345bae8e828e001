package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"dogleg/bot/telegram/loopback"
)

// flood is what some do to the bot while others ask it something.
type flood struct {
	name   string
	ready  func(*loopback.Server) // before: asked an hour ago, and answered
	strike func(*loopback.Server)
	aim    string // for the 99th of a hundred bystanders
}

var floods = []flood{
	{name: "three people, 40 plans each of 440 pieces", ready: threeLists, strike: fortySticks, aim: "p99 ≤ 1 s, ≤ 250 MB"},
	{name: "three people, 40 each of whatever is dear", ready: threeLists, strike: dear, aim: "p99 ≤ 1 s, ≤ 250 MB"},
	{name: "500 × answer everything", strike: everything(500, 50*time.Millisecond), aim: "p99 ≤ 2 s"},
	{name: "40 × answer everything, nobody says who is admin", strike: everything(40, time.Hour), aim: "p99 ≤ 2 s"},
	{name: "eight chats held back, 40 messages each", strike: heldBack, aim: "p99 ≤ 2 s"},
	{name: "20 groups, 40 messages each", strike: twentyGroups, aim: "p99 ≤ 2 s"},
	{name: "three chats in a row refused for 30 s", strike: threeRefused, aim: "p99 ≤ 2 s"},
}

// BenchmarkFloods is what bystanders wait while others flood the bot, against what
// they wait where nobody does: the real program, in a process of its own, at
// Telegram's pace.
func BenchmarkFloods(b *testing.B) {
	var quiet waits
	b.Run("quiet", func(b *testing.B) {
		for b.Loop() {
			quiet = flooded(b, flood{})
		}
		report(b, "bystanders where nobody floods", quiet, quiet, "")
	})
	for _, f := range floods {
		b.Run(f.name, func(b *testing.B) {
			var felt waits
			for b.Loop() {
				felt = flooded(b, f)
			}
			report(b, f.name, felt, quiet, f.aim)
		})
	}
}

// BenchmarkBusy is what they wait where many chats are busy, each with a question
// every few seconds.
func BenchmarkBusy(b *testing.B) {
	var first waits
	for _, chats := range []int{10, 100, 1000} {
		b.Run(strconv.Itoa(chats), func(b *testing.B) {
			var felt waits
			for b.Loop() {
				felt = flooded(b, flood{strike: func(api *loopback.Server) { busy(api, chats) }})
			}
			if first.all == nil {
				first = felt
			}
			report(b, fmt.Sprintf("bystanders beside %d busy chats", chats), felt, first, "")
		})
	}
}

// waits are those of the bystanders, and what the program held at most meanwhile.
type waits struct {
	all    []time.Duration
	memory int // megabytes
}

func report(b *testing.B, what string, felt, quiet waits, aim string) {
	p50, p99 := share(felt.all, 0.5), share(felt.all, 0.99)
	b.ReportMetric(p50.Seconds()*1000, "median-ms")
	b.ReportMetric(p99.Seconds()*1000, "p99-ms")
	b.ReportMetric(float64(felt.memory), "MB")
	ratio, floor := "", ""
	if len(quiet.all) > 0 {
		before := share(quiet.all, 0.99)
		ratio, floor = fmt.Sprintf("%.1f ×", float64(p99)/float64(before)), brief(before)
	}
	found(finding{what + ": median, p99, memory", fmt.Sprintf("%s, %s, %d MB", brief(p50), brief(p99), felt.memory), floor, ratio, aim})
}

// bystanders ask so many questions, each in a chat of their own, one after the other.
const (
	bystanders       = 100
	betweenThem      = 100 * time.Millisecond
	firstBystander   = 5_000_000
	mostAnybodyWaits = 5 * time.Minute
)

func flooded(b *testing.B, f flood) (felt waits) {
	api := loopback.New()
	defer api.Close()
	process := exec.Command("dogleg", "serve", "--db", filepath.Join(inMemory(b), "juniper.db"))
	process.Env = append(os.Environ(), "DOGLEG_TOKEN="+loopback.Token, "DOGLEG_API_ENDPOINT="+api.Base())
	var log bytes.Buffer
	process.Stderr = &log
	if err := process.Start(); err != nil {
		b.Fatal(err)
	}
	defer func() {
		_ = process.Process.Kill()
		_ = process.Wait()
	}()
	if f.ready != nil {
		f.ready(api)
		if !api.Await(mostAnybodyWaits, func() bool { return len(api.Unconfirmed()) == 0 }) {
			b.Fatalf("not all is answered:\n%s", &log)
		}
		time.Sleep(5 * time.Second) // for what is still being sent
	}
	var memory sync.WaitGroup
	over := make(chan struct{})
	memory.Go(func() {
		for {
			select {
			case <-over:
				return
			case <-time.After(50 * time.Millisecond):
				felt.memory = max(felt.memory, ownMemory(b, process.Process.Pid))
			}
		}
	})
	if f.strike != nil {
		f.strike(api)
	}
	said := make([]time.Time, bystanders)
	for i := range said {
		said[i] = time.Now()
		api.Say(int64(firstBystander+i), "12 set 45s 1-1/2 pvc")
		time.Sleep(betweenThem)
	}
	if !api.Await(mostAnybodyWaits, func() bool { return len(answersTo(api)) == bystanders }) {
		b.Fatalf("%d of %d are answered:\n%s", len(answersTo(api)), bystanders, &log)
	}
	close(over)
	memory.Wait()
	for i, at := range answersTo(api) {
		felt.all = append(felt.all, at.Sub(said[i]))
	}
	return felt
}

// answersTo is when each bystander was answered first.
func answersTo(api *loopback.Server) map[int]time.Time {
	first := map[int]time.Time{}
	for _, c := range api.Calls("sendMessage") {
		chat, _ := strconv.ParseInt(c.Params["chat_id"], 10, 64)
		i := int(chat - firstBystander)
		if _, known := first[i]; !known && chat >= firstBystander && c.Status == 200 {
			first[i] = c.At
		}
	}
	return first
}

// ago has somebody write something some time ago, since when a budget has recovered.
func ago(api *loopback.Server, since time.Duration, chat int64, text string) {
	api.Post(chat, map[string]any{"text": text, "date": time.Now().Add(-since).Unix()})
}

func threeLists(api *loopback.Server) {
	for chat := int64(1); chat <= 3; chat++ {
		for n := range 11 {
			since := 2*time.Hour - time.Duration(n)*5*time.Minute
			ago(api, since, chat, "40 lines 8 apart, set 15 45s 2 pvc takeoff 1")
			ago(api, since-time.Minute, chat, "add")
		}
	}
}

func fortySticks(api *loopback.Server) {
	for range 40 {
		for chat := int64(1); chat <= 3; chat++ {
			api.Say(chat, "sticks")
		}
	}
}

// dear has three people with such lists send 40 messages each of those that take most:
// plans, tables and pages, all that is kept, and as many asks as a message holds.
func dear(api *loopback.Server) {
	long := strings.Repeat("roll 7-1/2 rise 4-1/4 45s 1-1/2 pvc dwv\n", 4000/40)
	wide := strings.Repeat("40 lines 8 apart, set 15 45s 2 pvc takeoff 1\n", 4000/45)
	texts := []string{"export", "sticks 10 ft", "export my data", wide, "list", "draw", long, "sticks 20 ft hacksaw", "jobs", "takeoffs chart"}
	for n := range 40 {
		for chat := int64(1); chat <= 3; chat++ {
			api.Say(chat, texts[n%len(texts)])
		}
	}
}

// everything has many want to set that a group is always answered, where the server
// takes a while to say who is an admin.
func everything(count int, takes time.Duration) func(*loopback.Server) {
	return func(api *loopback.Server) {
		fault := loopback.Fault{Method: "getChatMember", Delay: takes, Times: -1}
		if takes == time.Hour {
			fault = loopback.Fault{Method: "getChatMember", Hang: true, Times: -1}
		}
		api.Plant(fault)
		name := "@" + loopback.BotName
		for range count {
			api.Post(-77, map[string]any{
				"text": name + " answer everything", "entities": []map[string]any{{"type": "mention", "offset": 0, "length": len(name)}},
			})
		}
	}
}

func held(api *loopback.Server, chat int64, seconds int) {
	fault := loopback.TooMany("sendMessage", seconds)
	fault.Chat, fault.Times = chat, -1
	api.Plant(fault)
}

func heldBack(api *loopback.Server) {
	for chat := int64(1); chat <= 8; chat++ {
		held(api, chat, 30)
	}
	for range 40 {
		for chat := int64(1); chat <= 8; chat++ {
			api.Say(chat, "12 set 45s 1-1/2 pvc")
		}
	}
}

func twentyGroups(api *loopback.Server) {
	name := "@" + loopback.BotName
	for n := range 40 {
		for group := range int64(20) {
			api.Post(-100-group, map[string]any{
				"text": name + " 12 set 45s 1-1/2 pvc", "from": map[string]any{"id": 900 + group*10 + int64(n%10), "is_bot": false, "first_name": "Sam"},
				"entities": []map[string]any{{"type": "mention", "offset": 0, "length": len(name)}},
			})
		}
	}
}

func threeRefused(api *loopback.Server) {
	for chat := int64(1); chat <= 3; chat++ {
		held(api, chat, 30)
		api.Say(chat, "12 set 45s 1-1/2 pvc")
	}
}

// busy has many chats with a question each every five seconds, until the bystanders
// are through, but no more in all than go out in a second.
func busy(api *loopback.Server, chats int) {
	perSecond := min(chats/5, 12)
	go func() {
		for n := range perSecond * int(bystanders*betweenThem/time.Second) {
			api.Say(int64(1000+n*7%chats), "12 set 45s 1-1/2 pvc")
			time.Sleep(time.Second / time.Duration(perSecond))
		}
	}()
}
