package sticks

// least is a number of sticks that no plan can come under: the best of the
// bounds that Martello and Toth call L2 (Knapsack Problems, 1990, chapter 8;
// from memory), one for each size up to half the room.
//
// For such a size s, each piece over room - s has a stick that it shares with
// no piece of s or more, and each other piece over half the room a stick that
// it shares with no other of those. What of the pieces from s to half the room
// doesn't fit beside them needs sticks of its own, even if it could be poured.
func (l list) least() int {
	best := l.leastFor(0)
	for _, size := range l.sizes {
		if 2*size <= l.room {
			best = max(best, l.leastFor(size))
		}
	}
	return best
}

func (l list) leastFor(s int64) int {
	alone, halves := 0, 0
	var beside, small int64
	for i, size := range l.sizes {
		n := l.counts[i]
		switch {
		case size > l.room-s:
			alone += n
		case 2*size > l.room:
			halves += n
			beside += int64(n) * (l.room - size)
		case size >= s:
			small += int64(n) * size
		}
	}
	more := max(0, small-beside)
	return alone + halves + int((more+l.room-1)/l.room)
}

// firstFit puts each piece, the longest first, into the first stick that has
// room for it.
func (l list) firstFit() []bin {
	var bins []bin
	var left []int64
	for i, size := range l.sizes {
		at := 0
		for range l.counts[i] {
			for at < len(bins) && left[at] < size {
				at++
			}
			if at == len(bins) {
				bins, left = append(bins, make(bin, len(l.sizes))), append(left, l.room)
			}
			bins[at][i]++
			left[at] -= size
		}
	}
	return bins
}
