package hearing

import (
	"fmt"
	"slices"
	"strings"

	"dogleg/parser"
)

// meaning is what a wording asks for, in a form that is the same for wordings
// that ask for the same. It is not ok if it has everyday words in it, or part
// of it is not understood.
func meaning(text string) (m string, ok bool) {
	if text == "" || strings.Contains(text, "~") {
		return "", false
	}
	return parsed(Written(text))
}

func parsed(text string) (m string, ok bool) {
	var all []string
	for _, s := range parser.Parse(text) {
		switch {
		case s.Ask != nil:
			all = append(all, askMeaning(*s.Ask))
		case s.Command != nil && s.Command.Verb != parser.Thanks:
			all = append(all, fmt.Sprintf("%+v", *s.Command))
		default:
			return "", false
		}
	}
	return strings.Join(all, "\n"), true
}

// askMeaning leaves out how an ask was worded, and in which language.
func askMeaning(a parser.Ask) string {
	measures := make([]string, len(a.Measures))
	for i, m := range a.Measures {
		measures[i] = fmt.Sprintf("%s %s %.6f", m.Role, m.Method, float64(m.Length))
	}
	sum := ""
	if a.Sum != nil {
		sum = sumMeaning(*a.Sum)
	}
	a.Measures, a.Sum, a.Repairs, a.Taken, a.Language = nil, nil, nil, nil, ""
	return fmt.Sprintf("%+v %s %s", a, measures, sum)
}

// throwsAway says whether a wording asks for something that can't be had back.
func throwsAway(text string) bool {
	for _, s := range parser.Parse(text) {
		if s.Command != nil && slices.Contains([]parser.Verb{parser.Forget, parser.ForgetMe, parser.Undo}, s.Command.Verb) {
			return true
		}
	}
	return false
}

func sumMeaning(s parser.Arithmetic) string {
	terms := make([]string, len(s.Terms))
	for i, t := range s.Terms {
		terms[i] = fmt.Sprintf("%.6f %v %v", float64(t.Length), t.Number, t.Plain)
	}
	return fmt.Sprint(s.Operators, terms, s.InMetric)
}

// Same says whether two wordings are understood, and ask for the same.
func Same(a, b string) bool {
	m, ok := meaning(a)
	n, also := meaning(b)
	return ok && also && m == n
}
