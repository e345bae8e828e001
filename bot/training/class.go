package training

import (
	"bytes"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"dogleg/bot/practice"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/parser"
)

// Class is a sheet of problems for a class: the same number makes the same sheet,
// whoever asks for it.
type Class struct {
	Number uint64
	Focus  practice.Focus
	Metric bool `json:",omitempty"`
	When   time.Time
}

// How long a sheet is: what goes on one page with room to write.
const sheetLength = 10

// The numbers of sheets that nobody chose.
const (
	leastSheet  = 1000
	sheetsDrawn = 9000
)

// asksSheet is how a trainer asks for a sheet: "practice sheet", "class sheet fall
// 4182".
var asksSheet = regexp.MustCompile(`(?i)^\s*(?:(?:(?:set )?(?:a |the )?(practice|class|exam|training) sheet)|(hoja (?:de (?:práctica|practica|ejercicios|examen)|para la clase)))\b[:,]?\s*(.*?)\s*\.?$`)

// asksResults is how the results of a group are asked for.
var asksResults = regexp.MustCompile(`(?i)^\s*(?:(?:show )?(?:the )?((?:group |class |group's |class's )?(?:results|scores|scoreboard))|((?:los )?(?:resultados|puntajes)(?: del grupo| de la clase)?))\s*[.?]?$`)

// Words answers a message that is about a class: a sheet for it, or its results; ok
// is false for any other.
func (r *Room) Words(text string) (reply Reply, ok bool) {
	if found := asksSheet.FindStringSubmatch(text); found != nil {
		r.Talk.Speak(languageOf(found[2] != ""))
		return r.sheet(found[3])
	}
	if found := asksResults.FindStringSubmatch(text); found != nil {
		r.Talk.Speak(languageOf(found[2] != ""))
		return r.groupResults(), true
	}
	return Reply{}, false
}

func languageOf(spanish bool) parser.Language {
	if spanish {
		return parser.Spanish
	}
	return parser.English
}

// sheet makes a sheet of what its words say: a kind, a number; ok is false where they
// say something else.
func (r *Room) sheet(words string) (reply Reply, ok bool) {
	c := Class{Metric: r.options().Metric, When: r.When}
	for word := range strings.FieldsSeq(strings.ReplaceAll(words, "#", "")) {
		if n, err := strconv.ParseUint(word, 10, 32); err == nil && c.Number == 0 {
			c.Number = n
		} else if k, named := kindOf(word); named {
			c.Focus.Kind = k
		} else if !slices.Contains(besideKinds, strings.ToLower(word)) {
			return Reply{}, false
		}
	}
	if k, named := kindNamed(words); named {
		c.Focus.Kind = k
	}
	if r.Group != nil {
		return r.tell(false, "sheet alone"), true
	}
	if c.Number == 0 {
		c.Number = leastSheet + uint64(r.chance().IntN(sheetsDrawn))
	}
	if _, err := c.problems(); err != nil {
		return Reply{Err: err}, true
	}
	reply = r.tell(true, "sheet made", "number", strconv.FormatUint(c.Number, 10), "problems", strconv.Itoa(sheetLength))
	reply.Files = []Picture{{AClass, "practice-sheet.pdf", r.options(), Recipe{Class: &c}}}
	return reply, true
}

// besideKinds are words that may stand between the kind and the number of a sheet.
var besideKinds = []string{"number", "no", "of", "on", "for", "with", "angles", "two", "fit", "dry", "y", "de", "con", "sobre", "número", "seco", "en", "dos"}

// kindOf is the kind that a word names.
func kindOf(word string) (practice.Kind, bool) {
	if k, ok := kindsByWord[strings.ToLower(word)]; ok {
		return k, true
	}
	return kindNamed(word)
}

// problems are those of the sheet, drawn by its number alone.
func (c Class) problems() ([]practice.Problem, error) {
	t := practice.Training{Metric: c.Metric}
	chance := rand.New(rand.NewPCG(c.Number, sheetLength))
	var all []practice.Problem
	for range sheetLength {
		p, err := t.Pick(c.Focus, chance)
		if err != nil {
			return nil, err
		}
		all = append(all, p)
		t.Count(p.Kind, true)
	}
	return all, nil
}

