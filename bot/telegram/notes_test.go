package telegram_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
)

// ear hears in a recording the text that it holds.
type ear func(ctx context.Context, said string) (telegram.Heard, error)

func (e ear) Hear(ctx context.Context, recording io.Reader) (telegram.Heard, error) {
	content, err := io.ReadAll(recording)
	if err != nil {
		return telegram.Heard{}, err
	}
	return e(ctx, string(content))
}

func sure(_ context.Context, said string) (telegram.Heard, error) {
	return telegram.Heard{Words: said, Say: "Heard: " + said}, nil
}

// listening is a job with an ear.
func listening(t *testing.T, e ear) *job {
	j := newJob(t)
	j.config.Ear = e
	j.config.Timing.Hear, j.config.Timing.Typing = soon, time.Hour
	return j
}

func voiceOf(file string) fields {
	return fields{"voice": fields{"file_id": file, "file_unique_id": "u", "duration": 4, "file_size": 9000, "mime_type": "audio/ogg"}}
}

// speak has a user send a voice note that says a text.
func (j *job) speak(chat int64, said string) int64 {
	j.api.Keep(said, []byte(said))
	return j.api.Post(chat, voiceOf(said))
}

func TestVoiceNoteIsAnswered(t *testing.T) {
	var j *job
	j = listening(t, func(ctx context.Context, said string) (telegram.Heard, error) {
		j.api.Await(soon, func() bool { return len(j.api.Calls("sendChatAction")) > 0 })
		return sure(ctx, said)
	})
	j.start()
	j.speak(12, "12 set 45s")
	j.says(12, "Heard: 12 set 45s\nheard 12 set 45s")
	j.settle()
	if got := j.memory.questions(); len(got) != 1 || got[0].User != "12" || got[0].Name != "Ada" {
		t.Errorf("asked %+v", got)
	}
	if typing := j.api.Calls("sendChatAction"); len(typing) != 1 || typing[0].Params["chat_id"] != "12" {
		t.Errorf("typing was shown: %+v", typing)
	}
}

// What isn't sure is asked, and nothing is kept of it.
func TestUnsureNoteIsNoJob(t *testing.T) {
	j := listening(t, func(context.Context, string) (telegram.Heard, error) {
		return telegram.Heard{Say: "17 or 70?"}, nil
	})
	j.start()
	j.speak(12, "seventeen")
	j.says(12, "17 or 70?")
	j.settle()
	if n := len(j.jobsOf(12)); n != 0 {
		t.Errorf("%d jobs kept", n)
	}
}

func TestWhichRecordingsAreHeard(t *testing.T) {
	ours := fields{"message_id": 3, "from": fields{"id": int64(loopback.BotID), "is_bot": true}}
	theirs := fields{"message_id": 3, "from": fields{"id": 502, "is_bot": false}, "voice": voiceOf("note")["voice"]}
	named := func(text string, more fields) fields {
		m := fields{"text": text, "entities": mention(text, us)}
		maps.Copy(m, more)
		return m
	}
	note := func(more fields) fields {
		m := voiceOf("note")
		maps.Copy(m, more)
		return m
	}
	for name, c := range map[string]struct {
		chat    int64
		message fields
		want    string // "" is silence
	}{
		"a note":                              {12, note(nil), "Heard: note\nheard note"},
		"a forwarded note":                    {12, note(fields{"forward_origin": fields{"type": "hidden_user"}}), "Heard: note\nheard note"},
		"an audio file":                       {12, fields{"audio": voiceOf("note")["voice"]}, "Heard: note\nheard note"},
		"a video note":                        {12, fields{"video_note": fields{"file_id": "note"}}, "I can't listen to recordings here. Type it the way you'd say it: 12 set 45s 1-1/2 pvc"},
		"a note with words":                   {12, note(fields{"caption": "12 set"}), "heard 12 set"},
		"longer than a minute":                {12, fields{"voice": fields{"file_id": "note", "duration": 61}}, "That's too long for me: up to a minute, please, one thing at a time."},
		"larger than a minute can be":         {12, fields{"voice": fields{"file_id": "note", "duration": 9, "file_size": 3 << 20}}, "That's too long for me: up to a minute, please, one thing at a time."},
		"a note in a group":                   {-40, note(nil), ""},
		"a note in a group, replying to us":   {-40, note(fields{"reply_to_message": ours}), "Heard: note\nheard note"},
		"our name, replying to a note":        {-40, named(us, fields{"reply_to_message": theirs}), "Heard: note\nheard note"},
		"our name and words, over a note":     {-40, named(us+" 12 set", fields{"reply_to_message": theirs}), "heard 12 set"},
		"somebody's talk, replying to a note": {-40, fields{"text": "what?", "reply_to_message": theirs}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			j := listening(t, sure)
			j.api.Keep("note", []byte("note"))
			j.api.Post(c.chat, c.message)
			j.start()
			if c.want != "" {
				j.says(c.chat, c.want)
			}
			j.settle()
			if c.want == "" && len(j.api.Calls(send))+len(j.api.Calls("getFile")) > 0 {
				t.Errorf("spoke, or fetched what wasn't meant for it: %+v", j.api.Calls(""))
			}
		})
	}
}

