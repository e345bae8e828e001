package sketch

import (
	"strings"
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
)

// The sizes of words, in points of a page 1080 across. On a phone 360 across
// the smallest comes out at 10, the smallest words at 12.
const (
	titleSize  = 84.0
	figureSize = 46.0
	mainSize   = 54.0
	largeSize  = 72.0
	smallSize  = 36.0
	tinySize   = 30.0
)

// lineHigh is how far a line of words stands from the next one, capHigh how high
// a figure is, and descent how far a p hangs down, all as parts of their size.
const (
	lineHigh = 1.16
	capHigh  = 0.73
	descent  = 0.2
)

// bold is the one font: Liberation Sans Bold, which every other Liberation,
// Arial and Helvetica is as wide as, so an SVG looks right without it.
var bold = sync.OnceValue(func() *opentype.Font {
	f, err := opentype.Parse(liberationsansbold.TTF)
	if err != nil {
		panic(err) // the font is a part of the program: it can't be broken
	}
	return f
})

// faceOf is the font in a size. One face is for one goroutine.
func faceOf(size float64) font.Face {
	face, err := opentype.NewFace(bold(), &opentype.FaceOptions{Size: size, DPI: 72})
	if err != nil {
		panic(err) // opentype.NewFace has no way to fail
	}
	return face
}

// ruler measures words.
type ruler struct{ face font.Face }

// measured is the size that a ruler measures in; widths go with the size.
const measured = 100

func newRuler() ruler { return ruler{faceOf(measured)} }

// wide is how wide a line of words is.
func (r ruler) wide(text string, size float64) float64 {
	return float64(font.MeasureString(r.face, text)) / 64 * size / measured
}

// together puts something else for the spaces at which no line breaks.
var together = strings.NewReplacer("' ", "'\x00", " mm", "\x00mm", " heavy", "\x00heavy", " light", "\x00light", "un pelo ", "un\x00pelo\x00")

// wrapped breaks words into lines that are no wider than this, except for a
// word that is wider by itself. Feet, in their brackets, stay together, as do a
// figure and its unit, and what is heavy or light.
func (r ruler) wrapped(text string, size, wide float64) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(together.Replace(text)) {
		longer := strings.TrimSpace(line + " " + strings.ReplaceAll(word, "\x00", " "))
		if line != "" && r.wide(longer, size) > wide {
			lines = append(lines, line)
			longer = strings.ReplaceAll(word, "\x00", " ")
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
