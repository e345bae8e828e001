package sketch

import (
	"io"
	"time"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-pdf/fpdf"
)

// pdfFont is what the one font is called in a PDF.
const pdfFont = "words"

// pdf writes the page as a PDF of one sheet of Letter paper, as large as it
// goes on it. The same page makes the same bytes.
func (p page) pdf(w io.Writer, title string, when time.Time) error {
	return printed(w, title, when, p)
}

// PDF writes sheets as the pages of one PDF on Letter paper.
func PDF(w io.Writer, when time.Time, sheets ...*Sheet) error {
	var pages []page
	for _, s := range sheets {
		pages = append(pages, s.laid(onPaper))
	}
	return printed(w, sheets[0].Title, when, pages...)
}

// onPaper is how high a page of so many columns may be.
func onPaper(columns int) float64 { return paperColumn * float64(columns) }

// printed writes pages as a PDF.
func printed(w io.Writer, title string, when time.Time, pages ...page) error {
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: paperWide, Ht: paperHigh}})
	doc.SetTitle(title, true)
	doc.SetCreationDate(when)
	doc.SetModificationDate(when)
	doc.SetCatalogSort(true)
	doc.SetAutoPageBreak(false, 0)
	doc.AddUTF8FontFromBytes(pdfFont, "", liberationsansbold.TTF)
	for _, p := range pages {
		doc.AddPage()
		scale := min(paperWide/p.wide, paperHigh/p.high)
		for _, i := range p.items {
			i.print(doc, scale)
		}
	}
	return doc.Output(w)
}

// print puts an item on the paper.
func (i item) print(doc *fpdf.Fpdf, scale float64) {
	r, g, b := int(i.ink.r), int(i.ink.g), int(i.ink.b)
	switch {
	case i.text != "":
		doc.SetFont(pdfFont, "", i.size*scale)
		doc.SetTextColor(r, g, b)
		doc.Text(i.points[0].x*scale, i.points[0].y*scale, i.text)
	case i.closed:
		var corners []fpdf.PointType
		for _, p := range i.points {
			corners = append(corners, fpdf.PointType{X: p.x * scale, Y: p.y * scale})
		}
		doc.SetFillColor(r, g, b)
		doc.Polygon(corners, "F")
	default:
		doc.SetDrawColor(r, g, b)
		doc.SetLineWidth(i.width * scale)
		for n := 1; n < len(i.points); n++ {
			p, q := i.points[n-1], i.points[n]
			doc.Line(p.x*scale, p.y*scale, q.x*scale, q.y*scale)
		}
	}
}
