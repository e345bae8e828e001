package practice

// Card is how one kind stands: its compartment in Leitner's box, and the
// score.
type Card struct {
	Compartment int // 1 to 5; 0 before it was first asked, which is as good as 1
	Due         int // at which problem it is to be repeated
	Asked       int
	Right       int // at the first try
}

// waits are how many problems a kind rests in each compartment.
var waits = [...]int{1: 1, 2: 2, 3: 4, 4: 8, 5: 16}

// marked is the card after a reply to the problem of that number.
func (c Card) marked(right bool, number int) Card {
	c.Asked++
	if right {
		c.Right++
		c.Compartment = min(max(c.Compartment, 1)+1, len(waits)-1)
	} else {
		c.Compartment = 1
	}
	c.Due = number + 1 + waits[c.Compartment]
	return c
}

// before says whether a kind is asked before another, at the problem of that
// number: one that is due before one that isn't; a missed one before one not
// seen yet, and that before one that only comes round again; then the longest
// overdue.
func (c Card) before(other Card, number int) bool {
	if due := c.Due <= number; due != (other.Due <= number) {
		return due
	}
	if a, b := c.rank(), other.rank(); c.Due <= number && a != b {
		return a < b
	}
	return c.Due < other.Due
}

func (c Card) rank() int {
	switch c.Compartment {
	case 1:
		return 0
	case 0:
		return 1
	}
	return 2
}
