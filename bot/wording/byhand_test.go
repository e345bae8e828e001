package wording_test

import (
	"cmp"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/parser/asks"
)

// explained are the answers to every message of the corpus that has one.
func explained(t *testing.T) []*figure.Answer {
	t.Helper()
	all, err := asks.Read("../../testdata/asks/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	var answers []*figure.Answer
	for _, m := range all {
		for i, s := range parser.Parse(m.Text) {
			if s.Ask == nil || s.Ask.FollowUp || i >= len(m.Want) || !isRead(m.Want[i], s.Ask) {
				continue
			}
			if a, err := figure.Solve(*s.Ask, figure.Settings{}); err == nil {
				answers = append(answers, a)
			}
		}
	}
	for _, ask := range jointAsks() {
		if a, err := figure.Solve(ask, figure.Settings{}); err == nil {
			answers = append(answers, a)
		}
	}
	return answers
}

// isRead says whether an ask is what a label says.
func isRead(want asks.Expectation, got *parser.Ask) bool {
	label, err := want.Ask()
	return err == nil && label != nil && asks.Same(asks.FactsOf(label), asks.FactsOf(got)) == ""
}

// span is what a printed figure may stand for: it is rounded to four decimals,
// and zeros at its end are left out. In an explanation in millimeters lengths are
// rounded to two.
type span struct{ low, high float64 }

// inInches and inMillimeters are half of the last decimal of a length.
const (
	inInches      = 0.5e-4
	inMillimeters = 0.5e-2
)

// printedAs is what a figure stands for where lengths are printed to half: one
// of more than two decimals is no millimeters.
func printedAs(text string, half float64) span {
	v, err := strconv.ParseFloat(strings.TrimSuffix(text, "°"), 64)
	if err != nil {
		return span{math.NaN(), math.NaN()}
	}
	if _, decimals, ok := strings.Cut(text, "."); !ok || len(decimals) > 2 {
		half = inInches
	}
	return span{v - half, v + half}
}

func (s span) meets(o span) bool { return s.low <= o.high+1e-9 && o.low <= s.high+1e-9 }

func (s span) plus(o span) span { return span{s.low + o.low, s.high + o.high} }

func (s span) minus(o span) span { return span{s.low - o.high, s.high - o.low} }

// over is a monotonic function of two spans that are more than nothing, taken
// at all corners.
func (s span) over(o span, f func(a, b float64) float64) span {
	out := span{math.Inf(1), math.Inf(-1)}
	for _, a := range []float64{s.low, s.high} {
		for _, b := range []float64{o.low, o.high} {
			out.low, out.high = min(out.low, f(a, b)), max(out.high, f(a, b))
		}
	}
	return out
}

// pencil works a line of arithmetic as it is printed, from left to right,
// products first.
func pencil(line string, half float64) span {
	if inside, ok := strings.CutPrefix(line, "√("); ok {
		return pencil(strings.TrimSuffix(inside, ")"), half).over(span{}, func(a, _ float64) float64 { return math.Sqrt(max(0, a)) })
	}
	if sides, ok := strings.CutPrefix(line, "tan = "); ok {
		rise, run, _ := strings.Cut(sides, " ÷ ")
		return printedAs(rise, half).over(printedAs(run, half), func(a, b float64) float64 { return math.Atan2(a, b) * 180 / math.Pi })
	}
	sum, sign := span{}, 1.0
	if rest, ok := strings.CutPrefix(line, "-"); ok {
		line, sign = rest, -1
	}
	for line != "" {
		term, rest, next := line, "", 1.0
		if at := strings.IndexAny(line, "+-"); at > 0 {
			term, rest = line[:at], strings.TrimSpace(line[at+1:])
			if line[at] == '-' {
				next = -1
			}
		}
		if sign > 0 {
			sum = sum.plus(product(term, half))
		} else {
			sum = sum.minus(product(term, half))
		}
		line, sign = rest, next
	}
	return sum
}

func product(term string, half float64) span {
	words := strings.Fields(term)
	out := factor(words[0], half)
	for i := 1; i+1 < len(words); i += 2 {
		f := func(a, b float64) float64 { return a * b }
		if words[i] == "÷" {
			f = func(a, b float64) float64 { return a / b }
		}
		out = out.over(factor(words[i+1], half), f)
	}
	return out
}

func factor(word string, half float64) span {
	base, squared := strings.CutSuffix(word, "²")
	s := printedAs(base, half)
	if squared {
		return s.over(s, func(a, b float64) float64 { return a * b })
	}
	return s
}

// lineOfArithmetic is a step as it is printed: what makes its result, the
// result, and how that reads on the tape.
var lineOfArithmetic = regexp.MustCompile(`(?m)^\d+\. [^:]*: (.+) = ([-\d.]+)(°?)(?: per foot| mm per m)?(?:, on the tape (.*))?$`)

// Whoever works an explanation as it is printed, with a pencil and nothing
// else, gets each of its figures, and at the end what the reply says first; for
// every kind of ask.
func TestExplanationsWorkByHand(t *testing.T) {
	worked := map[parser.Kind]int{}
	for _, a := range explained(t) {
		text := wording.Steps(a, wording.Options{})
		lines := lineOfArithmetic.FindAllStringSubmatch(text, -1)
		for _, l := range lines {
			half := inInches
			if a.Ask.Metric() {
				half = inMillimeters
			}
			got, want := pencil(l[1], half), printedAs(l[2], half)
			if l[3] == "" && !strings.Contains(l[2], ".") {
				want = want.plus(span{-half, half}) // whole to the last decimal
			}
			if l[3] != "" {
				want = want.plus(span{-0.005, 0.005}) // degrees have two decimals
			}
			if !got.meets(want) {
				t.Errorf("%s makes %v, not %s, in\n%s", l[1], got, l[2], text)
			}
		}
		if len(lines) > 0 {
			worked[a.Kind]++
			checkLastLine(t, a, lines[len(lines)-1])
		}
	}
	for _, k := range constants(t, "../../parser/ask", "Kind") {
		if k != "" && worked[parser.Kind(k)] == 0 {
			t.Errorf("no explanation of kind %s was worked", k)
		}
	}
}

// checkLastLine holds the last figure of an explanation against the first line
// of the reply.
func checkLastLine(t *testing.T, a *figure.Answer, line []string) {
	t.Helper()
	if a.Kind == parser.Multiplier { // its reply says the multipliers, and the steps the triangle
		return
	}
	switch {
	case a.Main == parser.Grade: // which the reply says to three decimals, or as a fraction
		g, half := a.Grade.InchesPerFoot(), inInches
		if a.Ask.Metric() {
			g, half = a.Grade.Percent()*10, inMillimeters
		}
		if !printedAs(line[2], half).meets(span{g, g}) {
			t.Errorf("the last step makes %s per foot, or meter, the grade is %v", line[2], g)
		}
		return
	case a.Kind == parser.Fit && a.Main == parser.AngleOf && slices.ContainsFunc(a.Bends, func(c figure.Choice) bool { return c.Why == figure.TrimmedElbow }):
		return // an equation of takeoff and angle at once: only the cut is explained
	}
	text := wording.Whole(a, wording.Options{})
	for range a.Doubts {
		_, text, _ = strings.Cut(text, "\n")
	}
	first, rest, _ := strings.Cut(text, "\n")
	if second, _, _ := strings.Cut(rest, "\n"); a.Kind == parser.Around {
		first += " " + second // the bend's center, and a takeoff before it where the pipe stops
	}
	if a.Kind == parser.Trim { // the marks come first, which a step says too; the takeoff is on a line below
		marks := strings.NewReplacer("From the face: throat ", "From one face mark ", ", sides ", " at the throat, ", ", back ", " at both sides and ", ".", " at the back").Replace(first)
		if steps := wording.Steps(a, wording.Options{}); !strings.Contains(steps, marks) {
			t.Errorf("the reply says %q, no step %q:\n%s", first, marks, steps)
		}
		first, _, _ = strings.Cut(text[strings.Index(text, "Takeoff "):], "\n")
	}
	bare := strings.NewReplacer(" in ", " ").Replace(first + " ")
	said := strings.TrimPrefix(cmp.Or(line[4], line[2]), "-") // which is said to be too short
	said = strings.Replace(said, "about -", "about ", 1)
	if _, left, ok := strings.Cut(said, "to leave it long "); ok {
		said = left
	}
	if a.Kind == parser.Sum && strings.HasSuffix(first, " mm") {
		return // the steps add up inches
	}
	if strings.Contains(first, " mm") {
		said = wholeMillimeters(said)
	}
	for word := range strings.FieldsSeq(said) {
		if !strings.Contains(bare, word) {
			t.Errorf("the last step makes %s, the reply says %q in\n%s", said, first, wording.Steps(a, wording.Options{}))
			return
		}
	}
}

// wholeMillimeters is a printed figure in millimeters as the reply rounds it.
func wholeMillimeters(figure string) string {
	v, err := strconv.ParseFloat(strings.Fields(figure)[0], 64)
	if err != nil {
		return figure // it reads on the tape already
	}
	return strconv.Itoa(int(math.Floor(v + 0.5)))
}

// Every step of every answer has a rule behind it, in both languages, short
// enough for a phone.
func TestEveryStepHasARule(t *testing.T) {
	for _, a := range explained(t) {
		for i := range a.Steps {
			for _, l := range []parser.Language{parser.English, parser.Spanish} {
				text, ok := wording.Rule(a, i+1, wording.Options{Language: l})
				_, rule, _ := strings.Cut(text, "\n")
				if n := utf8.RuneCountInString(rule); !ok || n < 20 || n > 160 || strings.ContainsAny(rule, "{}") {
					t.Errorf("%s: step %d of %q: %q", l, i+1, wording.Steps(a, wording.Options{}), rule)
				}
			}
		}
		if text, ok := wording.Rule(a, len(a.Steps)+1, wording.Options{}); ok || text == "" {
			t.Errorf("step %d of %d is said to be there: %q", len(a.Steps)+1, len(a.Steps), text)
		}
	}
}

func TestRuleNamesTheFunction(t *testing.T) {
	a, err := figure.Solve(parser.Likeliest("set 10 60s takeoff 1"), figure.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	// sin 60 is 0.8660 and tan 60 is 1.7321, as any table of them prints.
	for step, want := range map[int]string{
		4: "4. Travel (set to travel): 10 × 1.1547 = 11.547, on the tape 11-9/16\nSet ÷ travel is the sine of the bend, 0.866. So travel is set ÷ 0.866. That is set × 1.1547.",
		5: "5. Run (set to run): 10 × 0.5774 = 5.7735, on the tape 5-3/4 heavy\nSet ÷ run is the tangent of the bend, 1.7321. So run is set ÷ 1.7321. That is set × 0.5774.",
	} {
		if got, _ := wording.Rule(a, step, wording.Options{}); got != want {
			t.Errorf("rule %d is\n%s\nwant\n%s", step, got, want)
		}
	}
}

func TestBend(t *testing.T) {
	same(t, wording.Bend(45, wording.Options{}),
		"45: a fitting that turns the line 45°. A full turn is 360°, so it is a 1/8 bend too.",
		"Two of them: travel = set × 1.414, run = set × 1.")
	same(t, wording.Bend(90, wording.Options{Language: parser.Spanish}),
		"90: conexión que gira la línea 90°. La vuelta es de 360°: también es curva de 1/4.",
		"Un 90 va derecho al lado. No hay avance, y la diagonal es el desvío.")
}
