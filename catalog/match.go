package catalog

import "slices"

// Match lists the systems that a pipe can be, the likeliest first; none if
// there is no such pipe. What was not said of the pipe rules nothing out.
//
// Where several remain, the trade's habit decides the order: PVC is DWV before
// it is pressure pipe, cast iron is no-hub before hub and spigot, steel is
// threaded to 2 in and welded from 2-1/2 in up (common practice). A schedule
// that was said puts the system sold under it first, and is the schedule of
// all systems returned.
func Match(p Pipe) []System {
	p.Schedule = fullSchedule(p.Schedule)
	found := make([]System, 0, mostAlike)
	for _, e := range loaded().systems {
		if e.canBe(p) {
			found = append(found, e.System)
		}
	}
	found = preferUse(found, p.Use)
	slices.SortStableFunc(found, func(a, b System) int { return rank(a, p) - rank(b, p) })
	if p.Schedule != "" {
		for i := range found {
			found[i].Schedule = p.Schedule
		}
	}
	return found
}

// fullSchedule is a schedule as the tables name it: "35" is said of SDR 35, and no
// pipe has a schedule 35.
func fullSchedule(said string) string {
	if ratio := "SDR " + said; said != "" && slices.ContainsFunc(loaded().systems, func(e *entry) bool { return e.Schedule == ratio }) {
		return ratio
	}
	return said
}

// mostAlike is how many systems most pipes can be: PVC is for drains, in two
// schedules for pressure, for sewers.
const mostAlike = 4

// canBe says whether nothing that was said of the pipe rules this system out.
func (e *entry) canBe(p Pipe) bool {
	return (p.Material == "" || p.Material == e.Material) &&
		(p.Joint == "" || p.Joint == e.Joint) &&
		e.serves(p.Use) &&
		(p.Size == "" || e.HasSize(p.Size)) &&
		e.soldAs(p.Schedule, p.Size)
}

// serves says whether the system may be used so. Drainage pipe also makes a
// sewer.
func (e *entry) serves(u Use) bool {
	return u == "" || e.Use == "" || e.Use == u || (u == Sewer && e.Use == DWV)
}

// soldAs says whether pipe of the system comes in that schedule, in that size
// if one is said.
func (e *entry) soldAs(schedule string, size Size) bool {
	if schedule == "" {
		return true
	}
	for _, each := range e.sizes {
		if size != "" && e.NameOf(size) != each {
			continue
		}
		for _, p := range loaded().pipes[place{e.ID, each}] {
			if p.schedule == schedule {
				return true
			}
		}
	}
	return false
}

// preferUse keeps only the systems made for a use, if there are any: sewer PVC
// is sewer pipe, although DWV pipe would serve.
func preferUse(systems []System, u Use) []System {
	made := func(s System) bool { return s.Use == u }
	if u == "" || !slices.ContainsFunc(systems, made) {
		return systems
	}
	return slices.DeleteFunc(systems, func(s System) bool { return !made(s) })
}

// weldedFrom is the size from which steel is likelier welded than threaded
// (common practice).
const (
	weldedFrom   Size = "2-1/2"
	weldedFromDN Size = "DN65"
)

// rank orders systems that a pipe can be; those of one rank stay in the order
// of the table.
func rank(s System, p Pipe) int {
	switch {
	case p.Schedule != "" && s.Schedule == p.Schedule:
		return 0
	case s.ID == "steel-en-threaded" && p.Size != "" && compareSizes(p.Size, weldedFromDN) >= 0:
		return 2
	case s.ID == "steel-threaded" && p.Size != "" && compareSizes(p.Size, weldedFrom) >= 0:
		return 2
	}
	return 1
}
