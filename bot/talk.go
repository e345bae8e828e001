package bot

import (
	"cmp"
	"encoding/json"
	"errors"
	"slices"
	"time"

	"dogleg/bot/cutlist"
	"dogleg/bot/figure"
	"dogleg/bot/training"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// talk is where a conversation stands between two messages.
type talk struct {
	Heard    time.Time       // when the last message came
	Noticed  bool            `json:",omitzero"` // the notice was given in this conversation
	Language parser.Language `json:",omitzero"` // of the last ask

	Ask  *parser.Ask `json:",omitzero"` // the last ask for a piece of work, which a change changes
	Job  uint64      `json:",omitzero"` // its number among the jobs; 0 if it could not be figured
	Name string      `json:",omitzero"` // that it was given

	Offered [][]parser.Ask `json:",omitzero"` // readings that the last reply offered

	Doubted figure.OwnTakeoff `json:",omitzero"` // a takeoff that was questioned: said once more, it is kept
	Kept    *kept             `json:",omitzero"` // what the last message had kept, until another asks for something

	cutlist.State      // of the talk about the cut list
	Unfigured     bool `json:",omitzero"` // the last ask for a piece of work could not be figured

	Shown *parser.Ask `json:",omitzero"` // what was answered last, of any kind
	told              // and all that there is to say of it
	More  string      `json:",omitzero"` // what more gives

	Forgetting bool `json:",omitempty"` // everything: it was asked whether that is meant

	Deeds []deed           `json:",omitzero"` // what was done last, for undo
	Today []figure.Caution `json:",omitzero"` // the cautions of every day that were told in this conversation

	Practice training.State `json:",omitzero"` // of the apprentice: the score, and the problem that waits
}

// pause is how long nobody has said anything when a conversation begins anew:
// long enough for a day's work to be one.
const pause = 12 * time.Hour

// begin takes up the talk where the memory left it.
func (c *Conversation) begin(m Message, memory Memory) *turn {
	t := &turn{conversation: c, memory: memory, message: m}
	t.list = t.listOf(m)
	t.recall(store.Settings, &t.settings)
	t.recall(store.State, &t.talk)
	t.recall(store.Question, &t.waiting)
	if m.When.Sub(t.talk.Heard) > pause {
		t.talk.Noticed, t.talk.Today = false, nil
	}
	for _, number := range m.Replaces {
		t.takeAway(number)
	}
	if m.About != nil {
		t.talk.Cuts, t.talk.Unfigured = nil, false // to be figured of that job
		t.takeUp(*m.About)
	}
	return t
}

// end puts down where the talk stands.
func (t *turn) end() {
	if t.forgotten {
		return
	}
	t.talk.Heard = t.message.When
	t.note(store.State, t.talk)
	if questions := append(t.asked, t.waiting...); len(questions) > 0 {
		t.note(store.Question, questions)
	} else {
		t.memory.SetNote(store.Question, nil)
	}
}

// recall reads a note. One that can't be read is as good as none: better to
// ask again than to fall silent.
func (t *turn) recall(n store.Note, into any) { t.recallFrom(t.memory, n, into) }

func (t *turn) recallFrom(memory Memory, n store.Note, into any) {
	text := memory.Note(n)
	if text == nil {
		return
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.conversation.log().Error("a note can't be read", "note", string(n), "error", err)
	}
}

func (t *turn) note(n store.Note, value any) { t.noteIn(t.memory, n, value) }

func (t *turn) noteIn(memory Memory, n store.Note, value any) {
	text, err := json.Marshal(value)
	if err != nil {
		t.conversation.log().Error("a note can't be kept", "note", string(n), "error", err)
		return
	}
	memory.SetNote(n, text)
}

// options are how to speak to this person, in the language that they set, or
// used, or else used before: figures and the names of pipes are of none.
func (t *turn) options(used parser.Language) wording.Options {
	return wording.Options{
		Language: cmp.Or(t.settings.Language, used, t.talk.Language, t.message.Language),
		Division: t.settings.Division,
		Metric:   t.metric(),
	}
}

// speaking is options for an answer: one of the first in a conversation carries
// the notice, and each caution of every day is told once.
func (t *turn) speaking(used parser.Language) wording.Options {
	o := t.options(used)
	o.FirstTime, o.ToldToday = !t.talk.Noticed, t.talk.Today
	t.talk.Language = cmp.Or(used, t.talk.Language)
	return o
}

// brief words an answer and remembers what was told with it.
func (t *turn) brief(a *figure.Answer, o wording.Options) string {
	b := wording.NewBrief(a, o)
	t.talk.Noticed = t.talk.Noticed || b.Noticed
	t.talk.Today = append(t.talk.Today, b.Told...)
	return b.Text
}

// failed remembers an ask that could not be figured, so that it can be changed
// or completed.
func (t *turn) failed(j job, err error) {
	t.talk.Language = cmp.Or(j.ask.Language, t.talk.Language)
	if missing := (*figure.Missing)(nil); errors.As(err, &missing) {
		t.ask(j, missing.Wanted)
	}
	if isWork(j.ask.Kind) && !j.glance {
		t.talk.Cuts, t.talk.Unfigured = nil, true
		t.talk.Ask, t.talk.Job, t.talk.Name = &j.ask, j.number, j.name
	}
}

// isWork says whether an ask is for a piece of work, which belongs on the list
// of jobs and can be changed afterwards. The others are looked up in passing.
func isWork(k parser.Kind) bool {
	switch k {
	case parser.Unstated, parser.Offset, parser.Fit, parser.Piece, parser.Mark, parser.Parallel,
		parser.Around, parser.Fall, parser.Trim,
		parser.Corner, parser.Miter, parser.Saddle, parser.Riser, parser.Doglegs:
		return true
	case parser.Sum, parser.Multiplier, parser.Takeoff, parser.Check, parser.Wrap:
	}
	return false
}

// remember keeps an answer: as a job if it is one, whose number it returns, and
// for "explain".
func (t *turn) remember(j job, a *figure.Answer, text, read string, speaking wording.Options) uint64 {
	shown := j.ask
	if nameless, named := withoutNames(a); named {
		a, text = nameless, wording.Reply(nameless, speaking)
	}
	o := t.options(j.ask.Language)
	t.talk.Shown = &shown
	t.talk.told = told{Whole: wording.Whole(a, o), Sums: wording.Sums(a, o), Steps: wording.Steps(a, o)}
	t.talk.More = moreWhole
	t.talk.Practice.Beside = true
	if j.glance || !isWork(a.Kind) {
		return 0
	}
	t.list.Answered(a)
	t.talk.Unfigured = false
	t.talk.Ask, t.talk.Name = &shown, j.name
	t.talk.Job = t.keep(j, a, text, read)
	return t.talk.Job
}

// withoutNames is an answer without the names of those who set the takeoffs that it
// rests on: what is kept of it stays when they ask to be forgotten.
func withoutNames(a *figure.Answer) (nameless *figure.Answer, named bool) {
	plain := *a
	plain.Bends = slices.Clone(a.Bends)
	ends := []*[2]figure.End{&plain.Ends}
	for i := range plain.Bends {
		ends = append(ends, &plain.Bends[i].Ends)
	}
	for _, both := range ends {
		for i := range both {
			named = named || both[i].Takeoff.Measured.By != ""
			both[i].Takeoff.Measured.By = ""
		}
	}
	return &plain, named
}