// The answer goes where the note was sent.
func TestNoteInATopic(t *testing.T) {
	j := listening(t, sure)
	j.api.Topics(-40, 7)
	j.api.Keep("note", []byte("note"))
	message := voiceOf("note")
	message["message_thread_id"], message["is_topic_message"] = 7, true
	message["reply_to_message"] = fields{"message_id": 3, "from": fields{"id": int64(loopback.BotID), "is_bot": true}}
	question := j.api.Post(-40, message)
	j.start()
	j.says(-40, "Heard: note\nheard note")
	sent := j.api.Calls(send)[0].Params
	if sent["message_thread_id"] != "7" || !strings.Contains(sent["reply_parameters"], fmt.Sprintf(`"message_id":%d,`, question)) {
		t.Errorf("sent %+v", sent)
	}
}

// While a note is heard, text is answered as ever, and whoever's note comes
// late in the line is told so.
func TestTextNeverWaitsForTheEar(t *testing.T) {
	free := make(chan struct{})
	j := listening(t, func(ctx context.Context, said string) (telegram.Heard, error) {
		select {
		case <-free:
		case <-ctx.Done():
		}
		return sure(ctx, said)
	})
	j.start()
	for i := range 4 {
		j.speak(int64(21+i), "note")
	}
	j.says(24, "There are 3 notes ahead of yours, so it takes a little. Typing is quicker.")
	j.api.Say(12, "12 set 45s")
	j.api.Say(21, "13 set 45s")
	j.says(12, "heard 12 set 45s")
	j.says(21, "heard 13 set 45s")
	close(free)
	j.says(22, "Heard: note\nheard note")
	j.says(21, "heard 13 set 45s", "Heard: note\nheard note")
	j.settle()
}

// As many notes are heard at once as there are hearers, and no more; of one user
// one at a time, in order.
func TestSeveralHearers(t *testing.T) {
	const hearers = 3
	var mu sync.Mutex
	var j *job
	at, most, heard := map[string]bool{}, 0, map[string][]string{}
	full := make(chan struct{}) // as many are heard as can be
	j = listening(t, func(ctx context.Context, said string) (telegram.Heard, error) {
		user, text, _ := strings.Cut(said, " ")
		mu.Lock()
		if at[user] {
			t.Errorf("two notes of %s are heard at once", user)
		}
		at[user] = true
		heard[user] = append(heard[user], text)
		if most = max(most, len(at)); len(at) == hearers {
			select {
			case <-full:
			default:
				close(full)
			}
		}
		mu.Unlock()
		select {
		case <-full:
		case <-ctx.Done():
		}
		j.api.Await(2*time.Millisecond, func() bool { return false }) // others might begin meanwhile
		mu.Lock()
		defer mu.Unlock()
		delete(at, user)
		return sure(ctx, said)
	})
	j.config.Hearers = hearers
	for n := range 3 {
		for user := range int64(5) {
			j.speak(21+user, fmt.Sprintf("%d note %d", 21+user, n))
		}
	}
	j.start()
	for user := range int64(5) {
		j.await("all answered", func() bool { return strings.Count(strings.Join(j.delivered(21+user), "\n"), "Heard: ") == 3 })
		mu.Lock()
		got := heard[fmt.Sprint(21+user)]
		mu.Unlock()
		if !slices.Equal(got, []string{"note 0", "note 1", "note 2"}) {
			t.Errorf("user %d: heard %q", 21+user, got)
		}
	}
	j.settle()
	if most != hearers {
		t.Errorf("%d heard at once, want %d", most, hearers)
	}
	if n := j.config.Health.Unheard.Load(); n != 0 {
		t.Errorf("%d unheard", n)
	}
}

// With several hearers a line is long only when each has one.
func TestLongLineOfSeveralHearers(t *testing.T) {
	j := listening(t, func(ctx context.Context, said string) (telegram.Heard, error) {
		<-ctx.Done()
		return telegram.Heard{}, ctx.Err()
	})
	j.config.Hearers = 2
	for user := range int64(7) {
		j.speak(21+user, "note")
	}
	j.start()
	j.says(27, "There are 6 notes ahead of yours, so it takes a little. Typing is quicker.")
	if n := len(j.api.Calls(send)); n != 1 {
		t.Errorf("%d were told to wait, want the last", n)
	}
}

