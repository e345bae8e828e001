package bot

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"dogleg/bot/cutlist"
	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
	"dogleg/store"
)

// cutsOf are the pieces that an answer has to be cut: one for each line of
// parallel ones, each where there are more of them, one of any other that has a
// cut, none of the rest.
func (t *turn) cutsOf(a *figure.Answer) []store.Cut {
	var cuts []store.Cut
	for _, line := range a.Lines {
		if line.HasCut && line.Cut > 0 {
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
func (t *turn) lastCuts() []store.Cut {
	if t.talk.Cuts != nil || t.talk.Unfigured || t.talk.Ask == nil {
		return t.talk.Cuts
	}
	return t.cutsOfAsk(*t.talk.Ask)
}

func (t *turn) cutsOfAsk(ask parser.Ask) []store.Cut {
	a, err := figure.Solve(ask, t.figuring())
	if err != nil {
		return nil
	}
	return t.cutsOf(a)
}

func (t *turn) cutsOfJob(j store.Job) []store.Cut {
	ask := askedBy(j)
	if ask == nil {
		return nil
	}
	return t.cutsOfAsk(*ask)
}

// pieceOf is a piece as package cutlist has it. A system that the catalog has
// dropped keeps the name it is stored under.
func pieceOf(c store.Cut) cutlist.Piece {
	p := cutlist.Piece{
		Number: c.Number, Length: c.Length, Metric: c.Metric, About: c.About, Band: c.Band, Pipe: cutlist.Pipe{Size: c.Size},
		Name: c.Name, Floor: c.Floor, Done: !c.Done.IsZero(),
	}
	if c.System != "" {
		p.Pipe.System, _ = catalog.SystemByID(c.System)
		p.Pipe.System.Name = systemName(c.System)
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
func (t *turn) takeOff() {
	pieces := t.listMemory().Cuts()
	for _, a := range t.talk.Added {
		for _, c := range pieces {
			if a.Message == t.message.ID && a.has(c) && c.Done.IsZero() {
				t.listMemory().DropCut(c.Number)
			}
		}
	}
}

// mostAdded is how many jobs are followed.
const mostAdded = 50

func (t *turn) noteAdded(a added) {
	if len(a.Numbers) == 0 {
		return
	}
	t.talk.Added = lastOf(append(t.talk.Added, a), mostAdded)
}

// lastOf keeps the last of what is remembered, so many at most.
func lastOf[T any](all []T, most int) []T {
	if extra := len(all) - most; extra > 0 {
		return slices.Clone(all[extra:])
	}
	return all
}

// relist changes the pieces that a job put on the list, where the job was
// answered anew, or its message was edited. One that is sawn stays as it was
// sawn, and the reply says so.
func (t *turn) relist(j job, p part) part {
	number := t.before(j)
	if number == 0 {
		return p
	}
	var lines []string
	for i, a := range t.talk.Added {
		if a.Job == number && len(a.Numbers) == len(t.talk.Cuts) {
			lines = append(lines, t.relistAs(a, t.talk.Cuts)...)
			t.talk.Added[i].Job = t.talk.Job
		}
	}
	return p.with(lines)
}

// before is the number that a job had before it was answered anew, 0 where it
// is the first time.
func (t *turn) before(j job) uint64 {
	if j.number != 0 || j.glance || t.corrected == len(t.message.Replaces) {
		return j.number
	}
	t.corrected++
	return t.message.Replaces[t.corrected-1]
}

// stale names the pieces on the list whose message was edited to something that
// could not take their place.
func (t *turn) stale() []string {
	if len(t.message.Replaces) == 0 {
		return nil
	}
	var lines []string
	pieces := t.listMemory().Cuts()
	for _, number := range t.message.Replaces {
		for _, a := range t.talk.Added {
			for _, c := range pieces {
				if a.Job == number && a.has(c) && c.Done.IsZero() {
					lines = append(lines, t.sayOfList("still listed", "piece", t.pieceLine(c)))
				}
			}
		}
	}
	return lines
}

// with is a part with more lines at its end.
func (p part) with(lines []string) part {
	if len(lines) > 0 {
		p.text += "\n" + strings.Join(lines, "\n")
		p.record.Reply = p.text
	}
	return p
}

func (t *turn) relistAs(a added, cuts []store.Cut) []string {
	list := t.listMemory()
	var lines []string
	pieces := list.Cuts()
	for i, c := range cuts {
		for _, old := range pieces {
			if old.Number != a.Numbers[i] || !a.has(old) || alikeCuts(old, c) {
				continue
			}
			if !old.Done.IsZero() {
				lines = append(lines, t.sayOfList("sawn otherwise", "number", strconv.FormatUint(old.Number, 10), "length", cutlist.PieceLength(pieceOf(old), t.options(t.talk.Language))))
				continue
			}
			c.Number, c.When, c.Message, c.Setter = old.Number, old.When, old.Message, old.Setter
			c.Name, c.Floor = old.Name, old.Floor
			list.ChangeCut(c)
			t.touched = true
			lines = append(lines, t.sayOfList("on the list", "piece", t.pieceLine(c)))
		}
	}
	return lines
}

// alikeCuts says whether two pieces are cut alike.
func alikeCuts(a, b store.Cut) bool {
	return a.Length == b.Length && a.About == b.About && a.System == b.System && a.Size == b.Size
}
