package bot_test

import (
	"bytes"
	"image/png"
	"strings"
	"testing"

	"dogleg/bot"
	"dogleg/store"
)

// labels are the buttons under a reply, in a line.
func labels(r bot.Reply) string {
	var all []string
	for _, row := range r.Buttons {
		for _, b := range row {
			all = append(all, b.Label)
		}
	}
	return strings.Join(all, ", ")
}

// What a button says works when it is said, and means the answer that it stands
// under, whatever was asked since.
func TestWhatButtonsSay(t *testing.T) {
	h := juniperStreet(t)
	first := h.say("12 set 45s 2 pvc dwv takeoff 1-1/4")
	if got := labels(first); got != "Why, Steps, Picture, To the list, Share, Undo" {
		t.Fatalf("under an answer: %s", got)
	}
	h.say("9 set 22s 3 abs takeoff 1")
	h.restart()
	for _, row := range first.Buttons {
		for _, b := range row {
			said := b.Says
			if b.Share != "" {
				said = b.Share
			}
			got := h.say(said)
			want := map[string]string{
				"Why": "Takeoff 1-1/4 each, as you said.", "Steps": "12", "Picture": "Cut 14-1/2 in", "To the list": "14-1/2", "Share": "Cut 14-1/2 in", "Undo": "Cut 14-1/2 in",
			}[b.Label]
			if !got.Understood || !strings.Contains(got.Text, want) {
				t.Errorf("%s says %q, which is answered %q", b.Label, said, got.Text)
			}
		}
	}
}

func TestButtonsUnderTheGreeting(t *testing.T) {
	h := juniperStreet(t)
	greeting := h.say("/start")
	if len(greeting.Buttons) != 4 {
		t.Fatalf("buttons: %s", labels(greeting))
	}
	for _, row := range greeting.Buttons {
		if got := h.say(row[0].Says); !got.Understood {
			t.Errorf("%q is answered %q", row[0].Says, got.Text)
		}
	}
}

// Two readings are two buttons, and each says what it reads.
func TestButtonsForTwoReadings(t *testing.T) {
	h := juniperStreet(t)
	asked := h.say("set 7 1/2 copper 45s")
	if len(asked.Buttons) != 2 {
		t.Fatalf("%q has the buttons %q", asked.Text, labels(asked))
	}
	for _, row := range asked.Buttons {
		if got := h.say(row[0].Says); strings.Contains(got.Text, "two ways") {
			t.Errorf("%q is asked about again: %q", row[0].Says, got.Text)
		}
	}
}

func TestDraw(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s 2 pvc dwv takeoff 1-1/4")
	for _, said := range []string{"draw it", "draw 1", "dibuja"} {
		reply := h.say(said)
		if len(reply.Files) != 1 || !reply.Files[0].Picture {
			t.Fatalf("%s: %q, %d files", said, reply.Text, len(reply.Files))
		}
		painted, ok := h.bot.Paint(reply.Files[0])
		if _, err := png.Decode(bytes.NewReader(painted.Content)); err != nil || !ok {
			t.Errorf("%s: %v", said, err)
		}
	}
	if reply := h.say("draw 7"); reply.Understood || len(reply.Files) > 0 {
		t.Errorf("draw 7 is answered %q", reply.Text)
	}
	h.say("draw always")
	if reply := h.say("9 set 45s 2 pvc dwv"); len(reply.Files) != 1 {
		t.Errorf("with pictures always: %q", reply.Text)
	}
	h.say("draw when asked")
	if reply := h.say("10 set 45s 2 pvc dwv"); len(reply.Files) != 0 {
		t.Error("pictures were to be asked for")
	}
}

// An edited message changes its job, and the one before it is talked about
// until then.
func TestEditedMessageReplacesItsJob(t *testing.T) {
	memory, c := new(bot.Forgetful), new(bot.Conversation)
	say := func(text string, replaces ...uint64) bot.Reply {
		return c.Handle(bot.Message{Text: text, When: morning, Replaces: replaces}, memory)
	}
	say("9 set 45s 2 pvc dwv takeoff 1-1/4")
	wrong := say("21 set 45s 2 pvc dwv takeoff 1-1/4")
	right := say("12 set 45s 2 pvc dwv takeoff 1-1/4", wrong.Jobs...)
	if jobs := memory.Jobs(); len(jobs) != 2 || !strings.HasPrefix(jobs[1].Figure, "Cut 14-1/2") {
		t.Fatalf("jobs: %+v", jobs)
	}
	if got := say("same but 14", right.Jobs...); !strings.Contains(got.Text, "Set 14") || len(memory.Jobs()) != 2 {
		t.Errorf("edited to a change of the one before: %q, %d jobs", got.Text, len(memory.Jobs()))
	}
}

// A reply to somebody else's answer is about that answer, and makes a job of
// one's own.
func TestAboutAnothersAnswer(t *testing.T) {
	var lead, helper bot.Forgetful
	var c bot.Conversation
	c.Handle(bot.Message{Text: "12 set 45s 2 pvc dwv takeoff 1-1/4", When: morning}, &lead)
	c.Handle(bot.Message{Text: "9 set 22s 3 abs takeoff 1", When: morning}, &helper)
	theirs := lead.Jobs()[0]
	theirs.Number = 0
	about := func(text string) string {
		return c.Handle(bot.Message{Text: text, When: morning, About: &theirs}, &helper).Text
	}
	if got := about("explain"); !strings.Contains(got, "1.414") {
		t.Errorf("explain says %q", got)
	}
	if got := about("same but 14"); !strings.Contains(got, "Set 14, 45s") {
		t.Errorf("a change says %q", got)
	}
	if len(lead.Jobs()) != 1 || len(helper.Jobs()) != 2 {
		t.Errorf("the lead has %d jobs, the helper %d", len(lead.Jobs()), len(helper.Jobs()))
	}
}

