package bot_test

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dogleg/bot"
	"dogleg/bot/practice"
	"dogleg/bot/training"
	"dogleg/bot/wording"
	"dogleg/parser"

	"pgregory.net/rapid"
)

// inFeet is a length said once more in feet.
var inFeet = regexp.MustCompile(` \([^)]*\)`)

// bank is how a problem names the spacing of its lines.
var bank = regexp.MustCompile(`spacing ([^,]+), 2 lines, two`)

// solve answers a problem as it is posed, by asking another dogleg: what is
// posed is a whole ask.
func solve(t testing.TB, posed string) string {
	t.Helper()
	lines := strings.Split(strings.TrimSpace(posed), "\n")
	ask, question := lines[len(lines)-2], lines[len(lines)-1]
	ask = strings.ReplaceAll(inFeet.ReplaceAllString(ask, ""), " at each end", "")
	ask = bank.ReplaceAllString(ask, "2 lines $1 apart,")
	for words, want := range map[string]string{
		"travel": "what travel, ", "the cut": "how long is the cut, ", "standing pipes end": "how far apart are the ends, ",
	} {
		if strings.Contains(question, words) {
			ask = want + ask
		}
	}
	if strings.Contains(question, "the standing pipe?") {
		return marking(t, ask)
	}
	var c bot.Conversation
	memory := new(bot.Forgetful)
	reply := c.Handle(bot.Message{Text: ask, When: morning}, memory)
	if !reply.Understood && len(reply.Buttons) > 0 { // which reading? The first
		reply = c.Handle(bot.Message{Text: reply.Buttons[0][0].Says, When: morning}, memory)
	}
	figure := regexp.MustCompile(`\d+(-\d+)?(/\d+)?`).FindString(reply.Text)
	if figure == "" || !reply.Understood {
		t.Fatalf("%q is answered %q", ask, reply.Text)
	}
	return figure
}

// marking works a problem of marking on paper: it may be asked back as it is posed,
// for ends that stand apart may be a spacing.
func marking(t testing.TB, posed string) string {
	t.Helper()
	inches := func(after string) float64 {
		found := regexp.MustCompile(after + ` (\d+)?-?(?:(\d+)/(\d+))?`).FindStringSubmatch(posed)
		if found == nil {
			t.Fatalf("no %s in %q", after, posed)
		}
		whole, part := found[1], 0.0
		if found[3] == "" && strings.Contains(posed, after+" "+found[1]+"/") { // no inches before it
			found = regexp.MustCompile(after + ` (\d+)/(\d+)`).FindStringSubmatch(posed)
			whole, found = "0", []string{"", "", found[1], found[2]}
		}
		n, _ := strconv.ParseFloat(whole, 64)
		if found[3] != "" {
			over, _ := strconv.ParseFloat(found[2], 64)
			under, _ := strconv.ParseFloat(found[3], 64)
			part = over / under
		}
		return n + part
	}
	run := inches("Set") * math.Cos(inches("two")*math.Pi/180) / math.Sin(inches("two")*math.Pi/180)
	n := int(math.Round((run + 2*inches("takeoff") - inches("ends now")) * 16))
	return fmt.Sprintf("%d %d/16", n/16, n%16)
}

// An apprentice who figures right gets all of them, with a restart between any
// two questions.
func TestExamIsSatToItsEnd(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	posed := h.say("exam").Text
	if !strings.HasPrefix(posed, "Exam: 12 questions, 36 minutes.") {
		t.Fatalf("got %q", posed)
	}
	for range practice.ExamLength {
		h.restart()
		posed = h.say(solve(t, posed)).Text
	}
	if !strings.HasPrefix(posed, "12 of 12 right, in 12 min.") {
		t.Errorf("got %q", posed)
	}
	score := h.say("score", "too few yet to say:").Text
	if strings.Count(score, "\n") != len(practice.Kinds()) || strings.Contains(score, "□") {
		t.Errorf("score %q", score)
	}
}

// What is posed in words has one answer, which dogleg itself comes to.
func TestWhatIsPosedCanBeAsked(t *testing.T) {
	for seed := range uint64(400) {
		memory := new(bot.Forgetful)
		c := bot.Conversation{Seed: seed + 1}
		posed := c.Handle(bot.Message{Text: "practice", When: morning}, memory).Text
		for range 5 {
			reply := c.Handle(bot.Message{Text: solve(t, posed), When: morning}, memory).Text
			verdict, next, _ := strings.Cut(reply, "\n\n")
			if !strings.HasPrefix(verdict, "Right. ") {
				t.Fatalf("seed %d: %q, answered %q: %q", seed+1, posed, solve(t, posed), reply)
			}
			posed = next
		}
	}
}

// So has every kind, by the words that name it.
func TestEveryKindCanBeAsked(t *testing.T) {
	for _, kind := range []string{"trim", "dry fit", "mark", "branch", "two angles", "fall", "rolling", "end gap", "stagger", "piece"} {
		for seed := range uint64(40) {
			memory := new(bot.Forgetful)
			c := bot.Conversation{Seed: seed + 1}
			posed := c.Handle(bot.Message{Text: "practice " + kind, When: morning}, memory).Text
			figure := solve(t, posed)
			if reply := c.Handle(bot.Message{Text: figure, When: morning}, memory).Text; !strings.HasPrefix(reply, "Right. ") {
				t.Errorf("%s, seed %d: %q, answered %q: %q", kind, seed+1, posed, figure, reply)
			}
		}
	}
}

