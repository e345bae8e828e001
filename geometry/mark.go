package geometry

// Trim is how much to cut off the standing pipes for an offset to go in: the
// end gap it needs, less the gap there is. Pipes that overlap along the line
// have a gap of less than nothing. Which of the two is trimmed, or whether the
// cut is split, does not matter: only the sum does.
//
// Trim may come out negative without an error: the ends are already too far
// apart, and a piece of that length must be added.
func Trim(endGap, gapNow Length) (Length, error) {
	if err := firstProblem(length("end gap", endGap), signed("gap", gapNow)); err != nil {
		return 0, err
	}
	trim := endGap - gapNow
	return figured(trim, signed("trim", trim))
}

// MarkAt is where the cut goes on a pipe whose end stands at a reading of the
// tape, from a reference that stays: the reading less the trim. A pipe with
// less to it than must come off is [NoRoom].
func MarkAt(end, trim Length) (Length, error) {
	if err := firstProblem(length("reading", end), signed("trim", trim)); err != nil {
		return 0, err
	}
	mark := end - trim
	if mark < 0 {
		return 0, &Problem{NoRoom, "mark", mark.Inches()}
	}
	return mark, nil
}
