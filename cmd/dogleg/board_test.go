package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"dogleg/bot"
	"dogleg/bot/serve"
	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

// crew is a group on Telegram with the real bot in it.
type crew struct {
	*testing.T
	api  *loopback.Server
	path string
	chat int64
	when atomic.Int64 // seconds, of the last message
	ear  telegram.Ear // nil: it doesn't hear

	db   *store.DB
	stop context.CancelFunc
	over chan error

	queries int // buttons pressed so far
}

// The crew of Juniper Street and its group.
const juniper = -77

var people = []string{"Dana", "Sam", "Kim", "Luis", "Marta", "Lee"}

func juniperStreet(t *testing.T) *crew {
	t.Helper()
	c := &crew{
		T: t, api: loopback.New(), path: filepath.Join(t.TempDir(), "juniper.db"), chat: juniper,
	}
	c.when.Store(time.Date(2026, time.November, 3, 7, 0, 0, 0, time.UTC).Unix())
	c.start()
	t.Cleanup(func() {
		c.end()
		c.api.Close()
	})
	return c
}

// start runs the bot as serve does, but without its pace.
func (c *crew) start() {
	c.Helper()
	db, err := store.Open(c.path)
	if err != nil {
		c.Fatal(err)
	}
	at := telegram.Rate{Every: time.Nanosecond, Burst: 1000}
	log := slog.New(slog.NewTextHandler(io.Discard, nil))
	ctx, stop := context.WithCancel(context.Background())
	c.db, c.stop, c.over = db, stop, make(chan error, 1)
	config := telegram.Config{
		Token: loopback.Token, Base: c.api.Base(), Log: log, Now: func() time.Time { return time.Unix(c.when.Load(), 0) },
		Memory: serve.Memory{DB: db, Conversation: &bot.Conversation{Log: log}}, Ear: c.ear, Paint: serve.PaintedBy(&bot.Conversation{Log: log}),
		Pace: telegram.Pace{Private: at, Group: at, All: at},
		Timing: telegram.Timing{
			Poll: 50 * time.Second, PollEnds: 5 * time.Second, Send: time.Hour, Toast: time.Hour, // who gives up on a slow server sends twice
			Strike: time.Millisecond, Retry: 5 * time.Millisecond, RetryMax: 40 * time.Millisecond,
			Rival: 20 * time.Millisecond, Breath: 10 * time.Millisecond, Finish: 5 * time.Second,
			Hear: 10 * time.Second, Typing: time.Second,
		},
	}
	go func() { c.over <- telegram.Serve(ctx, config) }()
}

// end stops the bot. The database is whole then.
func (c *crew) end() {
	c.Helper()
	if c.stop == nil {
		return
	}
	c.stop()
	if err := <-c.over; err != nil {
		c.Errorf("serve: %v", err)
	}
	if err := c.db.Check(); err != nil {
		c.Errorf("the database: %v", err)
	}
	if err := c.db.Close(); err != nil {
		c.Error(err)
	}
	c.stop = nil
}

func (c *crew) restart() {
	c.Helper()
	c.end()
	c.start()
}

func member(who int) map[string]any {
	return map[string]any{"id": int64(501 + who), "is_bot": false, "first_name": people[who]}
}

// write has somebody write to the bot, by its name, and returns the message.
func (c *crew) write(who int, text string) int64 {
	c.Helper()
	c.when.Add(60)
	name := "@" + loopback.BotName
	return c.api.Post(c.chat, map[string]any{
		"text": name + " " + text, "from": member(who), "date": c.when.Load(),
		"entities": []map[string]any{{"type": "mention", "offset": 0, "length": len(name)}},
	})
}

// change has somebody edit what they wrote.
func (c *crew) change(who int, message int64, text string) {
	c.when.Add(60)
	name := "@" + loopback.BotName
	c.api.Push("edited_message", map[string]any{
		"message_id": message, "text": name + " " + text, "from": member(who),
		"date": c.when.Load(), "edit_date": c.when.Load(), "chat": map[string]any{"id": c.chat, "type": "supergroup"},
		"entities": []map[string]any{{"type": "mention", "offset": 0, "length": len(name)}},
	})
}

// press has somebody press a button of the list, and returns what they are told
// over the chat.
func (c *crew) press(who int, message int64, data string) string {
	c.Helper()
	c.queries++
	c.when.Add(60)
	query := strconv.Itoa(c.queries)
	c.api.Press(c.chat, message, member(who), query, data)
	told := ""
	c.await("the button lets go", func() bool {
		for _, call := range c.api.Calls("answerCallbackQuery") {
			if call.Params["callback_query_id"] == query && call.Status == 200 {
				told = call.Params["text"]
				return true
			}
		}
		return false
	})
	return told
}

