package store

import (
	"bytes"
	"fmt"
	"net/url"
	"strings"
	"time"

	"dogleg/catalog"
	"dogleg/geometry"
)

// Takeoff is one that somebody measured on the fitting in their hand. In a
// book, a person's own or a crew's, it is told apart by its system, fitting, size and line; a new one for the same
// four takes the place of the old one.
type Takeoff struct {
	System  string // catalog.System.ID: "pvc-dwv"
	Fitting string // catalog.Fitting.Key: "45"
	Size    catalog.Size
	Line    string          // the person's own name for a maker's line of fittings, often empty
	Length  geometry.Length // center to the resting end of the pipe
	How     string          // how it was measured
	When    time.Time
	By      string // in a crew's book: the name of who set it
	Setter  string `json:",omitempty"` // and who that is, filled in by SetCrewTakeoff
}

func (t Takeoff) key() []byte {
	parts := []string{t.System, t.Fitting, string(t.Size), t.Line}
	for i := range parts {
		parts[i] = url.PathEscape(parts[i])
	}
	return []byte(strings.Join(parts, "/"))
}

// CompareTakeoffs orders takeoffs as they are kept: by system, fitting, size
// and line. It is 0 only for two that would take each other's place.
func CompareTakeoffs(a, b Takeoff) int { return bytes.Compare(a.key(), b.key()) }

// Takeoffs returns the person's own takeoffs, by system, fitting, size and
// line.
func (p *Person) Takeoffs() []Takeoff { return p.tx.takeoffs(p.part(takeoffsBucket)) }

// SetTakeoff keeps a takeoff. Its length must be more than zero.
func (p *Person) SetTakeoff(t Takeoff) {
	if p.tx.measured(t) {
		p.tx.put(p.madePart(takeoffsBucket), t.key(), t)
	}
}

// ForgetTakeoff takes one away, found by its system, fitting, size and line.
// It is false if there was none.
func (p *Person) ForgetTakeoff(t Takeoff) bool {
	return p.tx.remove(p.part(takeoffsBucket), t.key())
}

// takeoffs reads a book of takeoffs. A nil bucket has none.
func (tx *Tx) takeoffs(book *bucket) []Takeoff {
	var all []Takeoff
	for _, v := range book.all() {
		var t Takeoff
		if tx.decode(v, &t) {
			all = append(all, t)
		}
	}
	return all
}

// measured says whether a takeoff has a length; one that has none is an error.
func (tx *Tx) measured(t Takeoff) bool {
	if t.Length > 0 {
		return true
	}
	tx.fail(fmt.Errorf("a takeoff of %v", t.Length))
	return false
}
