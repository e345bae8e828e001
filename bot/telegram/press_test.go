package telegram_test

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"dogleg/bot/telegram"
)

// withButtons is what the bot says to "12 set 45s" in these tests, with what is
// under it.
var withButtons = map[string]telegram.Answer{
	"12 set 45s": {
		Text: "Cut 14-3/4 in\nSet 12, two 45s",
		Buttons: [][]telegram.Button{
			{{Label: "Steps", Says: "explain 1"}, {Label: "Share", Share: "12 set 45s 2 pvc"}},
			{{Label: "too long to be carried", Says: strings.Repeat("9 and ", 12)}},
		},
	},
	"draw 1": {Text: "Cut 14-3/4 in", Files: []telegram.File{{Name: "job-1.png", Content: []byte("picture"), Picture: true}}},
	"export": {
		Text:  strings.Repeat("long line\n", 200),
		Files: []telegram.File{{Name: "jobs.csv", Content: []byte("a,b\n")}, {Name: "sheet.pdf", Content: []byte("%PDF")}},
	},
	"99": {Text: "Not yet.", Private: true},
}

// keys are the buttons under a message that was sent: label and data.
func (j *job) keys(method string) map[string]string {
	j.Helper()
	var markup struct {
		Rows [][]map[string]string `json:"inline_keyboard"`
	}
	calls := j.api.Calls(method)
	if err := json.Unmarshal([]byte(calls[len(calls)-1].Params["reply_markup"]), &markup); err != nil {
		j.Fatalf("no buttons: %v", calls)
	}
	keys := map[string]string{}
	for _, row := range markup.Rows {
		for _, k := range row {
			keys[k["text"]] = k["callback_data"] + k["switch_inline_query"]
		}
	}
	return keys
}

// A button says what it says, for the one whose answer it stands under; every
// press is let go.
func TestButtons(t *testing.T) {
	for name, chat := range map[string]int64{"alone": 501, "in a group": -40} {
		t.Run(name, func(t *testing.T) {
			j := newJob(t)
			j.memory.full = withButtons
			j.start()
			j.api.Post(chat, fields{"text": us + " 12 set 45s", "entities": mention(us+" 12 set 45s", us)})
			j.await("an answer", func() bool { return len(j.api.Calls(send)) == 1 })
			j.settle()
			keys := j.keys(send)
			if len(keys) != 2 || keys["Share"] != "12 set 45s 2 pvc" {
				t.Fatalf("the buttons are %q", keys)
			}
			answer := j.api.Last(chat)

			if err := j.end(); err != nil { // a button works after a restart
				t.Fatal(err)
			}
			j.start()
			press := func(user int, query, data string) {
				j.api.Press(chat, answer, fields{"id": user, "is_bot": false, "first_name": "Ada"}, query, data)
			}
			press(501, "first", keys["Steps"])
			j.await("the steps", func() bool { return len(j.api.Calls(send)) == 2 })
			last := j.api.Calls(send)[1].Params
			want := fmt.Sprintf(`{"message_id":%d,"allow_sending_without_reply":true}`, answer)
			if last["text"] != "heard explain 1" || last["reply_parameters"] != want {
				t.Errorf("pressed, it says %v", last)
			}

			press(502, "by another", keys["Steps"])
			press(501, "of the list", "done 3 abc")
			press(501, "of nobody", "zz:")
			j.await("all are let go", func() bool { return len(j.api.Calls("answerCallbackQuery")) == 4 })
			j.settle()
			said := map[string]int{}
			for _, c := range j.api.Calls("answerCallbackQuery") {
				said[c.Params["text"]]++
			}
			if said[""] != 1 || said["Only the one who asked can press this."] != 1 || said["pressed done 3 abc"] != 1 || said["pressed zz:"] != 1 {
				t.Errorf("the presses are answered %v", said)
			}
			if n := len(j.api.Calls(send)); n != 2 {
				t.Errorf("%d messages", n)
			}
		})
	}
}

// A picture carries its text, so one message is answered by one; a long text
// and two files are three.
func TestFiles(t *testing.T) {
	j := newJob(t)
	j.memory.full = withButtons
	j.start()
	j.api.Say(12, "draw 1")
	j.await("a picture", func() bool { return len(j.api.Calls("sendPhoto")) == 1 })
	if p := j.api.Calls("sendPhoto")[0].Params; p["caption"] != "<b>Cut 14-3/4 in</b>" && p["caption"] != "Cut 14-3/4 in" || p["photo"] != "job-1.png" {
		t.Errorf("sent %v", p)
	}
	j.api.Say(12, "export")
	j.await("two files", func() bool { return len(j.api.Calls("sendDocument")) == 2 })
	j.settle()
	if n := len(j.api.Calls(send)); n != 1 {
		t.Errorf("%d texts, want one", n)
	}
}

