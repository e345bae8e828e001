package main

import (
	"cmp"
	"fmt"
	"slices"
)

// outcome is what comes of answering a message by its likeliest reading.
type outcome struct {
	probability  float64
	right, wrong bool // wrong: a figure comes of it that isn't one of what is meant
}

// curve prints how many of some messages are answered right at most, in percent, where
// no more than a share of them are answered wrong: those whose reading is likeliest are
// answered.
func curve(of []outcome, messages int) {
	slices.SortStableFunc(of, func(a, b outcome) int { return cmp.Compare(b.probability, a.probability) })
	share := func(n int) float64 { return 100 * float64(n) / float64(max(1, messages)) }
	for _, most := range []float64{0.5, 1, 2, 3, 4} {
		right, wrong, best, from := 0, 0, 0, 1.0
		for _, o := range of {
			if o.right {
				right++
			}
			if o.wrong {
				wrong++
			}
			if share(wrong) > most {
				break
			}
			if right > best {
				best, from = right, o.probability
			}
		}
		fmt.Printf("wrong at most %.1f %%: right %.1f %%, from p %.2f\n", most, share(best), from)
	}
}
