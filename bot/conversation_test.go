package bot_test

import (
	"bytes"
	"encoding/json"
	"log/slog"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"dogleg/bot"
	"dogleg/bot/wording"
	"dogleg/store"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// morning is when the crew starts on Juniper Street.
var morning = time.Date(2026, time.November, 3, 7, 30, 0, 0, time.UTC)

// house is a conversation on a real store, with a clock.
type house struct {
	t    testing.TB
	path string
	db   *store.DB
	now  time.Time
	id   int64 // of the last message
	bot  bot.Conversation
}

func juniperStreet(t testing.TB) *house {
	t.Helper()
	h := &house{t: t, path: filepath.Join(t.TempDir(), "juniper.db"), now: morning}
	h.open()
	t.Cleanup(func() {
		if err := h.db.Check(); err != nil {
			t.Errorf("check after the test: %v", err)
		}
		_ = h.db.Close()
	})
	return h
}

func (h *house) open() {
	h.t.Helper()
	db, err := store.Open(h.path)
	if err != nil {
		h.t.Fatal(err)
	}
	h.db = db
}

// restart ends the process and begins another, as far as it matters.
func (h *house) restart() {
	h.t.Helper()
	if err := h.db.Close(); err != nil {
		h.t.Fatal(err)
	}
	h.open()
}

// as says something as one person of the crew.
func (h *house) as(user, text string) bot.Reply {
	h.t.Helper()
	h.now = h.now.Add(time.Minute)
	h.id++
	var reply bot.Reply
	err := h.db.Update(func(tx *store.Tx) error {
		p := tx.Person(store.ChatOf("terminal", "juniper").Person(user))
		reply = h.bot.Handle(bot.Message{Text: text, When: h.now, From: user, ID: h.id}, p)
		return nil
	})
	if err != nil {
		h.t.Fatalf("%q: %v", text, err)
	}
	return reply
}

// say says something as Dana and wants each of the words in the reply, in this
// order.
func (h *house) say(text string, words ...string) bot.Reply {
	h.t.Helper()
	reply := h.as("dana", text)
	wants(h.t, text, reply.Text, words...)
	return reply
}

func wants(t testing.TB, asked, text string, words ...string) {
	t.Helper()
	rest := text
	for _, w := range words {
		_, after, ok := strings.Cut(rest, w)
		if !ok {
			t.Errorf("%q was answered with\n%s\nwant %q in it (in order %q)", asked, text, w, words)
			return
		}
		rest = after
	}
}

func first(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	return line
}

// In these tests the takeoff is measured, 1-1/8 for a 45 in 2 in ABS, so that
// figures follow from the set alone: travel = set × √2, cut = travel − 2-1/4.
//
//	set  7: travel  9.8995, cut  7.6495: 7-5/8 heavy
//	set 10: travel 14.1421, cut 11.8921: 11-7/8 heavy
//	set 12: travel 16.9706, cut 14.7206: 14-3/4 light
//	set 14: travel 19.7990, cut 17.5490: 17-9/16, under 1/64 off the mark
const measured = "my 2 abs 45s are 1-1/8 takeoff"

func TestFollowUpsChangeTheLastAsk(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured, "1-1/8")
	h.say("12 set 45s 2 abs", "Cut 14-3/4 in light\n", "Set 12", "45", "2 ABS DWV", "1-1/8")
	h.say("same but 14", "Cut 17-9/16 in\n", "Set 14")
	h.say("same but 10", "Cut 11-7/8 in heavy\n", "Set 10")
	h.say("with 22s", "Set 10", "22-1/2")
	h.say("in pvc", "Set 10", "22-1/2", "2 PVC DWV")
}

// Where the pipes stand belongs to the last piece, whoever says it first: the ends
// stand set + two takeoffs apart when they fit, 12 + 2 × 1-1/8 = 14-1/4, so that of
// 9 there is 5-1/4 to come off.
func TestEndsAreThoseOfTheLastPiece(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured, "1-1/8")
	h.say("12 set 45s 2 abs", "Cut 14-3/4 in light\n")
	h.say("ends are 9 apart", "Mark 5-1/4 in back from the end\n", "Set 12", "now 9 apart")
	h.say("12 set 45s 2 abs", "Cut 14-3/4 in light\n")
	if r := h.as("dana", "where do i mark it"); !strings.Contains(r.Text, "How far apart do the two ends stand now") {
		t.Errorf("asked: %q", r.Text)
	}
	h.say("9", "Mark 5-1/4 in back from the end\n", "Set 12")
}

