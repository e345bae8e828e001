package store

import (
	"fmt"
	"net/url"
	"strings"
	"time"

	"dogleg/catalog"
	"dogleg/geometry"
)

// Takeoff is one that a person measured on the fitting in their hand. It is
// told apart by its system, fitting, size and line; a new one for the same
// four takes the place of the old one.
type Takeoff struct {
	System  string // catalog.System.ID: "pvc-dwv"
	Fitting string // catalog.Fitting.Key: "45"
	Size    catalog.Size
	Line    string          // the person's own name for a maker's line of fittings, often empty
	Length  geometry.Length // center to the resting end of the pipe
	How     string          // how it was measured
	When    time.Time
	By      string // who measured it, where several share a key
}

func (t Takeoff) key() []byte {
	parts := []string{t.System, t.Fitting, string(t.Size), t.Line}
	for i := range parts {
		parts[i] = url.PathEscape(parts[i])
	}
	return []byte(strings.Join(parts, "/"))
}

// Takeoffs returns the person's own takeoffs, by system, fitting, size and
// line.
func (p *Person) Takeoffs() []Takeoff {
	b := p.part(takeoffsBucket)
	if b == nil {
		return nil
	}
	var all []Takeoff
	c := b.Cursor()
	for k, v := c.First(); k != nil; k, v = c.Next() {
		var t Takeoff
		if p.tx.decode(v, &t) {
			all = append(all, t)
		}
	}
	return all
}

// SetTakeoff keeps a takeoff. Its length must be more than zero.
func (p *Person) SetTakeoff(t Takeoff) {
	if !(t.Length > 0) {
		p.tx.fail(fmt.Errorf("a takeoff of %v", t.Length))
		return
	}
	p.tx.put(p.madePart(takeoffsBucket), t.key(), t)
}

// ForgetTakeoff takes one away, found by its system, fitting, size and line.
// It is false if there was none.
func (p *Person) ForgetTakeoff(t Takeoff) bool {
	return p.tx.remove(p.part(takeoffsBucket), t.key())
}