// clearList clears the list of the group: somebody asks for it, and presses the
// button when they are asked whether they mean it. It returns what is said then.
func (c *crew) clearList(who int) string {
	c.Helper()
	asked, text := c.reply(c.write(who, "clear list"))
	_, buttons := c.api.Shown(c.chat, asked)
	if len(buttons) != 1 {
		c.Fatalf("clear list is answered %q with the buttons %v", text, buttons)
	}
	c.press(who, asked, buttons[0].Data)
	_, cleared := c.reply(asked)
	return cleared
}

// button is the one of a piece under a message.
func (c *crew) button(message int64, piece int) string {
	c.Helper()
	_, buttons := c.api.Shown(c.chat, message)
	i := slices.IndexFunc(buttons, func(b loopback.Button) bool { return strings.Contains(b.Label, fmt.Sprintf(" %d. ", piece)) })
	if i < 0 {
		c.Fatalf("no button for piece %d under message %d: %v", piece, message, buttons)
	}
	return buttons[i].Data
}

// shows waits until a message reads so.
func (c *crew) shows(message int64, want string) {
	c.Helper()
	got := ""
	if !c.api.Await(patience, func() bool { got = c.plain(message); return got == want }) {
		c.Fatalf("message %d shows\n%s\nwant\n%s", message, got, want)
	}
}

var tags = regexp.MustCompile(`<[^>]*>`)

// plain is what a message shows, without its markup.
func (c *crew) plain(message int64) string {
	text, _ := c.api.Shown(c.chat, message)
	return plainText(text)
}

func plainText(text string) string {
	return strings.NewReplacer("&lt;", "<", "&gt;", ">", "&quot;", `"`, "&amp;", "&").Replace(tags.ReplaceAllString(text, ""))
}

func (c *crew) await(what string, condition func() bool) {
	c.Helper()
	if !c.api.Await(patience, condition) {
		c.Fatalf("never happened: %s", what)
	}
}

// reply waits for the answer to a message and returns it: its number and text.
func (c *crew) reply(to int64) (message int64, text string) {
	c.Helper()
	c.await("a reply", func() bool {
		message, text = c.answerTo(to)
		return message != 0
	})
	return message, text
}

// answerTo finds the message that replies to another, 0 if there is none yet.
func (c *crew) answerTo(to int64) (message int64, text string) {
	wanted := fmt.Sprintf(`"message_id":%d,`, to)
	for _, call := range c.api.Calls("") {
		words := call.Params["text"] + call.Params["caption"]
		if words != "" && call.Params["chat_id"] == strconv.FormatInt(c.chat, 10) && call.Status == 200 && strings.Contains(call.Params["reply_parameters"], wanted) {
			return call.Message, plainText(words)
		}
	}
	return 0, ""
}

// ask writes and waits for the reply.
func (c *crew) ask(who int, text string) string {
	c.Helper()
	_, reply := c.reply(c.write(who, text))
	return reply
}

// A piece of 12 × √2 − 2 × 1-1/8 = 14.7206 is 14-3/4 light, one of 20 × √2 − 2-1/4
// = 26.0343 is 26-1/16 light.
const (
	laundryAsk = "12 set 45s takeoff 1-1/8 2 pvc dwv"
	kitchenAsk = "20 set 45s takeoff 1-1/8 2 pvc dwv"
)

