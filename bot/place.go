package bot

import (
	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// place is the pipe and the fittings of the last job, as they were settled.
type place struct {
	pipe     catalog.Pipe
	fittings [2]catalog.Fitting
}

// place finds the last job's. It is false if there is no last job, or its pipe
// is not settled.
func (t *turn) place() (place, bool) {
	if t.talk.Ask == nil {
		return place{}, false
	}
	ask := *t.talk.Ask
	a, err := figure.Solve(ask, t.figuring())
	if err != nil {
		a = partly(err)
	}
	if a == nil || a.System.ID == "" {
		return place{}, false
	}
	p := place{pipe: pipeOf(a.System, a.Size)}
	for i, end := range a.Ends {
		p.fittings[i] = fittingOf(end.Fitting, ask.Ends[i].Fitting, ask.Angle)
	}
	return p, p.fittings[0].Shape != ""
}

// partly is what was figured before an error, if anything was.
func partly(err error) *figure.Answer {
	switch e := err.(type) {
	case *figure.Missing:
		return e.Partly
	case *figure.Impossible:
		return e.Partly
	}
	return nil
}

// pipeOf names a system so that no other is meant.
func pipeOf(s catalog.System, size catalog.Size) catalog.Pipe {
	return catalog.Pipe{Material: s.Material, Joint: s.Joint, Use: s.Use, Schedule: s.Schedule, Size: size}
}

// alike says whether both ends have the same fitting.
func (p place) alike() bool { return p.fittings[0] == p.fittings[1] }

// fittingOf is the fitting figured with, else the one that was said, else the
// bend of the angle that was said, else none.
func fittingOf(figured, said catalog.Fitting, angle geometry.Angle) catalog.Fitting {
	switch {
	case figured.Shape != "":
		return figured
	case said.Shape != "":
		return said
	case angle != 0:
		return catalog.BendOf(angle)
	}
	return catalog.Fitting{}
}

// complete puts in what an ask doesn't say.
func (p place) complete(ask parser.Ask) parser.Ask {
	if !namesFitting(ask) {
		ask.Angle = p.fittings[0].Angle
		for i := range ask.Ends {
			ask.Ends[i].Fitting = p.fittings[i]
		}
	}
	if !namesPipe(ask) {
		size := ask.Pipe.Size
		ask.Pipe = p.pipe
		if size != "" {
			ask.Pipe.Size = size
		}
	}
	return ask
}
