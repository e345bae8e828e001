package telegram_test

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
	"dogleg/store"
)

const send = "sendMessage"

func TestSendsThatFail(t *testing.T) {
	for name, fault := range map[string]loopback.Fault{
		"page of a gateway": loopback.BadGateway(send),
		"internal error":    loopback.Refuse(send, 500, "Internal Server Error"),
		"too many":          loopback.TooMany(send, 1),
		"half a response":   {Method: send, Half: true},
		"no response":       {Method: send, Lost: true},
		"silence":           {Method: send, Hang: true},
		"no ok":             {Method: send, Status: 500, Body: `{"message":"Route not found"}`},
		"an empty body":     {Method: send, Status: 200},
	} {
		t.Run(name, func(t *testing.T) {
			j := newJob(t)
			if fault.Hang {
				j.config.Timing.Send = 300 * time.Millisecond
			}
			j.api.Plant(fault)
			j.api.Say(12, "12 set 45s")
			j.api.Say(12, "same but 14")
			j.start()
			j.settle()
			want := []string{"heard 12 set 45s", "heard same but 14"}
			got := j.delivered(12)
			if n := len(got) - len(want); n > j.givenUp() {
				t.Errorf("%d came twice, and the bot gave up on %d that didn't hang", n, j.givenUp())
			}
			if first := firsts(got); !slices.Equal(first, want) {
				t.Errorf("got %q, want %q", first, want)
			}
			if n := j.config.Health.Dropped.Load(); n != 0 {
				t.Errorf("%d given up", n)
			}
		})
	}
}

// Where a faster pace is paid for, each message says so; an edit can't, and where
// it isn't none does.
func TestFasterPaceIsPaidFor(t *testing.T) {
	for _, paid := range []bool{true, false} {
		t.Run(fmt.Sprint(paid), func(t *testing.T) {
			j := newJob(t)
			j.config.Paid = paid
			j.start()
			question := j.api.Say(12, "12 set 45s")
			j.says(12, "heard 12 set 45s")
			j.settle()
			j.api.Edit(12, question, "13 set 45s")
			j.api.Say(12, document+"14 set")
			j.await("an edit and a file", func() bool { return len(j.api.Calls("editMessageText")) == 1 && len(j.api.Calls("sendDocument")) == 1 })
			want := map[string]string{send: "true", "sendDocument": "true"}
			if !paid {
				want = map[string]string{}
			}
			for _, method := range []string{send, "sendDocument", "editMessageText"} {
				if got := j.api.Calls(method)[0].Params["allow_paid_broadcast"]; got != want[method] {
					t.Errorf("%s: allow_paid_broadcast is %q, want %q", method, got, want[method])
				}
			}
		})
	}
}

func TestTooManyHoldsUpThatChatOnly(t *testing.T) {
	j := newJob(t)
	fault := loopback.TooMany(send, 1)
	fault.Chat = 12
	j.api.Plant(fault)
	j.api.Say(12, "12 set 45s")
	j.api.Say(13, "14 set 22s")
	j.start()
	j.says(12, "heard 12 set 45s")
	j.says(13, "heard 14 set 22s")
	var refused, sent, other time.Time
	for _, c := range j.api.Calls(send) {
		switch {
		case c.Status == 429:
			refused = c.At
		case c.Params["chat_id"] == "12":
			sent = c.At
		default:
			other = c.At
		}
	}
	if sent.Sub(refused) < time.Second {
		t.Errorf("sent again after %v, told to wait 1 s", sent.Sub(refused))
	}
	if !other.Before(sent) {
		t.Error("the other chat was held up")
	}
}