// What is whole by itself is answered, whatever words it holds of a change.
func TestWholeAskIsNoFollowUp(t *testing.T) {
	for _, text := range []string{
		"same elevation, 12 set with 45s, 2 abs", "no room here. 12 set 45s 2 abs", "told me to try you: 12 set 45s 2 abs",
	} {
		h := juniperStreet(t)
		h.say(measured)
		h.say(text, "Cut 14-3/4 in light\n", "Set 12")
	}
}

// What takes something back changes the last ask however much it says again: what it
// leaves unsaid stays.
func TestCorrectionsStayFollowUps(t *testing.T) {
	for _, c := range []struct{ first, then, read string }{
		{"roll 10 rise 8 45s 2 pvc", "sorry, rise is 9, 45s, 2 pvc", "Roll 10, rise 9, two 45s"},
		{"set 12 45s 4 cast hub", "sorry, 14 set 45s 4 cast", "Set 14, 45s, 4 hub-and-spigot"},
		{"12 set 45s 2 pvc sch 40", "no, 14 set, 45s, 2 pvc", "Set 14, two 45s, 2 PVC schedule 40"},
		{"12 set 45s 2 pvc sch 40", "14 set with 45s 2 pvc instead", "Set 14, two 45s, 2 PVC schedule 40"},
		{"12 set 45s 2 pvc, ends 9 apart", "sorry, 14 set 45s 2 pvc", "Set 14, now 9 apart"},
		{"12 set 45s 2 pvc", "same size, 14 set", "Set 14, two 45s, 2 PVC"},
	} {
		h := juniperStreet(t)
		h.say(c.first)
		h.say(c.then, c.read)
	}
	h := juniperStreet(t)
	h.say("12 set 45s 2 pvc")
	if r := h.as("dana", "gap now 14 for the next one"); strings.Contains(r.Text, "Set 12") {
		t.Errorf("the next piece was taken for the last: %q", r.Text)
	}
}

func TestFollowUpOfNothing(t *testing.T) {
	h := juniperStreet(t)
	for _, text := range []string{"same but 14", "takeoff 1-1/8", "explain", "undo", "call it laundry"} {
		if r := h.as("dana", text); r.Understood || r.Text == "" || strings.Contains(r.Text, "Cut ") {
			t.Errorf("%q with nothing before it: %q, want to be told what is lacking", text, r.Text)
		}
	}
}

func TestMissingFactIsAskedAndTakesABareAnswer(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)
	r := h.say("12 set 45s", "What pipe?")
	if r.Understood || strings.Contains(r.Text, "Cut") {
		t.Errorf("an ask that lacks the pipe was answered: %q", r.Text)
	}
	h.restart() // the question outlives it
	h.say("2 abs", "Cut 14-3/4 in light\n", "Set 12")
	h.say("jobs", "1. Cut 14-3/4 in light", "set 12")
	if strings.Contains(h.as("dana", "jobs").Text, "2. ") {
		t.Error("a question and its answer became two jobs")
	}
}

func TestWholeNewAskDropsTheQuestion(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)
	h.say("12 set 45s", "What pipe?")
	h.say("10 set 45s 2 abs", "Cut 11-7/8 in heavy")
	// Were the question still open, this would be its answer: set 12.
	h.say("2 abs", "Set 10")
}

func TestCommandsLeaveTheQuestionWaiting(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)
	h.say("12 set 45s", "What pipe?")
	h.say("help", "12 set 45s 2 pvc")
	h.say("more", "same but 14")
	h.say("jobs", "No jobs yet")
	h.say("2 abs", "Cut 14-3/4 in light", "Set 12")
	h.say("12 set 2 abs", "angle")
	h.say("cancel", "Dropped")
	h.say("cancel", "Nothing is waiting")
}

func TestOneAnswerSettlesAllThatLackIt(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)
	h.say("12 set 45s\n10 set 45s", "1) ", "What pipe?", "2) ", "What pipe?")
	r := h.say("2 abs", "1) 12 set 45s\nCut 14-3/4 in light", "2) 10 set 45s\nCut 11-7/8 in heavy")
	if len(r.Records) != 2 || !r.Understood {
		t.Errorf("%d records, understood %v, want two answers", len(r.Records), r.Understood)
	}
}

