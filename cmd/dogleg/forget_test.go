package main

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dogleg/store"
)

// Dana does all that leaves a name or a word anywhere: sets takeoffs for the crew, that
// others then figure, explain and draw with; puts pieces on the list; asks, is asked
// back, edits, presses buttons, practices. Then Dana asks to be forgotten. Neither the
// name nor the number is in a single byte of the file after it is written anew, and
// what others said and measured is.
func TestForgottenAreInNobodysJobs(t *testing.T) {
	c := juniperStreet(t)
	c.ask(0, "crew takeoff 2 pvc dwv 45 is 1-1/8")
	figures, _ := c.reply(c.write(0, "zeppelin: 12 set 45s 2 pvc dwv"))
	c.under(0, figures, "Steps")
	c.under(0, figures, "Picture")
	c.ask(0, "add zeppelin")
	c.ask(0, "call it zeppelin")
	c.ask(0, "15 set 45s 4 abs")
	c.ask(0, "learn from me")
	c.ask(0, "the zeppelin doesn't fly in here")
	c.ask(0, "practice")
	c.ask(0, "answer everything")
	for _, text := range []string{"20 set 45s 2 pvc dwv", "explain", "draw it", "jobs 1", "add kitchen", "takeoffs", "same but 14", "dibuja", "9 desvío codos de 45 2 pvc dwv", "cautions"} {
		if got := c.ask(1, text); text == "20 set 45s 2 pvc dwv" && !strings.Contains(got, "set by Dana") {
			t.Fatalf("the test proves nothing: %q", got)
		}
	}
	c.replyTo(1, figures, "same but 18")
	named, _ := c.reply(c.write(0, "hindenburg: 16 set 45s 2 pvc dwv"))
	c.replyTo(1, named, "same but 22")
	c.replyTo(1, named, "explain")
	c.ask(0, "forget me")
	c.ask(0, "yes")
	c.await("all sent", func() bool { return len(c.outboxed()) == 0 })
	c.end()
	compacted(t, c.path)
	content, err := os.ReadFile(c.path)
	if err != nil {
		t.Fatal(err)
	}
	for _, trace := range []string{"Dana", "set by Dana, 3 Nov", "/501", `"501"`, "501,", "the zeppelin doesn't fly", "hindenburg"} {
		for _, form := range formsOf(trace) {
			if at := bytes.Index(content, []byte(form)); at >= 0 {
				t.Errorf("%q is in the file: %q", trace, content[max(0, at-80):min(len(content), at+80)])
			}
		}
	}
	if !bytes.Contains(content, []byte("kitchen")) {
		t.Error("what Sam put on the list is gone too")
	}
}

// formsOf are how a text may stand in the file: as it is, and in base64 with each of
// the three ways that it may fall on its groups of three bytes, where enough of it is
// whole groups.
func formsOf(text string) []string {
	all := []string{text}
	for shift := range 3 {
		encoded := base64.StdEncoding.EncodeToString([]byte(strings.Repeat(" ", shift) + text))
		if len(encoded) > 16 {
			all = append(all, encoded[4:len(encoded)-4])
		}
	}
	return all
}

// outboxed is what waits to be sent.
func (c *crew) outboxed() (waits []store.Entry) {
	_ = c.db.View(func(tx *store.Tx) error { waits = tx.Outbox(); return nil })
	return waits
}

func compacted(t *testing.T, path string) {
	t.Helper()
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if !db.Forgotten() {
		t.Error("nothing tells that the file is to be written anew")
	}
	if err := db.Compact(t.Context()); err != nil {
		t.Error(err)
	}
	if err := db.Close(); err != nil {
		t.Error(err)
	}
}

// The operator hands over all of somebody's: what they gave to a crew too.
func TestExportHasWhatWasGivenToTheCrew(t *testing.T) {
	c := juniperStreet(t)
	c.ask(0, "crew takeoff 2 pvc dwv 45 is 1-1/8")
	c.ask(0, laundryAsk)
	c.ask(0, "add laundry")
	c.ask(1, kitchenAsk)
	c.ask(1, "add kitchen")
	c.end()
	file := filepath.Join(t.TempDir(), "dana.json")
	var out, problems bytes.Buffer
	if status := Run(t.Context(), []string{"export", "--db", c.path, "--telegram", "501", file}, strings.NewReader(""), &out, &problems, environment()); status != 0 {
		t.Fatalf("status %d: %s", status, &problems)
	}
	content, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var kept map[string]struct {
		Takeoffs []store.Takeoff `json:"crew_takeoffs"`
		Pieces   []store.Cut     `json:"pieces_on_the_crews_list"`
	}
	if err := json.Unmarshal(content, &kept); err != nil {
		t.Fatal(err)
	}
	dana := kept["telegram/-77/501"]
	if len(dana.Takeoffs) != 1 || len(dana.Pieces) != 1 || dana.Pieces[0].Name != "laundry" {
		t.Errorf("handed over: %s", content)
	}
}