// Overheard, only what is plainly asked is answered.
func TestOverheard(t *testing.T) {
	memory, group := new(bot.Forgetful), new(bot.Forgetful)
	var c bot.Conversation
	hear := func(text string) string {
		return c.Handle(bot.Message{Text: text, When: morning, Group: group, Overheard: true}, memory).Text
	}
	for _, talk := range []string{
		"morning all", "be there at 10", "jobs", "help", "thanks", "same but 14", "need 6 45s in 3 inch",
		"who took the 2 inch hole saw?", "explain", "lunch at 12:30, 2 of us",
	} {
		if got := hear(talk); got != "" {
			t.Errorf("%q is answered %q", talk, got)
		}
	}
	if memory.Note(store.State) != nil {
		t.Error("something is kept of talk that nobody addressed to the bot")
	}
	if got := hear("12 set 45s 2 pvc dwv takeoff 1-1/4"); !strings.HasPrefix(got, "Cut 14-1/2 in") {
		t.Errorf("an ask is answered %q", got)
	}
}

// Chatter to nobody never does anything to the list, nor sets anything, whatever was
// said before: it is for the ears of the crew.
func TestChatterIsNotObeyed(t *testing.T) {
	memory, group := new(bot.Forgetful), new(bot.Forgetful)
	var c bot.Conversation
	say := func(text string, overheard bool) bot.Reply {
		return c.Handle(bot.Message{Text: text, When: morning, Group: group, Overheard: overheard}, memory)
	}
	say("12 set 45s 2 pvc dwv takeoff 1-1/4", false)
	say("add", false)
	say("12 set 45s 2 pvc dwv", false) // whose takeoff is asked for
	say("practice", false)
	say("forget me", false)
	before, after := string(memory.Export())+string(group.Export()), ""
	for _, chatter := range []string{
		"clear the list", "clear list", "drop 1", "drop all", "done 1", "undone 1", "add", "add laundry", "export", "list", "sticks",
		"remove job 1", "rename job 1 kitchen", "reuse 1", "jobs pvc", "vaciar lista", "añadir", "yes", "sí", "1-1/8", "9", "undo",
		"takeoff 2 pvc 45 is 1-1/4", "crew takeoff 2 pvc 45 is 1-1/4", "metric on", "answer everything", "stop", "cancel", "call it laundry",
	} {
		if got := say(chatter, true); got.Text != "" {
			t.Errorf("%q is answered %q", chatter, got.Text)
		}
		if after = string(memory.Export()) + string(group.Export()); after != before {
			t.Fatalf("%q changes what is kept", chatter)
		}
	}
}

// A shared list is cleared by the button of who asks for it, and not when it has
// changed since.
func TestSharedListIsClearedByButton(t *testing.T) {
	memory, group := new(bot.Forgetful), new(bot.Forgetful)
	var c bot.Conversation
	say := func(text string) bot.Reply {
		return c.Handle(bot.Message{Text: text, When: morning, Group: group}, memory)
	}
	add := func() { say("12 set 45s 2 pvc dwv takeoff 1-1/4"); say("add") }
	add()
	for _, text := range []string{"clear list", "clear the list", "drop all", "vaciar lista"} {
		asked := say(text)
		if len(group.Cuts()) != 1 || len(asked.Buttons) != 1 {
			t.Fatalf("%q leaves %d pieces, and is answered %q", text, len(group.Cuts()), asked.Text)
		}
		if data := len(asked.Buttons[0][0].Says); data > 45 {
			t.Errorf("%d bytes say the button", data)
		}
	}
	stale := say("clear list").Buttons[0][0].Says
	add()
	if got := say(stale); len(group.Cuts()) != 2 {
		t.Errorf("an old button clears what came since: %q", got.Text)
	}
	say("done 1")
	if got := say(say("drop all").Buttons[0][0].Says); len(group.Cuts()) != 0 || got.Text != "List cleared. It had 1 open, 1 done." {
		t.Errorf("%d pieces left, %q", len(group.Cuts()), got.Text)
	}
}

// Whether a group is answered always is for its admins to say.
func TestWhoSetsWhatIsHeard(t *testing.T) {
	group := new(bot.Forgetful)
	var c bot.Conversation
	say := func(text string, admin bool) string {
		return c.Handle(bot.Message{Text: text, When: morning, Group: group, Admin: admin}, new(bot.Forgetful)).Text
	}
	if !bot.ForAdmins("answer everything") || bot.ForAdmins("12 set 45s") {
		t.Error("what is for admins isn't known")
	}
	if got := say("answer everything", false); bot.HearsAll(group) || !strings.Contains(got, "admin") {
		t.Errorf("anyone may: %q", got)
	}
	if got := say("answer everything", true); !bot.HearsAll(group) {
		t.Errorf("an admin may not: %q", got)
	}
	if got := say("contesta si te llaman", true); bot.HearsAll(group) {
		t.Errorf("it can't be taken back: %q", got)
	}
	alone := c.Handle(bot.Message{Text: "answer everything", When: morning}, new(bot.Forgetful))
	if alone.Understood {
		t.Errorf("one to one: %q", alone.Text)
	}
}
