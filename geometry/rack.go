package geometry

// Covered is a pipe with what covers it.
type Covered struct {
	Outside Length // diameter of the pipe
	Cover   Length // how thick it is covered all round, 0 where it is bare
}

// reach is from the center to the outside of the cover.
func (c Covered) reach() Length { return c.Outside/2 + c.Cover }

// Apart is how far the centers of two parallel pipes lie apart that have so much
// clear space between what covers them: half of each pipe, what covers each, and
// the space.
func Apart(space Length, a, b Covered) (Length, error) {
	if err := firstProblem(
		lengthOrZero("clear space", space), length("outside", a.Outside), length("outside", b.Outside),
		lengthOrZero("insulation", a.Cover), lengthOrZero("insulation", b.Cover),
	); err != nil {
		return 0, err
	}
	return a.reach() + space + b.reach(), nil
}

// ClearOf is the clear space that is left between what covers two parallel pipes
// whose centers lie so far apart. It is less than nothing where they would overlap.
func ClearOf(apart Length, a, b Covered) Length { return apart - a.reach() - b.reach() }