// In a drill, other talk leaves the problem waiting, and stop ends it.
func TestTalkBesidePractice(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	posed := h.say("practice cut 45").Text
	if !strings.Contains(posed, "45s") || !strings.HasSuffix(posed, "How long is the cut?") {
		t.Fatalf("got %q", posed)
	}
	h.say("what is a takeoff?")
	h.say("set 9 45s 2 pvc dwv takeoff 1-1/2")
	if sum := h.say("16-15/16 - 3").Text; !strings.HasPrefix(sum, "13-15/16") {
		t.Errorf("a sum beside practice is answered %q", sum)
	}
	if wrong := h.say("99").Text; !strings.HasPrefix(wrong, "Not yet.") {
		t.Errorf("99 is marked %q", wrong)
	}
	if right := h.say(solve(t, posed)).Text; !strings.HasPrefix(right, "Right. ") {
		t.Errorf("the second try is marked %q", right)
	}
	h.say("stop")
	if after := h.say("99").Text; !strings.HasPrefix(after, "99 of what?") {
		t.Errorf("after stop, 99 is answered %q", after)
	}
	for _, text := range []string{"skip", "stop"} {
		if got := h.say(text).Text; !strings.HasPrefix(got, "No problem is waiting.") {
			t.Errorf("%s: %q", text, got)
		}
	}
}

// A question of the bot's own comes before the problem that waits longer.
func TestTheOneQuestionComesFirst(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	h.say("practice travel")
	h.say("12 set 2 pvc dwv")
	if got := h.say("45").Text; !strings.HasPrefix(got, "Cut about") {
		t.Errorf("the answer to the question is taken for the problem's: %q", got)
	}
}

func TestPracticeInSpanish(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	if posed := h.say("practicar diagonal").Text; !strings.HasSuffix(posed, "¿De cuánto es la diagonal?") {
		t.Errorf("got %q", posed)
	}
	if wrong := h.say("99").Text; !strings.HasPrefix(wrong, "Todavía no.") {
		t.Errorf("got %q", wrong)
	}
	if got := h.say("¿qué es un descuento?").Text; !strings.HasPrefix(got, "Descuento: ") {
		t.Errorf("got %q", got)
	}
}

func TestPracticeOfNoBend(t *testing.T) {
	h := juniperStreet(t)
	if got := h.say("practice 13").Text; got != "There is practice with 22-1/2, 45 and 60." {
		t.Errorf("got %q", got)
	}
	for _, text := range []string{"practice fall 45", "practice piece 22½"} {
		if got := h.say(text).Text; strings.HasPrefix(got, "There is practice") {
			t.Errorf("%s: %q", text, got)
		}
	}
}