// pdf prints the sheet: a page of problems, and one of answers with what the usual
// slips come to. The number of the sheet is on the second alone, for who has it can
// have the answers.
func (c Class) pdf(o wording.Options) ([]byte, error) {
	posed, answers, err := c.sheets(o)
	if err != nil {
		return nil, err
	}
	var printed bytes.Buffer
	if err := sketch.PDF(&printed, c.When, posed, answers); err != nil {
		return nil, err
	}
	return printed.Bytes(), nil
}

// sheets are the two pages.
func (c Class) sheets(o wording.Options) (posed, answers *sketch.Sheet, err error) {
	problems, err := c.problems()
	if err != nil {
		return nil, nil, err
	}
	o.Metric = o.Metric || c.Metric
	posed = &sketch.Sheet{Title: sentences.Say("sheet title", o), Under: sentences.Say("sheet name", o)}
	number := strconv.FormatUint(c.Number, 10)
	answers = &sketch.Sheet{Title: sentences.Say("answers title", o, "number", number), Under: sentences.Say("answers under", o)}
	for i, p := range problems {
		n := strconv.Itoa(i+1) + ". "
		text, question, _ := strings.Cut(Problem(p, o), "\n")
		posed.Blocks = append(posed.Blocks, sketch.Block{Rows: []sketch.Row{
			{Text: n + text}, {Text: question + " ____________"},
		}})
		rows := []sketch.Row{{Text: strings.Join(worked(p, o), "; ")}}
		var slips []string
		for _, s := range p.UsualSlips() {
			if s.Figure >= leastSlip {
				slips = append(slips, sentences.Say("slip figure", o,
					"figure", wording.Tape(s.Figure, o.For(p.Ask())), "slip", firstClause(slip(p, s.Slip, s.Bend, o))))
			}
		}
		rows = append(rows, sketch.Row{Text: strings.Join(slips[:min(len(slips), mostSlips)], "; ")})
		key := wording.Tape(p.Figure(), o.For(p.Ask()))
		answers.Blocks = append(answers.Blocks, sketch.Block{Heading: n + key, Rows: rows})
	}
	return posed, answers, nil
}

// What is told of slips on a sheet: the commonest of each problem, and none that comes
// to next to nothing.
const (
	mostSlips = 4
	leastSlip = geometry.Inch / 2
)

// firstClause is what a sentence begins with: what the slip is, without what is right.
func firstClause(text string) string {
	if end := strings.IndexAny(text, ".:,"); end > 0 {
		return text[:end]
	}
	return text
}

// groupResults are the scores of those who train in the group, the best first; who
// has too few answers comes last.
func (r *Room) groupResults() Reply {
	if r.Group == nil || r.Mates == nil {
		return r.tell(false, "results in groups")
	}
	var told, few []mate
	for _, s := range r.Mates() {
		m := mate{name: s.Name}
		for _, t := range s.Tallies() {
			m.add(t)
		}
		switch {
		case m.name == "" || m.asked == 0:
		case m.asked < enough:
			few = append(few, m)
		default:
			told = append(told, m)
		}
	}
	if len(told)+len(few) == 0 {
		return r.tell(true, "no results")
	}
	slices.SortStableFunc(told, func(a, b mate) int { return b.right*a.asked - a.right*b.asked })
	var lines []string
	if len(told) > 0 {
		lines = append(lines, r.say("results"))
	}
	for _, m := range told {
		lines = append(lines, m.line(r))
	}
	if len(few) > 0 {
		lines = append(lines, r.say("results too few"))
	}
	for _, m := range few {
		lines = append(lines, m.line(r))
	}
	return Reply{Text: strings.Join(lines, "\n"), Answered: true}
}

// mate is somebody who trains in a group.
type mate struct {
	name         string
	right, asked int
	weakest      practice.Kind // the one most of whose answers were wrong, if any were
	worst        float64       // how many of them
}

// add adds the tally of a kind.
func (m *mate) add(t practice.Tally) {
	m.right, m.asked = m.right+t.Right, m.asked+t.Asked
	if missed := float64(t.Asked-t.Right) / float64(t.Asked); missed > m.worst {
		m.weakest, m.worst = t.Kind, missed
	}
}

func (m mate) line(r *Room) string {
	line := r.say("result", "name", m.name, "right", strconv.Itoa(m.right), "asked", strconv.Itoa(m.asked))
	if m.weakest != "" && m.asked >= enough {
		line += r.say("result weakest", "kind", kindName(m.weakest, r.options()))
	}
	return line
}
