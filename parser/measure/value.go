package measure

import (
	"math"
	"strconv"
	"strings"

	"dogleg/parser/words"
)

// reading is what a production comes to.
type reading struct {
	number   float64
	unit     Unit
	weak     bool
	plural   bool
	whole    bool
	soft     bool
	thousand float64 // of a comma: the number as thousands
}

func (u *unit) of() (Unit, bool) {
	if u == nil {
		return NoUnit, false
	}
	switch {
	case u.Inch != "":
		return InchUnit, u.Inch == "in"
	case u.Foot != "":
		return FootUnit, false
	case u.Metric != "":
		named, _ := words.Unit(u.Metric)
		return Unit(named), false
	case u.Degree != "":
		return Degrees, false
	}
	return PercentOf, false
}

// value adds up number words: forty five, one hundred twenty.
func (c *cardinal) value() float64 {
	return added(append(append([]string{}, c.Words...), c.Tens...))
}

// added is what number words come to, one behind the other.
func added(all []string) float64 {
	total := 0.0
	for _, w := range all {
		n := numberIn(w)
		if n >= 100 && total > 0 {
			total *= n
			continue
		}
		total += n
	}
	return total
}

// numberIn is the value of a number word, or of one that sounds like it.
func numberIn(word string) float64 {
	if n, _, ok := words.Number(word); ok {
		return float64(n)
	}
	soft, _ := words.Find(word).Means("soft-number")
	return parsed(soft)
}

func (w *wholeNumber) value() (n float64, soft bool) {
	switch {
	case w.Figures != "":
		return parsed(w.Figures), false
	case w.Words != nil:
		return w.Words.value(), false
	}
	value, _ := words.Find(w.Soft).Means("soft-number")
	return parsed(value), true
}

// value is a fraction's part of one. An ordinal of several digits is the numerator
// and the denominator that a phone ran together: 58ths, 316ths; of one digit it is that
// part: 8ths, 6ths.
func (f *fraction) value() (v float64, ok bool) {
	switch {
	case f.Slashed != "":
		over, under, _ := strings.Cut(f.Slashed, "/")
		return parsed(over) / parsed(under), true
	case f.Ordinal != "":
		return runTogether(f.Ordinal)
	}
	count := 1.0
	if f.Count != nil {
		n, soft := f.Count.value()
		if soft {
			return 0, false
		}
		count = n
	}
	under := parsed(f.Parts)
	switch {
	case f.Part != "":
		n, _ := words.Part(f.Part)
		under = float64(n)
	case len(f.Thirty) > 0:
		n, _, _ := words.Number(f.Thirty[0])
		under = float64(n + 2)
	}
	if under == 0 || count >= under {
		return 0, false
	}
	return count / under, true
}

// runTogether splits the digits of 58ths and 316ths.
func runTogether(figures string) (float64, bool) {
	if figures == "5" || figures == "6" {
		return 1 / parsed(figures), true // bends of cast iron
	}
	for _, under := range []string{"16", "32", "64", "8", "4", "2"} {
		over, ok := strings.CutSuffix(figures, under)
		if !ok {
			continue
		}
		if over == "" {
			return 1 / parsed(under), true
		}
		if n := parsed(over); n > 0 && n < parsed(under) {
			return n / parsed(under), true
		}
	}
	return 0, false
}

func (p *plain) value() (reading, bool) {
	r := reading{whole: true, plural: p.Plural != "" || p.Plurals != ""}
	switch {
	case p.Decimal != "":
		r.number, r.whole = parsed(p.Decimal), false
	case p.Plurals != "":
		tens, _, _ := words.Number(p.Tens)
		n, _, _ := words.Number(p.Plurals)
		r.number = float64(tens + n)
	default:
		r.number, r.soft = p.Whole.value()
	}
	r.unit, r.weak = p.Unit.of()
	return r, true
}

func (p *part) value() (reading, bool) {
	v, ok := p.Fraction.value()
	r := reading{number: v, plural: p.Plural != ""}
	r.unit, r.weak = p.Unit.of()
	return r, ok
}

func (m *mixed) value() (reading, bool) {
	n, soft := m.Whole.value()
	f, ok := m.Fraction.value()
	r := reading{number: n + f, plural: m.Plural != "", soft: soft}
	r.unit, r.weak = m.Unit.of()
	if m.Inch != "" && r.unit == NoUnit {
		r.unit = InchUnit
	}
	return r, ok
}

