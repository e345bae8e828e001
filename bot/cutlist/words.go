package cutlist

import (
	_ "embed"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// sentencesCSV has the sentences of the list, in every language.
//
//go:embed sentences.csv
var sentencesCSV string

var sentences = sync.OnceValue(func() wording.Sentences { return wording.ReadSentences(sentencesCSV) })

// Say words a sentence of the list: pairs are the names in braces, each with what
// takes its place.
func Say(o wording.Options, key string, pairs ...string) string {
	return sentences().Say(key, o, pairs...)
}

// The marks of a piece on the list.
const (
	openMark = "□"
	doneMark = "■"
)

// pieceLength is how long a piece is cut, an unsure one left long: "14-3/4
// light", "about 17-1/16".
func pieceLength(p Piece, o wording.Options) string {
	o.Metric = o.Metric || p.Metric
	return wording.CutLength(p.Length, p.About, p.Band, o)
}

// pieceLineOn is one piece on the list of its pipe: "□ 2. 14-3/4 light, 45s,
// laundry, second floor".
func pieceLineOn(p Piece, o wording.Options) string { return pieceLine(p, "", o) }

// pieceAlone is the same with its pipe, for a line of its own.
func pieceAlone(p Piece, o wording.Options) string { return pieceLine(p, pipeName(p.Pipe, o), o) }

func pieceLine(p Piece, pipe string, o wording.Options) string {
	mark := openMark
	if p.Done {
		mark = doneMark
	}
	return mark + " " + numbered(p, pipe, o)
}

func numbered(p Piece, pipe string, o wording.Options) string {
	return strconv.FormatUint(p.Number, 10) + ". " + wording.Commas(pieceLength(p, o), pieceEnds(p, o), pipe, p.Name, p.Floor)
}

// pieceEnds are the fittings at the ends of a piece: "45s", "45 and 90".
func pieceEnds(p Piece, o wording.Options) string {
	first, second := p.Fittings[0], p.Fittings[1]
	switch {
	case first.Shape == "" && second.Shape == "":
		return ""
	case first == second:
		return wording.FittingNames(first, o)
	case first.Shape == "" || second.Shape == "":
		if first.Shape == "" {
			first = second
		}
		return wording.FittingName(first, o)
	}
	return wording.And([]string{wording.FittingName(first, o), wording.FittingName(second, o)}, o)
}

// pipeName is what a piece is cut from: "2 PVC DWV".
func pipeName(p Pipe, o wording.Options) string {
	if p.System.Name == "" && p.Size == "" {
		return ""
	}
	return strings.TrimSpace(string(p.Size) + " " + wording.Term(p.System.Name, o))
}

// lotName is the heading over the pieces of a pipe.
func lotName(p Pipe, o wording.Options) string {
	if name := pipeName(p, o); name != "" {
		return name
	}
	return Say(o, "no pipe named")
}

// text is the whole list, those of one pipe together.
func text(pieces []Piece, o wording.Options) string {
	lines := []string{heading(pieces, o)}
	for _, lot := range Lots(pieces) {
		lines = append(lines, lotName(lot.Pipe, o))
		for _, p := range lot.Pieces {
			lines = append(lines, pieceLineOn(p, o))
		}
	}
	return strings.Join(append(lines, aboutPieces(pieces, o)...), "\n")
}

// boardText is the list in one message. Of one that is too long for that, the rest
// is left out, and it says so.
func boardText(pieces []Piece, o wording.Options) string {
	if len(pieces) == 0 {
		return Say(o, "list empty")
	}
	return wording.OneMessage(strings.Split(text(pieces, o), "\n"))
}

// checkLabel is what stands on the button of a piece: "□ 2. 14-3/4 light,
// laundry".
func checkLabel(p Piece, o wording.Options) string {
	p.Floor, p.Fittings = "", [2]catalog.Fitting{}
	return pieceLine(p, "", o)
}

// heading says how many pieces are open and how many are done.
func heading(pieces []Piece, o wording.Options) string {
	open, done := howMany(pieces, o)
	return Say(o, "cut list", "open", open, "done", done)
}

// howMany says how many pieces of a list are open, and how many done: "1 open",
// "2 done".
func howMany(pieces []Piece, o wording.Options) (open, done string) {
	n := len(Open(pieces))
	open, done = Say(o, "one piece open"), Say(o, "one piece done")
	if n != 1 {
		open = Say(o, "pieces open", "number", strconv.Itoa(n))
	}
	if d := len(pieces) - n; d != 1 {
		done = Say(o, "pieces done", "number", strconv.Itoa(d))
	}
	return open, done
}

// aboutPieces says what to do with those open pieces whose cut is only about
// so.
func aboutPieces(pieces []Piece, o wording.Options) []string {
	if slices.ContainsFunc(Open(pieces), func(p Piece) bool { return p.About && p.Band > 0 }) {
		return []string{Say(o, "about pieces")}
	}
	return nil
}

// clearedWords says what was on a list that is no more.
func clearedWords(pieces []Piece, o wording.Options) string {
	open, done := howMany(pieces, o)
	return Say(o, "list cleared", "open", open, "done", done)
}

// exportedWords says what a table and a sheet hold.
func exportedWords(pieces []Piece, o wording.Options) string {
	return Say(o, "exported", "list", heading(pieces, o))
}

// Saw is what takes the kerf. Name and Source are empty where only a kerf was
// given.
type Saw struct {
	Name   string // of the catalog: "hacksaw"
	Kerf   geometry.Length
	Source string
}

// sawNames is what a saw of the catalog is called, in every language.
func sawNames(saw string) []string {
	names := []string{saw}
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		if name, ok := sentences().Said("saw "+saw, wording.Options{Language: l}); ok {
			names = append(names, name)
		}
	}
	return names
}

