//go:build unix

package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"dogleg/bot"
	"dogleg/bot/serve"
	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"

	tg "github.com/go-telegram-bot-api/telegram-bot-api/v5"
)

// BenchmarkServing takes a crowd's messages from the update to the reply, every
// job committed before it is acknowledged, and the same messages through a bot
// on the same library that keeps nothing and says what it hears. The database
// is in memory where there is such a file system, so that the processor is what
// is measured; the commits are counted.
//
// The server runs in the same process, so the processor time of either bot has
// the same share of the server's in it, and both have as much room for garbage as
// serve has.
func BenchmarkServing(b *testing.B) {
	b.Cleanup(serve.CollectSeldom(os.Getenv))
	b.Run("at once", func(b *testing.B) { serving(b, "served", 0, "") })
	b.Run("50 ms away", func(b *testing.B) {
		serving(b, "served, 50 ms added to every call", 50*time.Millisecond, "≥ 0.95 ×")
	})
}

const (
	senders = 32   // requests that either bot has in flight at once
	crowd   = 200  // chats that the messages come from
	waiting = 2000 // messages that wait at the start
)

func serving(b *testing.B, what string, away time.Duration, aim string) {
	var ours, floor []spent
	var commits []float64
	messages := corpus(b)
	for b.Loop() {
		took, n := served(b, messages, away)
		ours, commits = append(ours, took), append(commits, n)
		floor = append(floor, echoed(b, messages, away))
	}
	b.ReportMetric(share(commits, 0.5), "commits/100")
	if away > 0 { // near, either takes many times what Telegram does
		speed := float64(middle(times(floor))) / float64(middle(times(ours)))
		b.ReportMetric(speed, "of-echo")
		perSecond := func(d time.Duration) string { return fmt.Sprintf("%.0f a second", waiting/d.Seconds()) }
		found(finding{what, perSecond(middle(times(ours))), "echo " + perSecond(middle(times(floor))), fmt.Sprintf("%.2f ×", speed), aim})
	}
	compared(b, what+": processor, a message", middle(processors(ours))/waiting, middle(processors(floor))/waiting, "processor-of-echo", "")
	found(finding{what + ": commits for 100 messages", fmt.Sprintf("%.1f", share(commits, 0.5)), "", "", "≤ 3"})
}

// BenchmarkLatency sends one message at a time to each bot, and takes the time
// until its reply is at the server.
func BenchmarkLatency(b *testing.B) {
	messages := corpus(b)
	var ours, floor []time.Duration
	for b.Loop() {
		ours = append(ours, latencies(b, messages, startDogleg)...)
		floor = append(floor, latencies(b, messages, startEcho)...)
	}
	compared(b, "from message to reply, median", middle(ours), middle(floor), "of-echo", "< 5 ms more")
}

// single is how many messages are sent one at a time.
const single = 50

func latencies(b *testing.B, messages []carried, run func(*testing.B, *loopback.Server) running) (all []time.Duration) {
	api := loopback.New()
	defer api.Close()
	bot := run(b, api)
	defer bot.end()
	for i := range single {
		time.Sleep(5 * time.Millisecond) // the poll before has to be there again
		said := time.Now()
		api.Say(chatNumber(i), messages[i*len(messages)/single].text)
		var at time.Time
		if !api.Await(time.Minute, func() (replied bool) { at, replied = repliedTo(api, chatNumber(i)); return replied }) {
			b.Fatalf("no reply to %q", messages[i*len(messages)/single].text)
		}
		all = append(all, at.Sub(said))
	}
	return all
}

// repliedTo is when a chat got its first message, of whatever kind.
func repliedTo(api *loopback.Server, chat int64) (at time.Time, replied bool) {
	for _, c := range api.Calls("") {
		if strings.HasPrefix(c.Method, "send") && c.Method != "sendChatAction" && c.Params["chat_id"] == strconv.FormatInt(chat, 10) {
			return c.At, true
		}
	}
	return at, false
}

// spent is what a run took: by the clock, and of the processor.
type spent struct{ time, processor time.Duration }

func times(all []spent) (out []time.Duration) {
	for _, s := range all {
		out = append(out, s.time)
	}
	return out
}

func processors(all []spent) (out []time.Duration) {
	for _, s := range all {
		out = append(out, s.processor)
	}
	return out
}

// spending measures what happens until the returned function is called.
func spending() (end func() spent) {
	began, used := time.Now(), processor()
	return func() spent { return spent{time.Since(began), processor() - used} }
}

// processor is how long this process has kept the processors busy.
func processor() time.Duration {
	var u syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &u) // it can't fail for oneself
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// loaded is a server that lies so far away, with all messages waiting in it.
func loaded(messages []carried, away time.Duration) *loopback.Server {
	api := loopback.New()
	if away > 0 {
		api.Plant(loopback.Fault{Delay: away, Times: -1})
	}
	for i := range waiting {
		api.Say(chatNumber(i), messages[i%len(messages)].text)
	}
	return api
}