// The list of a group is one message. Lead and saw see the same: what is added,
// dropped or checked off, in words or by a button, by whomever, before a restart
// or after.
func TestGroupsListIsOneMessage(t *testing.T) {
	c := juniperStreet(t)
	c.ask(0, laundryAsk)
	list, text := c.reply(c.write(0, "add laundry"))
	if want := "Cut list: 1 open, 0 done\n2 PVC DWV\n□ 1. 14-3/4 light, 45s, laundry"; text != want {
		t.Fatalf("the first piece is answered with\n%s\nwant the list:\n%s", text, want)
	}
	c.ask(1, kitchenAsk)
	if got := c.ask(1, "add kitchen"); got != "On the list: □ 2. 26-1/16 light, 45s, 2 PVC DWV, kitchen" {
		t.Errorf("the second piece is answered with %q", got)
	}
	c.shows(list, "Cut list: 2 open, 0 done\n2 PVC DWV\n□ 1. 14-3/4 light, 45s, laundry\n□ 2. 26-1/16 light, 45s, kitchen")
	first := c.button(list, 1)
	c.restart()
	if got := c.press(2, list, first); got != "■ 1. 14-3/4 light, 45s, 2 PVC DWV, laundry" {
		t.Errorf("who presses is told %q", got)
	}
	c.shows(list, "Cut list: 1 open, 1 done\n2 PVC DWV\n■ 1. 14-3/4 light, 45s, laundry\n□ 2. 26-1/16 light, 45s, kitchen")
	if got := c.press(3, list, first); got != "■ 1. 14-3/4 light, 45s, 2 PVC DWV, laundry" {
		t.Errorf("a second press of the same button says %q", got)
	}
	c.press(3, list, c.button(list, 1))
	c.shows(list, "Cut list: 2 open, 0 done\n2 PVC DWV\n□ 1. 14-3/4 light, 45s, laundry\n□ 2. 26-1/16 light, 45s, kitchen")

	// Asked for, it is shown below, and the old message says so.
	below, _ := c.reply(c.write(4, "list"))
	c.shows(list, "The cut list is further down.")
	if _, buttons := c.api.Shown(c.chat, list); len(buttons) > 0 {
		t.Errorf("the old list still has %v", buttons)
	}
	c.ask(4, "drop 2")
	c.shows(below, "Cut list: 1 open, 0 done\n2 PVC DWV\n□ 1. 14-3/4 light, 45s, laundry")

	// A button of a list that was cleared is dead, though there is a new piece 1.
	c.clearList(0)
	c.ask(0, laundryAsk)
	c.ask(0, "add attic")
	if got := c.press(5, below, first); got != "That piece is no longer on the list." {
		t.Errorf("a button of the old list says %q", got)
	}
	c.shows(below, "Cut list: 1 open, 0 done\n2 PVC DWV\n□ 1. 14-3/4 light, 45s, attic")
	if got := c.press(5, below, "gone"); got != "That button does nothing any more." {
		t.Errorf("a button of nobody's says %q", got)
	}

	// One that somebody deleted is shown anew at the next change.
	c.api.Forget(c.chat, below)
	c.ask(2, "done 1")
	c.await("a new list", func() bool {
		all := c.api.WithButtons(c.chat)
		return len(all) > 0 && strings.HasPrefix(c.plain(all[len(all)-1]), "Cut list: 0 open, 1 done")
	})
}

// Files go with their answer: the table as a file, the plan as a picture, and
// as a file where the server takes no picture of that shape.
func TestSticksComeAsTextPictureAndTable(t *testing.T) {
	c := juniperStreet(t)
	c.ask(0, laundryAsk)
	c.ask(0, "add laundry")
	files := func(method string) (names []string) {
		for _, call := range c.api.Calls(method) {
			if call.Status == 200 {
				for _, field := range []string{"photo", "document"} {
					if name := call.Params[field]; name != "" {
						names = append(names, name)
					}
				}
			}
		}
		return names
	}
	if got := c.ask(0, "sticks 10 ft"); !strings.HasPrefix(got, "2 PVC DWV: 1 stick of 10 ft.\n") {
		t.Errorf("sticks: %q", got)
	}
	c.await("the files", func() bool {
		return slices.Equal(files("sendDocument"), []string{"sticks-2026-11-03.csv"}) && slices.Equal(files("sendPhoto"), []string{"sticks-2026-11-03.png"})
	})
	c.api.Plant(loopback.Refuse("sendPhoto", 400, "Bad Request: PHOTO_INVALID_DIMENSIONS"))
	c.ask(0, "sticks 10 ft")
	c.await("the picture as a file", func() bool { return slices.Contains(files("sendDocument"), "sticks-2026-11-03.png") })
	c.ask(0, "export")
	c.await("the sheet", func() bool { return slices.Contains(files("sendDocument"), "cut-list-2026-11-03.pdf") })
}

// An answer is edited with its question, and what is added then is the new one.
func TestEditedAskGoesToTheList(t *testing.T) {
	c := juniperStreet(t)
	asked := c.write(0, kitchenAsk)
	answer, _ := c.reply(asked)
	c.change(0, asked, laundryAsk)
	c.await("the edited answer", func() bool { return strings.HasPrefix(c.plain(answer), "Cut 14-3/4 in light\n") })
	if _, list := c.reply(c.write(0, "add")); !strings.Contains(list, "□ 1. 14-3/4 light") {
		t.Errorf("the list has\n%s", list)
	}
}