func (o *one) value() (reading, bool) {
	r := reading{number: 1, unit: InchUnit, weak: o.Unit == "in" || o.Unit == `"`}
	if o.Fraction != nil {
		f, ok := o.Fraction.value()
		if !ok {
			return r, false
		}
		r.number += f
	}
	if named, _ := words.Unit(o.Unit); named == "foot" || o.Phrase != "" {
		r.unit = FootUnit
	}
	if o.Phrase != "" {
		return r, o.Phrase == "a foot" || o.Phrase == "un pie"
	}
	if o.Article == "" && o.Fraction == nil && (r.unit == FootUnit || r.weak) || o.Unit == "'" {
		return r, false // a foot mark or an "in" alone is no measure
	}
	return r, true
}

func (x *sounding) value() (reading, bool) {
	r := reading{number: added(x.Tens) + numberIn(x.Soft), soft: true, whole: x.Fraction == nil}
	r.unit, r.weak = x.Unit.of()
	if x.Fraction == nil {
		return r, true
	}
	f, ok := x.Fraction.value()
	r.number += f
	return r, ok
}

func (h *hard) value() reading {
	r := reading{number: parsed(h.Figures), plural: h.Plural != ""}
	switch {
	case h.Decimal != "":
		r.number = parsed(h.Decimal)
	case h.Words != nil:
		r.number = h.Words.value()
	}
	return r
}

func (b *beyond) value() (reading, bool) {
	by, ok := b.By.value()
	r, fine := b.Measure.value()
	if !ok || !fine || r.plural || r.soft || r.unit != NoUnit && r.unit != InchUnit || r.number < 2 {
		return r, false
	}
	r.number += by.number
	r.whole = false
	return r, true
}

func (m *meters) value() (reading, bool) {
	n, soft := 1.0, false
	if m.Whole != nil {
		n, soft = m.Whole.value()
	}
	if named, _ := words.Unit(m.Meter); soft || named != "m" && m.Phrase == "" {
		return reading{}, false
	}
	if m.Fraction != nil {
		f, ok := m.Fraction.value()
		return reading{number: n + f, unit: M}, ok
	}
	rest := m.Rest.value().number
	if rest < 100 {
		rest *= 10
	}
	return reading{number: n*1000 + rest, unit: MM}, m.Rest.Decimal == "" && m.Rest.Inch == "" && rest >= 100 && rest < 1000
}

func (a *articleAndPart) value() (reading, bool) {
	f, ok := a.Fraction.value()
	r := reading{number: 1 + f}
	r.unit, r.weak = a.Unit.of()
	return r, ok && a.Fraction.Article == ""
}

func (c *colonFraction) value() (reading, bool) {
	over, under := parsed(c.Over), parsed(c.Under)
	r := reading{number: over / under}
	if c.Whole != "" {
		r.number += parsed(c.Whole)
	}
	r.unit, r.weak = c.Unit.of()
	return r, isTape(c.Under) && over < under
}

func (f *feet) value() (reading, bool) {
	n := 1.0
	switch {
	case f.Feet != nil:
		n, _ = f.Feet.value()
	case f.Half != "" && strings.ContainsAny(f.Half, "0123456789"):
		n = parsed(f.Half)
	}
	var in reading
	ok := true
	switch {
	case f.Mixed != nil:
		in, ok = f.Mixed.value()
	case f.Part != nil:
		in, ok = f.Part.value()
	default:
		in = f.Inches.value()
	}
	if !ok || in.plural || in.soft || in.number >= 12 || in.unit != NoUnit && in.unit != InchUnit {
		return reading{}, false
	}
	return reading{number: n*12 + in.number, unit: InchUnit}, true
}

func (s *simple) value() (reading, bool) {
	switch {
	case s.Feet != nil:
		return s.Feet.value()
	case s.Mixed != nil:
		return s.Mixed.value()
	case s.Part != nil:
		return s.Part.value()
	case s.One != nil:
		return s.One.value()
	}
	return s.Plain.value()
}

// hair is what heavy adds and light takes off, in inches: half of what an ordinary
// tape can't show. Common practice.
const hair = 1.0 / 32

func (l *leaning) value() (reading, bool) {
	if l.Heard != nil {
		r, ok := l.Heard.value()
		return leans(l.Lean, r, ok)
	}
	r, ok := l.Measure.value()
	return leans(l.Lean, r, ok)
}

