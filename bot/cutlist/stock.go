package cutlist

import (
	"cmp"
	"errors"
	"slices"
	"strconv"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// stock is what sticks are to be planned with.
type stock struct {
	length geometry.Length // 0 is the usual one of each pipe
	saw    Saw
	named  bool         // the saw, or what it takes
	pipe   catalog.Pipe // zero is every pipe on the list
}

// errNotStock says that there is something in the words that is no length, saw
// or pipe.
var errNotStock = errors.New("bot: no stock length, saw or pipe")

// readStock reads "10 ft", "20 ft copper hacksaw", "6 m kerf 2 mm".
func readStock(words string) (stock, error) {
	var s stock
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

// on is the stock for these pieces: with the usual saw for them where none is named.
func (s stock) on(open []Piece) stock {
	if s.named {
		return s
	}
	open = slices.DeleteFunc(slices.Clone(open), func(p Piece) bool { return !wanted(p.Pipe, s.pipe) })
	s.saw = usualSaw(open)
	return s
}

// usualSaw is the saw that is reckoned with where none is named: for copper the wheel
// that everybody cuts it with, which takes nothing; else of all the one whose kerf is
// the widest, so that no stick comes out short.
func usualSaw(of []Piece) Saw {
	kerfs := catalog.Kerfs()
	copper := func(p Piece) bool { return p.Pipe.System.Material == catalog.Copper }
	if !slices.ContainsFunc(of, func(p Piece) bool { return !copper(p) }) {
		if i := slices.IndexFunc(kerfs, func(k catalog.Kerf) bool { return k.Length == 0 }); i >= 0 {
			return Saw{Name: kerfs[i].Saw, Source: kerfs[i].Source}
		}
	}
	widest := slices.MaxFunc(kerfs, func(a, b catalog.Kerf) int {
		return cmp.Compare(a.Length, b.Length)
	})
	return Saw{Name: widest.Saw, Kerf: widest.Length, Source: widest.Source}
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
	if _, err := strconv.Atoi(fields[0]); n == 1 && err == nil && l < feetBelow {
		l *= 12
	}
	s.length = l
	return fields[n:]
}

// takeSaw takes the name of a saw.
func (s *stock) takeSaw(fields []string) []string {
	text := " " + strings.Join(fields, " ") + " "
	for _, k := range catalog.Kerfs() {
		for _, name := range sawNames(k.Saw) {
			if before, after, ok := strings.Cut(text, " "+name+" "); ok {
				s.saw, s.named = Saw{Name: k.Saw, Kerf: k.Length, Source: k.Source}, true
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
			s.saw, s.named = Saw{Kerf: l}, true
			return append(slices.Clone(fields[:i]), fields[i+1+n:]...)
		}
	}
	return fields
}

// IsStock says whether words are a stock length, a saw and a pipe, or nothing.
func IsStock(words string) bool {
	_, err := readStock(words)
	return err == nil
}

// sticks plans which stock lengths the open pieces are cut from.
func (l *List) sticks(o Order) (Part, error) {
	with, err := readStock(o.Words)
	if err != nil {
		return l.tell(false, "stock unread", "words", o.Words), nil
	}
	cuts := l.Kept.Cuts()
	open := Open(piecesOf(cuts))
	if len(open) == 0 {
		return l.tell(true, "none open"), nil
	}
	with = with.on(open)
	buys, err := buysOf(open, with)
	switch {
	case err != nil:
		return l.refuseStock(o, err)
	case len(buys) == 0:
		return l.tell(false, "none of that pipe"), nil
	}
	p := said(true, planText(buys, with.saw, l.Talk.Options()))
	r := &Recipe{Of: TheSticks, Pieces: cuts, Stock: with.length, Saw: with.saw, Pipe: with.pipe}
	p.Aside = []File{
		{Name: "sticks" + l.stamp() + ".csv", Content: stickTable(buys, l.Talk.Options())},
		{Name: "sticks" + l.stamp() + ".png", Picture: true, Recipe: r},
	}
	return p, nil
}

// buysOf plans each pipe that is wanted.
func buysOf(open []Piece, with stock) ([]Buy, error) {
	var buys []Buy
	for _, lot := range Lots(open) {
		if !wanted(lot.Pipe, with.pipe) {
			continue
		}
		b, err := Plan(lot, with.length, with.saw.Kerf)
		if err != nil {
			return nil, err
		}
		buys = append(buys, b)
	}
	return buys, nil
}

// material reckons what the open pieces take: pipe, fittings, couplings, joints,
// hangers, and what the joints are made with.
func (l *List) material(o Order) (Part, error) {
	with, err := readStock(o.Words)
	if err != nil {
		return l.tell(false, "stock unread", "words", o.Words), nil
	}
	cuts := l.Kept.Cuts()
	open := Open(piecesOf(cuts))
	if len(open) == 0 {
		return l.tell(true, "none open"), nil
	}
	with = with.on(open)
	needs, err := materialsOf(open, with, l.Talk.Code())
	switch {
	case err != nil:
		return l.refuseStock(o, err)
	case len(needs) == 0:
		return l.tell(false, "none of that pipe"), nil
	}
	p := said(true, materialText(needs, l.Talk.Options()))
	r := &Recipe{Of: TheMaterial, Pieces: cuts, Stock: with.length, Saw: with.saw, Pipe: with.pipe, Code: l.Talk.Code()}
	p.Aside = []File{
		{Name: "material" + l.stamp() + ".csv", Content: materialTable(needs)},
		{Name: "material" + l.stamp() + ".png", Picture: true, Recipe: r},
	}
	return p, nil
}

// materialsOf reckons each pipe that is wanted.
func materialsOf(open []Piece, with stock, code string) ([]Material, error) {
	var all []Material
	for _, lot := range Lots(open) {
		if !wanted(lot.Pipe, with.pipe) {
			continue
		}
		m, err := MaterialOf(lot, with.length, with.saw.Kerf, code)
		if err != nil {
			return nil, err
		}
		all = append(all, m)
	}
	return all, nil
}

// refuseStock says what is wrong with a stock length or a kerf; any other error is
// a fault of ours.
func (l *List) refuseStock(o Order, err error) (Part, error) {
	if _, ok := errors.AsType[*geometry.Problem](err); ok {
		return l.tell(false, "stock unread", "words", o.Text), nil
	}
	return Part{}, err
}

// wanted says whether a pipe is what somebody named; nothing named is any.
func wanted(p Pipe, named catalog.Pipe) bool {
	s := p.System
	return (named.Size == "" || named.Size == p.Size) &&
		(named.Material == "" || named.Material == s.Material) &&
		(named.Joint == "" || named.Joint == s.Joint) &&
		(named.Use == "" || named.Use == s.Use) &&
		(named.Schedule == "" || named.Schedule == s.Schedule)
}

// stamp is the day of the message for the name of a file.
func (l *List) stamp() string { return l.Message.When.Format("-2006-01-02") }
