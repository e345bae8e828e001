package cutlist

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"slices"
	"strconv"
	"strings"
	"time"

	"dogleg/bot/wording"
	"dogleg/store"
)

// Act is something to be done with the list.
type Act string

// The acts.
const (
	Add    Act = "add"
	Show   Act = "list"
	Drop   Act = "drop"
	Done   Act = "done"
	Undone Act = "undone"
	Which  Act = "done which"
	Clear  Act = "clear"
	Sticks Act = "sticks"
	Export Act = "export"
	Needs  Act = "material"
)

// Order is an act, and what it is to be done with.
type Order struct {
	Act     Act
	Numbers []uint64
	All     bool   // in place of numbers
	Words   string // that follow the act's own, as they were written
	Text    string // the whole of it
}

// acts is what is done for each act.
var acts = map[Act]func(*List, Order) (Part, error){
	Add:  func(l *List, o Order) (Part, error) { return l.add(o.Words), nil },
	Show: func(l *List, _ Order) (Part, error) { return l.show(), nil },
	Drop: func(l *List, o Order) (Part, error) {
		if o.All {
			return l.clearList(""), nil
		}
		return l.eachPiece(o, l.dropPiece), nil
	},
	Done:   func(l *List, o Order) (Part, error) { return l.eachPiece(o, l.strikeOff), nil },
	Undone: func(l *List, o Order) (Part, error) { return l.eachPiece(o, l.reopen), nil },
	Which:  func(l *List, _ Order) (Part, error) { return l.doneWhich(), nil },
	Clear:  func(l *List, o Order) (Part, error) { return l.clearList(o.Words), nil },
	Sticks: (*List).sticks,
	Needs:  (*List).material,
	Export: func(l *List, _ Order) (Part, error) { return l.export() },
}

// IsAct says whether something is to be done with the list.
func IsAct(name string) bool { return acts[Act(name)] != nil }

// Obey does what is to be done with the list. An error is a fault of ours.
func (l *List) Obey(o Order) (Part, error) { return acts[o.Act](l, o) }

// show lists all pieces, those of one pipe together.
func (l *List) show() Part {
	pieces := l.pieces()
	if len(pieces) == 0 {
		return l.tell(true, "list empty")
	}
	l.Showing = true
	l.Listing++
	return said(true, text(pieces, l.Talk.Options()))
}

// add puts what was answered last on the list, or a job: "add job 3, kitchen".
func (l *List) add(words string) Part {
	name, floor := nameAndFloor(words)
	last := l.Talk.LastJob()
	cuts, from := l.lastCuts(), last.Number
	if number, rest, ok := jobNamed(words); ok {
		name, floor = nameAndFloor(rest)
		j, found := l.Talk.JobOf(number)
		if !found {
			return said(false, wording.Say(wording.NoSuchJob, l.Talk.Options(), "number", strconv.Itoa(number)))
		}
		cuts, from, name = l.cutsOfJob(j), j.Number, cmp.Or(name, j.Name)
	} else if l.Talk.Lost() {
		return said(false, wording.Say(wording.AboutWhich, l.Talk.Options()))
	} else {
		name = cmp.Or(name, last.Name)
	}
	if len(cuts) == 0 {
		return l.tell(false, "nothing to add")
	}
	return l.addCuts(cuts, from, name, floor)
}

