package telegram_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

func TestAnswers(t *testing.T) {
	j := newJob(t)
	asked := time.Now()
	j.start()
	j.api.Say(12, "12 set 45s 1-1/2 pvc")
	j.says(12, "heard 12 set 45s 1-1/2 pvc")
	j.settle()
	j.await("the menu of commands", func() bool { return len(j.api.Calls("setMyCommands")) == 1 })
	if err := j.end(); err != nil {
		t.Error(err)
	}
	q := j.memory.questions()[0]
	if q.Chat != 12 || q.User != "12" || q.When.Before(asked.Truncate(time.Second)) {
		t.Errorf("asked as %+v", q)
	}
	if got := j.api.Calls("setMyCommands"); got[0].Status != 200 {
		t.Errorf("the menu of commands: %+v", got)
	}
}

func TestPollAsksForWhatIsHandled(t *testing.T) {
	j := newJob(t)
	j.api.Say(12, "help")
	j.start()
	j.settle()
	first := j.api.Calls("getUpdates")[0].Params
	for name, want := range map[string]string{
		"allowed_updates": `["message","edited_message","callback_query","inline_query","my_chat_member"]`,
		"timeout":         "50", "limit": "100",
	} {
		if first[name] != want {
			t.Errorf("%s is %q, want %q", name, first[name], want)
		}
	}
	if offset, set := first["offset"]; set {
		t.Errorf("the very first poll has offset %s", offset)
	}
}

// The server forgets an update when a later one is asked for, so nothing may
// be asked for before the answer is on the disk.
func TestAcknowledgesOnlyAfterCommit(t *testing.T) {
	j := newJob(t)
	j.api.Say(12, "help")
	j.start()
	j.settle()
	j.memory.failing.Store(true)
	j.api.Say(12, "12 set 45s")
	j.awaitLog("no space left on device")

	if len(j.api.Unconfirmed()) != 1 {
		t.Error("acknowledged although nothing was kept")
	}
	if at := j.memory.cursor(t, j.api.Base()); at != 2 {
		t.Errorf("the cursor moved to %d", at)
	}
	if sent := j.delivered(12); len(sent) != 1 {
		t.Errorf("sent before it was kept: %q", sent)
	}
	if polls := j.api.Calls("getUpdates"); len(polls) != 2 {
		t.Errorf("polled %d times meanwhile; the same offset again is punished", len(polls))
	}

	j.memory.failing.Store(false)
	j.says(12, "heard help", "heard 12 set 45s")
	j.settle()
	if at := j.memory.cursor(t, j.api.Base()); at != 3 {
		t.Errorf("the cursor is %d, want 3", at)
	}
}

func TestRedeliveryHasNoSecondEffect(t *testing.T) {
	j := newJob(t)
	for n := range 5 {
		j.api.Say(12, fmt.Sprintf("%d set 45s", 10+n))
	}
	batch := j.api.Unconfirmed()
	j.start()
	j.settle()
	j.api.Redeliver(batch...)
	j.api.Say(12, "same but 22s")
	j.says(12, "heard 10 set 45s", "heard 11 set 45s", "heard 12 set 45s", "heard 13 set 45s", "heard 14 set 45s", "heard same but 22s")
	j.settle()
	if n := len(j.memory.questions()); n != 6 {
		t.Errorf("the conversation was asked %d times, want 6", n)
	}
	if n := len(j.jobsOf(12)); n != 6 {
		t.Errorf("%d jobs kept, want 6", n)
	}
	if n := j.config.Health.Repeated.Load(); n != 5 {
		t.Errorf("%d counted as repeated, want 5", n)
	}
}

func TestPoisonDoesNotStopTheOthers(t *testing.T) {
	for name, poison := range map[string]string{
		"date is text":      `"message":{"message_id":9,"date":"noon","chat":{"id":12,"type":"private"},"text":"x"}`,
		"text is a list":    `"message":{"message_id":9,"date":1,"chat":{"id":12,"type":"private"},"text":["x"]}`,
		"message is a list": `"message":[]`,
		"no chat":           `"message":{"message_id":9,"date":1,"text":"x"}`,
		"huge number":       `"message":{"message_id":1e400,"date":1,"chat":{"id":12}}`,
	} {
		t.Run(name, func(t *testing.T) {
			j := newJob(t)
			j.api.Say(12, "before")
			id := j.api.PushRaw(poison)
			j.api.Say(12, "after")
			j.start()
			j.says(12, "heard before", "heard after")
			j.settle()
			kept := j.memory.quarantined(t)
			want := fmt.Sprintf(`{"update_id":%d,%s}`, id, poison)
			if len(kept) != 1 || string(kept[0].Raw) != want {
				t.Errorf("quarantine holds %q, want %q", kept, want)
			}
		})
	}
}

