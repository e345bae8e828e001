package catalog

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"dogleg/geometry"
)

// Metric says whether the size is a metric one: "110 mm", "DN100".
func (s Size) Metric() bool { return strings.HasSuffix(string(s), " mm") || s.isDN() }

// isDN says whether the size is the name of a nominal diameter.
func (s Size) isDN() bool { return strings.HasPrefix(string(s), "DN") }

// nominal is the number in the name of a size, to put sizes in order. It is
// not a dimension of the pipe; false if the name holds no number.
func (s Size) nominal() (geometry.Length, bool) {
	switch {
	case s.isDN():
		return parseLength(string(s[len("DN"):]) + " mm")
	case s.Metric():
		return parseLength(string(s))
	}
	return parseLength(string(s) + " in")
}

// SizesOf lists every size that any system of a material is sold in, inch
// sizes before metric ones, the smallest first.
func SizesOf(m Material) []Size { return slices.Clone(sizesOf()[m]) }

// Sold says whether any system of a material is sold in a size; where no
// material is named, whether any is.
func Sold(m Material, s Size) bool {
	return sold()[soldIn{m, s}]
}

// soldIn is a size of a material, or of any where none is named.
type soldIn struct {
	material Material
	size     Size
}

var sold = sync.OnceValue(func() map[soldIn]bool {
	all := map[soldIn]bool{}
	for m, sizes := range sizesOf() {
		for _, s := range sizes {
			all[soldIn{m, s}], all[soldIn{"", s}] = true, true
		}
	}
	for at := range loaded().named {
		all[soldIn{loaded().system(at.system).Material, at.size}], all[soldIn{"", at.size}] = true, true
	}
	return all
})

var sizesOf = sync.OnceValue(func() map[Material][]Size {
	all := map[Material][]Size{}
	for _, e := range loaded().systems {
		all[e.Material] = append(all[e.Material], e.sizes...)
	}
	for m, sizes := range all {
		inOrder(sizes)
		all[m] = slices.Compact(sizes)
	}
	return all
})

// Near picks the sizes just under and just over s, for a size that does not
// exist. Inch sizes are near inch sizes only, and metric ones metric ones; it
// is empty if s is no number at all.
func Near(sizes []Size, s Size) []Size {
	if _, ok := s.nominal(); !ok {
		return nil
	}
	alike := slices.DeleteFunc(slices.Clone(sizes), func(other Size) bool { return other.Metric() != s.Metric() })
	inOrder(alike)
	at, exists := slices.BinarySearchFunc(alike, s, compareSizes)
	over := at
	if exists {
		over++
	}
	var near []Size
	if at > 0 {
		near = append(near, alike[at-1])
	}
	if over < len(alike) {
		near = append(near, alike[over])
	}
	return near
}

// inOrder sorts sizes, those of one number by their names.
func inOrder(sizes []Size) {
	slices.Sort(sizes)
	slices.SortStableFunc(sizes, compareSizes)
}

// compareSizes orders inch sizes before metric ones, and then by their number.
func compareSizes(a, b Size) int {
	if a.Metric() != b.Metric() {
		if b.Metric() {
			return -1
		}
		return 1
	}
	x, _ := a.nominal()
	y, _ := b.nominal()
	return cmp.Compare(x, y)
}

// parseLength reads a length with its unit as the tables write it: "2-5/16 in",
// "0.84 in", "10 ft", "9 mm", "6 m".
func parseLength(text string) (geometry.Length, bool) {
	number, unit, _ := strings.Cut(text, " ")
	value, ok := parseMixed(number)
	if !ok {
		return 0, false
	}
	switch unit {
	case "in":
		return geometry.Length(value) * geometry.Inch, true
	case "ft":
		return geometry.Length(value) * geometry.Foot, true
	case "mm":
		return geometry.Length(value) * geometry.Millimeter, true
	case "m":
		return geometry.Length(value) * geometry.Meter, true
	}
	return 0, false
}

// ParseInches reads inches as a tape has them, or in decimals: 1-1/8, 5/8, 2,
// 1.0625. False if it is none, or not more than nothing.
func ParseInches(text string) (geometry.Length, bool) {
	value, ok := parseMixed(text)
	return geometry.Length(value) * geometry.Inch, ok && value > 0
}

// parseMixed reads 3, 0.84, 5/16 or 2-5/16, nothing negative.
func parseMixed(text string) (float64, bool) {
	whole, fraction, mixed := strings.Cut(text, "-")
	if !mixed && strings.Contains(text, "/") {
		whole, fraction = "0", text
	}
	value, ok := parseNumber(whole)
	if !ok || fraction == "" {
		return value, ok && !mixed
	}
	over, under, _ := strings.Cut(fraction, "/")
	n, isNumber := parseNumber(over)
	d, isAlso := parseNumber(under)
	if !isNumber || !isAlso || d == 0 {
		return 0, false
	}
	return value + n/d, true
}

// parseNumber reads a plain decimal number: digits and at most one point.
func parseNumber(text string) (float64, bool) {
	if strings.ContainsFunc(text, func(r rune) bool { return (r < '0' || r > '9') && r != '.' }) {
		return 0, false
	}
	value, err := strconv.ParseFloat(text, 64)
	return value, err == nil
}