// leans is a measure a hair over or under.
func leans(word string, r reading, ok bool) (reading, bool) {
	if !ok || r.plural || r.unit != NoUnit && r.unit != InchUnit {
		return r, false
	}
	if way, _ := words.Find(word).Means("lean"); way == "light" {
		r.number -= hair
	} else {
		r.number += hair
	}
	r.whole = false
	return r, true
}

func (l *leaningBefore) value() (reading, bool) {
	m, fine := l.Measure.value()
	r, ok := leans(l.Lean, m, fine)
	if l.Whole != nil {
		n, soft := l.Whole.value()
		ok = ok && !soft && r.number < 1
		r.number += n
	}
	return r, ok
}

func (s *shy) value() (reading, bool) {
	by, ok := s.By.value()
	r, fine := s.Measure.value()
	if !ok || !fine || r.unit != NoUnit && r.unit != InchUnit {
		return r, false
	}
	r.number -= by.number
	r.whole = false
	return r, true
}

// inches is a reading's length; ok is false where it is none.
func (r reading) inches() (float64, bool) {
	m := Measure{Number: r.number, Unit: r.unit}
	return m.Inches(), m.Length()
}

func (s *slope) value() (reading, bool) {
	r, ok := s.Measure.value()
	if !ok || r.plural {
		return r, false
	}
	if r.unit == PercentOf || r.unit == Degrees {
		return r, false
	}
	out := reading{unit: PerFootOf}
	if s.PerMeter != "" {
		mm := r.number // a bare fall per meter is in millimeters
		if r.unit != NoUnit {
			in, _ := r.inches()
			mm = in * 25.4
		}
		out.number = mm / 1000 * 12
		return out, true
	}
	out.number, ok = r.inches()
	return out, ok
}

func (b *bare) value() (reading, bool) {
	switch {
	case b.Decimal != "":
		return reading{number: parsed(b.Decimal)}, true
	case b.Lone != nil:
		v, ok := b.Lone.value()
		return reading{number: v}, ok
	}
	n, soft := b.Whole.value()
	r := reading{number: n, soft: soft, whole: true}
	if b.Fraction != nil {
		f, ok := b.Fraction.value()
		r.number, r.whole = n+f, false
		return r, ok
	}
	return r, true
}

func (r *ratio) value() (reading, bool) {
	fall, ok := reading{}, false
	if r.Bare != nil {
		fall, ok = r.Bare.value()
	} else {
		fall, ok = r.Fall.value()
	}
	long, fine := r.Length.value()
	if !ok || !fine || long.number <= 0 || fall.plural || long.plural || fall.soft || long.soft {
		return reading{}, false
	}
	a, oka := fall.inches()
	b, okb := long.inches()
	if !oka || !okb || a <= 0 || a/b > 1 || !r.said(fall, long) {
		return reading{}, false
	}
	return reading{number: a / b * 12, unit: PerFootOf}, true
}

// said says whether people would say so of a slope: "1 in 40", "1:40", "1/4 per
// foot", "10 over 6 m".
func (r *ratio) said(fall, long reading) bool {
	bare := fall.unit == NoUnit && long.unit == NoUnit
	switch {
	case r.Word == ":":
		return bare && (long.number >= 10 || fall.number < 1)
	case bare:
		return fall.number == 1 && long.number >= 10 && r.Word != "over" && r.Word != "on"
	}
	return long.unit == FootUnit || long.unit == M
}

func (r *roundRatio) value() (reading, bool) {
	return reading{number: numberIn(r.Fall) / numberIn(r.Ten) * 12, unit: PerFootOf}, numberIn(r.Fall) == 1
}

// mostAhead is the steepest slope that people tell without "percent" behind it.
const mostAhead = 10

func (p *percentage) value() (reading, bool) {
	var r reading
	ok := true
	switch {
	case p.Comma != nil:
		r, ok = p.Comma.value()
	case p.Pointed != nil:
		r, ok = p.Pointed.value()
	case p.Mixed != nil:
		r, ok = p.Mixed.value()
	case p.Part != nil:
		r, ok = p.Part.value()
	default:
		r, ok = p.Plain.value()
	}
	ahead := p.Ahead != "" && r.unit == NoUnit && !r.plural && r.number > 0 && r.number <= mostAhead
	if r.unit != PercentOf && p.Percent == "" && !ahead {
		return r, false
	}
	return reading{number: r.number / 100 * 12, unit: PerFootOf}, ok
}

