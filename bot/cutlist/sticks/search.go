package sticks

import (
	"encoding/binary"
	"slices"
)

// steps is how many counts of a size the search may look at in all: a fraction
// of a second, and far more than the lists of a day's work need.
const steps = 20_000_000

// pack is the best plan found, and how many sticks are proven to be needed.
// It goes up from the bound: while a number of sticks is shown to be too few,
// one more is what is needed at least.
func (l list) pack() ([]bin, int) {
	best := l.firstFit()
	least := l.least()
	budget, proving := steps, true
	for n := least; n < len(best); n++ {
		// The next numbers must have their turn if this one is given up.
		s := &search{list: l, left: budget / (len(best) - n), failed: map[string]bool{}}
		budget -= s.left
		if s.into(n) {
			return s.bins, least
		}
		gaveUp := s.left <= 0
		budget += max(0, s.left)
		proving = proving && !gaveUp
		if proving {
			least = n + 1
		}
	}
	return best, least
}

// search looks for a plan with a given number of sticks. It fills one stick
// after the other, each with the longest piece that is left and as much else
// as goes in; any plan can be put into that order, by moving pieces forward.
// All sticks together may waste no more than the room that the pieces leave,
// so most ways to fill one are ruled out at once; what pieces were left when
// there was no way on is remembered.
type search struct {
	list
	left   int // steps
	bins   []bin
	failed map[string]bool
}

// into says whether a plan with n sticks was found. If not, there is none,
// unless no steps are left.
func (s *search) into(n int) bool {
	remaining := slices.Clone(s.counts)
	waste := int64(n) * s.room
	for i, count := range remaining {
		waste -= int64(count) * s.sizes[i]
	}
	return waste >= 0 && s.next(remaining, waste)
}

// next fills the next stick and all after it.
func (s *search) next(remaining []int, waste int64) bool {
	s.left -= len(remaining)
	first := slices.IndexFunc(remaining, func(n int) bool { return n > 0 })
	if first < 0 {
		return true
	}
	key := keyOf(len(s.bins), remaining)
	if s.failed[key] {
		return false
	}
	b := make(bin, len(s.sizes))
	b[first]++
	remaining[first]--
	found := s.fill(first, b, remaining, s.room-s.sizes[first], waste)
	remaining[first]++
	if !found && s.left > 0 {
		s.failed[key] = true
	}
	return found
}

// fill adds pieces of size i and smaller to a stick with this much room left,
// as many of the longest as go in first, and goes on to the next stick where
// what is left over may be wasted.
func (s *search) fill(i int, b bin, remaining []int, room, waste int64) bool {
	if s.left--; s.left <= 0 {
		return false
	}
	for i < len(s.sizes) && (remaining[i] == 0 || s.sizes[i] > room) {
		i++
		s.left--
	}
	if i == len(s.sizes) {
		return s.close(b, remaining, room, waste)
	}
	most := int(min(int64(remaining[i]), room/s.sizes[i]))
	fewest := 0
	if s.onlyOneFits(remaining, room) {
		fewest = most
	}
	for n := most; n >= fewest; n-- {
		b[i] += n
		remaining[i] -= n
		found := s.fill(i+1, b, remaining, room-int64(n)*s.sizes[i], waste)
		b[i] -= n
		remaining[i] += n
		if found {
			return true
		}
	}
	return false
}

// onlyOneFits says whether no two of the remaining pieces go into the room. The
// longest that does is then the one to take: in a plan with a shorter one there,
// the two could change places.
func (s *search) onlyOneFits(remaining []int, room int64) bool {
	smallest, found := int64(0), 0
	for i, n := range slices.Backward(remaining) {
		s.left--
		take := min(n, 2-found)
		smallest += int64(take) * s.sizes[i]
		if found += take; found == 2 {
			break
		}
	}
	return found < 2 || smallest > room
}

// close ends a stick and goes on to the next, unless its rest is more than may
// be wasted or some piece would still have gone in.
func (s *search) close(b bin, remaining []int, room, waste int64) bool {
	if room > waste {
		return false
	}
	s.left -= len(remaining)
	for i, n := range remaining {
		if n > 0 && s.sizes[i] <= room {
			return false
		}
	}
	s.bins = append(s.bins, slices.Clone(b))
	if s.next(remaining, waste-room) {
		return true
	}
	s.bins = s.bins[:len(s.bins)-1]
	return false
}

// keyOf names a place in the search: how many sticks are full, and what is left.
func keyOf(full int, remaining []int) string {
	key := binary.AppendUvarint(make([]byte, 0, 8+2*len(remaining)), uint64(full))
	for _, n := range remaining {
		key = binary.AppendUvarint(key, uint64(n))
	}
	return string(key)
}
