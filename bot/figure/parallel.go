package figure

import (
	"cmp"
	"errors"

	"dogleg/geometry"
	"dogleg/geometry/walk"
	"dogleg/parser"
)

// parallel figures a bank of parallel lines: travel, run and cut are the same
// for each, only where the bends start differs, by the stagger, for the lines
// to keep their spacing on the diagonal. Line 1 is the one farthest from the
// side the pipes step toward; each next one bends that much sooner.
//
// The bank lies level. Where it rolls, only the part of the spacing in the
// plane of the offset counts.
func (w *work) parallel() error {
	if len(w.ask.Rack) > 0 {
		return w.rack()
	}
	o, err := w.triangle()
	if missing := (*Missing)(nil); errors.As(err, &missing) && w.asked != 0 && w.has(parser.Spacing) && !w.stepped() {
		return w.staggerAlone()
	}
	if err != nil {
		return err
	}
	w.answer.Angle, w.answer.Main = o.Angle, parser.Stagger
	spacing, ok, err := w.centered(parser.Spacing)
	if err != nil {
		return err
	}
	if !ok {
		w.withoutPiece(o)
		return &Missing{Wanted: parser.Spacing}
	}
	stagger, err := w.staggered(spacing, o)
	if err != nil {
		return err
	}
	if err := w.pieceOfBank(&o); err != nil {
		return err
	}
	w.bankLengths(o, stagger)
	return w.linesOf(o, spacing, stagger)
}

// stepped says whether anything was given of how far the lines step.
func (w *work) stepped() bool {
	return w.has(parser.Set) || w.has(parser.Roll) || w.has(parser.Rise) || w.has(parser.Run) || w.has(parser.Travel)
}

// staggerAlone figures the stagger, which hangs on the spacing and the angle
// only, where nobody said how far the lines step.
func (w *work) staggerAlone() error {
	spacing, _, err := w.centered(parser.Spacing)
	if err != nil {
		return err
	}
	w.answer.Angle, w.answer.Main = w.asked, parser.Stagger
	stagger, err := w.staggered(spacing, solved{Offset: geometry.Offset{Angle: w.asked}})
	if err != nil {
		return err
	}
	w.figured(parser.Stagger, stagger)
	return nil
}

// Bank is how a bank of parallel lines lies against the step that it takes.
type Bank struct {
	Lie    parser.Lie      // side by side, one above the other; empty: along the step
	Taken  bool            // no word said so
	Along  bool            // no word said which way the step goes: it is taken along the bank
	Roll   geometry.Angle  // between the direction of the spacing and that of the step
	Other  geometry.Length // the stagger if the bank lay the other way
	Differ bool            // it is another on the tape
}

// lieOfBank finds how the bank lies against the step. What the step's direction
// is, its roll and rise say. A bank of which nothing is said is taken as lying
// side by side, as on a rack; a step of which nothing is said, as going along
// the bank. Both are said in the answer, since the stagger hangs on them.
func (w *work) lieOfBank() Bank {
	b := Bank{Lie: w.ask.Lie, Taken: w.ask.Lie == ""}
	roll, rise := w.across()
	if roll == 0 && rise == 0 {
		b.Along = true
		return b
	}
	b.Lie = cmp.Or(b.Lie, parser.SideBySide)
	b.Roll = geometry.Atan2(rise, roll) // from level
	if b.Lie == parser.OneAbove {
		b.Roll = geometry.QuarterBend - b.Roll
	}
	return b
}

// across is how the line steps, by its level and its plumb part; none where
// only a set was said.
func (w *work) across() (roll, rise geometry.Length) {
	if w.answer.Rolling {
		return w.rolling.Roll, w.rolling.Rise
	}
	roll, _ = w.given.of(parser.Roll)
	rise, _ = w.given.of(parser.Rise)
	return roll, rise
}

// staggered figures the stagger, and what the spacing closes up to without; and
// what the stagger would be if the bank lay the other way.
func (w *work) staggered(spacing geometry.Length, o solved) (geometry.Length, error) {
	lies := w.lieOfBank()
	b := geometry.Bank{Spacing: spacing, Angle: o.Angle, Roll: lies.Roll}
	stagger, err := b.Stagger()
	if err != nil {
		return 0, err
	}
	if w.answer.Unstaggered, err = b.Unstaggered(); err != nil {
		return 0, err
	}
	other := b
	other.Roll = geometry.QuarterBend - lies.Roll
	if lies.Other, err = other.Stagger(); err != nil {
		return 0, err
	}
	stagger, lies.Other = noHair(stagger), noHair(lies.Other)
	lies.Differ = !within(stagger, lies.Other, geometry.Inch/32)
	w.answer.Bank = lies
	term := length(parser.Spacing, spacing)
	w.multiply(RuleStagger, term, b.Roll.Cos()*o.Angle.Half().Tan(), length(parser.Stagger, stagger))
	return stagger, nil
}

