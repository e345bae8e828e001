package wording

import (
	"strings"

	"dogleg/bot/figure"
	"dogleg/geometry"
)

// sum is the first line of tape arithmetic: the result on the tape, or in
// millimeters where that was wanted.
func (o Options) sum(s figure.SumResult) string {
	switch {
	case s.Plain:
		return decimals(s.Number, 4)
	case s.Metric || o.Metric:
		return inTenths(s.Length)
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
	return []string{inTenths(s.Length)}
}

// inTenths is a length in millimeters, to the tenth where it is no whole one.
func inTenths(l geometry.Length) string {
	return strings.Replace(l.Metric(1), ".0 ", " ", 1)
}
