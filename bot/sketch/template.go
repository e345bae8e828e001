package sketch

import (
	"io"
	"math"
	"strconv"
	"time"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/geometry"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-pdf/fpdf"
)

// Template is a strip to be printed at true scale, cut out and wrapped around a
// pipe: the line of an odd cut over a square line, with what it is for. A ruler in
// inches and one in millimeters lie beside it, to check the printer with.
type Template struct {
	Title, Understood string
	strip             figure.Strip
	options           wording.Options
}

// TemplateOf is the template of an answer. The error is [ErrNothingToDraw] where
// nothing is wrapped around a pipe, and [ErrTooLarge] where the cut is deeper than
// a sheet is long.
func TemplateOf(a *figure.Answer, o wording.Options) (*Template, error) {
	if len(a.Strip.Points) < 2 || a.Strip.Girth <= 0 {
		return nil, ErrNothingToDraw
	}
	title, understood := wording.Heading(a, o)
	t := &Template{Title: title, Understood: understood, strip: a.Strip, options: o}
	if t.deep() > tallest {
		return nil, ErrTooLarge
	}
	return t, nil
}

// How the sheet of a template is laid out, in points of print: 72 to the inch.
const (
	inch      = 72.0
	edge      = inch / 2    // that printers leave free
	rulers    = 1.7 * inch  // the title and the two rulers, above the strip
	collar    = 0.75 * inch // of paper under the square line, to hold the strip by
	lap       = inch / 4    // that one sheet is glued over the next by
	checkLong = 6.0         // inches of the ruler
	checkMM   = 150         // and millimeters
)

// tallest is the deepest cut that a sheet has room for.
const tallest = geometry.Length((paperHigh - 2*edge - rulers - collar) / inch)

// deep is how far the cut reaches past the square line.
func (t *Template) deep() geometry.Length {
	deepest := geometry.Length(0)
	for _, p := range t.strip.Points {
		deepest = max(deepest, p)
	}
	return deepest
}

// sheet is how wide and how high the paper lies: long side across, unless the cut
// is too deep for that.
func (t *Template) sheet() (wide, high float64) {
	if t.deep().Inches()*inch+rulers+collar+2*edge > paperWide {
		return paperWide, paperHigh
	}
	return paperHigh, paperWide
}

// PDF writes the template on Letter paper, on as many sheets as the pipe is wide
// around. It must be printed at 100 %, not fitted to the page. When is written
// into the file as the time it was made.
func (t *Template) PDF(w io.Writer, when time.Time) error {
	wide, high := t.sheet()
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: wide, Ht: high}})
	doc.SetTitle(t.Title, true)
	doc.SetCreationDate(when)
	doc.SetModificationDate(when)
	doc.SetCatalogSort(true)
	doc.SetAutoPageBreak(false, 0)
	doc.AddUTF8FontFromBytes(pdfFont, "", liberationsansbold.TTF)
	each := wide - 2*edge - lap
	sheets := int(math.Ceil(t.strip.Girth.Inches()*inch/each - 1e-9))
	for n := range sheets {
		doc.AddPage()
		s := templateSheet{t, doc, edge - float64(n)*each, edge + rulers + t.deep().Inches()*inch}
		doc.SetTextColor(0, 0, 0)
		s.words(edge, edge+14, 14, t.Title)
		s.words(edge, edge+30, 10, t.Understood+sheetNumber(n+1, sheets))
		s.rulers(edge + 58)
		doc.ClipRect(edge, edge+rulers-inch/8, min(wide-2*edge, t.strip.Girth.Inches()*inch-float64(n)*each+1), high-rulers-2*edge+inch/8, false)
		s.strip()
		doc.ClipEnd()
	}
	return doc.Output(w)
}

func sheetNumber(n, of int) string {
	if of < 2 {
		return ""
	}
	return "  (" + strconv.Itoa(n) + "/" + strconv.Itoa(of) + ")"
}

// templateSheet is one sheet: where the strip begins on it, which may be left of
// the paper, and how far down its square line lies.
type templateSheet struct {
	*Template
	doc         *fpdf.Fpdf
	left, below float64
}

func (s templateSheet) words(x, y, size float64, text string) {
	s.doc.SetFont(pdfFont, "", size)
	s.doc.Text(x, y, text)
}

func (s templateSheet) line(x, y, toX, toY, wide float64) {
	s.doc.SetLineWidth(wide)
	s.doc.Line(x, y, toX, toY)
}

// rulers draws inches and millimeters to lay a tape on.
func (s templateSheet) rulers(y float64) {
	s.doc.SetDrawColor(0, 0, 0)
	say := sketcher{options: s.options}.say
	s.line(edge, y, edge+checkLong*inch, y, 0.6)
	for n := range int(checkLong)*8 + 1 {
		tick := 5.0
		if n%8 == 0 {
			tick = 10
			s.words(edge+float64(n)/8*inch-2, y-12, 7, strconv.Itoa(n/8))
		}
		s.line(edge+float64(n)/8*inch, y, edge+float64(n)/8*inch, y-tick, 0.5)
	}
	for n := range checkMM/5 + 1 {
		tick := 5.0
		if n%2 == 0 {
			tick = 10
		}
		x := edge + float64(5*n)/25.4*inch
		s.line(x, y, x, y+tick, 0.5)
		if n%10 == 0 {
			s.words(x-4, y+18, 7, strconv.Itoa(5*n))
		}
	}
	s.words(edge, y+32, 8, say(wordCheckPrinter))
}

// strip draws the square line, the eighths with their marks, and the line of the
// cut.
func (s templateSheet) strip() {
	say := sketcher{options: s.options}.say
	girth := s.Template.strip.Girth.Inches() * inch
	points := s.Template.strip.Points
	s.doc.SetDrawColor(0, 0, 0)
	s.line(s.left, s.below, s.left+girth, s.below, 0.8)
	s.line(s.left, s.below+collar, s.left+girth, s.below+collar, 0.4)
	names := map[int]word{0: wordThroat, 2: wordSide, 4: wordBack, 6: wordSide, 8: wordThroat}
	for n := range 9 {
		x := s.left + girth*float64(n)/8
		past := points[n*(len(points)-1)/8]
		s.line(x, s.below+collar, x, s.below-past.Inches()*inch, 0.4)
		text := wording.Tape(past, s.options)
		if name, ok := names[n]; ok {
			text = say(name) + " " + text
		}
		at := x + 3
		if n == 8 {
			at = x - 60
		}
		s.words(at, s.below+12, 8, text)
	}
	s.doc.SetDrawColor(int(red.r), int(red.g), int(red.b))
	for n := 1; n < len(points); n++ {
		step := girth / float64(len(points)-1)
		x, y := s.left+step*float64(n-1), s.below-points[n-1].Inches()*inch
		s.line(x, y, x+step, s.below-points[n].Inches()*inch, 1.2)
	}
}
