package wording

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Steps explains an answer for the apprentice: one line a step, with this
// job's figures, unrounded decimals first and the tape last; then what rounded
// multipliers make of it, where the takeoffs come from and how far a sloppy
// measurement throws it.
func Steps(a *figure.Answer, o Options) string {
	if a == nil {
		return o.say("went wrong")
	}
	o = o.For(a.Ask)
	lines := []string{capital(o.read(a.Ask, a.System, a.Size))}
	for i, s := range a.Steps {
		lines = append(lines, strconv.Itoa(i+1)+". "+o.step(a, s))
	}
	if len(a.Steps) == 0 {
		lines = append(lines, o.say("no steps"))
	}
	return whole(slices.Concat(lines, o.takeoffs(a), o.leaveLong(a), o.bookAndWhy(a), o.everyThrow(a)))
}

// bookAndWhy gives the figures by rounded multipliers and says why they are
// not the exact ones.
func (o Options) bookAndWhy(a *figure.Answer) []string {
	if a.Handbook == nil {
		return nil
	}
	if a.Handbook.Differs {
		return []string{o.byTheBook(a), o.say("why handbook differs")}
	}
	return []string{o.byTheBook(a), o.say("handbook agrees")}
}

func (o Options) step(a *figure.Answer, s figure.Step) string {
	if sum, ok := o.arithmeticOf(s); ok {
		return o.worked(a, s, sum)
	}
	switch s.Name {
	case figure.StepMeasure:
		return o.heading(a, s) + ": " + o.stated(s.Result.Length, "")
	case figure.StepMark:
		return o.markStep(a, s)
	case figure.StepChoose:
		return o.siteStep(s, "bends", o.fittings(catalog.BendOf(s.Result.Angle)))
	case figure.StepCheck, figure.StepDryFit, figure.StepJoin:
		return o.siteStep(s)
	case figure.StepConvert, figure.StepRoot, figure.StepTangent, figure.StepMultiply, figure.StepDivide, figure.StepAdd:
	}
	return string(s.Name)
}

// arithmeticOf is what is worked out in a step; ok is false where nothing is.
func (o Options) arithmeticOf(s figure.Step) (sum string, ok bool) {
	switch s.Name {
	case figure.StepConvert, figure.StepAdd:
		return o.addition(s.Terms), true
	case figure.StepRoot:
		return o.root(s.Terms), true
	case figure.StepTangent:
		return "tan = " + o.joined(s.Terms, " ÷ "), true
	case figure.StepMultiply:
		return o.joined(s.Terms, " × ") + " × " + decimals(s.Factor, 4), true
	case figure.StepDivide:
		return o.joined(s.Terms, " × ") + " ÷ " + decimals(s.Factor, 4), true
	case figure.StepMeasure, figure.StepCheck, figure.StepChoose, figure.StepMark, figure.StepDryFit, figure.StepJoin:
	}
	return "", false
}

// mostSums is how many sums are shown at first.
const mostSums = 4

// Sums are the sums of an answer alone, a line each, the last ones where there are
// many: what an apprentice does on paper. [Steps] has them among all that is done,
// by the same numbers.
func Sums(a *figure.Answer, o Options) string {
	if a == nil {
		return o.say("went wrong")
	}
	o = o.For(a.Ask)
	var lines, beside []string
	for i, s := range a.Steps {
		sum, ok := o.arithmeticOf(s)
		if !ok {
			continue
		}
		line := strconv.Itoa(i+1) + ". " + o.sumLine(a, s, sum)
		if r := s.Result.Role; r == parser.RollAngle || r == parser.Run && a.Rolling {
			beside = append(beside, line) // a side track
			continue
		}
		lines = append(lines, line)
	}
	if len(lines) == 0 {
		lines = beside
	}
	return whole(append([]string{capital(o.read(a.Ask, a.System, a.Size))}, lines[max(0, len(lines)-mostSums):]...))
}

// sumLine is one sum; of what is sawn or marked the tape is read too.
func (o Options) sumLine(a *figure.Answer, s figure.Step, sum string) string {
	r := s.Result
	line := capital(o.resultName(a, s)) + ": " + sum
	switch m := stepManner(a, s); {
	case r.Length == 0 && r.Angle != 0:
		return line + " = " + degrees(r.Angle)
	case r.Role == parser.Grade:
		return line + " = " + o.say("per foot", "inches", decimals(r.Length.Inches(), 4))
	case r.Role == parser.Travel, r.Role == parser.Run, r.Role == parser.Set:
		return line + " = " + o.exact(r.Length)
	case m.left != 0:
		m.about = false
		return line + " = " + o.exact(r.Length) + ", " + o.say("sum left long", "length", o.bare(r.Length, m))
	default:
		line += " = " + o.exact(r.Length)
		if tape := o.bare(r.Length, m); tape != o.exact(r.Length) && !o.Metric {
			line += ", " + tape
		}
	}
	return line
}

// Hint is a step on the way to what is wanted: what it makes and by which rule, and
// why. Neither has a figure of the answer in it.
type Hint struct{ Name, Why string }

// Hints are the steps that lead to the main figure of an answer, in their order.
func Hints(a *figure.Answer, o Options) []Hint {
	o = o.For(a.Ask)
	var hints []Hint
	for _, s := range wayTo(a) {
		hints = append(hints, Hint{o.heading(a, s), o.behind(a, s)})
	}
	return hints
}

// siteStep is a step done with the hands, in the words for this kind of ask
// where there are any.
func (o Options) siteStep(s figure.Step, pairs ...string) string {
	if text, ok := o.said("step "+string(s.Name)+" "+s.Rule, pairs...); ok {
		return text
	}
	return o.say("step "+string(s.Name), pairs...)
}