// planText says which sticks to buy and how to cut them.
func planText(buys []Buy, saw Saw, o wording.Options) string {
	var lines []string
	var pieces []Piece
	for _, b := range buys {
		pieces = append(pieces, b.Pieces...)
		lines = append(lines, stickHeading(b, o))
		for i, s := range b.Sticks {
			lines = append(lines, stickLine(i+1, s, o))
		}
		lines = append(lines, overLong(b, o)...)
		lines = append(lines, "")
	}
	lines = append(lines, fittingLines(pieces, o)...)
	lines = append(lines, kerfWords(saw, ofPieces(pieces, o)))
	return strings.Join(append(lines, leftLong(pieces, o)...), "\n")
}

// stickHeading says how many sticks of a pipe are needed, and whether fewer
// can't do: "2 PVC DWV: 3 sticks of 10 ft. Fewer can't do."
func stickHeading(b Buy, o wording.Options) string {
	o = ofPieces(b.Pieces, o)
	pipe, number := lotName(b.Pipe, o), strconv.Itoa(len(b.Sticks))
	switch {
	case b.Stock == 0:
		return Say(o, "stock unknown", "pipe", pipe)
	case len(b.Sticks) == 0:
		return Say(o, "no sticks", "pipe", pipe, "stock", stockLength(b.Stock, o))
	case len(b.Sticks) == 1:
		return Say(o, "one stick", "pipe", pipe, "stock", stockLength(b.Stock, o))
	case b.Proven():
		return Say(o, "fewest sticks", "pipe", pipe, "number", number, "stock", stockLength(b.Stock, o))
	}
	return Say(o, "perhaps fewer sticks", "pipe", pipe, "number", number, "stock", stockLength(b.Stock, o), "least", strconv.Itoa(b.Least))
}

// ofPieces are the options to speak of pieces with: of any that were asked in
// millimeters in millimeters.
func ofPieces(pieces []Piece, o wording.Options) wording.Options {
	o.Metric = o.Metric || slices.ContainsFunc(pieces, func(p Piece) bool { return p.Metric })
	return o
}

// stickLine is what comes out of one stick: "1) #4 62-1/2, #1 40; rest 17-1/4".
// A rest is rounded down.
func stickLine(number int, s Stick, o wording.Options) string {
	o = ofPieces(s.Pieces, o)
	var cuts []string
	for _, p := range s.Pieces {
		cuts = append(cuts, "#"+strconv.FormatUint(p.Number, 10)+" "+pieceLength(p, o))
	}
	return Say(o, "stick", "number", strconv.Itoa(number), "cuts", strings.Join(cuts, ", "), "rest", wording.RoundedDown(s.Rest, o))
}

// overLong names the pieces that are longer than a stick.
func overLong(b Buy, o wording.Options) []string {
	var lines []string
	for _, p := range b.Over {
		lines = append(lines, Say(o, "over long", "number", strconv.FormatUint(p.Number, 10), "length", pieceLength(p, o), "stock", stockLength(b.Stock, o)))
	}
	return lines
}