// A picture that is refused is refused as a text would be: the library keeps no
// code of it.
func TestFileToOneWhoBlockedUs(t *testing.T) {
	j := newJob(t)
	j.memory.full = withButtons
	j.api.Block(12)
	j.start()
	j.api.Say(12, "draw 1")
	j.settle()
	if n := len(j.api.Calls("sendPhoto")); n != 1 {
		t.Errorf("tried %d times", n)
	}
}

// An answer that became a picture can't be edited into a text: it is sent anew.
func TestEditOfAPicture(t *testing.T) {
	j := newJob(t)
	j.memory.full = withButtons
	j.start()
	question := j.api.Say(12, "draw 1")
	j.await("a picture", func() bool { return len(j.api.Calls("sendPhoto")) == 1 })
	j.settle()
	j.api.Edit(12, question, "12 set 22s")
	j.says(12, "heard 12 set 22s")
}

// What is for one person alone is told in their own chat, and openly only where
// that isn't open.
func TestPrivately(t *testing.T) {
	for name, blocked := range map[string]bool{"their chat is open": false, "they never wrote to us": true} {
		t.Run(name, func(t *testing.T) {
			j := newJob(t)
			j.memory.full = withButtons
			if blocked {
				j.api.Block(501)
			}
			j.start()
			question := j.api.Post(-40, fields{"text": us + " 99", "entities": mention(us+" 99", us)})
			j.settle()
			calls := j.api.Calls(send)
			last := calls[len(calls)-1].Params
			if !blocked && (len(calls) != 1 || last["chat_id"] != "501" || last["reply_parameters"] != "") {
				t.Errorf("sent %v", calls)
			}
			if blocked && (len(calls) != 2 || last["chat_id"] != "-40" || !strings.Contains(last["reply_parameters"], strconv.FormatInt(question, 10))) {
				t.Errorf("sent %v", calls)
			}
		})
	}
}

// Typed behind our name in any chat, an answer is offered as a card; of what
// has none the hint says what is lacking.
func TestInline(t *testing.T) {
	j := newJob(t)
	j.memory.full = withButtons
	j.memory.answer = func(telegram.Question) string {
		return "What is the angle? Say 45 or 22-1/2, or any other in degrees, as the fitting says."
	}
	j.start()
	for i, c := range []struct{ typed, results, button string }{
		{"12 set 45s", `"title":"Cut 14-3/4 in","description":"Set 12, two 45s"`, ""},
		{"12 set", `[]`, `{"text":"What is the angle? Say 45 or 22-1/2, or any other in degrees, a…","start_parameter":"help"}`},
		{" ", `[]`, `{"text":"Type it here: 12 set 45s 1-1/2 pvc","start_parameter":"help"}`},
	} {
		j.api.Inline(501, c.typed)
		j.await("cards", func() bool { return len(j.api.Calls("answerInlineQuery")) == i+1 })
		p := j.api.Calls("answerInlineQuery")[i].Params
		if !strings.Contains(p["results"], c.results) || p["button"] != c.button || p["is_personal"] != "true" {
			t.Errorf("%q: offered %v", c.typed, p)
		}
	}
	if n := len(j.api.Calls(send)); n != 0 {
		t.Errorf("%d messages sent", n)
	}
}

// A group that wants it is answered always; what is for admins to set is asked
// of the server.
func TestHearsAll(t *testing.T) {
	j := newJob(t)
	j.api.Admin(openGroup, 502)
	j.start()
	j.api.Say(openGroup, "12 set 45s")
	j.api.Say(-40, "12 set 45s")
	j.api.Post(openGroup, fields{"text": "at noon", "reply_to_message": fields{"message_id": 1, "from": fields{"id": 502}}})
	j.says(openGroup, "heard 12 set 45s")
	for _, user := range []int64{501, 502} {
		text := us + " answer everything"
		j.api.Post(-40, fields{"text": text, "entities": mention(text, us), "from": fields{"id": user, "is_bot": false}})
		j.api.Post(openGroup, fields{"text": text, "entities": mention(text, us), "from": fields{"id": user, "is_bot": false}})
	}
	j.settle()
	var overheard, admins []string
	for _, q := range j.memory.questions() {
		if q.Overheard {
			overheard = append(overheard, q.Text)
		}
		if q.Admin {
			admins = append(admins, fmt.Sprint(q.Chat, " ", q.User))
		}
	}
	if len(overheard) != 1 || fmt.Sprint(admins) != "[-77 502]" {
		t.Errorf("overheard %q, admins %q", overheard, admins)
	}
}

// A message that replies to one of ours says which.
func TestRepliesToAnAnswer(t *testing.T) {
	j := newJob(t)
	j.start()
	ours := fields{"message_id": 3, "from": fields{"id": int64(4214214214), "is_bot": true}}
	j.api.Post(-40, fields{"text": "same but 14", "reply_to_message": ours})
	j.settle()
	if q := j.memory.questions(); len(q) != 1 || q[0].About != 3 {
		t.Errorf("asked %+v", q)
	}
}