// 1.414 and its kin, as books print them.
func TestWhyAMultiplier(t *testing.T) {
	h := juniperStreet(t)
	for text, want := range map[string]string{
		"explain why 1.414":  "1.414 is set to travel on 45s.",
		"why 1.41?":          "1.41 is set to travel on 45s.",
		"explain why 2.613":  "2.613 is set to travel on 22-1/2s.",
		"why 1.155":          "1.155 is set to travel on 60s.",
		"why 2.414":          "2.414 is set to run on 22-1/2s.",
		"why 0.707":          "0.707 is travel to set on 45s.",
		"por qué 1.414":      "1.414 va de desvío a diagonal con codos de 45.",
		"explain why 1.2345": "Ningún codo tiene ese factor.",
	} {
		if text == "explain why 1.2345" {
			want = "No bend has that multiplier."
		}
		if got := h.say(text).Text; !strings.HasPrefix(got, want) {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// Every slip and every kind is worded, in both languages.
func TestEveryOutcomeIsWorded(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := bot.Conversation{Seed: rapid.Uint64Min(1).Draw(rt, "seed")}
		memory := new(bot.Forgetful)
		says := func(text string) string {
			r := c.Handle(bot.Message{Text: text, When: morning}, memory)
			if strings.ContainsAny(r.Text, "{}") || r.Fault || strings.TrimSpace(r.Text) == "" {
				rt.Fatalf("%q is answered %q", text, r.Text)
			}
			return r.Text
		}
		says(rapid.SampledFrom([]string{"practice", "practicar", "exam", "examen"}).Draw(rt, "begin"))
		for range 12 {
			says(rapid.SampledFrom([]string{"12", "8-1/2", "1", "30", "skip", "saltar", "score", "practice rolling"}).Draw(rt, "said"))
		}
	})
}

func TestGlossaryInTheConversation(t *testing.T) {
	h := juniperStreet(t)
	want, _ := training.Meaning("true set", wording.Options{})
	if got := h.say("what does true set mean?").Text; got != want {
		t.Errorf("got %q", got)
	}
	if got := h.say("what is a zork?").Text; got != training.NotInGlossary(wording.Options{Language: parser.English}) {
		t.Errorf("got %q", got)
	}
}

// An exam that goes on is not dropped by a word too many: the bot asks first,
// and a figure goes on with it.
func TestAnExamIsNotDroppedUnasked(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	posed := h.say("exam").Text
	h.say("practice", "question 1 of 12", "practice once more drops it")
	h.restart()
	h.say(solve(t, posed), "Question 2 of 12")
	h.say("exam", "question 2 of 12", "exam once more")
	h.say("skip", "Question 3 of 12")
	h.say("practice rolling", "question 3 of 12")
	if got := h.say("practice rolling").Text; strings.Contains(got, "uestion") || !strings.Contains(got, "How long is the cut?") {
		t.Errorf("practice, said twice: %q", got)
	}
	h.say("exam", "Question 1 of 12")
	h.say("examen", "pregunta 1 de 12")
}

// Who stops in the middle of an exam is told how it went so far.
func TestStoppedExamTellsItsResults(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	h.say(solve(t, h.say("exam").Text))
	h.say("skip")
	h.say("stop", "Stopped at question 3 of 12. 1 of 2 right", "2. ", "practice goes over the weak ones first.")
	h.say("stop", "No problem is waiting")

	h.say("examen")
	h.say("parar", "Hasta aquí") // nothing was handed in
}

// An exam whose time ran out has its results told, whatever comes next.
func TestAnExamPastItsTime(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	h.say(solve(t, h.say("exam").Text))
	for range 37 {
		h.say("16-15/16 - 3") // a minute each
	}
	h.say("practice", "Time is up. 1 of 12 right, in 36 min.")
	h.say("practice", "?")
}

// A word that is asked for is explained, with and without its article, and
// changes no job.
func TestAWordThatIsAskedForChangesNothing(t *testing.T) {
	for _, word := range []string{
		"makeup", "grade", "advance", "fall", "street 45", "stagger", "travel", "reach", "takeoff", "gap", "cut", "run",
		"allowance", "sanitary tee", "laying length", "vent", "coupling", "end gap", "spread",
	} {
		h := juniperStreet(t)
		h.say("set 12 45s 2 pvc dwv takeoff 1-1/4", "Cut 14-1/2 in light")
		for _, question := range []string{"what is " + word + "?", "what is a " + word, "What's " + word} {
			said := h.as("dana", question).Text
			if means, ok := training.Meaning(word, wording.Options{Language: parser.English}); !ok || said != means {
				t.Errorf("%q is answered with %q, want %q", question, said, means)
			}
		}
		h.say("jobs", "1. Cut 14-1/2 in light (set 12, two 45s, takeoff 1-1/4, 2 PVC DWV)")
		h.say("same but 13", "Cut 15-7/8 in") // 13 × √2 − 2-1/2 = 15.885
	}
}

// What there is no practice of is said so, with a button for each kind there is; no
// other kind is posed in its place. Every button poses its own. With 22s is with
// 22-1/2s.
func TestPracticeOfWhat(t *testing.T) {
	for _, l := range []string{"english", "spanish"} {
		h := juniperStreet(t)
		h.say(l)
		ask := map[string]string{"english": "practice soldering", "spanish": "practicar soldadura"}[l]
		r := h.as("dana", ask)
		if r.Understood || len(r.Buttons) == 0 {
			t.Fatalf("%s: %s", ask, r.Text)
		}
		posed := map[string]string{}
		for _, row := range r.Buttons {
			for _, b := range row {
				p := h.as("dana", b.Says)
				lines := strings.Split(p.Text, "\n")
				if !p.Understood || len(lines) != 2 {
					t.Errorf("%q poses\n%s", b.Says, p.Text)
					continue
				}
				given := regexp.MustCompile(`[\d/-]+|[^\pL ]`).ReplaceAllString(lines[0], "")
				if before, ok := posed[given+lines[1]]; ok {
					t.Errorf("%q poses what %q does: %s", b.Says, before, p.Text)
				}
				posed[given+lines[1]] = b.Says
			}
		}
		if len(posed) < 11 {
			t.Errorf("%s: only %d kinds", l, len(posed))
		}
	}
	h := juniperStreet(t)
	h.say("practice cut with 22s", "two 22-1/2s", "How long is the cut?")
	if r := h.as("dana", "practice with 30s"); !hasButton(r, "practice 22-1/2") {
		t.Errorf("%s %+v", r.Text, r.Buttons)
	}
}

// Who has a metric tape practices on metric pipe.
func TestPracticeOnMetricPipe(t *testing.T) {
	h := juniperStreet(t)
	h.say("metric on")
	for _, kind := range []string{"travel", "cut", "rolling", "fall", "piece", "stagger"} {
		for range 4 {
			if r := h.as("dana", "practice "+kind); inInches.MatchString(strings.ReplaceAll(r.Text, "22-1/2", "")) || !regexp.MustCompile(`\d+ mm \pL|^Dry`).MatchString(r.Text) {
				t.Errorf("%s: %s", kind, r.Text)
			}
		}
	}
}
