package ask

import (
	"cmp"
	"slices"

	"dogleg/catalog"
	"dogleg/geometry"
)

// With is the ask a, changed by what a follow-up or an answer says: what the
// change leaves unsaid stays as it was. A bare number in the change takes the
// place of the ask's own first figure: "same but 14" after a fall is a length.
func (a Ask) With(change Ask) Ask {
	out := a
	out.Measures = slices.Clone(a.Measures)
	out.FollowUp, out.Want, out.Taken = false, change.Want, change.Taken
	out.Repairs = change.Repairs
	if change.Language != "" {
		out.Language = change.Language
	}
	if change.Name != "" {
		out.Name = change.Name
	}
	out.turnInto(change)
	for _, m := range change.Measures {
		out.replace(m)
	}
	if change.Method != "" && len(out.Measures) > 0 {
		out.Measures[0].Method = change.Method
	}
	if change.Angle != 0 {
		out.setAngle(change.Angle)
	}
	out.Pipe = changed(out.Pipe, change.Pipe)
	out.changeEnds(change, another(a.Pipe, change.Pipe))
	if change.Grade != 0 {
		out.Grade = change.Grade
	}
	if change.Lines != 0 {
		out.Lines = change.Lines
	}
	out.Lie, out.Carries = cmp.Or(change.Lie, a.Lie), cmp.Or(change.Carries, a.Carries)
	out.Through = cmp.Or(change.Through, a.Through)
	out.Pieces = cmp.Or(change.Pieces, a.Pieces)
	if len(change.Rack) > 0 {
		out.Rack = change.Rack
	}
	out.LineOne = cmp.Or(change.LineOne, a.LineOne)
	if len(change.Inline) > 0 {
		out.Inline = change.Inline
	}
	if len(change.Stations) > 0 {
		out.Stations = change.Stations
	}
	out.Rolling = a.Rolling || change.Rolling
	out.Handbook = a.Handbook || change.Handbook
	out.ComeBack = a.ComeBack || change.ComeBack
	out.Sensitivity = change.Sensitivity
	out.takeKind(change)
	return out
}

// turnInto makes the set of an offset one of the two parts of its step, where a change
// tells only the other: 12 over, and it climbs 4 too.
func (a *Ask) turnInto(change Ask) {
	rolls, rises := len(change.All(Roll)), len(change.All(Rise))
	if rolls+rises != 1 || len(change.All(Set)) > 0 {
		return
	}
	for i := range a.Measures {
		if m := &a.Measures[i]; m.Role == Set && (m.Method == "" || m.Method == Centers) {
			m.Role = Roll
			if rolls == 1 {
				m.Role = Rise
			}
		}
	}
}

// replace puts a measure in the place of those of its role. Set replaces roll
// and rise, and the reverse; any of two known sides gives way to a third.
func (a *Ask) replace(m Measure) {
	if m.Bare && m.Role == Set && len(a.All(Set)) == 0 && len(a.Measures) > 0 && len(a.All(Roll)) == 0 {
		m.Role = a.Measures[0].Role
	}
	first := slices.IndexFunc(a.Measures, func(old Measure) bool { return old.Role == m.Role })
	gone := func(old Measure) bool {
		switch m.Role {
		case Set:
			return old.Role == Set || old.Role == Roll || old.Role == Rise
		case Roll, Rise:
			return old.Role == m.Role || old.Role == Set
		}
		return old.Role == m.Role
	}
	if first >= 0 && m.Method == "" && a.Measures[first].Method != Centers && !m.Apart {
		m.Method = a.Measures[first].Method // read as the one before was
	}
	a.Measures = slices.DeleteFunc(a.Measures, gone)
	at := len(a.Measures)
	if first >= 0 && first <= at {
		at = first
	}
	a.Measures = slices.Insert(a.Measures, at, m)
}

// setAngle changes the angle, and of a fit or a solved triangle makes an offset
// of that angle.
func (a *Ask) setAngle(angle geometry.Angle) {
	a.Angle = angle
	a.Measures = slices.DeleteFunc(a.Measures, func(m Measure) bool { return m.Role == TakeoffOf || m.Role == Face || m.Role == Depth })
	a.Ends = [2]End{}
	if a.Kind == Fit {
		a.Kind = Offset
	}
	if a.Kind == Offset && len(a.All(Set))+len(a.All(Roll)) > 0 {
		a.Measures = slices.DeleteFunc(a.Measures, func(m Measure) bool { return m.Role == Run || m.Role == Travel || m.Role == Room })
	}
}

// changeEnds takes over fittings and takeoffs. Another pipe has other fittings,
// so a takeoff said for the old one goes.
func (a *Ask) changeEnds(change Ask, anotherPipe bool) {
	if anotherPipe {
		for i := range a.Ends {
			a.Ends[i] = End{Fitting: a.Ends[i].Fitting, Size: a.Ends[i].Size}
		}
		if len(change.All(TakeoffOf)) == 0 {
			a.Measures = slices.DeleteFunc(a.Measures, func(m Measure) bool { return m.Role == TakeoffOf || m.Role == Face || m.Role == Depth })
		}
	}
	for i, e := range change.Ends {
		if e.Fitting != (catalog.Fitting{}) {
			a.Ends[i].Fitting = e.Fitting
		}
		if e.Size != "" {
			a.Ends[i].Size = e.Size
		}
		if e.Takeoff != 0 {
			a.Ends[i].Takeoff, a.Ends[i].Face, a.Ends[i].Depth = e.Takeoff, 0, 0
		}
		if e.Face != 0 {
			a.Ends[i].Takeoff, a.Ends[i].Face, a.Ends[i].Depth = 0, e.Face, e.Depth
		}
		a.Ends[i].Spigot = cmp.Or(e.Spigot, a.Ends[i].Spigot)
		a.Ends[i].Inlet = cmp.Or(e.Inlet, a.Ends[i].Inlet)
		a.Ends[i].Outlet = cmp.Or(e.Outlet, a.Ends[i].Outlet)
	}
}

// another says whether a change names another pipe than was said before. What
// only says more of it, as an answer does, is no other.
func another(said, change catalog.Pipe) bool {
	return said.Size != "" && change.Size != "" && said.Size != change.Size ||
		said.Material != "" && change.Material != "" && said.Material != change.Material
}

// takeKind makes a change of kind where the change says one of its own.
func (a *Ask) takeKind(change Ask) {
	switch {
	case a.Kind == Unstated:
		a.Kind = change.Kind
	case change.Kind == Unstated || change.Kind == Takeoff || change.Kind == Offset && a.Kind != Fit:
	default:
		a.Kind = change.Kind
	}
}

// changed is a pipe after something more was said of it. Another material
// brings its own joint, use and schedule; the size stays until one is said.
func changed(p, change catalog.Pipe) catalog.Pipe {
	if change.Material != "" && change.Material != p.Material {
		p.Joint, p.Use, p.Schedule, p.Material = "", "", "", change.Material
	}
	if change.Joint != "" {
		p.Joint = change.Joint
	}
	if change.Use != "" {
		p.Use = change.Use
	}
	if change.Schedule != "" {
		p.Schedule = change.Schedule
	}
	if change.Size != "" {
		p.Size = change.Size
	}
	return p
}
