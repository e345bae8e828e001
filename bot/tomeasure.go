package bot

import (
	"errors"

	"dogleg/bot/figure"
	"dogleg/bot/sketch"
	"dogleg/catalog"
)

// whatToMeasure is the picture of the very fitting whose takeoff nobody knows, with
// what to measure on it.
func (t *turn) whatToMeasure(err error) []File {
	i, ok := errors.AsType[*figure.Impossible](err)
	if !ok || i.Cause != figure.NoTakeoff || i.Fitting == (catalog.Fitting{}) {
		return nil
	}
	o := t.options(t.talk.Language)
	if _, err := sketch.Measure(i.System, i.Fitting, i.Size, o); err != nil {
		return nil
	}
	r := recipe{Of: toMeasure, Options: o, System: i.System.ID, Fitting: i.Fitting.Key(), Size: i.Size}
	return t.toBePainted(r, "measure.png", true)
}
