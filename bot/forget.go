package bot

import (
	"bytes"
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// forget takes away what it is told: a takeoff by its number on the list or by
// its fitting and pipe, a job, or everything.
func (t *turn) forget(s parser.Statement) part {
	words := strings.Fields(strings.ToLower(s.Command.Object))
	if len(words) > 0 && (words[0] == "my" || words[0] == "the") {
		words = words[1:]
	}
	switch {
	case len(words) == 0:
		return t.tell(s, false, wording.ForgetWhat)
	case len(words) == 1 && slices.Contains([]string{"everything", "me", "all"}, words[0]):
		return t.forgetAll(s)
	case words[0] == "job":
		return t.drop(s, s.Command.Number)
	}
	crew := slices.Contains(words, "crew") || slices.Contains(words, "cuadrilla")
	words = slices.DeleteFunc(words, func(w string) bool {
		return slices.Contains([]string{"takeoff", "descuento", "crew", "cuadrilla"}, bare(strings.TrimSuffix(w, "'s")))
	})
	if number, err := strconv.Atoi(strings.Join(words, " ")); err == nil {
		return t.forgetTakeoff(s, t.numbered(number))
	}
	return t.forgetTakeoff(s, t.meant(words, crew))
}

// forgetAll asks whether everything is really to go. What the next message says
// decides it.
func (t *turn) forgetAll(s parser.Statement) part {
	t.talk.Forgetting = true
	if s.Command.Language != "" { // nothing is graver: it is asked in the words that it was wanted in
		t.speak(s)
	}
	return t.tell(s, true, wording.ForgetReally)
}

// settleForgetting takes the next message for the answer, unless it is none:
// then nothing is forgotten, and the message is answered as ever.
func (t *turn) settleForgetting(text string) (part, bool) {
	if !t.talk.Forgetting {
		return part{}, false
	}
	t.talk.Forgetting = false
	if declines(text) {
		return t.tell(parser.Statement{Text: text}, true, wording.NothingDeleted), true
	}
	if !isYes(text) {
		return part{}, false
	}
	done := t.tell(parser.Statement{Text: text}, true, wording.AllForgotten)
	t.memory.Forget(t.message.From)
	t.forgotten = true
	t.settings, t.talk, t.waiting, t.asked = settings{}, talk{}, nil, nil
	return done, true
}

// isYes says whether a message is a plain yes.
func isYes(text string) bool {
	word := strings.ToLower(strings.Trim(text, " \t\r\n.,"))
	return slices.Contains([]string{"yes", "yes please", "sí", "si"}, word)
}

// isNo says whether a message is a plain no.
func isNo(text string) bool {
	word := strings.ToLower(strings.Trim(text, " \t\r\n.,"))
	return slices.Contains([]string{"no", "nope", "keep it", "keep", "leave it", "no gracias", "déjalo", "dejalo"}, word)
}

// declines says whether a message is a no to what it was asked whether it is meant:
// nothing was done yet, and so there is nothing else that it can want taken back.
func declines(text string) bool {
	if isNo(text) {
		return true
	}
	c := parser.CommandIn(text)
	return c != nil && c.Number == 0 && (c.Verb == parser.Undo || c.Verb == parser.Cancel)
}

// exportData hands over all that is kept of this person in this chat. Where others
// read along it doesn't.
func (t *turn) exportData(s parser.Statement) part {
	if t.message.Group != nil {
		return t.tell(s, false, wording.ExportAlone)
	}
	var text bytes.Buffer
	if err := json.Indent(&text, t.memory.Export(), "", "  "); err != nil {
		return t.refuse(s, err)
	}
	p := t.tell(s, true, wording.DataExported)
	p.files = []File{{Name: "my-data" + t.stamp() + ".json", Content: text.Bytes()}}
	return p
}

// numbered is the takeoff of that number on the list.
func (t *turn) numbered(n int) []entry {
	all := t.takeoffList()
	if n < 1 || n > len(all) {
		return nil
	}
	return all[n-1 : n]
}

// meant are the takeoffs that words name: "2 pvc 45"; of the crew's only where
// the crew is named. All of the fitting's name
// has to be among the words, or a 45 would be a street 45 as well, and no word
// may be of something else.
func (t *turn) meant(words []string, crew bool) []entry {
	for i, w := range words {
		words[i] = bare(w)
	}
	return slices.DeleteFunc(t.takeoffList(), func(o entry) bool {
		if o.Crew != crew {
			return true
		}
		var fitting []string
		for w := range strings.FieldsSeq(o.Fitting) {
			short, _, _ := strings.Cut(w, "-") // 22 is said of the 22-1/2
			if !slices.Contains(words, w) && !slices.Contains(words, short) {
				return true
			}
			fitting = append(fitting, w, short)
		}
		return slices.ContainsFunc(words, func(w string) bool {
			return !slices.Contains(fitting, w) && !slices.Contains(pipeWords(o.Takeoff), w)
		})
	})
}

// pipeWords are the words that the pipe and the line of a takeoff go by.
func pipeWords(o store.Takeoff) []string {
	words := strings.Fields(strings.ToLower(string(o.Size) + " " + systemName(o.System) + " " + o.Line))
	for i, w := range words {
		words[i] = bare(w)
	}
	return words
}

// bare is a word without the mark of inches and without the s of 45s.
func bare(word string) string {
	return strings.TrimSuffix(strings.Trim(word, `"',.`), "s")
}

func (t *turn) forgetTakeoff(s parser.Statement, entries []entry) part {
	if len(entries) == 0 {
		return t.tell(s, false, wording.NoSuchTakeoff)
	}
	var lines []string
	t.noteDeed(deed{Did: forgot, Before: entries})
	for _, o := range entries {
		if o.Crew {
			t.memory.ForgetCrewTakeoff(o.Takeoff)
		} else {
			t.memory.ForgetTakeoff(o.Takeoff)
		}
		lines = append(lines, t.say(wording.Forgotten, "what", t.takeoffLine(o)))
	}
	return said(s, true, strings.Join(lines, "\n"))
}

// stamp is the day of the message for the name of a file.
func (t *turn) stamp() string { return t.message.When.Format("-2006-01-02") }
