package cutlist

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"

	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
)

// listTable writes the list as CSV, one piece a row, for a spreadsheet: length
// as the tape has it and in decimals of an inch.
func listTable(pieces []Piece, o wording.Options) []byte {
	rows := [][]string{{"piece", "pipe", "size", "tape", "inches", "about", "band", "fitting", "other fitting", "name", "floor", "done"}}
	for _, p := range pieces {
		rows = append(rows, []string{
			strconv.FormatUint(p.Number, 10), p.Pipe.System.Name, string(p.Pipe.Size),
			pieceLength(sure(p), o), decimals(p.Length), yes(p.About), decimals(p.Band),
			fittingKey(p, 0), fittingKey(p, 1), harmless(p.Name), harmless(p.Floor), yes(p.Done),
		})
	}
	return table(rows)
}

// sure is a piece without its about, which has a column of its own.
func sure(p Piece) Piece {
	p.About = false
	return p
}

// stickTable writes a plan as CSV, one piece a row and a last one for the rest of
// each stick: lengths as the tape has them, and in decimals of an inch.
func stickTable(buys []Buy, o wording.Options) []byte {
	rows := [][]string{{"pipe", "size", "stock", "stick", "piece", "tape", "inches", "name", "floor"}}
	for _, b := range buys {
		o := ofPieces(b.Pieces, o)
		for i, stick := range b.Sticks {
			row := []string{b.System.Name, string(b.Size), stockLength(b.Stock, o), strconv.Itoa(i + 1)}
			for _, p := range stick.Pieces {
				rows = append(rows, longer(row, strconv.FormatUint(p.Number, 10), sawnLength(p, o), decimals(p.Sawn()), harmless(p.Name), harmless(p.Floor)))
			}
			rows = append(rows, longer(row, "rest", wording.RoundedDown(stick.Rest, o), decimals(stick.Rest), "", ""))
		}
		for _, p := range b.Over {
			rows = append(rows, []string{b.System.Name, string(b.Size), stockLength(b.Stock, o), "too long", strconv.FormatUint(p.Number, 10), sawnLength(p, o), decimals(p.Sawn()), harmless(p.Name), harmless(p.Floor)})
		}
	}
	return table(rows)
}

// sawnLength is how long a piece is sawn, as the tape has it.
func sawnLength(p Piece, o wording.Options) string {
	return wording.CutLength(p.Sawn(), false, 0, o)
}

// materialTable writes what the pieces take as CSV, one thing a row, with the
// table that its number rests on.
func materialTable(needs []Material) []byte {
	rows := [][]string{{"pipe", "size", "item", "kind", "number", "unit", "by", "evidence"}}
	for _, m := range needs {
		pipe := []string{m.System.Name, string(m.Size)}
		add := func(item, kind string, number int, unit, by string, e catalog.Evidence) {
			if number > 0 {
				rows = append(rows, longer(pipe, item, kind, strconv.Itoa(number), unit, by, string(e)))
			}
		}
		add("pipe", decimals(m.Stock)+" in", len(m.Sticks), "stick", "", "")
		for _, c := range m.Fittings {
			add("fitting", c.Fitting.Key(), c.Number, "each", "", "")
		}
		if m.Couples() {
			add("fitting", "coupling", m.Splices, "each", "", "")
		}
		add("joint", string(m.System.Joint), m.Joints, "each", "", "")
		add("hanger", "at most "+decimals(m.Hanger.Spacing)+" in apart", m.Hangers, "each", m.Hanger.Table, m.Hanger.Evidence)
		if m.Wire > 0 {
			rows = append(rows, longer(pipe, "solder", "1/8 in wire", decimals(m.Wire), "in", "common practice", string(catalog.Memory)))
		}
	}
	for _, c := range Cements(needs) {
		plastic := strings.ToUpper(string(c.Of))
		quarts := func(item string, n float64) {
			rows = append(rows, []string{"", "", item, plastic, strconv.FormatFloat(can(n), 'g', -1, 64), "quart", "common practice", string(catalog.Memory)})
		}
		quarts("cement", c.Quarts)
		if c.Primer {
			quarts("primer", c.Quarts/2)
		}
	}
	return table(rows)
}

// longer is a row with more fields behind it.
func longer(row []string, more ...string) []string {
	return append(append([]string{}, row...), more...)
}

func table(rows [][]string) []byte {
	var text bytes.Buffer
	_ = csv.NewWriter(&text).WriteAll(rows) // a buffer takes everything
	return text.Bytes()
}

// decimals are inches, exact to more than a saw can do.
func decimals(l geometry.Length) string {
	s := strconv.FormatFloat(l.Inches(), 'f', 4, 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}

func yes(is bool) string {
	if is {
		return "yes"
	}
	return ""
}

func fittingKey(p Piece, end int) string {
	if p.Fittings[end].Shape == "" {
		return ""
	}
	return p.Fittings[end].Key()
}

// harmless is a name that no spreadsheet takes for a formula.
func harmless(name string) string {
	if strings.ContainsAny(name[:min(1, len(name))], "=+-@\t\r") {
		return "'" + name
	}
	return name
}