func (b *bend) value() (reading, bool) {
	v, ok := b.Fraction.value()
	if b.Fraction.Ordinal != "" {
		v = 1 / parsed(b.Fraction.Ordinal)
	}
	degrees := v * 360
	return reading{number: degrees, unit: TurnPart}, (ok || b.Fraction.Ordinal != "") && degrees <= 90 && degrees > 1 && math.Mod(1/v, 1) < 1e-9
}

func (n *nominal) value() (reading, bool) {
	return reading{number: parsed(n.Whole + n.Size), unit: NominalDia, whole: true}, true
}

func (c *comma) value() (reading, bool) {
	if len(c.After) > 3 || strings.HasPrefix(c.Before, "0") && len(c.Before) > 1 {
		return reading{}, false
	}
	r := reading{number: parsed(c.Before + "." + c.After)}
	r.unit, r.weak = c.Unit.of()
	if len(c.After) == 3 {
		r.thousand = parsed(c.Before + c.After)
	}
	return r, true
}

func (p *pointed) value() (reading, bool) {
	before, after := 0.0, 0.0
	switch {
	case p.Said != nil:
		before = p.Said.value()
	case p.Before != nil:
		before, _ = p.Before.value()
	}
	if p.After != nil {
		after, _ = p.After.value()
	}
	for i, d := range p.Digits {
		before += numberIn(d) / math.Pow10(i+1)
	}
	for after >= 1 {
		after /= 10
	}
	r := reading{number: before + after}
	r.unit, r.weak = p.Unit.of()
	return r, true
}

func (p *pairOfNumbers) value() float64 {
	many, _, _ := words.Number(p.Many)
	return float64(many)*100 + added(p.Tens)
}

func (h *hundreds) value() (reading, bool) {
	r := reading{number: h.Pair.value(), whole: true}
	r.unit, r.weak = h.Unit.of()
	return withPart(r, h.Fraction, r.number >= 100 && added(h.Pair.Tens) >= 10)
}

// withPart is a reading with a fraction behind it, if there is one.
func withPart(r reading, f *fraction, ok bool) (reading, bool) {
	if f == nil {
		return r, ok
	}
	part, fine := f.value()
	r.number, r.whole = r.number+part, false
	return r, ok && fine
}

func (f *figures) value() (reading, bool) {
	first, second, third := numberIn(f.First), numberIn(f.Second), numberIn(f.Third)
	_, plural, _ := words.Number(f.Third)
	r := reading{number: first*100 + second*10 + third, whole: true, plural: plural || f.Plural != ""}
	r.unit, r.weak = f.Unit.of()
	return withPart(r, f.Fraction, first > 0 && (first < 10 || second == 0) && third < 10)
}

func (s *strokeBlank) value() (reading, bool) {
	over, under := parsed(s.Over), parsed(s.Under)
	r := reading{number: over / under}
	r.unit, r.weak = s.Unit.of()
	return r, isTape(s.Under) && over < under && math.Mod(over, 2) == 1 && (r.unit == NoUnit || r.unit == InchUnit)
}

func (t *tens) value() (reading, bool) {
	n, _, _ := words.Number(t.Ten)
	return reading{number: float64(n), whole: true}, true
}

func (h *hundredAndTens) value() (reading, bool) {
	many, _, _ := words.Number(h.Many)
	n, _, _ := words.Number(h.Ten)
	return reading{number: float64(many*100 + n), whole: true}, many > 0
}

func (r *round) value() (reading, bool) {
	many, _, ok := words.Number(r.Many)
	if !ok {
		many = 1
	}
	n, _, _ := words.Number(r.Hundred)
	out := reading{number: float64(many * n), whole: true}
	out.unit, out.weak = r.Unit.of()
	return out, true
}

func (h *heard) value() (reading, bool) {
	last := h.Before[len(h.Before)-1]
	whole, over := h.Before[0], ""
	if len(h.Before) == 3 {
		over = h.Before[1]
	} else {
		for _, n := range []int{1, 2} {
			if len(whole) > n && parsed(whole[len(whole)-n:]) < parsed(last) && (n == 1) == (parsed(whole[len(whole)-n:]) < 10) {
				over, whole = whole[len(whole)-n:], whole[:len(whole)-n]
				break
			}
		}
	}
	if over == "" || !isTape(last) || parsed(over) >= parsed(last) || parsed(over) == 0 || math.Mod(parsed(over), 2) == 0 {
		return reading{}, false
	}
	r := reading{number: parsed(whole) + parsed(over)/parsed(last)}
	r.unit, r.weak = h.Unit.of()
	return r, true
}

