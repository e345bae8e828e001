package sketch

import (
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	"image/png"
	"io"
	"sync"

	"git.sr.ht/~sbinet/gg"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
)

// PNG writes the drawing as a PNG image, 1080 points across.
func (d *Drawing) PNG(w io.Writer) error { return d.laid().png(w) }

func (p page) png(w io.Writer) error {
	if p.wide*p.high > mostPixels {
		return ErrTooLarge
	}
	paper := gg.NewContext(int(p.wide), int(p.high))
	paper.SetColor(white.color())
	paper.Clear()
	faces := map[float64]font.Face{}
	for _, i := range p.items {
		i.paint(paper, faces)
	}
	return encoder.Encode(w, fewColors(paper.Image().(*image.RGBA)))
}

// mostPixels is how large a picture may get: painted, it takes four bytes for each
// of them, and one in the file at most.
const mostPixels = 13_000_000

// ErrTooLarge says that something is too large for a picture.
var ErrTooLarge = errors.New("sketch: too large for a picture")

// encoder packs in a third of the time that the usual one takes, into an eighth
// more bytes.
var encoder = png.Encoder{CompressionLevel: png.BestSpeed}

// paint puts an item on the paper.
func (i item) paint(paper *gg.Context, faces map[float64]font.Face) {
	paper.SetColor(i.ink.color())
	if i.text != "" {
		if faces[i.size] == nil {
			faces[i.size] = faceOf(i.size)
		}
		i.letter(paper.Image().(*image.RGBA), faces[i.size])
		return
	}
	for _, p := range i.points {
		paper.LineTo(p.x, p.y)
	}
	if i.closed {
		paper.ClosePath()
		paper.Fill()
		return
	}
	paper.SetLineWidth(i.width)
	paper.SetDash(i.dashes...)
	paper.SetLineJoinRound()
	paper.SetLineCapButt()
	paper.Stroke()
}

// letter writes words that are level, which gg, made for slanting ones too, has
// to turn first.
func (i item) letter(paper *image.RGBA, face font.Face) {
	dot := fixed.Point26_6{X: fixed.Int26_6(i.points[0].x * 64), Y: fixed.Int26_6(i.points[0].y * 64)}
	pen := font.Drawer{Dst: paper, Src: image.NewUniform(i.ink.color()), Face: face, Dot: dot}
	pen.DrawString(i.text)
}

func (i ink) color() color.Color { return color.RGBA{i.r, i.g, i.b, 255} }

// fewColors is an image in the colors of a palette: a quarter of the bytes, and
// of the time to pack them. Most pixels have the color of the one before.
func fewColors(m *image.RGBA) *image.Paletted {
	few := image.NewPaletted(m.Bounds(), palette())
	nearest := nearest()
	var before uint32
	index := nearest[0]
	for i := range few.Pix {
		p := m.Pix[4*i : 4*i+4]
		if color := binary.LittleEndian.Uint32(p); color != before {
			before, index = color, nearest[int(p[0]>>3)<<10|int(p[1]>>3)<<5|int(p[2]>>3)]
		}
		few.Pix[i] = index
	}
	return few
}

// palette is all that occurs: the grays from black to white, and red on its way
// to either, where edges are smoothed.
var palette = sync.OnceValue(func() color.Palette {
	const steps = 10
	var p color.Palette
	mix := func(from, to ink) {
		for n := range steps + 1 {
			between := func(a, b uint8) uint8 { return uint8((int(a)*(steps-n) + int(b)*n) / steps) }
			p = append(p, ink{between(from.r, to.r), between(from.g, to.g), between(from.b, to.b)}.color())
		}
	}
	mix(black, white)
	mix(red, white)
	mix(red, black)
	return p
})

// nearest is which color of the palette is the nearest to one whose red, green
// and blue are known to five bits each.
var nearest = sync.OnceValue(func() []uint8 {
	table := make([]uint8, 1<<15)
	full := func(bits int) uint8 { return uint8(bits & 31 * 255 / 31) }
	for i := range table {
		table[i] = uint8(palette().Index(color.RGBA{full(i >> 10), full(i >> 5), full(i), 255}))
	}
	return table
})