// markStep says what to mark, and where.
func (o Options) markStep(a *figure.Answer, s figure.Step) string {
	length := o.bare(s.Result.Length, stepManner(a, s))
	if a.Kind == parser.Trim && len(a.Ordinates) > back {
		return o.say("step mark trim", "throat", o.fromFace(a, throat), "side", o.fromFace(a, side), "back", o.fromFace(a, back))
	}
	mark := "step mark " + string(s.Result.Role)
	if s.Result.Role == parser.Stagger && a.Ask.LineOne == parser.Toward {
		mark += " toward"
	}
	if text, ok := o.said(mark, "length", length); ok {
		return text
	}
	return o.say("step mark", "length", length, "what", o.heading(a, s))
}

// The eighths of the way round an elbow where the throat, the side and the back
// are.
const throat, side, back = 0, 2, 4

// fromFace is a mark on an elbow that is trimmed, measured from its face.
func (o Options) fromFace(a *figure.Answer, eighth int) string {
	return o.bare(a.Ordinates[eighth].Back, exactly)
}

// heading names what a step makes, with the rule behind it: "Travel (set to
// travel)".
func (o Options) heading(a *figure.Answer, s figure.Step) string {
	name := o.resultName(a, s)
	for _, key := range []string{"rule " + s.Rule + withGap(s), "rule " + s.Rule} {
		if rule, ok := o.said(key); ok {
			return capital(name + " (" + rule + ")")
		}
	}
	return capital(name)
}

// resultName is what a step makes.
func (o Options) resultName(a *figure.Answer, s figure.Step) string {
	if s.Result.Role == parser.Set && a.Rolling {
		return o.say("name true set")
	}
	if s.Line > 0 {
		return o.say("of line", "number", strconv.Itoa(s.Line), "name", o.name(s.Result.Role))
	}
	return o.name(s.Result.Role)
}

// withGap is what a rule's name has behind it where a gap is in the step.
func withGap(s figure.Step) string {
	if slices.ContainsFunc(s.Terms, func(q figure.Quantity) bool { return q.Role == parser.JointGap }) {
		return " with gap"
	}
	return ""
}

// worked is a line of arithmetic with its result, decimal and on the tape.
func (o Options) worked(a *figure.Answer, s figure.Step, arithmetic string) string {
	line := o.heading(a, s) + ": " + arithmetic
	if s.Result.Role == parser.RollAngle { // the reply says it from level
		return line + " = " + degrees(s.Result.Angle) + ", " + o.say("up from level", "angle", degrees(geometry.QuarterBend-s.Result.Angle))
	}
	if s.Result.Length == 0 && s.Result.Angle != 0 {
		return line + " = " + degrees(s.Result.Angle)
	}
	exact := o.exact(s.Result.Length)
	if s.Result.Role == parser.Grade { // no length: so much on each foot, or meter
		if o.Metric {
			return line + " = " + o.say("per meter", "millimeters", decimals(s.Result.Length.Inches()/12*1000, 2))
		}
		return line + " = " + o.say("per foot", "inches", decimals(s.Result.Length.Inches(), 4))
	}
	m := stepManner(a, s)
	left := m
	m.left = 0
	tape := o.bare(s.Result.Length, m)
	line += " = " + exact
	if s.Result.Role == parser.Upper || s.Result.Role == parser.Lower {
		if level, ok := o.elevation(a.Ask, s.Result.Length); ok {
			return line + ", " + o.say("on the tape", "length", level)
		}
	}
	if tape == exact || o.Metric && !m.about && !m.up {
		return line
	}
	line += ", " + o.say("on the tape", "length", tape)
	if left.left != 0 {
		line += ", " + o.say("to leave it long", "length", o.bare(s.Result.Length, left))
	}
	return line
}

// stepManner says how a step's result is printed: rounded to the safe side
// where the reply does so with the same figure.
func stepManner(a *figure.Answer, s figure.Step) manner {
	l := figure.Length{Role: s.Result.Role, Length: s.Result.Length}
	l.Up = slices.ContainsFunc(a.Lengths, func(said figure.Length) bool {
		return said.Up && said.Role == l.Role && math.Abs((said.Length-l.Length).Inches()) < 1e-9
	})
	return mannerOf(a, l)
}

// addition writes terms with their signs: "16.9706 - 2 × 1.375".
func (o Options) addition(terms []figure.Quantity) string {
	var b strings.Builder
	for i, t := range terms {
		switch {
		case t.Minus && i == 0:
			b.WriteString("-")
		case t.Minus:
			b.WriteString(" - ")
		case i > 0:
			b.WriteString(" + ")
		}
		b.WriteString(o.quantity(t))
	}
	return b.String()
}

// root writes the root of the squares of terms: "√(8² + 14²)".
func (o Options) root(terms []figure.Quantity) string {
	squares := make([]string, len(terms))
	for i, t := range terms {
		squares[i] = o.quantity(t) + "²"
		if t.Minus {
			squares[i] = "-" + squares[i]
		}
	}
	return "√(" + strings.ReplaceAll(strings.Join(squares, " + "), "+ -", "- ") + ")"
}

func (o Options) joined(terms []figure.Quantity, with string) string {
	parts := make([]string, len(terms))
	for i, t := range terms {
		parts[i] = o.quantity(t)
	}
	return strings.Join(parts, with)
}

func (o Options) quantity(q figure.Quantity) string {
	text := o.exact(q.Length)
	if q.Length == 0 && q.Angle != 0 {
		text = degrees(q.Angle)
	}
	if q.Times > 1 {
		return strconv.Itoa(q.Times) + " × " + text
	}
	return text
}