// noHair is a length without what the floating point leaves of none.
func noHair(l geometry.Length) geometry.Length {
	if within(l, 0, 0) {
		return 0
	}
	return l
}

// pieceOfBank figures the piece where a pipe, or takeoffs, were said; a bank
// can be laid out without.
func (w *work) pieceOfBank(o *solved) error {
	if !w.pipeSaid() && !w.takeoffsSaid() {
		return nil
	}
	if err := w.pieceOf(o); !isUnmeasured(err) {
		return err
	}
	return nil
}

func (w *work) bankLengths(o solved, stagger geometry.Length) {
	w.figured(parser.Stagger, stagger)
	if o.pieced {
		w.withPiece(o)
	} else {
		w.withoutPiece(o)
	}
	w.answer.Main = parser.Stagger
	if _, ok := w.answer.Length(w.ask.Want); ok {
		w.answer.Main = w.ask.Want
	}
}

// linesOf lays out each line, and walks each.
func (w *work) linesOf(o solved, spacing, stagger geometry.Length) error {
	travel, _ := w.answer.Length(parser.Travel)
	run, _ := w.answer.Length(parser.Run)
	cut, _ := w.answer.Length(parser.Cut)
	if w.ask.LineOne == parser.Toward {
		stagger = -stagger
	}
	for n := range w.lineCount() {
		w.answer.Lines = append(w.answer.Lines, Line{
			Number: n + 1, Run: run, Travel: travel, Cut: cut, HasCut: o.pieced,
			Start: geometry.Length(n) * stagger, Spacing: geometry.Length(n) * spacing,
		})
	}
	if o.pieced {
		if err := w.built(o); err != nil {
			return err
		}
	} else {
		w.explain(o)
	}
	return w.walkedLines(o)
}

// lineCount is how many lines there are. Where nobody said, two show all there
// is to know: each next line is as much sooner again.
func (w *work) lineCount() int { return cmp.Or(w.ask.Lines, 2) }

// walkedLines walks each line of the bank from its own start. Any two
// neighbors must keep their spacing on the diagonal, as they do before and
// after it.
func (w *work) walkedLines(o solved) error {
	across := o.across()
	if roll, rise := w.across(); roll != 0 || rise != 0 {
		across = geometry.Rolling{Roll: roll, Rise: rise}
	}
	direction := geometry.Atan2(across.Rise, across.Roll)
	axis := walk.Up.Turned(direction, walk.Ahead)
	first := diagonal(walk.Point{}, o, axis)
	for _, l := range w.answer.Lines[1:] {
		aside := l.Spacing
		if w.ask.LineOne == parser.Toward {
			aside = -aside
		}
		from := walk.Point{X: -l.Start, Y: aside}
		if w.answer.Bank.Lie == parser.OneAbove && !w.answer.Bank.Along {
			from = walk.Point{X: -l.Start, Z: aside}
		}
		next := diagonal(from, o, axis)
		if off := distance(first, next) - l.Spacing; !(off <= landing && off >= -landing) {
			return &Impossible{Cause: NotLanding, Subject: off.String()}
		}
	}
	return nil
}

// diagonal walks the travel from a bend's center.
func diagonal(from walk.Point, o solved, axis walk.Direction) walk.Path {
	walker := walk.From(from)
	walker.Turn(o.Angle, axis)
	walker.Forward(o.Travel)
	return walker.Path()
}

// distance is how far apart two parallel straight paths lie, square across.
func distance(a, b walk.Path) geometry.Length {
	along := a[0].Distance(a.End())
	between := walk.Point{X: b[0].X - a[0].X, Y: b[0].Y - a[0].Y, Z: b[0].Z - a[0].Z}
	step := walk.Point{X: a.End().X - a[0].X, Y: a.End().Y - a[0].Y, Z: a.End().Z - a[0].Z}
	t := (between.X*step.X + between.Y*step.Y + between.Z*step.Z) / (along * along)
	return between.Distance(walk.Point{X: t * step.X, Y: t * step.Y, Z: t * step.Z})
}