// A note that was not answered when the bot stopped is heard at the next start.
func TestNoteOutlivesTheProcess(t *testing.T) {
	var hearing atomic.Bool
	j := listening(t, func(ctx context.Context, _ string) (telegram.Heard, error) {
		hearing.Store(true)
		<-ctx.Done()
		return telegram.Heard{}, ctx.Err()
	})
	j.start()
	j.speak(12, "12 set 45s")
	j.await("a note being heard", hearing.Load)
	j.await("the update confirmed", func() bool { return len(j.api.Unconfirmed()) == 0 })
	if err := j.end(); err != nil {
		t.Fatal(err)
	}
	if n := len(j.memory.outbox(t)); n != 1 {
		t.Fatalf("%d in the outbox, want the note", n)
	}
	j.config.Ear = ear(sure)
	j.start()
	j.says(12, "Heard: 12 set 45s\nheard 12 set 45s")
	j.settle()
}

func TestNotesThatFail(t *testing.T) {
	const lost = "I couldn't get at that recording. Send it once more, or type it."
	broken := func(context.Context, string) (telegram.Heard, error) {
		return telegram.Heard{}, errors.New("no such engine")
	}
	for name, c := range map[string]struct {
		ear   ear
		fault loopback.Fault
		want  string
	}{
		"the server hiccups":       {sure, loopback.BadGateway("getFile"), "Heard: note\nheard note"},
		"the download breaks off":  {sure, loopback.Fault{Method: "file", Lost: true}, "Heard: note\nheard note"},
		"the file is gone":         {sure, loopback.Refuse("getFile", 400, "Bad Request: file is too big"), lost},
		"the address has expired":  {sure, loopback.Fault{Method: "file", Status: 404, Body: "gone", Times: -1}, lost},
		"the download never works": {sure, loopback.Fault{Method: "file", Lost: true, Times: -1}, lost},
		"the ear never works":      {broken, loopback.Fault{Method: "none"}, lost},
		"the ear panics":           {func(context.Context, string) (telegram.Heard, error) { panic("deaf") }, loopback.Fault{Method: "none"}, lost},
		"typing can't be shown":    {sure, loopback.Refuse("sendChatAction", 403, "Forbidden"), "Heard: note\nheard note"},
	} {
		t.Run(name, func(t *testing.T) {
			j := listening(t, c.ear)
			j.api.Plant(c.fault)
			j.start()
			j.speak(12, "note")
			j.says(12, c.want)
			j.settle()
		})
	}
}

// A recording that takes too long to hear is given up, and the next is heard.
func TestEarIsGivenUp(t *testing.T) {
	j := listening(t, func(ctx context.Context, said string) (telegram.Heard, error) {
		if said == "endless" {
			<-ctx.Done()
			return telegram.Heard{}, ctx.Err()
		}
		return sure(ctx, said)
	})
	j.config.Timing.Hear = 100 * time.Millisecond
	j.start()
	j.speak(12, "endless")
	j.says(12, "I couldn't get at that recording. Send it once more, or type it.")
	j.speak(13, "note")
	j.await("an answer", func() bool { return len(j.delivered(13)) > 0 })
	got, givenUp := j.delivered(13), strings.Count(j.log.String(), "a recording was not heard")
	if heard := got[0] == "Heard: note\nheard note"; len(got) != 1 || heard != (givenUp == 1) { // a busy machine may be too slow for this one too
		t.Errorf("the next is told %q, and %d were given up", got, givenUp)
	}
}

// A fault of the conversation is the trouble of this one note.
func TestNoteAtWhichTheConversationFails(t *testing.T) {
	for _, words := range []string{faulty, unkeepable} {
		t.Run(words, func(t *testing.T) {
			j := listening(t, sure)
			j.start()
			j.speak(12, words)
			j.speak(13, "note")
			j.says(12, "Something went wrong here, and nothing was figured. Try it once more in other words.")
			j.says(13, "Heard: note\nheard note")
			j.settle()
		})
	}
}

// The figure is in bold, not what was heard before it.
func TestWhatWasHeardIsNotTheFigure(t *testing.T) {
	j := listening(t, sure)
	j.memory.answer = func(telegram.Question) string { return "Cut 14-3/4 in\nSet 12" }
	j.start()
	j.speak(12, "12 < 13")
	j.says(12, "Heard: 12 &lt; 13\n<b>Cut 14-3/4 in</b>\nSet 12")
}
