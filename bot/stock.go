package bot

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"dogleg/bot/cutlist"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// stock is what sticks are to be planned with.
type stock struct {
	length geometry.Length // 0 is the usual one of each pipe
	saw    cutlist.Saw
	pipe   catalog.Pipe // zero is every pipe on the list
}

// errNotStock says that there is something in the words that is no length, saw
// or pipe.
var errNotStock = errors.New("bot: no stock length, saw or pipe")

// readStock reads "10 ft", "20 ft copper hacksaw", "6 m kerf 2 mm".
func readStock(words string) (stock, error) {
	s := stock{saw: usualSaw()}
	fields := strings.Fields(strings.ToLower(words))
	for i, f := range fields {
		fields[i] = strings.TrimSuffix(f, ",")
	}
	fields = s.takeLength(fields)
	fields = s.takeSaw(fields)
	fields = s.takeKerf(fields)
	fields = slices.DeleteFunc(fields, func(w string) bool {
		return slices.Contains([]string{"of", "for", "with", "a", "de", "para", "con", "una"}, w)
	})
	if len(fields) == 0 {
		return s, nil
	}
	a, ok := parser.Answer(strings.Join(fields, " "), parser.PipeOf)
	if !ok {
		return s, errNotStock
	}
	s.pipe = a.Pipe
	return s, nil
}

// usualSaw is the saw that is reckoned with where none is named: of all the one
// whose kerf is the widest, so that no stick comes out short.
func usualSaw() cutlist.Saw {
	kerfs := catalog.Kerfs()
	widest := slices.MaxFunc(kerfs, func(a, b catalog.Kerf) int {
		return cmp.Compare(a.Length, b.Length)
	})
	return cutlist.Saw{Name: widest.Saw, Kerf: widest.Length, Source: widest.Source}
}

// feetBelow is under which number a stock length without a unit is in feet: no
// stick is sold so short in inches.
const feetBelow = 36

// takeLength takes the length that stands first, or behind "of".
func (s *stock) takeLength(fields []string) []string {
	if len(fields) > 1 && (fields[0] == "of" || fields[0] == "de") {
		fields = fields[1:]
	}
	if len(fields) == 0 || fields[0][0] < '0' || fields[0][0] > '9' {
		return fields
	}
	n := 1
	if len(fields) > 1 && slices.Contains([]string{
		"ft", "ft.", "foot", "feet", "in", "in.", "inch", "inches", "m", "m.", "mm", "cm", "meter", "meters", "metre", "metres",
		"pie", "pies", "pulgadas", "pulg", "metro", "metros",
	}, fields[1]) {
		n = 2
	}
	a, ok := parser.Answer(strings.Join(fields[:n], " "), parser.Cut)
	l, found := a.Length(parser.Cut)
	if !ok || !found {
		return fields
	}
	if n == 1 && isNumber(fields[0]) && l < feetBelow {
		l *= 12
	}
	s.length = l
	return fields[n:]
}

// takeSaw takes the name of a saw.
func (s *stock) takeSaw(fields []string) []string {
	text := " " + strings.Join(fields, " ") + " "
	for _, k := range catalog.Kerfs() {
		for _, name := range cutlist.SawNames(k.Saw) {
			if before, after, ok := strings.Cut(text, " "+name+" "); ok {
				s.saw = cutlist.Saw{Name: k.Saw, Kerf: k.Length, Source: k.Source}
				return strings.Fields(before + " " + after)
			}
		}
	}
	return fields
}

// takeKerf takes "kerf 1/16".
func (s *stock) takeKerf(fields []string) []string {
	i := slices.IndexFunc(fields, func(w string) bool { return w == "kerf" || w == "sierra" || w == "disco" })
	if i < 0 || i+1 == len(fields) {
		return fields
	}
	n := min(2, len(fields)-i-1)
	for ; n > 0; n-- {
		a, ok := parser.Answer(strings.Join(fields[i+1:i+1+n], " "), parser.Cut)
		if l, found := a.Length(parser.Cut); ok && found {
			s.saw = cutlist.Saw{Kerf: l}
			return append(slices.Clone(fields[:i]), fields[i+1+n:]...)
		}
	}
	return fields
}

// sticks plans which stock lengths the open pieces are cut from.
func (t *turn) sticks(s parser.Statement, words string) part {
	with, err := readStock(words)
	if err != nil {
		return said(s, false, t.sayOfList("stock unread", "words", words))
	}
	cuts := t.listMemory().Cuts()
	open := cutlist.Open(piecesOf(cuts))
	if len(open) == 0 {
		return said(s, true, t.sayOfList("none open"))
	}
	buys, err := buysOf(open, with)
	switch {
	case err != nil:
		return t.refuseStock(s, err)
	case len(buys) == 0:
		return said(s, false, t.sayOfList("none of that pipe"))
	}
	o := t.options(t.talk.Language)
	p := said(s, true, cutlist.PlanText(buys, with.saw, o))
	p.aside = append(p.aside, File{Name: "sticks" + t.stamp() + ".csv", Content: stickTable(buys)})
	r := recipe{Of: theSticks, Options: o, Pieces: cuts, Stock: with.length, Saw: with.saw, Pipe: with.pipe, When: t.message.When}
	p.aside = append(p.aside, t.toBePainted(r, "sticks"+t.stamp()+".png", true)...)
	return p
}

// buysOf plans each pipe that is wanted.
func buysOf(open []cutlist.Piece, with stock) ([]cutlist.Buy, error) {
	var buys []cutlist.Buy
	for _, lot := range cutlist.Lots(open) {
		if !wanted(lot.Pipe, with.pipe) {
			continue
		}
		b, err := cutlist.Plan(lot, with.length, with.saw.Kerf)
		if err != nil {
			return nil, err
		}
		buys = append(buys, b)
	}
	return buys, nil
}

// refuseStock says what is wrong with a stock length or a kerf.
func (t *turn) refuseStock(s parser.Statement, err error) part {
	var problem *geometry.Problem
	if errors.As(err, &problem) {
		return said(s, false, t.sayOfList("stock unread", "words", s.Text))
	}
	return t.refuse(s, errFault)
}

// wanted says whether a pipe is what somebody named; nothing named is any.
func wanted(p cutlist.Pipe, named catalog.Pipe) bool {
	s := p.System
	return (named.Size == "" || named.Size == p.Size) &&
		(named.Material == "" || named.Material == s.Material) &&
		(named.Joint == "" || named.Joint == s.Joint) &&
		(named.Use == "" || named.Use == s.Use) &&
		(named.Schedule == "" || named.Schedule == s.Schedule)
}

// stamp is the day of the message for the name of a file.
func (t *turn) stamp() string { return t.message.When.Format("-2006-01-02") }
