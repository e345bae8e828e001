package cutlist

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
	"dogleg/store"
)

// Answered notes the pieces of an answer, which can be put on the list.
func (l *List) Answered(a *figure.Answer) { l.State.Cuts = cutsOf(a) }

// cutsOf are the pieces that an answer has to be cut: one for each line of
// parallel ones, each where there are more of them, one of any other that has a
// cut, none of the rest.
func cutsOf(a *figure.Answer) []store.Cut {
	var cuts []store.Cut
	for _, line := range a.Lines {
		switch {
		case line.HasCut && line.Cut > 0 && line.Alone != nil: // a pipe of its own
			cuts = append(cuts, cutsOf(line.Alone)...)
		case line.HasCut && line.Cut > 0:
			cuts = append(cuts, cutOf(a, line.Cut))
		}
	}
	for _, piece := range a.Pieces {
		cuts = append(cuts, cutOf(a, piece))
	}
	if len(cuts) > 0 {
		return cuts
	}
	// A pipe that goes into a hub is sawn with that part on it.
	for _, role := range []parser.Role{parser.PipeLength, parser.Cut} {
		if l, ok := a.Length(role); ok && l > 0 && a.Kind != parser.Sum && a.Kind != parser.Takeoff {
			return []store.Cut{cutOf(a, l)}
		}
	}
	return nil
}

func cutOf(a *figure.Answer, l geometry.Length) store.Cut {
	c := store.Cut{Length: l, Metric: a.Ask.Metric(), About: wording.Unsure(a), Band: a.Band, System: a.System.ID, Size: a.Size}
	for i, end := range a.Ends {
		if end.Fitting.Shape != "" {
			c.Fittings[i] = end.Fitting.Key()
		}
	}
	return c
}

// lastCuts are the pieces of the last answer, none where the last ask got none.
// Those of a job that undo went back to are figured anew.
func (l *List) lastCuts() []store.Cut {
	last := l.Talk.LastJob()
	if l.State.Cuts != nil || last.Failed {
		return l.State.Cuts
	}
	return l.cutsOfJob(last)
}

func (l *List) cutsOfJob(j Job) []store.Cut {
	if j.Ask == nil {
		return nil
	}
	a, err := l.Talk.Solve(*j.Ask)
	if err != nil {
		return nil
	}
	return cutsOf(a)
}

// pieceOf is a piece that was kept. A system that the catalog has
// dropped keeps the name it is stored under.
func pieceOf(c store.Cut) Piece {
	p := Piece{
		Number: c.Number, Length: c.Length, Metric: c.Metric, About: c.About, Band: c.Band, Pipe: Pipe{Size: c.Size},
		Name: c.Name, Floor: c.Floor, Done: !c.Done.IsZero(),
	}
	if c.System != "" {
		known := false
		if p.Pipe.System, known = catalog.SystemByID(c.System); !known {
			p.Pipe.System.Name = c.System
		}
	}
	for i, key := range c.Fittings {
		p.Fittings[i], _ = catalog.FittingByKey(key)
	}
	return p
}

// floorWords find a floor at the end of a name that has no comma: "laundry
// second floor", "baño piso 2".
var floorWords = regexp.MustCompile(`(?i)^(.*?)[\s,]+((?:[\p{L}\d]+ (?:floor|storey|story|level|piso|nivel))|(?:(?:floor|level|piso|nivel|planta) [\p{L}\d]+)|upstairs|downstairs|basement|attic|arriba|abajo|sótano|ático)$`)

// nameAndFloor reads "laundry, second floor". Both are kept as written.
func nameAndFloor(words string) (name, floor string) {
	words = strings.TrimSpace(words)
	if before, after, ok := strings.Cut(words, ","); ok {
		return strings.TrimSpace(before), strings.TrimSpace(after)
	}
	if found := floorWords.FindStringSubmatch(" " + words); found != nil {
		return strings.TrimSpace(found[1]), found[2]
	}
	return words, ""
}