func (s *strokeLost) value() (reading, bool) {
	n, soft := s.Whole.value()
	if soft {
		return reading{}, false
	}
	if s.Under != "" {
		r := reading{number: n + parsed(s.Lost)/parsed(s.Under)}
		r.unit, r.weak = s.Unit.of()
		return r, isTape(s.Under) && parsed(s.Lost) < parsed(s.Under) && math.Mod(parsed(s.Lost), 2) == 1
	}
	for _, under := range []string{"2", "4", "8", "16"} {
		over, cut := strings.CutSuffix(s.Lost, under)
		if cut && over != "" && parsed(over) < parsed(under) && math.Mod(parsed(over), 2) == 1 {
			r := reading{number: n + parsed(over)/parsed(under)}
			r.unit, r.weak = s.Unit.of()
			return r, true
		}
	}
	return reading{}, false
}

// inDigits is the measure of figures that are run together, the whole in front: 8-1/4
// of 814, 3/4 of 34. It is 0 where they are none.
func inDigits(figures string) float64 {
	for _, under := range []string{"16", "8", "4", "2"} {
		rest, _ := strings.CutSuffix(figures, under)
		for n := 1; n <= 2 && n <= len(rest) && len(rest) < len(figures); n++ {
			over, before := rest[len(rest)-n:], rest[:len(rest)-n]
			if over[0] != '0' && !strings.HasPrefix(before, "0") && math.Mod(parsed(over), 2) == 1 && parsed(over) < parsed(under) {
				return parsed(before) + parsed(over)/parsed(under)
			}
		}
	}
	return 0
}

func (x *runIn) value() (reading, bool) {
	return inRun(inDigits(x.Whole+strings.Replace(x.Stroked, "/", "", 1)), x.Unit)
}

func (x *runBehind) value() (reading, bool) {
	part := inDigits(x.Part)
	r, ok := inRun(parsed(x.Whole)+part, x.Unit)
	return r, ok && 0 < part && part < 1
}

// inRun is a reading of figures that are run together.
func inRun(number float64, u *unit) (reading, bool) {
	r := reading{number: number}
	r.unit, r.weak = u.of()
	return r, number > 0 && (r.unit == NoUnit || r.unit == InchUnit)
}

// isTape says whether a denominator is one that a tape is read in.
func isTape(figures string) bool {
	switch figures {
	case "2", "4", "8", "16", "32":
		return true
	}
	return false
}

func (s *softEighth) value() (reading, bool) {
	n, soft := s.Whole.value()
	over := 1.0
	if s.Count != nil {
		over = parsed(s.Count.Figures) + numberIn(s.Count.Word)
	}
	r := reading{number: n + over/8}
	r.unit, r.weak = s.Unit.of()
	v, _, _ := words.Number(s.Soft)
	return r, !soft && v == 8 && over < 8 && math.Mod(over, 2) == 1
}

func (x *interrupted) value() (reading, bool) {
	n, soft := x.Whole.value()
	f, ok := x.Fraction.value()
	r := reading{number: n + f}
	r.unit, r.weak = x.Unit.of()
	return r, ok && !soft
}

func (t *tensAndArticle) value() (reading, bool) {
	r := reading{number: numberIn(t.Tens) + 1, whole: t.Fraction == nil}
	r.unit, r.weak = t.Unit.of()
	return withPart(r, t.Fraction, isSpanish(t.Between))
}

// isSpanish says whether a word of the vocabulary is Spanish.
func isSpanish(word string) bool {
	t := words.Find(word)
	return t != nil && t.Language == "es"
}

func (t *tensApart) value() (reading, bool) {
	tens, digit := figureOrWord(t.Tens), figureOrWord(t.Digit)
	_, plural, _ := words.Number(t.Digit)
	r := reading{number: tens + digit, whole: true, plural: plural || t.Plural != ""}
	return r, isSpanish(t.Between) && tens >= 20 && tens < 100 && math.Mod(tens, 10) == 0 && digit > 0 && digit < 10
}

// figureOrWord is the value of a whole number in figures or of a number word.
func figureOrWord(text string) float64 {
	if n, err := strconv.Atoi(text); err == nil {
		return float64(n)
	}
	return numberIn(text)
}
