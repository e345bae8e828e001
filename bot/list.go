package bot

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"slices"
	"strconv"
	"strings"
	"time"

	"dogleg/bot/cutlist"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/store"
)

// obey does what is to be done with the cut list or with the jobs.
func (t *turn) obey(s parser.Statement, o order) part {
	if o.language != "" && (o.language == parser.Spanish || o.phrase != "") {
		t.talk.Language = o.language
	}
	if o.phrase != "" {
		return t.meet(s, o)
	}
	switch o.act {
	case addPiece:
		return t.add(s, o.words)
	case showList:
		return t.showList(s)
	case dropPiece:
		if o.all {
			return t.clearList(s, "")
		}
		return t.eachPiece(s, o, t.dropPiece)
	case donePiece:
		return t.eachPiece(s, o, t.strikeOff)
	case undonePiece:
		return t.eachPiece(s, o, t.reopen)
	case clearList:
		return t.clearList(s, o.words)
	case planSticks:
		return t.sticks(s, o.words)
	case exportList:
		return t.export(s)
	case findJobs:
		return t.findJobs(s, o.words)
	case reuseJob:
		return t.reuse(s, o.numbers[0])
	case renameJob:
		return t.rename(s, o.numbers[0], o.words)
	case removeJob:
		return t.removeJobs(s, o.numbers)
	case removeWhat:
		return t.tell(s, false, wording.RemoveWhat, "number", strconv.FormatUint(o.numbers[0], 10))
	}
	return t.refuse(s, errFault)
}

// sayOfList words a sentence of the list for this person.
func (t *turn) sayOfList(key string, pairs ...string) string {
	return cutlist.Say(t.options(t.talk.Language), key, pairs...)
}

// listMemory is where the cut list is kept: with the chat, where several people
// share one.
func (t *turn) listMemory() Memory {
	if t.message.Group != nil {
		return t.message.Group
	}
	return t.memory
}

// showList lists all pieces, those of one pipe together.
func (t *turn) showList(s parser.Statement) part {
	pieces := t.pieces()
	if len(pieces) == 0 {
		return said(s, true, t.sayOfList("list empty"))
	}
	t.showing = true
	t.listing++
	return said(s, true, cutlist.Text(pieces, t.options(t.talk.Language)))
}

// add puts what was answered last on the list, or a job: "add job 3, kitchen".
func (t *turn) add(s parser.Statement, words string) part {
	name, floor := nameAndFloor(words)
	cuts, from := t.lastCuts(), t.talk.Job
	if number, rest, ok := jobNamed(words); ok {
		name, floor = nameAndFloor(rest)
		j, found := t.job(number)
		if !found {
			return t.tell(s, false, wording.NoSuchJob, "number", strconv.Itoa(number))
		}
		cuts, from, name = t.cutsOfJob(j), j.Number, cmp.Or(name, j.Name)
	} else if t.aboutUnknown() {
		return t.tell(s, false, wording.AboutWhich)
	} else {
		name = cmp.Or(name, t.talk.Name)
	}
	if len(cuts) == 0 {
		return said(s, false, t.sayOfList("nothing to add"))
	}
	return t.addCuts(s, cuts, from, name, floor)
}

func (t *turn) addCuts(s parser.Statement, cuts []store.Cut, from uint64, name, floor string) part {
	setter := ""
	if t.message.Group != nil {
		setter = t.message.User
	}
	note := added{Job: from, When: t.message.When, Message: t.message.ID}
	done := deed{Did: addedPieces}
	var lines []string
	for _, c := range cuts {
		c.When, c.Message, c.Setter, c.Name, c.Floor = t.message.When, t.message.ID, setter, short(name), short(floor)
		c.Number = t.listMemory().AddCut(c)
		if c.Number == 0 {
			lines = append(lines, t.sayOfList("list full", "number", strconv.Itoa(store.KeptCuts)))
			break
		}
		note.Numbers, done.Cuts = append(note.Numbers, c.Number), append(done.Cuts, c)
		lines = append(lines, t.sayOfList("on the list", "piece", t.pieceLine(c)))
	}
	t.noteAdded(note)
	if len(done.Cuts) > 0 {
		t.noteDeed(done)
	}
	t.touched = true
	t.listing++
	p := said(s, len(note.Numbers) == len(cuts), strings.Join(lines, "\n"))
	p.about = from
	return p
}

// jobNamed reads "job 3, kitchen".
func jobNamed(words string) (number int, rest string, ok bool) {
	fields := strings.Fields(strings.ReplaceAll(words, ",", " , "))
	if len(fields) < 2 || !slices.Contains([]string{"job", "trabajo"}, strings.ToLower(fields[0])) {
		return 0, "", false
	}
	number, err := strconv.Atoi(fields[1])
	return number, strings.TrimLeft(strings.Join(fields[2:], " "), ", "), err == nil
}

