package figure

import (
	"cmp"
	"math"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Strip is a line to be wrapped around a pipe: how far past the square line
// through its shortest point the pipe reaches, at even steps all the way around,
// from the throat to the throat.
type Strip struct {
	Girth  geometry.Length
	Points []geometry.Length
}

// steps is how many steps a strip has around the pipe.
const stripSteps = 96

// strip makes a strip of what is past the square line so far around.
func (w *work) strip(outside geometry.Length, at func(geometry.Angle) (geometry.Length, error)) error {
	girth, err := geometry.Girth(outside)
	if err != nil {
		return err
	}
	s := Strip{Girth: girth}
	for i := range stripSteps + 1 {
		past, err := at(geometry.Angle(i) * 360 / stripSteps)
		if err != nil {
			return err
		}
		s.Points = append(s.Points, past)
	}
	w.answer.Strip = s
	w.figured(parser.Girth, girth)
	return nil
}

// wrap figures a turn as an arc on the pipe: the roll of a fitting, or any other.
// Of a roll and a rise it is the roll from level.
func (w *work) wrap() error {
	turn := w.asked
	if w.has(parser.Roll) && w.has(parser.Rise) {
		if _, _, err := w.set(); err != nil {
			return err
		}
		turn = geometry.QuarterBend - w.answer.RollAngle
	}
	if turn == 0 {
		return &Missing{Wanted: parser.AngleOf}
	}
	outside, err := w.outside(0)
	if err != nil {
		return err
	}
	arc, err := geometry.WrapArc(outside, turn)
	if err != nil {
		return err
	}
	girth, err := geometry.Girth(outside)
	if err != nil {
		return err
	}
	w.answer.Angle, w.answer.Main = turn, parser.Arc
	w.figured(parser.Arc, arc)
	w.figured(parser.Girth, girth)
	w.multiply(RuleGirth, length(OutsideOf, outside), math.Pi, length(parser.Girth, girth))
	w.multiply(RuleWrap, length(parser.Girth, girth), turn.Degrees()/360, length(parser.Arc, arc))
	return nil
}

// OutsideOf is the role, in a step, of a pipe's outside diameter.
const OutsideOf parser.Role = "outside"

// mostPieces is how many pieces a mitered turn is figured of.
const mostPieces = 5

// miter figures a turn of pipe alone, of two to five pieces: how far off square
// each end is cut, the marks around it, and where its radius was said the pieces.
func (w *work) miter() error {
	if w.asked == 0 {
		return &Missing{Wanted: parser.AngleOf}
	}
	pieces := cmp.Or(w.ask.Pieces, 2)
	if pieces < 2 || pieces > mostPieces {
		return &Impossible{Cause: PieceCount, Subject: catalog.AngleName(w.asked)}
	}
	w.ask.Pieces = pieces
	outside, err := w.outside(0)
	if err != nil {
		return err
	}
	m := geometry.Miter{Outside: outside, Turn: w.asked, Welds: pieces - 1}
	if w.answer.CutAngle, err = m.CutAngle(); err != nil {
		return err
	}
	cutback, err := m.Cutback()
	if err != nil {
		return err
	}
	w.answer.Angle, w.answer.Main = w.asked, parser.Cutback
	w.figured(parser.Cutback, cutback)
	if err := w.strip(outside, m.At); err != nil {
		return err
	}
	marks, err := m.Ordinates()
	if err != nil {
		return err
	}
	w.ordinates(marks)
	w.divide(RuleCutAngle, Quantity{Role: parser.AngleOf, Angle: w.asked}, float64(2*m.Welds), Quantity{Role: parser.AngleOf, Angle: w.answer.CutAngle})
	if err := w.miterPieces(m); err != nil {
		return err
	}
	w.multiply(RuleCutback, length(OutsideOf, outside), w.answer.CutAngle.Tan(), length(parser.Cutback, cutback))
	return nil
}

// miterPieces figures the pieces of a mitered turn along its centerline, where its
// radius was said.
func (w *work) miterPieces(m geometry.Miter) error {
	radius, ok := w.ask.Length(parser.Radius)
	if !ok {
		return nil
	}
	end, middle, err := m.Pieces(radius)
	if err != nil {
		return err
	}
	w.figured(parser.EndPiece, end)
	w.multiply(RuleEndPiece, length(parser.Radius, radius), w.answer.CutAngle.Tan(), length(parser.EndPiece, end))
	if m.Welds > 1 {
		w.figured(parser.MiddlePiece, middle)
		w.multiply(RuleMiddlePiece, length(parser.EndPiece, end), 2, length(parser.MiddlePiece, middle))
	}
	return nil
}

func (w *work) ordinates(marks []geometry.Ordinate) {
	for _, m := range marks {
		w.answer.Ordinates = append(w.answer.Ordinates, Ordinate{Eighth: m.Eighth, Arc: m.Around, Back: m.Along})
	}
}

// saddle figures a pipe's end that is cut to sit on another: the marks around it,
// from the square line through its shortest point. The pipe is the branch, the
// other end's size is the header's.
func (w *work) saddle() error {
	header := w.ask.Ends[1].Size
	if header == "" {
		return &Missing{Wanted: parser.SizeOf, Of: parser.Fishmouth}
	}
	branch, err := w.outside(0)
	if err != nil {
		return err
	}
	run, err := w.outside(1)
	if err != nil {
		return err
	}
	if branch > run {
		return &Impossible{Cause: BranchLarger, Subject: string(w.sizeAt(0)), Near: []string{string(header)}}
	}
	s := geometry.Saddle{Branch: branch, Header: run, Angle: cmp.Or(w.asked, geometry.QuarterBend)}
	w.answer.Angle, w.answer.Main, w.answer.Header = s.Angle, parser.Fishmouth, header
	marks, err := s.Ordinates()
	if err != nil {
		return err
	}
	w.ordinates(marks)
	if err := w.strip(branch, s.At); err != nil {
		return err
	}
	return w.fishmouth(s)
}

// fishmouth figures how deep the branch is cut, and how far from the header's
// centerline its shortest line ends.
func (w *work) fishmouth(s geometry.Saddle) error {
	shortest, err := s.Shortest()
	if err != nil {
		return err
	}
	longest, heel, err := s.Longest()
	if err != nil {
		return err
	}
	w.figured(parser.Fishmouth, shortest-longest)
	w.figured(parser.TakeoffOf, shortest)
	big, r := length(HalfOutsides, s.Header/2), length(HalfOutsides, s.Branch/2)
	sin, cos := s.Angle.Sin(), s.Angle.Cos()
	most, least := length(parser.TakeoffOf, shortest), length(SaddleSide, longest)
	switch leans := length(SaddleLean, s.Branch/2*geometry.Length(cos)); {
	case leans.Length < geometry.Hair/1000:
		most = big
	default:
		w.multiply(RuleSaddleLean, r, cos, leans)
		w.add(RuleSaddleHigh, length(SaddleHigh, big.Length+leans.Length), big, leans)
		w.divide(RuleSaddleShort, length(SaddleHigh, big.Length+leans.Length), sin, most)
		if heel {
			w.add(RuleSaddleHeel, length(SaddleHigh, big.Length-leans.Length), big, less(SaddleLean, leans.Length))
			w.divide(RuleSaddleLong, length(SaddleHigh, big.Length-leans.Length), sin, least)
		}
	}
	if !heel {
		minus := r
		minus.Minus = true
		w.step(Step{Name: StepRoot, Rule: RuleSaddleSide, Result: least, Terms: []Quantity{big, minus}})
	}
	w.add(RuleFishmouth, length(parser.Fishmouth, shortest-longest), most, less(SaddleSide, longest))
	return nil
}

// The roles, in the steps of a saddle, of lengths from where the two centerlines
// meet.
const (
	SaddleLean parser.Role = "saddle_lean" // the part of the branch's half that lies along the header
	SaddleHigh parser.Role = "saddle_high" // over the header's centerline, before it is followed down the branch
	SaddleSide parser.Role = "saddle_side" // to the branch's longest line
)
