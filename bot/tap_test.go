package bot_test

import (
	"strings"
	"testing"

	"dogleg/bot"
)

// No refusal and no question ends without something to tap, and what is tapped is
// read: it is answered, or asks for the next fact.
func TestEveryRefusalHasSomethingToTap(t *testing.T) {
	for _, text := range []string{
		"12", "45", "12-5/8", "set 12", "set 12 45s", "12 set 2 pvc", "set 3 45s 4 pvc dwv", "set 12 45s 1-3/8 pvc",
		"12 set 22-1/2s 1 threaded steel", "set 7 1/2 copper 45s", "hello there mate, nice weather", "sett 12 45s 2 pcv", "done", "share",
		"explain", "draw", "undo", "same but 14", "list all the things", "done 4", "job 9", "takeoff is 1", "set 12 45s 1 pex",
		"12 set 45s 2 pvc takeoff 9", "rule 3", "what is a zwinge?", "sticks 10 feathers", "set -4 45s 2 pvc", "12 set 45s 2 pvc compressed air",
		"around, clearance 1, 45s, 2 pvc", "fall at 1/4 per foot", "why", "skip", "done 2",
		"desvío 12", "hola, necesito desviar un tubo de 2 pulgadas pvc 12 pulgadas con codos de 45", "around a 6 inch beam, 45s, 2 pvc", "desvío 12 codos de 45", "igual pero 14", "desvío 3 codos de 45 4 pvc dwv", "zapato",
	} {
		memory := new(bot.Forgetful)
		asked := new(bot.Conversation).Handle(bot.Message{Text: text, When: morning}, memory)
		if asked.Understood {
			continue
		}
		if len(asked.Buttons) == 0 {
			t.Errorf("%q leaves nothing to tap:\n%s", text, asked.Text)
			continue
		}
		for _, row := range asked.Buttons {
			for _, b := range row {
				if b.Says == "" {
					continue
				}
				kept := new(bot.Forgetful)
				c := new(bot.Conversation)
				c.Handle(bot.Message{Text: text, When: morning}, kept)
				got := c.Handle(bot.Message{Text: b.Says, When: morning}, kept)
				if len(asked.Records) > 0 && len(asked.Records[0].Suggest) > 0 && strings.Contains(got.Text, asked.Text) {
					t.Errorf("%q: %q was offered and is asked about again: %q", text, b.Says, got.Text)
				}
				if !got.Understood && (len(got.Buttons) == 0 || got.Text == asked.Text && len(asked.Buttons) > 2) {
					t.Errorf("%q: the button %q is answered %q", text, b.Says, got.Text)
				}
			}
		}
	}
}