func chatNumber(i int) int64 { return int64(1000 + i%crowd) }

// served is what dogleg takes for all messages, and how many commits it makes
// for a hundred of them.
func served(b *testing.B, messages []carried, away time.Duration) (took spent, commits float64) {
	api := loaded(messages, away)
	defer api.Close()
	end := spending()
	bot := startDogleg(b, api)
	all := func() bool { return bot.health.Updates.Load() >= waiting && bot.health.Unsent.Load() == 0 }
	if !api.Await(5*time.Minute, all) {
		b.Fatal("not all is answered")
	}
	took = end()
	bot.end()
	return took, float64(bot.health.Commits.Load()) * 100 / waiting
}

// running is a bot at work.
type running struct {
	health *telegram.Health // of dogleg
	end    func()
}

// startDogleg starts dogleg on a new database.
func startDogleg(b *testing.B, api *loopback.Server) running {
	db, err := store.Open(filepath.Join(inMemory(b), "juniper.db"))
	if err != nil {
		b.Fatal(err)
	}
	silent := slog.New(slog.DiscardHandler)
	health := new(telegram.Health)
	ctx, stop := context.WithCancel(context.Background())
	over := make(chan error, 1)
	go func() {
		over <- telegram.Serve(ctx, telegram.Config{
			Token: loopback.Token, Base: api.Base(), Log: silent, Health: health, Senders: senders,
			Memory: serve.Memory{DB: db, Conversation: &bot.Conversation{Log: silent}}, Pace: unmetered, Budget: telegram.Budget{User: unmetered.All, Chat: unmetered.All},
		})
	}()
	return running{health, func() {
		stop()
		if err := errors.Join(<-over, db.Close()); err != nil {
			b.Error(err)
		}
	}}
}

// unmetered lets everything go at once: no chat waits for its pace.
var unmetered = telegram.Pace{
	Private: telegram.Rate{Every: time.Nanosecond, Burst: 1000},
	Group:   telegram.Rate{Every: time.Nanosecond, Burst: 1000},
	All:     telegram.Rate{Every: time.Nanosecond, Burst: 1000},
}

// echoed is what the bot that does nothing takes for all messages.
func echoed(b *testing.B, messages []carried, away time.Duration) spent {
	api := loaded(messages, away)
	defer api.Close()
	end := spending()
	if err := echo(echoAt(api), waiting); err != nil {
		b.Fatal(err)
	}
	return end()
}

// startEcho starts the bot that does nothing. It ends when its server does.
func startEcho(_ *testing.B, api *loopback.Server) running {
	go func() { _ = echo(echoAt(api), single) }()
	return running{end: func() {}}
}

func echoAt(api *loopback.Server) *tg.BotAPI {
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: senders + 1}}
	e := &tg.BotAPI{Token: loopback.Token, Client: client}
	e.SetAPIEndpoint(api.Base() + "/bot%s/%s")
	return e
}

// echo sends so many messages back, with a pool of senders.
func echo(api *tg.BotAPI, count int) error {
	work, failed := make(chan *tg.Message, senders), make(chan error, 1)
	var pool sync.WaitGroup
	for range senders {
		pool.Go(func() {
			for m := range work {
				_, err := api.MakeRequest("sendMessage", tg.Params{"chat_id": strconv.FormatInt(m.Chat.ID, 10), "text": m.Text})
				if err != nil {
					select {
					case failed <- err:
					default: // the first is enough
					}
				}
			}
		})
	}
	err := receive(api, count, work)
	close(work)
	pool.Wait()
	select {
	case unsent := <-failed:
		return errors.Join(err, unsent)
	default:
		return err
	}
}

// receive polls until so many messages have come.
func receive(api *tg.BotAPI, count int, work chan<- *tg.Message) error {
	for received, offset := 0, 0; received < count; {
		response, err := api.MakeRequest("getUpdates", tg.Params{"offset": strconv.Itoa(offset), "limit": "100", "timeout": "50"})
		if err != nil {
			return err
		}
		var batch []tg.Update
		if err := json.Unmarshal(response.Result, &batch); err != nil {
			return err
		}
		for _, u := range batch {
			work <- u.Message
			offset = u.UpdateID + 1
		}
		received += len(batch)
	}
	return nil
}

// inMemory is a folder for one database, on a file system in memory where there
// is one.
func inMemory(b *testing.B) string {
	const memory = "/dev/shm"
	if _, err := os.Stat(memory); err != nil {
		return b.TempDir()
	}
	folder, err := os.MkdirTemp(memory, "dogleg-benchmark-")
	if err != nil {
		return b.TempDir()
	}
	b.Cleanup(func() { os.RemoveAll(folder) })
	return folder
}