// Entities may point anywhere; only what they point at may matter.
func TestEntitiesBeyondTheTextAreHarmless(t *testing.T) {
	j := newJob(t)
	j.api.Post(12, map[string]any{"text": "12 set", "entities": []map[string]any{
		{"type": "mention", "offset": 3, "length": 400},
		{"type": "mention", "offset": -3, "length": 2},
		{"type": "mention", "offset": 1 << 62, "length": 1 << 62},
	}})
	j.start()
	j.says(12, "heard 12 set")
}

func TestPanicIsTriedOnceMoreAndPutAside(t *testing.T) {
	j := newJob(t)
	panics := 0
	j.memory.answer = func(q telegram.Question) string {
		if q.Text == "boom" {
			panics++
			panic("index out of range")
		}
		return "heard " + q.Text
	}
	j.api.Say(12, "before")
	j.api.Say(13, "boom")
	j.api.Say(12, "after")
	j.start()
	j.says(12, "heard before", "heard after")
	j.says(13, "Something went wrong here, and nothing was figured. Try it once more in other words.")
	j.settle()
	if panics != 2 {
		t.Errorf("answered %d times, want 2", panics)
	}
	if n := len(j.jobsOf(13)); n != 0 {
		t.Errorf("%d jobs kept of what failed", n)
	}
	if kept := j.memory.quarantined(t); len(kept) != 1 || !strings.Contains(string(kept[0].Raw), "boom") {
		t.Errorf("quarantine holds %q", kept)
	}
}

func TestPanicThatPassesIsAnswered(t *testing.T) {
	j := newJob(t)
	first := true
	j.memory.answer = func(telegram.Question) string {
		if first {
			first = false
			panic("once")
		}
		return "Cut 14-3/4 in"
	}
	j.api.Say(12, "12 set 45s")
	j.start()
	j.says(12, "Cut 14-3/4 in")
	if kept := j.memory.quarantined(t); len(kept) != 0 {
		t.Errorf("quarantine holds %q", kept)
	}
}

// A record that can't be written, or a fault of the conversation, is the
// trouble of this one person.
func TestFaultIsPutAside(t *testing.T) {
	for _, words := range []string{unkeepable, faulty} {
		t.Run(words, func(t *testing.T) {
			j := newJob(t)
			j.api.Say(12, "before")
			j.api.Say(13, words)
			j.api.Say(12, "after")
			j.start()
			j.says(12, "heard before", "heard after")
			j.says(13, "Something went wrong here, and nothing was figured. Try it once more in other words.")
			j.settle()
			if n := len(j.memory.quarantined(t)); n != 1 {
				t.Errorf("%d in quarantine, want 1", n)
			}
			if n := len(j.jobsOf(13)); n != 0 {
				t.Errorf("%d jobs kept of what failed", n)
			}
		})
	}
}

// After a week without updates the server numbers anew, and maybe lower.
func TestNumbersFallAfterAWeek(t *testing.T) {
	t.Run("while serving", func(t *testing.T) {
		j := newJob(t)
		j.api.Number(727334708)
		j.start()
		j.api.Say(12, "before the holidays")
		j.says(12, "heard before the holidays")
		j.settle()
		j.api.Number(117314199)
		j.api.Say(12, "after them")
		j.says(12, "heard before the holidays", "heard after them")
		j.settle()
		if at := j.memory.cursor(t, j.api.Base()); at != 117314200 {
			t.Errorf("the cursor is %d", at)
		}
		// One before, one for each message, and one that waits.
		if polls := len(j.api.Calls("getUpdates")); polls > 4 {
			t.Errorf("polled %d times", polls)
		}
	})
	t.Run("while down", func(t *testing.T) {
		j := newJob(t)
		j.api.Number(727334708)
		j.start()
		j.api.Say(12, "before the holidays")
		j.settle()
		if err := j.end(); err != nil {
			t.Fatal(err)
		}
		j.api.Number(117314199)
		j.api.Say(12, "after them")
		j.start()
		j.says(12, "heard before the holidays", "heard after them")
		j.settle()
	})
}

// Numbers of one server mean nothing to another.
func TestOffsetIsNotTakenToAnotherServer(t *testing.T) {
	j := newJob(t)
	j.api.Number(500)
	j.start()
	j.api.Say(12, "here")
	j.settle()
	if err := j.end(); err != nil {
		t.Fatal(err)
	}
	other := loopback.New()
	defer other.Close()
	j.config.Base = other.Base()
	other.Number(500) // the same number, of another message
	other.Say(12, "there")
	j.start()
	if !other.Await(soon, func() bool { return len(other.Calls("sendMessage")) == 1 }) {
		t.Fatal("the message at the other server was not answered")
	}
	if offset, set := other.Calls("getUpdates")[0].Params["offset"]; set {
		t.Errorf("polled the other server from %s", offset)
	}
	if err := j.end(); err != nil {
		t.Error(err)
	}
}

