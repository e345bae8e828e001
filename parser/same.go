package parser

import (
	"cmp"
	"math"
	"slices"

	"dogleg/catalog"
)

// Same says whether two readings of a message say the same.
func Same(a, b []Statement) bool {
	return slices.EqualFunc(a, b, func(x, y Statement) bool {
		switch {
		case x.Ask != nil && y.Ask != nil:
			return x.Ask.FollowUp == y.Ask.FollowUp && same(x.Ask, y.Ask)
		case x.Command != nil && y.Command != nil:
			return x.Command.Verb == y.Command.Verb
		}
		return x.Ask == nil && y.Ask == nil && x.Command == nil && y.Command == nil && EitherOf(x) == EitherOf(y)
	})
}

// sameButUnits says whether two readings say the same but for the units of their bare
// numbers.
func sameButUnits(a, b []Statement) bool { return Same(inInches(a), inInches(b)) }

// inInches are statements with their bare numbers in inches.
func inInches(in []Statement) []Statement {
	out := slices.Clone(in)
	for i := range out {
		if out[i].Ask != nil {
			a := out[i].Ask.In(func(Measure) Unit { return Inches })
			out[i].Ask = &a
		}
	}
	return out
}

// EitherOf says whether a statement is that two readings of a message are as good.
func EitherOf(s Statement) bool {
	return s.Misunderstanding != nil && s.Misunderstanding.Trouble == TwoReadings
}

// whole is an ask with what it changes.
func whole(said Said, a Ask) Ask {
	if a.FollowUp && said.Last != nil {
		a = said.Last.With(a)
		a.FollowUp = false
	}
	return a
}

// same says whether two asks come to the same figures.
func same(x, y *Ask) bool {
	if x.Sum != nil || y.Sum != nil {
		return x.Sum != nil && y.Sum != nil && math.Abs(x.Sum.Total()-y.Sum.Total()) < 1e-6
	}
	return x.Kind == y.Kind && x.Store == y.Store && x.ComeBack == y.ComeBack && x.Lines == y.Lines &&
		x.Pipe.Size == y.Pipe.Size && x.Pipe.Material == y.Pipe.Material && math.Abs(float64(x.Grade-y.Grade)) < 1e-9 &&
		(x.Angle == y.Angle || sameFittings(x, y)) && slices.EqualFunc(inOrder(x), inOrder(y), sameMeasure)
}

// sameFittings says whether two asks name the same fittings at their ends, so that
// the angle says nothing more.
func sameFittings(x, y *Ask) bool {
	return x.Ends[0].Fitting != (catalog.Fitting{}) && x.Ends[0].Fitting == y.Ends[0].Fitting && x.Ends[1].Fitting == y.Ends[1].Fitting
}

// inOrder lists what an ask's measures say, each once: not how they were written.
func inOrder(a *Ask) []Measure {
	out := make([]Measure, len(a.Measures))
	for i, m := range a.Measures {
		out[i] = Measure{Role: m.Role, Length: m.Length, Method: m.Method}
		if m.Method == Centers {
			out[i].Method = ""
		}
	}
	slices.SortFunc(out, func(a, b Measure) int { return cmp.Or(cmp.Compare(a.Role, b.Role), cmp.Compare(a.Length, b.Length)) })
	return slices.Compact(out)
}

func sameMeasure(a, b Measure) bool {
	return a.Role == b.Role && a.Method == b.Method && math.Abs((a.Length-b.Length).Inches()) < 1e-6
}