func TestSeveralStatementsAreEachAnswered(t *testing.T) {
	h := juniperStreet(t)
	h.say(measured)
	r := h.say("12 set 45s 2 abs\nset 8 45s 1-3/8 abs\n10 set 45s 2 abs",
		"1) 12 set 45s 2 abs\nCut 14-3/4 in light\n",
		"\n\n2) set 8 45s 1-3/8 abs\n", "1-1/4", "1-1/2",
		"\n\n3) 10 set 45s 2 abs\nCut 11-7/8 in heavy\n")
	if r.Understood {
		t.Error("understood, although one of three was not")
	}
	var kept []bool
	for _, record := range r.Records {
		kept = append(kept, record.Tape != nil)
	}
	if diff := cmp.Diff([]bool{true, false, true}, kept); diff != "" {
		t.Errorf("records with a cut (-want +got):\n%s", diff)
	}
	h.say("jobs", "1. Cut 14-3/4", "2. Cut 11-7/8")
}

// Who decides is said once a conversation, by the first answer that has no
// caution, or to those who are greeted.
func TestNoticeOnceAConversation(t *testing.T) {
	const notice = "inspector"
	h := juniperStreet(t)
	h.say("10 set 45s 2 abs takeoff 1-1/8", "ABS has to be dry")
	h.say("same but 9", "Test plastic with water")
	h.say("16 - 3", notice)
	if r := h.as("dana", "16 - 4"); strings.Contains(r.Text, notice) {
		t.Errorf("the notice comes twice: %s", r.Text)
	}
	h.restart()
	if r := h.as("dana", "16 - 5"); strings.Contains(r.Text, notice) {
		t.Errorf("the notice comes again after a restart: %s", r.Text)
	}
	h.now = h.now.Add(23 * time.Hour)
	h.say("16 - 6", notice)
	if r := h.as("sam", "hello"); !strings.Contains(r.Text, notice) {
		t.Errorf("the greeting: %s", r.Text)
	}
	if r := h.as("sam", "16 - 3"); strings.Contains(r.Text, notice) {
		t.Errorf("the notice comes after the greeting: %s", r.Text)
	}
}

func TestExamplesAndHelpWorkWhenTyped(t *testing.T) {
	if len(wording.Examples(wording.Options{})) != 3 {
		t.Errorf("%d examples, want three", len(wording.Examples(wording.Options{})))
	}
	for _, e := range wording.Examples(wording.Options{}) {
		h := juniperStreet(t)
		h.say("hello", e.Ask)
		if r := h.as("dana", e.Ask); !r.Understood {
			t.Errorf("the example %q was not answered: %s", e.Ask, r.Text)
		}
	}
	for _, language := range []string{"english", "spanish"} {
		h := juniperStreet(t)
		h.say(language)
		h.say("help")
		asks, _, _ := strings.Cut(h.as("dana", "more").Text, "\n\n")
		for example := range strings.Lines(asks) {
			_, example, _ = strings.Cut(strings.TrimSpace(example), ": ") // what it gives comes first
			if r := h.as("dana", example); !r.Understood && !strings.Contains(r.Text, "?") {
				t.Errorf("help in %s: %q was neither answered nor asked back about: %s", language, example, r.Text)
			}
		}
	}
}

// broken is a memory that fails in the middle.
type broken struct{ bot.Forgetful }

func (*broken) Takeoffs() []store.Takeoff { panic("a leak in the wall") }

func TestFaultBelowIsAPlainSentence(t *testing.T) {
	var log bytes.Buffer
	c := bot.Conversation{Log: slog.New(slog.NewTextHandler(&log, nil))}
	r := c.Handle(bot.Message{Text: "10 set 45s 2 abs", When: morning}, new(broken))
	if !r.Fault || r.Understood || strings.Contains(r.Text, "leak") || !strings.Contains(r.Text, "went wrong") {
		t.Errorf("reply %q, want a plain sentence", r.Text)
	}
	if len(r.Records) != 1 || r.Records[0].Reply != r.Text {
		t.Errorf("records %v, want one that says the same", r.Records)
	}
	if !strings.Contains(log.String(), "a leak in the wall") || strings.Contains(log.String(), "10 set") {
		t.Errorf("log %q, want the fault in it and nothing of the message", log.String())
	}
	r = c.Handle(bot.Message{Text: "10 set 45s 2 abs", When: morning}, nil)
	if !r.Fault || r.Text == "" || r.Understood {
		t.Errorf("with no memory at all: %q, want a plain sentence", r.Text)
	}
}

