package wording

import (
	"math"

	"dogleg/bot/figure"
)

// factor words one multiplier: "Set to travel: × 1.414".
func (o Options) factor(f figure.Factor) string {
	text := f.Printed
	if text == "" {
		text = decimals(f.Exact, 3)
	}
	if math.IsInf(f.Exact, 0) || math.IsNaN(f.Exact) {
		text = o.say("none")
	}
	return capital(o.say("factor", "from", o.name(f.From), "to", o.name(f.To), "factor", text))
}

// factors are all but the first, which stands on the first line.
func (o Options) factors(factors []figure.Factor) []string {
	var lines []string
	for i, f := range factors {
		if i > 0 {
			lines = append(lines, o.factor(f))
		}
	}
	return lines
}
