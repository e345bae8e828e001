package figure

import (
	"slices"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// Inline is something that stands in the travel, with where its center goes.
type Inline struct {
	Fitting catalog.Fitting
	Laying  catalog.Takeoff // from the end of one pipe in it to that of the other
	Place   geometry.Length // of its center, from the first fitting's center
}

// inline splits a piece where something stands in it: a union, a valve. Each takes
// its length and a gap at each of its ends out of the piece; with a place said the
// pieces are what is left on both sides of it, else they are alike.
func (w *work) inline(centers, cut geometry.Length, j joint) error {
	if len(w.ask.Inline) == 0 {
		return nil
	}
	gap := j.gap.Length
	begin := j.ends[0].Takeoff.Length + gap
	left, placed := cut, 0
	for _, in := range w.ask.Inline {
		t, err := w.laying(in)
		if err != nil {
			return err
		}
		w.answer.Inline = append(w.answer.Inline, Inline{Fitting: in.Fitting, Laying: t, Place: in.Place})
		left -= t.Length + 2*gap
		if in.Place != 0 {
			placed++
		}
	}
	n := len(w.answer.Inline)
	if placed != 0 && placed != n {
		return &Missing{Wanted: parser.Place}
	}
	each := left / geometry.Length(n+1)
	at := begin
	for i := range w.answer.Inline {
		in := &w.answer.Inline[i]
		half := in.Laying.Length/2 + gap
		if placed == 0 {
			in.Place = at + each + half
		}
		w.answer.Pieces = append(w.answer.Pieces, in.Place-half-at)
		at = in.Place + half
	}
	w.answer.Pieces = append(w.answer.Pieces, begin+cut-at)
	return w.inlineAnswer(centers, cut, j, placed == 0)
}

// inTheTravel moves what only joins pipe in line from an end of an offset into its
// travel: "45s with a union in it". An offset ends in what turns the line, so that
// is where it stands, however the words put it.
func (w *work) inTheTravel() {
	for end := range w.ask.Ends {
		e, other := &w.ask.Ends[end], w.ask.Ends[1-end]
		if !inLine(e.Fitting.Shape) || e.Fitting.Shape == catalog.Cap || inLine(other.Fitting.Shape) && end == 0 && other.Fitting != e.Fitting {
			continue
		}
		if w.asked == 0 || e.Takeoff != other.Takeoff {
			continue // a takeoff of its own was said: it is at an end
		}
		w.ask.Inline = append(slices.Clone(w.ask.Inline), parser.Inline{Fitting: e.Fitting})
		both := e.Fitting == other.Fitting
		e.Fitting = other.Fitting
		if both || inLine(other.Fitting.Shape) {
			w.ask.Ends[0].Fitting, w.ask.Ends[1].Fitting = catalog.Fitting{}, catalog.Fitting{}
		}
		return
	}
}

// laying is what something takes of the travel: said, or twice what the user has
// measured from its center to the stop.
func (w *work) laying(in parser.Inline) (catalog.Takeoff, error) {
	t := catalog.Takeoff{Fitting: in.Fitting, Size: w.answer.Size, Length: in.Laying, Evidence: catalog.Said}
	if said, ok := w.ask.Length(parser.Laying); ok && in.Laying == 0 {
		t.Length = said
	}
	if t.Length != 0 {
		return t, nil
	}
	if own, ok := w.ownIn(w.answer.System, in.Fitting, w.answer.Size); ok {
		own.Length *= 2
		return own, nil
	}
	w.answer.LayingOf = in.Fitting
	return t, &Missing{Wanted: parser.Laying}
}

func (w *work) inlineAnswer(centers, cut geometry.Length, j joint, alike bool) error {
	for _, p := range w.answer.Pieces {
		if p <= hairline {
			return &Impossible{Cause: TooShort, Subject: string(parser.Cut)}
		}
	}
	w.answer.Main = parser.FirstPiece
	w.answer.Lengths = slices.DeleteFunc(w.answer.Lengths, func(l Length) bool { return l.Role == parser.Cut || l.Role == parser.PipeLength })
	w.figured(parser.FirstPiece, w.answer.Pieces[0])
	if len(w.answer.Pieces) == 2 {
		w.figured(parser.SecondPiece, w.answer.Pieces[1])
	}
	w.inlineSteps(centers, cut, j, alike)
	return w.walkedInline(centers, j)
}

// inlineSteps are those from the whole piece, or from what was said of the
// places, to the first piece, and to the second from the other end.
func (w *work) inlineSteps(centers, cut geometry.Length, j joint, alike bool) {
	var marks []Quantity
	w.answer.Steps = slices.DeleteFunc(w.answer.Steps, func(s Step) bool {
		if s.Name == StepMark && s.Result.Role == parser.EndGap {
			marks = append(marks, s.Result)
		}
		return s.Name == StepDryFit || s.Name == StepJoin || s.Name == StepMark
	})
	pieces, gap := w.answer.Pieces, j.gap.Length
	if alike {
		terms := []Quantity{length(parser.Cut, cut)}
		left := cut
		for _, in := range w.answer.Inline {
			terms = append(terms, less(parser.Laying, in.Laying.Length))
			left -= in.Laying.Length + 2*gap
		}
		if gap != 0 {
			terms = append(terms, Quantity{Role: parser.JointGap, Length: gap, Minus: true, Times: 2 * len(w.answer.Inline)})
		}
		w.add(RuleInline, length(parser.Cut, left), terms...)
		w.divide(RuleAlike, length(parser.Cut, left), float64(len(pieces)), length(parser.FirstPiece, pieces[0]))
	} else {
		in := w.answer.Inline[0]
		half := in.Laying.Length / 2
		if len(pieces) == 2 {
			terms := []Quantity{length(parser.Travel, centers), less(parser.Place, in.Place), less(parser.TakeoffOf, j.ends[1].Takeoff.Length), less(parser.Laying, half)}
			w.add(RuleInlineRest, length(parser.SecondPiece, pieces[1]), lessGaps(terms, gap)...)
		}
		terms := []Quantity{length(parser.Place, in.Place), less(parser.TakeoffOf, j.ends[0].Takeoff.Length), less(parser.Laying, half)}
		w.add(RuleInlinePlace, length(parser.FirstPiece, pieces[0]), lessGaps(terms, gap)...)
	}
	marks = append(marks, length(parser.FirstPiece, pieces[0]))
	if len(pieces) == 2 {
		marks = append(marks, length(parser.SecondPiece, pieces[1]))
	}
	w.siteSteps(marks...)
}

// lessGaps are terms with the gaps at both ends of a piece taken off, where there
// are any.
func lessGaps(terms []Quantity, gap geometry.Length) []Quantity {
	if gap == 0 {
		return terms
	}
	return append(terms, Quantity{Role: parser.JointGap, Length: gap, Minus: true, Times: 2})
}

// walkedInline lays the pieces and what is between them from center to center.
func (w *work) walkedInline(centers geometry.Length, j joint) error {
	gap := j.gap.Length
	walker := walk.From(walk.Point{})
	walker.Forward(j.ends[0].Takeoff.Length + gap)
	for i, p := range w.answer.Pieces {
		walker.Forward(p)
		if i < len(w.answer.Inline) {
			walker.Forward(2*gap + w.answer.Inline[i].Laying.Length)
		}
	}
	walker.Forward(j.ends[1].Takeoff.Length + gap)
	if off := walker.Path().End().Distance(walk.Point{X: centers}); !(off <= landing) {
		return &Impossible{Cause: NotLanding, Subject: off.String()}
	}
	return nil
}

// hasReducer says whether a reducer stands in the travel, so that its two pieces
// may be of two sizes.
func (w *work) hasReducer() bool {
	for _, in := range w.ask.Inline {
		if in.Fitting.Shape == catalog.Reducer {
			return true
		}
	}
	return false
}