// One chat whose messages hang for ever takes one sender of two, and nothing
// else.
func TestSlowChatDoesNotHoldUpOthers(t *testing.T) {
	j := newJob(t)
	j.config.Senders = 2
	j.config.Timing.Send = soon
	j.config.Timing.Finish = time.Millisecond
	j.api.Plant(loopback.Fault{Method: send, Chat: 1, Hang: true, Times: -1})
	for chat := range int64(20) {
		for n := range 3 {
			j.api.Say(chat+1, fmt.Sprint(n))
		}
	}
	j.start()
	for chat := range int64(19) {
		j.says(chat+2, "heard 0", "heard 1", "heard 2")
	}
	if got := j.delivered(1); len(got) != 0 {
		t.Errorf("the slow chat got %q", got)
	}
}

// Chats go on side by side, so what one says may pass what another says; in
// each the order must hold, whatever fails meanwhile.
func TestOrderHoldsInEachChat(t *testing.T) {
	j := newJob(t)
	for n := range 12 {
		j.api.Plant(loopback.Fault{Method: send, Chat: int64(n%4 + 1), Status: 500})
		j.api.Plant(loopback.Fault{Method: send, Chat: int64(n%5 + 1), Delay: 3 * time.Millisecond})
	}
	var want []string
	j.start()
	for n := range 30 {
		for chat := range int64(6) {
			j.api.Say(chat+1, fmt.Sprint(n))
		}
		want = append(want, fmt.Sprintf("heard %d", n))
	}
	for chat := range int64(6) {
		j.says(chat+1, want...)
	}
	j.settle()
}

func TestRestartSendsWhatWasPending(t *testing.T) {
	j := newJob(t)
	j.config.Timing.Finish = 20 * time.Millisecond
	held := loopback.TooMany(send, 3600)
	held.Times = 2 // the first of each chat
	j.api.Plant(held)
	j.start()
	for n := range 3 {
		j.api.Say(12, fmt.Sprint(n))
		j.api.Say(13, fmt.Sprint(n))
	}
	j.await("all taken in, and nothing under way", func() bool {
		return len(j.api.Unconfirmed()) == 0 && len(j.memory.questions()) == 6 && len(j.api.Calls(send)) == 2
	})
	if err := j.end(); err != nil {
		t.Error(err)
	}
	if n := len(j.memory.outbox(t)); n != 6 {
		t.Fatalf("%d in the outbox, want 6", n)
	}
	j.memory.close(t)
	j.memory = openMemory(t, j.path)
	j.config.Memory = j.memory
	j.api.Say(12, "new")
	j.start()
	j.says(12, "heard 0", "heard 1", "heard 2", "heard new")
	j.says(13, "heard 0", "heard 1", "heard 2")
	j.settle()
}

// What the server takes while the bot stops, and can't say so any more, is sent again
// by the next run: that message, and none that was not under way.
func TestMessageUnderWayAtTheEndIsSentAgain(t *testing.T) {
	j := newJob(t)
	j.config.Timing.Finish = time.Millisecond
	j.start()
	j.api.Say(12, "before")
	j.says(12, "heard before")
	j.settle()
	j.api.Plant(loopback.Fault{Method: send, Half: true, Hang: true})
	for n := range 3 {
		j.api.Say(12, fmt.Sprint(n))
	}
	j.await("all taken in, and one under way", func() bool {
		return len(j.api.Unconfirmed()) == 0 && len(j.memory.questions()) == 4 && len(j.api.Calls(send)) == 2
	})
	if err := j.end(); err != nil {
		t.Error(err)
	}
	j.start()
	j.says(12, "heard before", "heard 0", "heard 1", "heard 2")
	j.settle()
	var taken []string // whether the server could say so or not
	for _, c := range j.api.Calls(send) {
		taken = append(taken, c.Params["text"])
	}
	if want := []string{"heard before", "heard 0", "heard 0", "heard 1", "heard 2"}; !slices.Equal(taken, want) {
		t.Errorf("the server took %q, want %q", taken, want)
	}
}

