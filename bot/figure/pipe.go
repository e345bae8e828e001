package figure

import (
	"cmp"
	"slices"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// pipe settles which system the line is and in which size, once. What no word
// decided is taken as the likeliest and said; what can't be guessed is asked,
// the material before the size.
func (w *work) pipe() error {
	if w.settled {
		return nil
	}
	size := cmp.Or(w.ask.Pipe.Size, w.ask.Ends[0].Size)
	matches, err := w.matches(size)
	if err != nil {
		return err
	}
	if size == "" {
		return &Missing{Wanted: parser.SizeOf, Options: names(w.sizesOf(matches))}
	}
	sold := having(matches, size)
	if len(sold) == 0 {
		return &Impossible{Cause: NoSuchSize, Subject: string(size), Near: names(catalog.Near(w.sizesOf(matches), size)), System: matches[0]}
	}
	w.settle(sold, size)
	return nil
}

// settle takes the likeliest system that has the bend at all. One that the user
// has measured the fitting of is theirs, and no other is thought of unless that
// was measured too. The list of systems is settle's to keep.
func (w *work) settle(sold []catalog.System, size catalog.Size) {
	if measured := w.theirs(sold, size); len(measured) > 0 {
		sold = measured
	}
	took := 0
	for i, s := range sold {
		if w.hasBend(s) {
			took = i
			break
		}
	}
	w.settled = true
	w.answer.System, w.answer.Size = sold[took], sold[took].NameOf(size)
	w.others = slices.Delete(sold, took, took+1)
}

// theirs are the systems that the user has their own takeoff in, or else
// their crew has.
func (w *work) theirs(sold []catalog.System, size catalog.Size) []catalog.System {
	if len(w.settings.Takeoffs) == 0 {
		return nil
	}
	for _, crews := range []bool{false, true} {
		measured := slices.DeleteFunc(slices.Clone(sold), func(s catalog.System) bool {
			return !w.measuredIn(s, size, crews)
		})
		if len(measured) > 0 {
			return measured
		}
	}
	return nil
}

// measuredIn says whether there is a takeoff for the bend in a system, or for
// any where none was said, in the user's own book or in the crew's.
func (w *work) measuredIn(s catalog.System, size catalog.Size, crews bool) bool {
	bend := ""
	if w.asked != 0 {
		bend = w.fittingAt(0, w.asked).Key()
	}
	return slices.ContainsFunc(w.settings.Takeoffs, func(own OwnTakeoff) bool {
		return own.Crew == crews && own.System == s.ID && own.Size == size && (bend == "" || own.Fitting == bend) &&
			(w.ask.Line == "" || SameLine(own.Line, w.ask.Line))
	})
}

// matches are the systems that the words allow, the likeliest first, all of
// one material.
//
// A size that is not sold is told apart from a pipe that does not exist, so it
// rules nothing out here; it only helps to tell which system is likelier.
func (w *work) matches(size catalog.Size) ([]catalog.System, error) {
	p := w.ask.Pipe
	p.Size = ""
	if p == (catalog.Pipe{}) {
		return nil, w.missingMaterial()
	}
	p.Use = w.useFor(p)
	matches := catalog.Match(withSize(p, size))
	if len(matches) == 0 {
		matches = catalog.Match(p)
	}
	if w.settings.Code == ASNZS {
		matches = firstOf(matches, "pvc-dwv-as")
	}
	if len(matches) == 0 && unknownJoint(w.ask.Pipe) {
		return nil, &Missing{Wanted: parser.TakeoffOf, Of: parser.JointOf}
	}
	if len(matches) == 0 {
		return nil, w.noSuchPipe()
	}
	for _, s := range matches {
		if s.Material != matches[0].Material {
			return nil, w.missingMaterial()
		}
	}
	return matches, nil
}

// unknownJoint says whether a pipe is joined in a way of which no fittings are known
// here: their takeoff has to be told.
func unknownJoint(p catalog.Pipe) bool {
	return p.Joint != "" && len(catalog.Match(catalog.Pipe{Joint: p.Joint})) == 0
}

// firstOf are systems with one of them before all others.
func firstOf(systems []catalog.System, id string) []catalog.System {
	is := func(s catalog.System) bool { return s.ID == id }
	at := slices.IndexFunc(systems, is)
	if at < 0 {
		return systems
	}
	return append([]catalog.System{systems[at]}, slices.DeleteFunc(slices.Clone(systems), is)...)
}

// useFor is the use that was said of a pipe, or else the one that what it
// carries asks for, if the material is made for that: water runs in pressure
// pipe, drain fittings are no offer for it.
func (w *work) useFor(p catalog.Pipe) catalog.Use {
	use := p.Use
	switch {
	case use != "":
		return use
	case w.ask.Carries == parser.Water:
		use = catalog.Pressure
	case w.ask.Carries == parser.Vent, w.ask.Carries == parser.DrainWater:
		use = catalog.DWV
	}
	q := p
	q.Use = use
	if len(catalog.Match(q)) == 0 {
		return p.Use
	}
	return use
}

func withSize(p catalog.Pipe, size catalog.Size) catalog.Pipe {
	p.Size = size
	return p
}

func (w *work) missingMaterial() error {
	return &Missing{Wanted: parser.PipeOf, Options: []string{
		string(catalog.PVC), string(catalog.ABS), string(catalog.Copper),
		string(catalog.Steel), string(catalog.CastIron), string(catalog.CPVC),
	}}
}

// noSuchPipe: the words contradict each other, as threaded PVC for a drain.
func (w *work) noSuchPipe() error {
	p := w.ask.Pipe
	schedule := p.Schedule
	if strings.Trim(schedule, "0123456789") == "" && schedule != "" {
		schedule = "schedule " + schedule
	}
	said := []string{string(p.Joint), string(p.Material), string(p.Use), schedule}
	said = slices.DeleteFunc(said, func(s string) bool { return s == "" })
	var near []string
	for _, s := range catalog.Match(catalog.Pipe{Material: p.Material}) {
		switch name := string(s.Material); {
		case p.Material != "":
			near = append(near, s.Name)
		case !slices.Contains(near, name):
			near = append(near, name) // of whatever material: those alone
		}
	}
	return &Impossible{Cause: NoSuchFitting, Subject: strings.Join(said, " "), Near: near}
}

func having(systems []catalog.System, size catalog.Size) []catalog.System {
	return slices.DeleteFunc(slices.Clone(systems), func(s catalog.System) bool {
		return !s.HasSize(size)
	})
}

// sizesOf are the sizes that these systems are sold in: every size of the
// material where the words leave it open.
func (w *work) sizesOf(systems []catalog.System) []catalog.Size {
	if len(systems) == 1 {
		return systems[0].Sizes()
	}
	return slices.DeleteFunc(catalog.SizesOf(systems[0].Material), func(size catalog.Size) bool {
		return len(having(systems, size)) == 0
	})
}

func names(sizes []catalog.Size) []string {
	var all []string
	for _, s := range sizes {
		all = append(all, string(s))
	}
	return all
}

// outside is the outside diameter of the pipe at one end.
func (w *work) outside(end int) (geometry.Length, error) {
	if err := w.pipe(); err != nil {
		return 0, err
	}
	d, ok := w.answer.System.Dimensions(w.sizeAt(end))
	if !ok {
		return 0, w.noSizeAt(end)
	}
	return d.Outside, nil
}

// sizeAt is the size at one end: that of the pipe, unless another was said.
func (w *work) sizeAt(end int) catalog.Size {
	if s := w.ask.Ends[end].Size; s != "" {
		return s
	}
	return w.answer.Size
}

func (w *work) noSizeAt(end int) error {
	size, s := w.sizeAt(end), w.answer.System
	return &Impossible{Cause: NoSuchSize, Subject: string(size), Near: names(catalog.Near(s.Sizes(), size)), System: s}
}

// pipeSaid says whether the words name a pipe, more than its size.
func (w *work) pipeSaid() bool {
	p := w.ask.Pipe
	p.Size = ""
	return p != catalog.Pipe{}
}