// chatter are messages for the tests that say many in a row.
var chatter = []string{
	"10 set 45s 2 pvc", "12 set 45s", "2 abs", "same but 14", "with 22s", "in abs", "45", "threaded",
	"takeoff 1-1/8", "face 1-7/8", measured, "takeoffs", "forget takeoff 1", "forget me", "yes", "export my data",
	"jobs", "explain", "undo", "call it laundry", "cautions", "help", "hello", "cancel", "thanks",
	"metric on", "metric off", "spanish", "english", "handbook two", "exact", "what's the run",
	"roll 9 rise 12 45s 2 copper", "set 14 in 30 of room, 2 pvc", "16-15/16 - 3", "multiplier for 45",
	"12 set 45s 2 abs\nlaundry: 9 set 45s\nsame but 3", "3 set 90s 4 pvc", "bring me a coffee", "", "9 3/4 copper 45s",
}

// forTheCrew are messages that reach the others.
var forTheCrew = []string{
	"crew takeoff 2 abs 45 is 1-1/4", "takeoff 2 pvc 45 is 1-1/16 for the crew", "forget takeoff 2", "forget crew takeoff 2 abs 45",
}

// TestMemoriesAgree says the same to a store and to a forgetful memory: what is
// remembered has to come to the same, with restarts and without.
func TestMemoriesAgree(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		h := juniperStreet(t)
		var forgetful bot.Forgetful
		for _, text := range rapid.SliceOfN(rapid.SampledFrom(append(forTheCrew, chatter...)), 1, 12).Draw(rt, "messages") {
			kept := h.as("dana", text)
			thought := h.bot.Handle(bot.Message{Text: text, When: h.now, From: "dana"}, &forgetful)
			if diff := cmp.Diff(thought, kept); diff != "" {
				rt.Fatalf("%q (-in memory +in the store):\n%s", text, diff)
			}
			if rapid.Bool().Draw(rt, "restart") {
				h.restart()
			}
		}
	})
}

// TestNothingReachesAnother mixes two people's messages: each hears what they
// would have heard alone.
func TestNothingReachesAnother(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		both := juniperStreet(t)
		alone := map[string]*bot.Forgetful{"dana": {}, "sam": {}}
		for range rapid.IntRange(1, 16).Draw(rt, "messages") {
			user := rapid.SampledFrom([]string{"dana", "sam"}).Draw(rt, "user")
			text := rapid.SampledFrom(chatter).Draw(rt, "text")
			mixed := both.as(user, text)
			if diff := cmp.Diff(both.bot.Handle(bot.Message{Text: text, When: both.now}, alone[user]), mixed); diff != "" {
				rt.Fatalf("%s said %q (-alone +beside another):\n%s", user, text, diff)
			}
		}
	})
}

// FuzzHandle: whatever is written, there is an answer, and the same one again.
func FuzzHandle(f *testing.F) {
	for i, text := range chatter {
		f.Add(text, chatter[(i*7+3)%len(chatter)])
	}
	for _, text := range hostile() {
		f.Add("forget me", text)
	}
	f.Fuzz(func(t *testing.T, before, text string) {
		var c bot.Conversation
		var replies []bot.Reply
		for range 2 {
			var memory bot.Forgetful
			c.Handle(bot.Message{Text: before, When: morning}, &memory)
			replies = append(replies, c.Handle(bot.Message{Text: text, When: morning}, &memory))
		}
		if replies[0].Text == "" || len(replies[0].Records) == 0 {
			t.Errorf("%q after %q: no reply", text, before)
		}
		if _, err := json.Marshal(replies[0].Records); err != nil || replies[0].Fault {
			t.Errorf("%q after %q: a fault, or no JSON: %v", text, before, err)
		}
		if diff := cmp.Diff(replies[0], replies[1]); diff != "" {
			t.Errorf("%q after %q, twice (-first +second):\n%s", text, before, diff)
		}
	})
}

