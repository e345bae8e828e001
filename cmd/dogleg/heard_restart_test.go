package main

import (
	"os"
	"strings"
	"testing"

	"dogleg/bot/serve"
	"dogleg/store"
)

// A reading that was offered under a note is answered when its button is
// pressed, also by a bot that was started anew in between; until then it is no
// job.
func TestReadingIsPressedAfterARestart(t *testing.T) {
	c := juniperStreet(t)
	c.end()
	c.ear = serve.Ear{Ear: guessing{
		{{Text: "set seventeen forty fives two inch pvc dwv"}},
		{{Text: "set seventy forty fives two inch pvc dwv"}},
	}}
	c.start()
	chat := member(0)["id"].(int64)
	note, err := os.ReadFile("../../testdata/voice/people/cen7-fclc-b.ogg")
	if err != nil {
		t.Fatal(err)
	}
	c.api.Keep("note", note)
	c.api.Post(chat, map[string]any{"voice": map[string]any{
		"file_id": "note", "file_unique_id": "u", "duration": 4, "file_size": len(note), "mime_type": "audio/ogg",
	}})
	if !c.api.Await(patience, func() bool { return len(c.api.WithButtons(chat)) == 1 }) {
		t.Fatalf("no readings are offered; said %q", replies(c.api))
	}
	asked := c.api.WithButtons(chat)[0]
	_, buttons := c.api.Shown(chat, asked)
	if len(buttons) != 2 || buttons[1].Label != "set 70 45s 2 in pvc dwv" {
		t.Fatalf("the buttons: %+v", buttons)
	}

	c.restart()
	_ = c.db.View(func(tx *store.Tx) error {
		if jobs := tx.Person(serve.ChatOf(chat).Person("501")).Jobs(); len(jobs) > 0 {
			t.Errorf("a job before anybody has answered: %+v", jobs)
		}
		return nil
	})
	c.api.Press(chat, asked, member(0), "press", buttons[1].Data)
	answers := func() []string { return replies(c.api)["501"] }
	if !c.api.Await(patience, func() bool { return len(answers()) == 2 }) {
		t.Fatalf("the button is not answered; said %q", answers())
	}
	// 70 and two takeoffs of 1-1/2 are 73, less the 1/4 that is unsure.
	if answer := answers()[1]; !strings.Contains(answer, "Ends about 72-3/4") {
		t.Errorf("answered %q", answer)
	}
}