// What was sent and could not be struck off, alone or with a batch, is struck
// off when the disk is back, so that no restart sends it again.
func TestStruckOffWhenTheDiskIsBack(t *testing.T) {
	j := newJob(t)
	j.api.Plant(loopback.Fault{Method: send, Delay: 100 * time.Millisecond})
	j.start()
	j.api.Say(12, "one")
	j.await("it taken in", func() bool { return len(j.api.Unconfirmed()) == 0 && len(j.memory.questions()) == 1 })
	j.memory.failing.Store(true)
	j.awaitLog("can't be struck off")
	j.api.Say(12, "two")
	j.awaitLog("the answers can't be kept")
	j.memory.failing.Store(false)
	j.says(12, "heard one", "heard two")
	j.settle()
}

func TestUnreadableEntryIsGivenUp(t *testing.T) {
	j := newJob(t)
	err := j.memory.db.Update(func(tx *store.Tx) error {
		tx.Queue(chatOf(12), []byte("not a letter"))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	j.api.Say(12, "12 set 45s")
	j.start()
	j.says(12, "heard 12 set 45s")
	j.settle()
}

// When much is unsent, what comes in is left with the server.
func TestPollingStopsWhenMuchIsUnsent(t *testing.T) {
	j := newJob(t)
	j.config.Window = 400 // bytes: three letters of some 115 leave room for another, four don't
	j.config.Timing.Finish = time.Millisecond
	down := loopback.Refuse(send, 500, "Internal Server Error")
	down.Times = -1
	j.api.Plant(down)
	j.start()
	for chat := range int64(4) {
		j.api.Say(chat+1, "12 set 45s")
		j.await("it taken in", func() bool { return j.config.Health.Unsent.Load() == chat+1 })
	}
	for chat := range int64(5) {
		j.api.Say(chat+11, "12 set 45s")
	}
	j.await("some retries", func() bool { return len(j.api.Calls(send)) > 40 })
	if n := j.config.Health.Unsent.Load(); n != 4 {
		t.Errorf("%d unsent, want 4", n)
	}
	j.api.Mend()
	for _, chat := range []int64{1, 2, 3, 4, 11, 12, 13, 14, 15} {
		j.says(chat, "heard 12 set 45s")
	}
	j.settle()
}

// A chat that nothing can be sent to is answered until its line is full, is told so
// once, and then costs nothing more; the others are answered as ever. When its line
// is short again so is it.
func TestOneChatFillsItsOwnLineOnly(t *testing.T) {
	j := newJob(t)
	j.config.Line = 1000 // bytes: some seven letters
	j.config.Timing.Finish = time.Millisecond
	j.api.Plant(loopback.Fault{Method: send, Chat: 1, Status: 500, Times: -1})
	for n := range 50 {
		j.api.Say(1, fmt.Sprint(n))
	}
	j.start()
	j.await("all taken in", func() bool { return len(j.api.Unconfirmed()) == 0 })
	j.api.Say(2, "12 set 45s")
	j.says(2, "heard 12 set 45s")
	n := j.config.Health.Unsent.Load()
	if n < 6 || n > 45 {
		t.Errorf("%d of 50 wait", n)
	}
	j.api.Mend()
	j.await("all sent", func() bool { return j.config.Health.Unsent.Load() == 0 })
	notices := 0
	for _, text := range j.delivered(1) {
		if strings.Contains(text, "more than I can answer at once") {
			notices++
		}
	}
	if notices != 1 {
		t.Errorf("told %d times", notices)
	}
	j.api.Say(1, "14 set 45s")
	j.await("an answer", func() bool { return slices.Contains(j.delivered(1), "heard 14 set 45s") })
}

func TestGroupBecomesSupergroup(t *testing.T) {
	const group, supergroup = -40, -100040
	command := func(words string) map[string]any {
		return map[string]any{"text": "/explain@" + loopback.BotName + " " + words}
	}
	t.Run("found when refused", func(t *testing.T) {
		j := newJob(t)
		j.api.Post(group, command("one"))
		j.api.Post(group, command("two"))
		j.api.Migrate(group, supergroup)
		j.start()
		j.says(supergroup, "heard explain one", "heard explain two")
		j.settle()
		refused := 0
		for _, c := range j.api.Calls(send) {
			if c.Status == 400 {
				refused++
			}
		}
		if refused != 1 {
			t.Errorf("refused %d times, want once", refused)
		}
		j.keepsOnly(supergroup)
	})
	t.Run("told by a service message", func(t *testing.T) {
		j := newJob(t)
		j.api.Post(group, command("one"))
		j.start()
		j.says(group, "heard explain one")
		j.api.Post(group, map[string]any{"migrate_to_chat_id": supergroup})
		j.api.Post(supergroup, map[string]any{"migrate_from_chat_id": group})
		j.settle()
		j.keepsOnly(supergroup)
		if n := len(j.delivered(supergroup)); n != 0 {
			t.Errorf("answered the service messages %d times", n)
		}
	})
}

// keepsOnly fails the test unless all that is kept is kept for one chat.
func (j *job) keepsOnly(chat int64) {
	j.Helper()
	j.memory.view(j.T, func(tx *store.Tx) {
		for _, key := range tx.People() {
			if key.Chat() != chatOf(chat) {
				j.Errorf("something is kept for %s", key)
			}
		}
		if len(tx.People()) == 0 {
			j.Error("nothing is kept")
		}
	})
}

func TestAmendedOnceAndSent(t *testing.T) {
	const group, topic = -40, 7
	addressed := map[string]any{
		"text": "/jobs@" + loopback.BotName, "message_thread_id": topic, "is_topic_message": true,
	}
	t.Run("topic is gone", func(t *testing.T) {
		j := newJob(t)
		j.api.Post(group, addressed) // no topics: Topics was not called
		j.start()
		j.says(group, "heard jobs")
		j.wantCalls(send, "400 message_thread_id=7", "200 message_thread_id=")
	})
	t.Run("question is gone", func(t *testing.T) {
		j := newJob(t)
		j.api.Topics(group, topic)
		j.api.Plant(loopback.Refuse(send, 400, "Bad Request: message to be replied not found"))
		j.api.Post(group, addressed)
		j.start()
		j.says(group, "heard jobs")
		j.wantCalls(send, `400 reply_parameters={"message_id":1,"allow_sending_without_reply":true}`, "200 reply_parameters=")
	})
	t.Run("formatting", func(t *testing.T) {
		j := newJob(t)
		j.memory.answer = func(telegram.Question) string { return "Cut <14>\n& so on" }
		j.api.Plant(loopback.Refuse(send, 400, "Bad Request: can't parse entities: Unsupported start tag"))
		j.api.Say(12, "12 set 45s")
		j.start()
		j.says(12, "Cut <14>\n& so on")
		j.wantCalls(send, "400 parse_mode=HTML", "200 parse_mode=")
	})
	t.Run("in vain", func(t *testing.T) {
		j := newJob(t)
		fault := loopback.Refuse(send, 400, "Bad Request: message thread not found")
		fault.Times = 2
		j.api.Plant(fault)
		j.api.Topics(group, topic)
		j.api.Post(group, addressed)
		j.api.Post(group, map[string]any{"text": "/help@" + loopback.BotName})
		j.start()
		j.says(group, "heard help")
		j.settle()
		if n := j.config.Health.Dropped.Load(); n != 1 {
			t.Errorf("%d given up, want 1", n)
		}
	})
}

// wantCalls fails the test unless the calls of a method were answered with
// these statuses, and had these values of a parameter.
func (j *job) wantCalls(method string, want ...string) {
	j.Helper()
	_, rest, _ := strings.Cut(want[0], " ")
	name, _, _ := strings.Cut(rest, "=")
	var got []string
	for _, c := range j.api.Calls(method) {
		got = append(got, fmt.Sprintf("%d %s=%s", c.Status, name, c.Params[name]))
	}
	if !slices.Equal(got, want) {
		j.Errorf("calls were %q, want %q", got, want)
	}
}

func TestWhoBlockedTheBotIsLeftAlone(t *testing.T) {
	j := newJob(t)
	j.api.Block(13)
	j.api.Say(13, "12 set 45s")
	j.api.Say(12, "12 set 45s")
	j.start()
	j.says(12, "heard 12 set 45s")
	j.settle()
	if n := j.config.Health.Dropped.Load(); n != 1 {
		t.Errorf("%d given up, want 1", n)
	}
	if n := len(j.api.Calls(send)); n != 2 {
		t.Errorf("%d calls, want 2", n)
	}
}

func TestLongAnswerIsSplitBetweenLines(t *testing.T) {
	j := newJob(t)
	line := "Line 𝟏: travel 16-31/32, cut 14-1/4 & a hair <light>, start 4-31/32 after the last"
	long := strings.TrimSuffix(strings.Repeat(line+"\n", 120), "\n")
	j.memory.answer = func(telegram.Question) string { return long }
	j.api.Say(12, "120 lines of pipe")
	j.start()
	j.await("the last part", func() bool { return strings.Count(strings.Join(j.delivered(12), ""), "Line") >= 120 })
	var lines []string
	for _, part := range j.delivered(12) {
		plain := unformatted(part)
		if units := len(utf16.Encode([]rune(plain))); units > 4096 {
			t.Errorf("a part of %d UTF-16 units", units)
		}
		lines = append(lines, strings.Split(plain, "\n")...)
	}
	if got := strings.Join(lines, "\n"); got != long {
		t.Errorf("the parts together are not the answer:\n%s", got)
	}
}

// unformatted is the text that a message shows: the loopback server has
// checked the formatting, and here only what we write is undone.
func unformatted(text string) string {
	return strings.NewReplacer("<b>", "", "</b>", "", "&lt;", "<", "&gt;", ">", "&amp;", "&").Replace(text)
}

func TestHostileCharactersArriveAsWritten(t *testing.T) {
	for _, answer := range []string{
		"<b>Cut</b> 14",
		"Cut 14-3/4 in\n<script>alert('x')</script>",
		"a < b && c > d\n\"&lt;\" & '&#60;'",
		"</b></b>\n</b>",
		"&\n&amp;",
		"1/2\" × 45° — ½ 𝟏\n\x00\u202e",
	} {
		j := newJobIn(t)
		j.memory.answer = func(telegram.Question) string { return answer }
		j.api.Say(12, "12 set 45s")
		j.start()
		j.await("the answer", func() bool { return len(j.delivered(12)) == 1 })
		if got := unformatted(j.delivered(12)[0]); got != answer {
			t.Errorf("got %q, want %q", got, answer)
		}
		if n := len(j.api.Calls(send)); n != 1 {
			t.Errorf("%q took %d calls", answer, n)
		}
	}
}

func TestFirstLineIsBold(t *testing.T) {
	j := newJob(t)
	j.memory.answer = func(telegram.Question) string { return "Cut 14-3/4 in\n2 in PVC, two 45s, set 12" }
	j.api.Say(12, "12 set 45s")
	j.start()
	j.says(12, "<b>Cut 14-3/4 in</b>\n2 in PVC, two 45s, set 12")
}

// An answer that was held up shows which question it answers.
func TestLateAnswerShowsItsQuestion(t *testing.T) {
	j := newJob(t)
	j.config.Timing.Finish = time.Millisecond
	j.api.Plant(loopback.TooMany(send, 3600))
	j.start()
	question := j.api.Say(12, "12 set 45s")
	j.await("an attempt", func() bool { return len(j.api.Calls(send)) > 0 })
	if err := j.end(); err != nil {
		t.Error(err)
	}
	j.config.Now = func() time.Time { return time.Now().Add(2 * time.Minute) }
	j.start()
	j.says(12, "heard 12 set 45s")
	calls := j.api.Calls(send)
	want := fmt.Sprintf(`{"message_id":%d,"allow_sending_without_reply":true}`, question)
	if first, last := calls[0].Params["reply_parameters"], calls[len(calls)-1].Params["reply_parameters"]; first != "" || last != want {
		t.Errorf("first sent as a reply to %q, late to %q, want %q", first, last, want)
	}
}

func TestEditedQuestions(t *testing.T) {
	const edit = "editMessageText"
	t.Run("answer is edited", func(t *testing.T) {
		j := newJob(t)
		j.start()
		question := j.api.Say(12, "12 set 45s")
		j.says(12, "heard 12 set 45s")
		j.api.Edit(12, question, "13 set 45s")
		j.await("an edit", func() bool { return len(j.api.Calls(edit)) == 1 })
		if c := j.api.Calls(edit)[0]; c.Status != 200 || c.Params["text"] != "heard 13 set 45s" || c.Params["message_id"] != fmt.Sprint(question+1) {
			t.Errorf("edited by %+v", c)
		}
		j.settle()
	})
	t.Run("before the answer is sent", func(t *testing.T) {
		j := newJob(t)
		j.api.Plant(loopback.Fault{Method: send, Status: 500, Times: 3})
		question := j.api.Say(12, "12 set 45s")
		j.api.Edit(12, question, "13 set 45s")
		j.start()
		j.await("an edit", func() bool { return len(j.api.Calls(edit)) == 1 })
		j.says(12, "heard 12 set 45s")
		j.settle()
	})
	t.Run("words are the same", func(t *testing.T) {
		j := newJob(t)
		j.start()
		question := j.api.Say(12, "12 set 45s")
		j.settle()
		j.api.Edit(12, question, "12 set 45s")
		j.settle()
		if n := len(j.memory.questions()); n != 1 {
			t.Errorf("asked %d times", n)
		}
	})
	t.Run("answer is the same", func(t *testing.T) {
		j := newJob(t)
		j.memory.answer = func(telegram.Question) string { return "Cut 14-3/4 in" }
		j.start()
		question := j.api.Say(12, "12 set 45s")
		j.settle()
		j.api.Edit(12, question, "set 12, 45s")
		j.settle()
		j.wantCalls(edit, "400 chat_id=12")
		if n := j.config.Health.Dropped.Load(); n != 0 {
			t.Errorf("%d given up", n)
		}
	})
	t.Run("answer has become long", func(t *testing.T) {
		j := newJob(t)
		j.memory.answer = func(q telegram.Question) string { return q.Text + strings.Repeat(" and a bit", 100*len(q.Text)) }
		j.start()
		question := j.api.Say(12, "1")
		j.settle()
		j.api.Edit(12, question, "12345")
		j.await("both parts", func() bool { return len(j.delivered(12)) == 3 })
		j.settle()
		if n := len(j.api.Calls(edit)); n != 0 {
			t.Errorf("%d edits, of an answer that is now in two parts", n)
		}
	})
	t.Run("answer was deleted", func(t *testing.T) {
		j := newJob(t)
		j.start()
		question := j.api.Say(12, "12 set 45s")
		j.settle()
		j.api.Forget(12, question+1)
		j.api.Edit(12, question, "13 set 45s")
		j.says(12, "heard 12 set 45s", "heard 13 set 45s")
		j.settle()
	})
	t.Run("after a restart", func(t *testing.T) {
		j := newJob(t)
		j.start()
		question := j.api.Say(12, "12 set 45s")
		j.settle()
		if err := j.end(); err != nil {
			t.Error(err)
		}
		j.start()
		j.api.Edit(12, question, "13 set 45s")
		j.await("an edit", func() bool { return len(j.api.Calls(edit)) == 1 })
		j.wantCalls(edit, "200 chat_id=12")
		if got := j.api.Calls(edit)[0].Params["message_id"]; got != strconv.FormatInt(question+1, 10) {
			t.Errorf("message %s is edited, not the answer to %d", got, question)
		}
	})
	t.Run("kept at the second attempt", func(t *testing.T) {
		j := newJob(t)
		j.start()
		question := j.api.Say(12, "12 set 45s")
		j.settle()
		j.memory.failing.Store(true)
		j.api.Edit(12, question, "13 set 45s")
		j.awaitLog("no space left on device")
		j.memory.failing.Store(false)
		j.await("an edit", func() bool { return len(j.api.Calls(edit)) == 1 })
	})
}

// With a wrong token nothing can be sent, so there is nothing to wait for.
func TestWrongTokenDoesNotWaitForTheOutbox(t *testing.T) {
	j := newJob(t)
	j.config.Timing.Finish = time.Hour
	j.api.Plant(loopback.Fault{Method: send, Hang: true, Times: -1})
	j.config.Timing.Send = time.Hour
	j.start()
	j.api.Say(12, "12 set 45s")
	j.await("a message on its way", func() bool { return len(j.api.Calls(send)) > 0 })
	j.api.Plant(loopback.Refuse("getUpdates", 401, "Unauthorized"))
	j.api.Say(12, "same but 14")
	select {
	case err := <-j.over:
		if !errors.Is(err, telegram.ErrToken) {
			t.Errorf("got %v", err)
		}
		j.stop = nil
	case <-time.After(soon):
		t.Fatal("it doesn't end")
	}
	if n := len(j.memory.outbox(t)); n == 0 {
		t.Error("what was not sent is gone from the outbox")
	}
}

// A disk that is full at the start is waited for, and nothing is sent until
// then: what can't be struck off would be sent at every start.
func TestStartsWithTheDiskFull(t *testing.T) {
	j := newJob(t)
	j.api.Say(501, "a")
	j.start()
	j.says(501, "heard a")
	j.await("the outbox is empty", func() bool { return len(j.memory.outbox(t)) == 0 })
	if err := j.end(); err != nil {
		t.Fatal(err)
	}
	queued := j.memory.db.Update(func(tx *store.Tx) error {
		tx.Queue(chatOf(501), []byte(`{"chat":501,"text":"heard b","whole":true,"plain":true}`))
		return nil
	})
	if queued != nil {
		t.Fatal(queued)
	}
	j.memory.failing.Store(true)
	j.start()
	j.await("it tries", func() bool { return strings.Count(j.log.String(), "no space left") > 3 })
	j.says(501, "heard a")
	j.memory.failing.Store(false)
	j.says(501, "heard a", "heard b")
}

// A file goes out in its chat's line, with its text under it, and is sent again
// like a text where the server breaks off.
func TestDocumentGoesInItsLine(t *testing.T) {
	j := newJob(t)
	content := strings.Repeat(`{"jobs":[]}`, 20_000)
	j.memory.answer = func(telegram.Question) string { return "here" }
	j.api.Plant(loopback.Fault{Method: "sendDocument", Status: 502, Body: "<html>"})
	j.start()
	j.api.Say(501, document+content)
	j.api.Say(501, "next")
	j.await("the file and what follows", func() bool { return len(j.delivered(501)) > 0 })
	calls := j.api.Calls("sendDocument")
	if len(calls) != 2 || calls[1].Status != 200 || calls[1].Params["document"] != "juniper.json" || calls[1].Params["chat_id"] != "501" || !strings.Contains(calls[1].Params["caption"], "here") {
		t.Fatalf("calls: %d, the last %v", len(calls), calls[len(calls)-1].Params)
	}
	if string(calls[1].Files["document"]) != content {
		t.Error("the file is not what was sent")
	}
	if texts := j.api.Calls("sendMessage"); texts[0].At.Before(calls[1].At) {
		t.Error("out of order")
	}
}