// added notes which pieces on the list came of a job, so that they follow when
// it is answered anew.
type added struct {
	Job     uint64 // 0 where it is somebody else's
	Numbers []uint64
	Message int64     `json:",omitempty"` // that added them
	When    time.Time // they were added: a new list counts from 1 again
}

// has says whether a piece on the list is one of these.
func (a added) has(c store.Cut) bool {
	return slices.Contains(a.Numbers, c.Number) && c.When.Equal(a.When) && c.Message == a.Message
}

// takeOff takes off the list what this message put there before it was edited,
// as far as it isn't sawn.
func (l *List) takeOff() {
	pieces := l.Kept.Cuts()
	for _, a := range l.State.Added {
		for _, c := range pieces {
			if a.Message == l.Message.ID && a.has(c) && c.Done.IsZero() {
				l.Kept.DropCut(c.Number)
			}
		}
	}
}

// mostAdded is how many jobs are followed.
const mostAdded = 50

func (l *List) noteAdded(a added) {
	if len(a.Numbers) == 0 {
		return
	}
	l.State.Added = lastOf(append(l.State.Added, a), mostAdded)
}

// lastOf keeps the last of what is remembered, so many at most.
func lastOf[T any](all []T, most int) []T {
	if extra := len(all) - most; extra > 0 {
		return slices.Clone(all[extra:])
	}
	return all
}

// Relist changes the pieces that a job put on the list, where the job was
// answered anew, or its message was edited: number is what it had before, now what
// it has. One that is sawn stays as it was sawn, and a line says so.
func (l *List) Relist(number, now uint64) (lines []string) {
	if number == 0 {
		return nil
	}
	for i, a := range l.State.Added {
		if a.Job == number && len(a.Numbers) == len(l.State.Cuts) {
			lines = append(lines, l.relistAs(a, l.State.Cuts)...)
			l.State.Added[i].Job = now
		}
	}
	return lines
}

// Before is the number of the job whose place the next one takes, where the
// message was edited: they go in order. It is 0 where there is none left.
func (l *List) Before() uint64 {
	if l.corrected == len(l.Message.Replaces) {
		return 0
	}
	l.corrected++
	return l.Message.Replaces[l.corrected-1]
}

// Stale names the pieces on the list whose message was edited to something that
// could not take their place.
func (l *List) Stale() []string {
	if len(l.Message.Replaces) == 0 {
		return nil
	}
	var lines []string
	pieces := l.Kept.Cuts()
	for _, number := range l.Message.Replaces {
		for _, a := range l.State.Added {
			for _, c := range pieces {
				if a.Job == number && a.has(c) && c.Done.IsZero() {
					lines = append(lines, l.say("still listed", "piece", l.pieceLine(c)))
				}
			}
		}
	}
	return lines
}

func (l *List) relistAs(a added, cuts []store.Cut) []string {
	list := l.Kept
	var lines []string
	pieces := list.Cuts()
	for i, c := range cuts {
		for _, old := range pieces {
			if old.Number != a.Numbers[i] || !a.has(old) || alikeCuts(old, c) {
				continue
			}
			if !old.Done.IsZero() {
				lines = append(lines, l.say("sawn otherwise", "number", strconv.FormatUint(old.Number, 10), "length", pieceLength(pieceOf(old), l.Talk.Options())))
				continue
			}
			c.Number, c.When, c.Message, c.Setter = old.Number, old.When, old.Message, old.Setter
			c.Name, c.Floor = old.Name, old.Floor
			list.ChangeCut(c)
			l.Touched = true
			lines = append(lines, l.say("on the list", "piece", l.pieceLine(c)))
		}
	}
	return lines
}

// alikeCuts says whether two pieces are cut alike.
func alikeCuts(a, b store.Cut) bool {
	return a.Length == b.Length && a.About == b.About && a.System == b.System && a.Size == b.Size
}
