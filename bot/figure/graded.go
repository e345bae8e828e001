package figure

import (
	"dogleg/geometry"
	"dogleg/parser"
)

// graded figures what the grade of a line does to an offset in it, and what
// the offset does to the fall. The offset keeps the grade along its travel, so
// it comes down grade × travel, more than the grade × run of the straight line
// it stands in for (developed length, IPC 704.1). Square across, a quarter inch
// per foot changes a set by two thousandths in ten inches: nothing. But a rise
// taken between the two pipe ends, and not at one spot along the line, has the
// fall over the run in it.
func (w *work) graded(o solved) error {
	if w.ask.Grade == 0 {
		return nil
	}
	over, err := geometry.SlopeLength(w.ask.Grade, o.Travel)
	if err != nil {
		return err
	}
	w.answer.Grade = w.ask.Grade
	w.figured(parser.Drop, over.Fall)
	if o.Run > 0 {
		straight, err := geometry.SlopeLength(w.ask.Grade, o.Run)
		if err != nil {
			return err
		}
		w.answer.FallOverRun = straight.Fall
	}
	return w.minimums(w.ask.Grade)
}

// gradeStep is the step from the travel to what the offset comes down.
func (w *work) gradeStep(travel Quantity) {
	if w.ask.Grade != 0 {
		w.multiply(RuleFall, travel, float64(w.ask.Grade), length(parser.Drop, travel.Length*geometry.Length(w.ask.Grade)))
	}
}