// A caution of every day is told once a day, and on request; each answer has one
// at most.
func TestCautionsOfEveryDayAreToldOnceADay(t *testing.T) {
	const everyday = "Glue: keep air moving"
	h := juniperStreet(t)
	h.say("12 set 45s 2 pvc dwv", everyday)
	h.restart()
	for _, next := range []string{"same but 14", "takeoff 1-1/8", "same but 11", "14 set 45s 3 pvc dwv"} {
		if text := h.as("dana", next).Text; strings.Contains(text, everyday) {
			t.Errorf("%q is told again what was told:\n%s", next, text)
		}
	}
	h.say("cautions", "Primer and cement: keep air moving")
	h.say("why", "Primer and cement: keep air moving", "Test plastic with water")
	h.say("set 12 45s", "What pipe?")
	h.say("2 abs", "ABS has to be dry")
	h.now = h.now.Add(23 * time.Hour)
	h.say("12 set 45s 2 pvc dwv", everyday)
}

// A grave caution is given every time, and two of them both.
func TestGraveCautionsAreNeverLost(t *testing.T) {
	h := juniperStreet(t)
	for range 3 {
		h.say("set 12 45s 2 pvc dwv gas line through a joist, the grey ones", "Cut about", "Gas: licensed work", "Joist, stud or beam")
	}
}

// What a pipe carries is read wherever it is told.
func TestWhatThePipeCarriesIsRead(t *testing.T) {
	for text, want := range map[string]string{
		"set 12 45s 3/4 copper gas line takeoff 1/2":             "Gas: licensed work",
		"set 12 45s 2 pvc gas line takeoff 1-1/8":                "Gas: licensed work",
		"set 12 45s 1 pex gas":                                   "Gas: licensed work",
		"set 12 45s 3/4 copper medical gas oxygen line":          "Medical gas: certified installers",
		"set 12 45s 2 pvc compressed air":                        "I figure no compressed air in PVC",
		"set 12 45s 1 pvc schedule 80 compressed air takeoff 1":  "I figure no compressed air in PVC",
		"set 12 45s 4 asbestos cement pipe takeoff 4":            "Asbestos cement: don't saw",
		"set 12 45s 4 transite":                                  "Asbestos cement: don't saw",
		"set 12 45s 1/2 lead pipe":                               "Lead pipe: no dust",
		"set 12 45s 2 pvc water line":                            "PVC schedule 40",
		"set 12 45s 1-1/2 pvc cold water":                        "PVC schedule 40",
		"set 12 45s 2 pvc irrigation":                            "PVC schedule 40",
		"set 12 45s 2 pvc dwv potable":                           "Drain fittings: not for",
		"set 12 45s 3 pvc dwv vent":                              "A vent keeps rising",
		"core drill through the wall, set 12 45s 2 pvc dwv":      "Silica dust",
		"set 12 45s 2 pvc dwv through a joist":                   "Joist, stud or beam: no cut",
		"set 12 45s, ends are 9 apart now, 4 cast iron no hub":   "Hang cast iron before you cut",
		"set 12 45s, ends are 9 apart now, 1 copper takeoff 1/2": "Old joints may be lead",
	} {
		if got := ask(new(bot.Forgetful), text); !strings.Contains(got, want) {
			t.Errorf("%q says nothing of %q:\n%s", text, want, got)
		}
	}
}

// A word that is longer than a reply may be is named by its beginning, with what would
// work.
func TestLongWordIsNamedInShort(t *testing.T) {
	nines, halves := strings.Repeat("9", 4050), strings.Repeat("1-", 2000)+"5"
	for _, text := range []string{
		strings.Repeat("x", 4050), "set " + strings.Repeat("ñ", 4050) + " 45s", "call it " + strings.Repeat("x", 4050), "glossary " + strings.Repeat("x", 4050),
		nines, "12 + " + nines, "12 + 0.1" + nines, "jobs " + nines, "jobs " + halves, "sticks " + nines, "sticks " + halves, "what is a " + nines,
	} {
		reply := new(bot.Conversation).Handle(bot.Message{Text: text, When: morning}, new(bot.Forgetful))
		if n := len([]rune(reply.Text)); n < 20 || n > 1000 {
			t.Errorf("%.20s is answered %.200q, %d letters", text, reply.Text, n)
		}
	}
}