// fittingLines count the fittings of pieces, those of one pipe on a line.
func fittingLines(pieces []Piece, o wording.Options) []string {
	var lines []string
	counts := Fittings(pieces)
	for _, lot := range Lots(pieces) {
		var parts []string
		for _, c := range counts {
			if c.Pipe == lot.Pipe {
				parts = append(parts, fittingCount(c, o))
			}
		}
		if len(parts) > 0 {
			lines = append(lines, Say(o, "fittings needed", "pipe", lotName(lot.Pipe, o), "fittings", strings.Join(parts, ", ")))
		}
	}
	if len(lines) > 0 {
		lines = append(lines, Say(o, "shared fittings"))
	}
	return lines
}

// fittingCount is "4 × 45": a multiplication sign keeps the number and the
// bend's name apart.
func fittingCount(c Count, o wording.Options) string {
	return strconv.Itoa(c.Number) + " × " + wording.FittingName(c.Fitting, o)
}

// sawn is the width of a saw as a tape has it, in sixty-fourths.
func kerfWidth(l geometry.Length, o wording.Options) string {
	if o.Metric {
		return wording.Stated(l, o)
	}
	return l.Tape(64).String()
}

// kerfWords says what was reckoned for the saw.
func kerfWords(s Saw, o wording.Options) string {
	name, known := sentences().Said("saw "+s.Name, o)
	switch {
	case !known:
		return Say(o, "kerf said", "kerf", wording.Stated(s.Kerf, o))
	case s.Kerf == 0:
		return Say(o, "no kerf", "saw", name)
	}
	return Say(o, "kerf of saw", "kerf", kerfWidth(s.Kerf, o), "saw", name)
}

// leftLong says that pieces which are only about so were reckoned longer.
func leftLong(pieces []Piece, o wording.Options) []string {
	if slices.ContainsFunc(pieces, func(p Piece) bool { return p.About && p.Band > 0 }) {
		return []string{Say(o, "packed long")}
	}
	return nil
}

// stock writes a stock length as it is sold: in whole feet, or in meters to a
// tenth where it is that, 5.8 m, else as on the tape.
func stockLength(l geometry.Length, o wording.Options) string {
	whole := func(x float64) bool { return math.Abs(x-math.Round(x)) < 1e-6 }
	switch feet, meters := l.Inches()/12, l.Millimeters()/1000; {
	case whole(feet) && !o.Metric:
		return wording.WholeFeet(int(math.Round(feet)), o)
	case whole(meters * 10):
		return wording.Decimals(meters, 1) + " m"
	}
	return wording.WithUnit(l, o)
}

// planTitle stands over the picture of a plan: how many sticks in all, and of
// what where they are of one pipe.
func planTitle(buys []Buy, o wording.Options) string {
	all := 0
	for _, b := range buys {
		all += len(b.Sticks)
	}
	title := Say(o, "sticks in all", "number", strconv.Itoa(all))
	if all == 1 {
		title = Say(o, "one stick in all")
	}
	if len(buys) == 1 {
		title += ", " + lotName(buys[0].Pipe, o)
	}
	return title
}

// loadTitle stands over what the list needs of sticks and fittings.
func loadTitle(o wording.Options) string { return Say(o, "to load") }

// truckWords words what stands over and under the list on paper: its heading,
// and what belongs under any list that is sawn from.
func truckWords(pieces []Piece, o wording.Options) (title string, foot []string) {
	return heading(pieces, o), append(aboutPieces(pieces, o), wording.Notice(o))
}

// Sawn is how long a piece is cut, as it is written large: with its unit, without
// its feet, 14-3/4" light.
func Sawn(p Piece, o wording.Options) string {
	text, _, _ := strings.Cut(pieceLength(p, o), " (")
	words := strings.Fields(text)
	for i, w := range words {
		if strings.ContainsAny(w[:1], "0123456789") && !strings.Contains(text, "mm") {
			words[i] += `"`
			break
		}
	}
	return strings.Join(words, " ")
}

// pieceFor is what a piece is for, beside its number and its length: "45s,
// laundry, second floor".
func pieceFor(p Piece, o wording.Options) string {
	return wording.Commas(pieceEnds(p, o), p.Name, p.Floor)
}

// cutAt is where on the tape the cut goes that ends a piece on a stick, at so far
// from the stick's end.
func cutAt(l geometry.Length, of Piece, o wording.Options) string {
	of.Length, of.About, of.Band = l, false, 0
	text, _, _ := strings.Cut(pieceLength(of, o), " (")
	return text
}
