package hearing

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"dogleg/catalog"
	"dogleg/parser"
	learned "dogleg/parser/read"
)

// Conversation is what a message is answered by.
type Conversation interface {
	// Read reads a message, with what was said before.
	Read(text string, said parser.Said) []parser.Statement
	// Keeps says whether a message, with what was read in it, changes what is kept
	// of a person.
	Keeps(text string, statements []parser.Statement) bool
	// Figures says whether a message is answered with figures.
	Figures(text string) bool
}

// Judge chooses between messages by what a conversation makes of them.
type Judge struct{ Conversation Conversation }

// understanding is what the conversation would make of a message.
type understanding struct {
	meaning     string // the same for messages that are answered the same; empty: nothing is asked
	probability float64
	idle        float64 // how likely it is that nothing is asked
	whole       bool    // every number of it is used
	keeps       bool    // it changes what is kept of a person
	asksBack    bool    // it is answered with a question
	changes     bool    // it changes what was asked before
}

// understand reads a message, and says how surely. What was said before isn't
// known here: what is not understood by itself may be a change to any offset.
func (j Judge) understand(text string) understanding {
	u := j.read(text, parser.Said{})
	if u.meaning != "" && !u.asksBack && u.probability > unsurely {
		return u
	}
	if v := j.read(text, parser.Said{Last: anOffset()}); v.changes && v.probability > unsurely && (u.meaning == "" || v.probability > u.probability) {
		return v
	}
	return u
}

// unsurely is the probability up to which a reading may as well be of a change.
const unsurely = 0.5

// anOffset is what a change may change.
var anOffset = sync.OnceValue(func() *parser.Ask {
	a := parser.Likeliest("set 12 45s 2 pvc")
	return &a
})

func (j Judge) read(text string, said parser.Said) understanding {
	statements := j.Conversation.Read(text, said)
	u := understanding{whole: usesAll(text, statements), keeps: j.Conversation.Keeps(text, statements), probability: 1, changes: true}
	var all []string
	commanded := false
	for _, s := range statements {
		u.changes = u.changes && s.Ask != nil && s.Ask.FollowUp
		switch {
		case s.Command != nil && s.Command.Verb == parser.Thanks:
			return understanding{probability: 1}
		case s.Command != nil:
			commanded = true
			all = append(all, fmt.Sprintf("%s %s", s.Command.Verb, s.Command.Object))
		case s.Ask != nil:
			all = append(all, askMeaning(*s.Ask))
		case s.Misunderstanding != nil:
			m := s.Misunderstanding
			if slices.Contains(nothing, m.Trouble) && u.keeps { // a word about the list, which is for the conversation
				return understanding{meaning: "order " + text, probability: 1, whole: true, keeps: true}
			}
			if slices.Contains(nothing, m.Trouble) {
				return understanding{probability: 1 - askedAnyway(text, said)}
			}
			// What is asked back shows what was heard: only the figures have to be right.
			u.asksBack = true
			all = append(all, fmt.Sprint(m.Trouble, m.Wanted, number.FindAllString(text, -1)))
		}
	}
	u.meaning = strings.Join(all, "\n")
	if !onlyFigure(statements) {
		u.weigh(text, said, commanded)
	}
	return u
}

// nothing are the troubles of a message that asks for nothing.
var nothing = []parser.Trouble{parser.NothingRead, parser.UnknownWord, parser.NotFiguring, parser.TooLong, parser.BadNumber}

// askedAnyway is how likely it is, after what was learned from people, that a
// message which is not understood asks for something.
func askedAnyway(text string, said parser.Said) (p float64) {
	for _, r := range learned.Learned().Read(text, said) {
		if slices.ContainsFunc(r.Statements, func(s parser.Statement) bool { return s.Ask != nil }) {
			p += r.Probability
		}
	}
	return min(p, 0.99)
}

// weigh sets the probability of a reading, after what was learned from people; of
// a question back that of the likeliest reading, and of a word to the bot that of
// anything being asked: what is a word to it the rules know best.
func (u *understanding) weigh(text string, said parser.Said, commanded bool) {
	same, most := 0.0, 0.0
	sums := map[string]float64{}
	for _, r := range learned.Learned().Read(text, said) {
		var all []string
		words := false
		for _, s := range r.Statements {
			words = words || s.Command != nil
			if s.Ask != nil {
				all = append(all, askMeaning(*s.Ask))
			}
		}
		m := strings.Join(all, "\n")
		sums[m] += r.Probability
		switch {
		case m != "":
			most = max(most, sums[m])
		case !words:
			u.idle += r.Probability
		}
		if m == u.meaning {
			same += r.Probability
		}
	}
	switch {
	case commanded && len(strings.Fields(text)) <= shortWord:
		u.probability, u.idle = 1, 0
	case commanded:
		u.probability = max(1-u.idle, ruled)
	case u.asksBack:
		u.probability = max(most, 0.01)
	default:
		u.probability = max(same, ruled)
	}
}

// ruled is the least probability of what the rules understand, and shortWord how
// many words a message has at most that is a word to the bot and no talk.
const (
	ruled     = 0.2
	shortWord = 3
)

func onlyFigure(s []parser.Statement) bool {
	return len(s) == 1 && s[0].Ask != nil && s[0].Ask.Sum != nil && len(s[0].Ask.Sum.Terms) == 1
}

// askMeaning leaves out how an ask was worded, in which language, and what it
// says of no figure.
func askMeaning(a parser.Ask) string {
	var measures []string
	for _, m := range a.Measures {
		if m.Method == parser.Centers {
			m.Method = ""
		}
		measures = append(measures, fmt.Sprintf("%s %s %.4f", m.Role, m.Method, m.Length.Inches()))
	}
	slices.Sort(measures)
	sum := ""
	if a.Sum != nil {
		sum = fmt.Sprintf("%.4f", a.Sum.Total())
	}
	angle := fmt.Sprintf("%.3f", a.Angle.Degrees())
	if a.Ends[0].Fitting != (catalog.Fitting{}) {
		angle = fmt.Sprint(a.Ends[0].Fitting.Key(), a.Ends[1].Fitting.Key())
	}
	return fmt.Sprint(a.Kind, slices.Compact(measures), sum, angle, a.Pipe.Size, a.Pipe.Material,
		fmt.Sprintf("%.4f", a.Grade.InchesPerFoot()), a.Lines, a.FollowUp, a.Store, a.ComeBack)
}

// Same says whether two wordings are understood, and ask for the same, however their
// figures are written.
func (j Judge) Same(a, b string) bool {
	m, n := j.understand(Figures(a)).meaning, j.understand(Figures(b)).meaning
	return m != "" && m == n
}
