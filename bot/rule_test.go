package bot_test

import (
	"bytes"
	"strings"
	"testing"
)

// The rule behind a step is asked for by the step's number, of the last answer
// or of a job.
func TestRuleBehindAStep(t *testing.T) {
	h := juniperStreet(t)
	if got := h.say("rule 3").Text; strings.Contains(got, "1.") {
		t.Errorf("before any answer: %q", got)
	}
	h.say("12 set 45s 2 pvc dwv takeoff 1-1/8")
	h.say("explain", "4. Travel: 12 × 1.4142 = 16.9706\n", "7. Cut: 16.9706 - 2 × 1.125 = 14.7206, 14-3/4 light")
	steps := h.say("more").Text
	if !strings.HasSuffix(steps, "\nWhy a step is so: rule 4") {
		t.Errorf("explain ends with %q", steps)
	}
	travel := h.say("rule 4", "4. Travel (set to travel): 12 × 1.4142 = 16.9706", "0.7071").Text
	for _, text := range []string{"why step 4?", "the rule behind step 4", "rule 4 of job 1"} {
		if got := h.say(text).Text; got != travel {
			t.Errorf("%s: %q", text, got)
		}
	}
	h.say("regla 7", "7. Corte", "Ese largo va de centro a centro.")
	h.say("rule 99", "1 to 11")
	h.say("rule", "1 to 11")
	h.say("rule 4 of job 7", "no job 7")
	h.say("16-15/16 - 3")
	if got := h.say("more 1").Text; !strings.HasSuffix(got, "rule 4 of job 1") {
		t.Errorf("explain 1 ends with %q", got)
	}
}

// A bend by its number is a word like another, also while a problem waits.
func TestWhatIsA45(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	h.say("practice cut 45")
	for text, want := range map[string]string{
		"what is a 45":       "45: a fitting that turns the line 45°",
		"what's a 22?":       "22-1/2: a fitting that turns the line 22-1/2°",
		"what is a 1/8 bend": "45: a fitting",
		"¿qué es un 60?":     "60: conexión",
		"what is a 90 elbow": "A 90 goes straight over",
	} {
		h.say(text, want)
	}
}

// Pictures stand beside what the text says already: of a word, of a triangle,
// of a score. And each figured step has a button for its rule.
func TestPicturesForTheApprentice(t *testing.T) {
	h := juniperStreet(t)
	h.bot.Seed = 12
	for text, name := range map[string]string{
		"what is a takeoff?": "word.png", "explain why 1.414": "triangle.png", "what is a 22": "triangle.png",
		"what is level?": "", "what is a 90": "", "why 1.2345": "", "score": "",
	} {
		r := h.say(text)
		var got strings.Builder
		for _, noted := range r.Aside {
			f, ok := h.bot.Paint(noted)
			if !ok {
				continue
			}
			got.WriteString(f.Name)
			if !f.Picture || len(f.Content) < 1000 {
				t.Errorf("%s: %d bytes", text, len(f.Content))
			}
			if again, _ := h.bot.Paint(noted); !bytes.Equal(again.Content, f.Content) {
				t.Errorf("%s: another picture when it is shown again", text)
			}
		}
		if got.String() != name || len(r.Files) != 0 {
			t.Errorf("%s comes with %q, want %q", text, got.String(), name)
		}
	}
	h.say("practice")
	h.say("skip")
	if f, ok := h.bot.Paint(h.say("score").Aside[0]); !ok || f.Name != "score.png" {
		t.Errorf("the score comes with %q", f.Name)
	}
	h.say("stop")
	h.say("12 set 45s 2 pvc dwv takeoff 1-1/8")
	var says []string
	for _, row := range h.say("explain").Buttons {
		for _, b := range row {
			says = append(says, b.Label+": "+b.Says)
		}
	}
	want := "Rule 4: rule 4 of job 1, Rule 5: rule 5 of job 1, Rule 6: rule 6 of job 1, Rule 7: rule 7 of job 1, Every step: more"
	if got := strings.Join(says, ", "); got != want {
		t.Errorf("buttons %s", got)
	}
}
