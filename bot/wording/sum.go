package wording

import (
	"dogleg/bot/figure"
)

// sum is the first line of tape arithmetic: the result on the tape, or in
// millimeters where that was wanted.
func (o Options) sum(s figure.SumResult) string {
	switch {
	case s.Plain:
		return decimals(s.Number, 4)
	case s.Metric || o.Metric:
		return s.Length.Metric(1)
	}
	return o.withUnit(s.Length, exactly)
}

// sumOtherwise is the same result in the other unit.
func (o Options) sumOtherwise(s figure.SumResult) []string {
	switch {
	case s.Plain:
		return nil
	case s.Metric || o.Metric:
		inches := o
		inches.Metric = false
		return []string{inches.withUnit(s.Length, exactly)}
	}
	return []string{s.Length.Metric(1)}
}