// eachPiece does something with each piece that is named by its number, and
// says so in a line each.
func (t *turn) eachPiece(s parser.Statement, o order, do func(store.Cut) string) part {
	pieces := t.listMemory().Cuts()
	if o.all {
		o.numbers = nil
		for _, c := range pieces {
			o.numbers = append(o.numbers, c.Number)
		}
	}
	if len(pieces) == 0 {
		return said(s, false, t.sayOfList("list empty"))
	}
	var lines []string
	found := true
	note := handled{Message: t.message.ID}
	for _, n := range o.numbers {
		i := slices.IndexFunc(pieces, func(c store.Cut) bool { return c.Number == n })
		if i < 0 {
			found = false
			lines = append(lines, t.sayOfList("no such piece", "number", strconv.FormatUint(n, 10)))
			continue
		}
		note.Before = append(note.Before, pieces[i])
		lines = append(lines, do(pieces[i]))
	}
	t.noteHandled(note)
	if len(note.Before) > 0 {
		t.noteDeed(deed{Did: didPieces, Cuts: note.Before})
	}
	t.touched = true
	return said(s, found, strings.Join(lines, "\n"))
}

func (t *turn) dropPiece(c store.Cut) string {
	t.listMemory().DropCut(c.Number)
	return t.say(wording.Dropped, "what", t.pieceLine(c))
}

// strikeOff marks a piece as sawn.
func (t *turn) strikeOff(c store.Cut) string {
	if c.Done.IsZero() {
		c.Done = t.message.When
		t.listMemory().ChangeCut(c)
	}
	return t.pieceLine(c)
}

// reopen marks a piece as not sawn after all.
func (t *turn) reopen(c store.Cut) string {
	c.Done = time.Time{}
	t.listMemory().ChangeCut(c)
	return t.pieceLine(c)
}

// clearList begins a new list, as long as it is as it was when that was asked: one
// that others have pieces on by a button only, one's own by a yes too.
func (t *turn) clearList(s parser.Statement, asked string) part {
	pieces := t.pieces()
	switch now := stateOf(t.listMemory().Cuts()); {
	case len(pieces) == 0:
		return said(s, true, t.sayOfList("list empty"))
	case asked == "":
		return t.askToClear(s, pieces, now)
	case asked != "" && asked != now:
		return said(s, false, t.sayOfList("list changed"))
	}
	t.noteDeed(deed{Did: cleared, Cuts: t.listMemory().Cuts()})
	t.listMemory().ClearCuts()
	t.touched = true
	t.talk.Added, t.talk.Handled = nil, nil
	return said(s, true, cutlist.Cleared(pieces, t.options(t.talk.Language)))
}

// asItWas stands before the state of the list on the button that clears it.
const asItWas = "as of "

// stateOf tells one list from another, and from what it was before a piece came, went
// or was sawn.
func stateOf(cuts []store.Cut) string {
	sum := fnv.New32a()
	for _, c := range cuts {
		fmt.Fprintln(sum, c.Number, stampOf(c), c.Done.UnixNano())
	}
	return strconv.FormatUint(uint64(sum.Sum32()), 36)
}

func (t *turn) askToClear(s parser.Statement, pieces []cutlist.Piece, state string) part {
	open := len(cutlist.Open(pieces))
	ask := "clear really"
	if t.message.Group == nil {
		ask, t.talk.Clearing = "clear mine", state
	}
	p := said(s, true, t.sayOfList(ask, "open", strconv.Itoa(open), "done", strconv.Itoa(len(pieces)-open)))
	p.buttons = [][]Button{{{Label: t.sayOfList("clear button"), Says: "clear list " + asItWas + state}}}
	return p
}

// settleClearing takes the next message for the answer, where it was asked
// whether one's own list is to be cleared.
func (t *turn) settleClearing(text string) (part, bool) {
	state := t.talk.Clearing
	t.talk.Clearing = ""
	switch s := (parser.Statement{Text: text}); {
	case state == "":
	case isNo(text):
		return said(s, true, t.sayOfList("list stays")), true
	case isYes(text):
		return t.clearList(s, state), true
	}
	return part{}, false
}

// pieces are those on the list, as package cutlist has them.
func (t *turn) pieces() []cutlist.Piece { return piecesOf(t.listMemory().Cuts()) }

func piecesOf(cuts []store.Cut) []cutlist.Piece {
	var pieces []cutlist.Piece
	for _, c := range cuts {
		pieces = append(pieces, pieceOf(c))
	}
	return pieces
}

// pieceLine is one piece with its pipe.
func (t *turn) pieceLine(c store.Cut) string {
	return cutlist.PieceAlone(pieceOf(c), t.options(t.talk.Language))
}
