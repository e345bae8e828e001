package sketch

import (
	"errors"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// ErrNothingToDraw says that an answer is a number without a shape.
var ErrNothingToDraw = errors.New("sketch: there is nothing to draw")

// Draw makes the picture of an answer. The error is [ErrNothingToDraw].
func Draw(a *figure.Answer, o wording.Options) (*Drawing, error) {
	o = o.For(a.Ask)
	s := sketcher{a, o}
	views := s.views()
	if strip, ok := s.strip(); ok {
		views = append(views, strip)
	}
	if len(views) == 0 {
		return nil, ErrNothingToDraw
	}
	title, understood := wording.Heading(a, o)
	return &Drawing{Title: title, Understood: understood, Views: views}, nil
}

// views are the pictures of one kind of answer, without the tape.
func (s sketcher) views() []View {
	switch s.answer.Kind {
	case parser.Unstated, parser.Offset:
		return s.offset()
	case parser.Check:
		return s.check()
	case parser.Fit:
		return s.fit()
	case parser.Piece:
		return s.piece()
	case parser.Mark:
		return s.marking()
	case parser.Parallel:
		return s.parallel()
	case parser.Around:
		return s.around()
	case parser.Fall:
		return s.fall()
	case parser.Trim:
		return s.trim()
	case parser.Multiplier:
		return s.multiplier()
	case parser.Takeoff:
		return s.takeoff()
	case parser.Corner:
		return s.corner()
	case parser.Miter, parser.Saddle:
		return s.wrapped()
	case parser.Wrap:
		return s.arc()
	case parser.Riser:
		return s.riser()
	case parser.Doglegs:
		return s.doglegs()
	case parser.Sum:
	}
	return nil
}
