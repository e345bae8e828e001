package sketch

import (
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// SVG writes the same picture as [Drawing.PNG] does as an SVG document.
func (d *Drawing) SVG(w io.Writer) error {
	p := d.laid()
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s">`+"\n", short(p.wide), short(p.high))
	fmt.Fprintf(&b, `<rect width="100%%" height="100%%" fill="%s"/>`+"\n", white)
	b.WriteString(`<g font-family="Liberation Sans, Arial, Helvetica, sans-serif" font-weight="bold" stroke-linejoin="round" fill="none">` + "\n")
	for _, i := range p.items {
		i.writeSVG(&b)
	}
	b.WriteString("</g>\n</svg>\n")
	_, err := io.WriteString(w, b.String())
	return err
}

func (i item) writeSVG(b *strings.Builder) {
	switch {
	case i.text != "":
		at := i.points[0]
		fmt.Fprintf(b, `<text x="%s" y="%s" font-size="%s" fill="%s">`, short(at.x), short(at.y), short(i.size), i.ink)
		_ = xml.EscapeText(b, []byte(i.text)) // a builder takes everything
		b.WriteString("</text>\n")
	case i.closed:
		fmt.Fprintf(b, `<polygon points="%s" fill="%s"/>`+"\n", corners(i.points), i.ink)
	default:
		fmt.Fprintf(b, `<polyline points="%s" stroke="%s" stroke-width="%s"`, corners(i.points), i.ink, short(i.width))
		if len(i.dashes) > 0 {
			fmt.Fprintf(b, ` stroke-dasharray="%s"`, dashArray(i.dashes))
		}
		b.WriteString("/>\n")
	}
}

// String is the ink as SVG writes it.
func (i ink) String() string { return fmt.Sprintf("#%02x%02x%02x", i.r, i.g, i.b) }

func corners(points []spot) string {
	var all []string
	for _, p := range points {
		all = append(all, short(p.x)+","+short(p.y))
	}
	return strings.Join(all, " ")
}

func dashArray(dashes []float64) string {
	var all []string
	for _, d := range dashes {
		all = append(all, short(d))
	}
	return strings.Join(all, " ")
}

// short writes a number to a hundredth of a point.
func short(x float64) string {
	s := strconv.FormatFloat(x, 'f', 2, 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}
