package catalog

import "dogleg/geometry"

// Hanger is how far apart the supports of pipe that lies may be at most, by the
// table of a code. Pipe that stands, and what a local code changes, is not in it.
type Hanger struct {
	Code     string // "IPC"
	From     Size   // and larger; empty is every size
	Spacing  geometry.Length
	Table    string // "IPC table 308.5"
	Evidence Evidence
	Note     string
}

// Hangers lists the greatest spacings for pipe of the system in a size, one for
// each code whose table is at hand.
func (s System) Hangers(size Size) []Hanger {
	var all []Hanger
	for _, h := range loaded().hangers[s.ID] {
		if h.From != "" && compareSizes(size, h.From) < 0 {
			continue
		}
		if n := len(all) - 1; n >= 0 && all[n].Code == h.Code {
			all[n] = h // of a larger size on
			continue
		}
		all = append(all, h)
	}
	return all
}

// Cement is how many joints of pipe a quart of solvent cement makes. All of it is
// common practice: a hot day and a loose fit take more.
type Cement struct {
	Joints   float64
	Evidence Evidence
	Source   string
}

// CementFor is what a quart of solvent cement makes of a size; false where that is
// not known. A metric size is as the inch size that is next over it.
func CementFor(size Size) (Cement, bool) {
	if !size.Metric() {
		c, ok := loaded().cement[size]
		return c, ok
	}
	var next Size
	wanted, _ := size.nominal()
	for s := range loaded().cement {
		if n, _ := s.nominal(); n >= wanted && (next == "" || compareSizes(s, next) < 0) {
			next = s
		}
	}
	c, ok := loaded().cement[next]
	return c, ok
}
