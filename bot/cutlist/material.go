package cutlist

import (
	"math"

	"dogleg/catalog"
	"dogleg/geometry"
)

// Material is what the pieces of one pipe take.
type Material struct {
	Buy      // a piece that is longer than a stick is cut up, and coupled
	Fittings []Count
	Splices  int // where two lengths of pipe meet in one piece
	Joints   int // that are made: at the ends of the pieces, and at the splices
	Hanger   catalog.Hanger
	Hangers  int // at least, where all of the pipe lies in one line; 0 where no table is at hand
	Wire     geometry.Length
}

// Couples says whether two lengths of this pipe meet in a coupling that is a
// fitting, with a joint at each end. Those of a no-hub pipe, of a weld, a hub or a
// fusion are one joint.
func (m Material) Couples() bool {
	switch m.System.Joint {
	case catalog.Solvent, catalog.Solder, catalog.Thread, catalog.SocketWeld, catalog.Crimp, catalog.PushFit:
		return true
	case catalog.ButtWeld, catalog.NoHub, catalog.Hub, catalog.Fusion:
	}
	return false
}

// MaterialOf reckons what a lot takes, with sticks and a saw as for [Plan], and
// hangers by a code; without one, by that of the codes at hand which hangs it the
// closest. The error is that of [Plan].
func MaterialOf(lot Lot, stock, kerf geometry.Length, code string) (Material, error) {
	m := Material{Fittings: Fittings(lot.Pieces)}
	if stock == 0 {
		stock = usual(lot.Pipe)
	}
	coupled := Lot{Pipe: lot.Pipe}
	var all geometry.Length
	for _, p := range lot.Pieces {
		all += p.Sawn()
		for _, f := range p.Fittings {
			if f.Shape != "" {
				m.Joints++
			}
		}
		parts := cutUp(p, stock)
		m.Splices += len(parts) - 1
		coupled.Pieces = append(coupled.Pieces, parts...)
	}
	var err error
	if m.Buy, err = Plan(coupled, stock, kerf); err != nil {
		return m, err
	}
	m.Joints += m.Splices
	if m.Couples() {
		m.Joints += m.Splices
	}
	if hanger, ok := hangerOf(lot.Pipe, code); ok {
		m.Hanger, m.Hangers = hanger, int(math.Ceil(float64(all/hanger.Spacing)-1e-9))+1
	}
	if d, ok := lot.System.Dimensions(lot.Size); ok && lot.System.Joint == catalog.Solder {
		m.Wire = geometry.Length(m.Joints) * d.Outside
	}
	return m, nil
}

// cutUp is a piece in as few lengths as sticks can give.
func cutUp(p Piece, stock geometry.Length) []Piece {
	var parts []Piece
	for stock > 0 && p.Sawn() > stock {
		whole := p
		whole.Length, whole.About, whole.Band = stock, false, 0
		parts = append(parts, whole)
		p.Length -= stock
	}
	return append(parts, p)
}

// hangerOf is the spacing of a code, or the closest of all.
func hangerOf(p Pipe, code string) (closest catalog.Hanger, ok bool) {
	for _, h := range p.System.Hangers(p.Size) {
		if (code == "" || h.Code == code) && (!ok || h.Spacing < closest.Spacing) {
			closest, ok = h, true
		}
	}
	return closest, ok
}

// Cement is how much solvent cement the joints of one plastic take, in quarts.
type Cement struct {
	Of     catalog.Material
	Quarts float64
	Primer bool // goes on before it, about half as much
}

// Cements reckons the cement for lots, by the joints that a quart makes of each
// size.
func Cements(lots []Material) []Cement {
	var all []Cement
	at := map[catalog.Material]int{}
	for _, m := range lots {
		c, ok := catalog.CementFor(m.Size)
		if m.System.Joint != catalog.Solvent || !ok || m.Joints == 0 {
			continue
		}
		plastic := m.System.Material
		if _, ok := at[plastic]; !ok {
			at[plastic] = len(all)
			all = append(all, Cement{Of: plastic, Primer: plastic != catalog.ABS})
		}
		all[at[plastic]].Quarts += float64(m.Joints) / c.Joints
	}
	return all
}

// cans are what cement is sold in, as parts of a quart.
var cans = []float64{0.125, 0.25, 0.5, 1}

// can is the smallest that holds so many quarts; over one, whole quarts.
func can(quarts float64) float64 {
	for _, c := range cans {
		if quarts <= c {
			return c
		}
	}
	return math.Ceil(quarts)
}