func TestPollsThatFail(t *testing.T) {
	const poll = "getUpdates"
	for name, fault := range map[string]loopback.Fault{
		"page of a gateway": loopback.BadGateway(poll),
		"internal error":    loopback.Refuse(poll, 500, "Internal Server Error: restart"),
		"too many":          loopback.TooMany(poll, 1),
		"conflict":          loopback.Refuse(poll, 409, "Conflict: terminated by other getUpdates request"),
		"half a response":   {Method: poll, Half: true},
		"no response":       {Method: poll, Lost: true},
		"silence":           {Method: poll, Hang: true},
		"not JSON":          {Method: poll, Status: 200, Body: "OK"},
		"not a list":        {Method: poll, Status: 200, Body: `{"ok":true,"result":7}`},
		"no ok":             {Method: poll, Status: 500, Body: `{"message":"Route not found"}`},
	} {
		t.Run(name, func(t *testing.T) {
			j := newJob(t)
			j.config.Timing.PollEnds = 500 * time.Millisecond
			fault.Times = 2
			j.api.Plant(fault)
			j.api.Say(12, "12 set 45s")
			j.start()
			j.says(12, "heard 12 set 45s")
			j.settle()
			if err := j.end(); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestTooManyPollsWaitAsLongAsTold(t *testing.T) {
	j := newJob(t)
	j.api.Plant(loopback.TooMany("getUpdates", 1))
	j.api.Say(12, "12 set 45s")
	j.start()
	j.says(12, "heard 12 set 45s")
	polls := j.api.Calls("getUpdates")
	if waited := polls[1].At.Sub(polls[0].At); waited < time.Second {
		t.Errorf("polled again after %v, told to wait 1 s", waited)
	}
}

func TestSecondInstanceIsNoticed(t *testing.T) {
	j := newJob(t)
	j.api.Plant(loopback.Refuse("getUpdates", 409, "Conflict: terminated by other getUpdates request; make sure that only one bot instance is running"))
	j.start()
	j.awaitLog("another process polls")
	if n := j.config.Health.Rivals.Load(); n == 0 {
		t.Error("not counted")
	}
	j.api.Say(12, "12 set 45s")
	j.says(12, "heard 12 set 45s")
}

func TestStartsWithTheNetworkDown(t *testing.T) {
	j := newJob(t)
	j.api.Plant(loopback.Fault{Method: "getMe", Lost: true, Times: 3})
	j.api.Plant(loopback.BadGateway("getMe"))
	j.api.Plant(loopback.Refuse("setMyCommands", 500, "Internal Server Error"))
	j.start()
	j.api.Say(12, "12 set 45s")
	j.says(12, "heard 12 set 45s")
	if !strings.Contains(j.log.String(), "/bot<token>/getMe") {
		t.Error("the log doesn't say which address failed, so that it hides the token proves nothing")
	}
}

func TestWrongTokenEndsIt(t *testing.T) {
	for name, arrange := range map[string]func(*job){
		"at the start":  func(j *job) { j.config.Token = "4214214214:AAanothertokenthatnobodyknows_atall" },
		"while polling": func(j *job) { j.api.Plant(loopback.Refuse("getUpdates", 401, "Unauthorized")) },
		"while sending": func(j *job) {
			j.api.Plant(loopback.Refuse("sendMessage", 401, "Unauthorized"))
			j.api.Say(12, "12 set 45s")
		},
		"method not there": func(j *job) { j.api.Plant(loopback.Refuse("getMe", 404, "Not Found")) },
	} {
		t.Run(name, func(t *testing.T) {
			j := newJob(t)
			arrange(j)
			err := telegram.Serve(context.Background(), j.config)
			if !errors.Is(err, telegram.ErrToken) {
				t.Fatalf("got %v", err)
			}
			checkNoToken(t, err.Error())
			if strings.Contains(err.Error()+j.log.String(), "nobodyknows") {
				t.Errorf("the wrong token is in %v\n%s", err, j.log)
			}
		})
	}
}

// What is in hand when the bot is told to stop is sent, and the server told
// that it has arrived.
func TestStopFinishesWhatIsInHand(t *testing.T) {
	j := newJob(t)
	j.memory.answer = func(q telegram.Question) string {
		j.stop() // in the middle of the transaction
		return "Cut 14-3/4 in"
	}
	j.api.Plant(loopback.Fault{Method: "sendMessage", Delay: 50 * time.Millisecond})
	j.api.Say(12, "12 set 45s")
	j.start()
	select {
	case err := <-j.over:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(soon):
		t.Fatal("it doesn't stop")
	}
	j.stop = nil
	if got := j.delivered(12); len(got) != 1 {
		t.Errorf("sent %q", got)
	}
	if n := len(j.memory.outbox(t)); n != 0 {
		t.Errorf("%d left in the outbox", n)
	}
	if n := len(j.api.Unconfirmed()); n != 0 {
		t.Errorf("%d not confirmed", n)
	}
}

func TestStopDoesNotWaitForEver(t *testing.T) {
	j := newJob(t)
	j.config.Timing.Finish = 50 * time.Millisecond
	j.api.Plant(loopback.Fault{Method: "sendMessage", Hang: true, Times: -1})
	j.start()
	j.api.Say(12, "12 set 45s")
	j.await("a message on its way", func() bool { return len(j.api.Calls("sendMessage")) > 0 })
	if err := j.end(); err != nil {
		t.Error(err)
	}
	if n := len(j.memory.outbox(t)); n != 1 {
		t.Errorf("%d left in the outbox, want the one that was not sent", n)
	}
}

// patience is how long a test watches for what must not happen: far longer
// than a spin takes to show.
const patience = 200 * time.Millisecond

// A server that doesn't wait, or has nothing, must not be polled in a spin.
func TestEmptyPollsTakeABreath(t *testing.T) {
	j := newJob(t)
	j.config.Timing.Breath = time.Hour
	j.api.Plant(loopback.Fault{Method: "getUpdates", Status: 200, Body: `{"ok":true,"result":[]}`, Times: -1})
	j.start()
	if j.api.Await(patience, func() bool { return len(j.api.Calls("getUpdates")) > 1 }) {
		t.Error("polled again at once")
	}
}

// Nor one that sends the same over and over, as after a change of server.
func TestRepeatedPollsTakeABreath(t *testing.T) {
	j := newJob(t)
	j.config.Timing.Breath = time.Hour
	same := `{"ok":true,"result":[{"update_id":9,"message":{"message_id":1,"date":1,"chat":{"id":12,"type":"private"},"text":"12 set"}}]}`
	j.api.Plant(loopback.Fault{Method: "getUpdates", Status: 200, Body: same, Times: -1})
	j.start()
	j.await("two polls", func() bool { return j.config.Health.Repeated.Load() > 0 })
	j.says(12, "heard 12 set")
	if j.api.Await(patience, func() bool { return len(j.api.Calls("getUpdates")) > 2 }) {
		t.Error("polled again at once")
	}
}

func TestButtonsAreLetGo(t *testing.T) {
	j := newJob(t)
	j.start()
	j.api.Push("callback_query", map[string]any{"id": "9007", "from": map[string]any{"id": 12}, "data": "v1:x"})
	j.await("an answer", func() bool { return len(j.api.Calls("answerCallbackQuery")) == 1 })
	if c := j.api.Calls("answerCallbackQuery")[0]; c.Status != 200 || c.Params["callback_query_id"] != "9007" {
		t.Errorf("answered %+v", c)
	}
	j.settle()
}

// awaitLog waits until the log holds some words.
func (j *job) awaitLog(words string) {
	j.Helper()
	for deadline := time.Now().Add(soon); !strings.Contains(j.log.String(), words); {
		if time.Now().After(deadline) {
			j.Fatalf("%q is never logged:\n%s", words, j.log)
		}
		time.Sleep(time.Millisecond)
	}
}

// jobsOf are the jobs kept for the person in a private chat.
func (j *job) jobsOf(chat int64) (jobs []store.Job) {
	j.Helper()
	j.memory.view(j.T, func(tx *store.Tx) {
		jobs = tx.Person(chatOf(chat).Person(fmt.Sprint(chat))).Jobs()
	})
	return jobs
}

// What isn't even an update has no number to be done by; those beside it have.
func TestWhatIsNoUpdateIsPutAside(t *testing.T) {
	j := newJob(t)
	good := `{"update_id":9,"message":{"message_id":1,"date":1,"chat":{"id":12,"type":"private"},"text":"12 set"}}`
	j.api.Plant(loopback.Fault{Method: "getUpdates", Status: 200, Body: `{"ok":true,"result":[7,null,` + good + `,{"update_id":"x"}]}`})
	j.start()
	j.says(12, "heard 12 set")
	j.settle()
	if n := len(j.memory.quarantined(t)); n != 3 {
		t.Errorf("%d in quarantine, want 3", n)
	}
	if at := j.memory.cursor(t, j.api.Base()); at != 10 {
		t.Errorf("the cursor is %d, want 10", at)
	}
}
