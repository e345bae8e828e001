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
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: paperWide, Ht: paperHigh}})
	doc.SetTitle(title, true)
	doc.SetCreationDate(when)
	doc.SetModificationDate(when)
	doc.SetCatalogSort(true)
	doc.SetAutoPageBreak(false, 0)
	doc.AddUTF8FontFromBytes(pdfFont, "", liberationsansbold.TTF)
	doc.AddPage()
	scale := min(paperWide/p.wide, paperHigh/p.high)
	for _, i := range p.items {
		i.print(doc, scale)
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