func (l *List) addCuts(cuts []store.Cut, from uint64, name, floor string) Part {
	setter := ""
	if l.Message.Shared {
		setter = l.Message.User
	}
	note := added{Job: from, When: l.Message.When, Message: l.Message.ID}
	done := Deed{Did: AddedPieces}
	var lines []string
	for _, c := range cuts {
		c.When, c.Message, c.Setter, c.Name, c.Floor = l.Message.When, l.Message.ID, setter, wording.ShortName(name), wording.ShortName(floor)
		c.Number = l.Kept.AddCut(c)
		if c.Number == 0 {
			lines = append(lines, l.say("list full", "number", strconv.Itoa(store.KeptCuts)))
			break
		}
		note.Numbers, done.Cuts = append(note.Numbers, c.Number), append(done.Cuts, c)
		lines = append(lines, l.say("on the list", "piece", l.pieceLine(c)))
	}
	l.noteAdded(note)
	if len(done.Cuts) > 0 {
		l.Talk.Note(done)
	}
	l.Touched = true
	l.Listing++
	p := said(len(note.Numbers) == len(cuts), strings.Join(lines, "\n"))
	p.About = from
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
func (l *List) eachPiece(o Order, do func(store.Cut) string) Part {
	pieces := l.Kept.Cuts()
	if o.All {
		o.Numbers = nil
		for _, c := range pieces {
			o.Numbers = append(o.Numbers, c.Number)
		}
	}
	if len(pieces) == 0 {
		return l.tell(false, "list empty")
	}
	var lines []string
	found := true
	note := handled{Message: l.Message.ID}
	for _, n := range o.Numbers {
		i := slices.IndexFunc(pieces, func(c store.Cut) bool { return c.Number == n })
		if i < 0 {
			found = false
			lines = append(lines, l.say("no such piece", "number", strconv.FormatUint(n, 10)))
			continue
		}
		note.Before = append(note.Before, pieces[i])
		lines = append(lines, do(pieces[i]))
	}
	l.noteHandled(note)
	if len(note.Before) > 0 {
		l.Talk.Note(Deed{Did: DidPieces, Cuts: note.Before})
	}
	l.Touched = true
	return said(found, strings.Join(lines, "\n"))
}

func (l *List) dropPiece(c store.Cut) string {
	l.Kept.DropCut(c.Number)
	return wording.Say(wording.Dropped, l.Talk.Options(), "what", l.pieceLine(c))
}

// strikeOff marks a piece as sawn.
func (l *List) strikeOff(c store.Cut) string {
	if c.Done.IsZero() {
		c.Done = l.Message.When
		l.Kept.ChangeCut(c)
	}
	return l.pieceLine(c)
}

// reopen marks a piece as not sawn after all.
func (l *List) reopen(c store.Cut) string {
	c.Done = time.Time{}
	l.Kept.ChangeCut(c)
	return l.pieceLine(c)
}

// clearList begins a new list, as long as it is as it was when that was asked: one
// that others have pieces on by a button only, one's own by a yes too.
func (l *List) clearList(asked string) Part {
	pieces := l.pieces()
	switch now := stateOf(l.Kept.Cuts()); {
	case len(pieces) == 0:
		return l.tell(true, "list empty")
	case asked == "":
		return l.askToClear(pieces, now)
	case asked != "" && asked != now:
		return l.tell(false, "list changed")
	}
	l.Talk.Note(Deed{Did: ClearedList, Cuts: l.Kept.Cuts()})
	l.Kept.ClearCuts()
	l.Touched = true
	l.State.Added, l.State.Handled = nil, nil
	return said(true, clearedWords(pieces, l.Talk.Options()))
}

// AsItWas stands before the state of the list on the button that clears it.
const AsItWas = "as of "

// stateOf tells one list from another, and from what it was before a piece came, went
// or was sawn.
func stateOf(cuts []store.Cut) string {
	sum := fnv.New32a()
	for _, c := range cuts {
		fmt.Fprintln(sum, c.Number, stampOf(c), c.Done.UnixNano())
	}
	return strconv.FormatUint(uint64(sum.Sum32()), 36)
}

func (l *List) askToClear(pieces []Piece, state string) Part {
	open, done := howMany(pieces, l.Talk.Options())
	ask := "clear really"
	if !l.Message.Shared {
		ask, l.State.Clearing = "clear mine", state
	}
	p := l.tell(true, ask, "open", open, "done", done)
	p.Buttons = [][]Button{{{Label: l.say("clear button"), Says: "clear list " + AsItWas + state}}}
	return p
}

// SettleClearing takes a message for the answer, where it was asked whether one's
// own list is to be cleared: whether it is a yes, or a no.
func (l *List) SettleClearing(yes, no bool) (Part, bool) {
	state := l.State.Clearing
	l.State.Clearing = ""
	switch {
	case state == "":
	case no:
		return l.tell(true, "list stays"), true
	case yes:
		return l.clearList(state), true
	}
	return Part{}, false
}

// doneWhich checks off the only open piece; of several it asks which.
func (l *List) doneWhich() Part {
	open := Open(l.pieces())
	switch len(open) {
	case 0:
		return l.tell(false, "none open")
	case 1:
		return l.eachPiece(Order{Numbers: []uint64{open[0].Number}}, l.strikeOff)
	}
	o := l.Talk.Options()
	p := l.tell(false, "which done")
	for _, piece := range open[:min(len(open), mostButtons)] {
		p.Buttons = append(p.Buttons, []Button{{
			Label: checkLabel(piece, o), Says: "done " + strconv.FormatUint(piece.Number, 10),
		}})
	}
	return p
}

// TakeOffPieces takes off the list what was added, and says so; false is that there
// is nothing left of it.
func (l *List) TakeOffPieces(added []store.Cut) (Part, bool) {
	var lines []string
	for _, c := range added {
		for _, now := range l.Kept.Cuts() {
			if now.Number == c.Number && stampOf(now) == stampOf(c) {
				lines = append(lines, l.dropPiece(now))
			}
		}
	}
	l.Touched = l.Touched || len(lines) > 0
	return said(true, strings.Join(lines, "\n")), len(lines) > 0
}

// PutPiecesBack makes pieces what they were.
func (l *List) PutPiecesBack(d Deed) Part {
	var lines []string
	for _, c := range d.Cuts {
		now, _ := l.putBack(c)
		if now.Number == 0 {
			lines = append(lines, l.say("list full", "number", strconv.Itoa(store.KeptCuts)))
			break
		}
		lines = append(lines, l.pieceLine(now))
	}
	if d.Did == ClearedList {
		return said(true, l.say("list back")+"\n"+text(l.pieces(), l.Talk.Options()))
	}
	return said(true, wording.Say(wording.AsItWas, l.Talk.Options())+"\n"+strings.Join(lines, "\n"))
}

// pieces are those on the list, as package cutlist has them.
func (l *List) pieces() []Piece { return piecesOf(l.Kept.Cuts()) }

func piecesOf(cuts []store.Cut) []Piece {
	var pieces []Piece
	for _, c := range cuts {
		pieces = append(pieces, pieceOf(c))
	}
	return pieces
}

// pieceLine is one piece with its pipe.
func (l *List) pieceLine(c store.Cut) string {
	return pieceAlone(pieceOf(c), l.Talk.Options())
}
