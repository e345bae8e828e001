package catalog

import (
	"fmt"

	"dogleg/geometry"
)

// Evidence says how well a number is known. It decides whether a cut may be
// printed as it is, or only as "about".
type Evidence string

// The grades of evidence, the best first.
const (
	Own        Evidence = "own"         // the user, or their crew, measured it and entered it
	Said       Evidence = "said"        // given in this very message
	Published  Evidence = "published"   // seen in a published standard, handbook or textbook
	OpenData   Evidence = "open data"   // seen in an open data set
	SecondHand Evidence = "second-hand" // seen in a machine-written summary of a standard, not in the standard
	Memory     Evidence = "memory"      // recalled, not checked against the standard
	Derived    Evidence = "derived"     // from geometry: a rough first figure
)

// Sure says whether a cut that rests on this evidence may be printed without
// "about". Only what is published, seen in open data, or the user's own is.
func (e Evidence) Sure() bool {
	switch e {
	case Own, Said, Published, OpenData:
		return true
	case SecondHand, Memory, Derived:
	}
	return false
}

// weaker is the evidence of a number made from two: the weaker of theirs.
func weaker(a, b Evidence) Evidence {
	for _, e := range []Evidence{Derived, Memory, SecondHand, OpenData, Published, Said} {
		if a == e || b == e {
			return e
		}
	}
	return Own
}

// Takeoff is the length from a fitting's center to where the end of the pipe
// comes to rest in it, with where the number comes from.
type Takeoff struct {
	Fitting   Fitting
	Size      Size
	Length    geometry.Length // center to the resting end of the pipe
	Insertion geometry.Length // how far the pipe goes in; center to face is Length + Insertion
	Band      geometry.Length // the fitting in the hand may differ by this much, either way
	Evidence  Evidence
	Source    string // what a reader is told: "ASME B16.9, center to face"
	Note      string
	Measured  Measured // of an own takeoff
}

// Measured is how an own takeoff was come by; zero for any other.
type Measured struct {
	How  string // "center to stop"
	When string // the day, as it is cited: "3 Nov"
	Line string // the user's own name for the maker's line: "the grey ones"
	By   string // of a crew's takeoff: who set it
	Crew bool   // it is in the crew's book, not in the user's own
}

// CenterToFace is the takeoff and the depth the pipe goes in: where the hub
// ends. Two hubs touch when their centers are this far apart, added up.
func (t Takeoff) CenterToFace() geometry.Length { return t.Length + t.Insertion }

// Takeoff is that of a fitting in a size of the system; false if the fitting
// or the size does not exist in it, or nothing usable is known. At a
// hub-and-spigot fitting it is that of the hub's end.
//
// The takeoff's insertion is zero both where nothing goes in and where the
// depth is not known; [System.Insertion] tells the two apart.
func (s System) Takeoff(f Fitting, size Size) (Takeoff, bool) {
	t, ok := s.takeoffAt(hubEnd, f, size)
	if !ok {
		return Takeoff{}, false
	}
	if depth, known := s.Insertion(size); known {
		t.Insertion = depth.Length
	}
	return t, true
}

// SpigotTakeoff is that of the plain end of a hub-and-spigot fitting: from the
// center to the end, which comes to rest in the hub of the next piece. False
// for any other joint. Nothing goes into a spigot, so the insertion is zero.
func (s System) SpigotTakeoff(f Fitting, size Size) (Takeoff, bool) {
	if s.Joint != Hub {
		return Takeoff{}, false
	}
	return s.takeoffAt(spigotEnd, f, size)
}

// end tells the ends of a hub-and-spigot fitting apart. The ends of all others
// are alike.
type end string

const (
	hubEnd    end = ""
	spigotEnd end = "spigot"
)

// takeoffAt is the takeoff at an end, without insertion: from the table if it
// is there, else as the system lets it be figured.
func (s System) takeoffAt(at end, f Fitting, size Size) (Takeoff, bool) {
	if t, ok := s.tabulated(at, f, size); ok {
		return t, true
	}
	if t, ok := s.asAnother(at, f, size); ok {
		return t, true
	}
	if f != BendOf(f.Angle) || !s.Has(f) || !s.HasSize(size) {
		return Takeoff{}, false
	}
	for _, way := range loaded().system(s.ID).missingBends {
		if t, ok := s.derive(way, at, f, size); ok {
			t.Fitting, t.Size, t.Evidence = f, size, Derived
			return t, true
		}
	}
	return Takeoff{}, false
}

// asAnother is the takeoff of a fitting that has the length of another one by the
// standard: a tee as a 90.
func (s System) asAnother(at end, f Fitting, size Size) (Takeoff, bool) {
	as, alike := loaded().system(s.ID).alike[f.Key()]
	if !alike {
		return Takeoff{}, false
	}
	t, ok := s.takeoffAt(at, as.fitting, size)
	t.Fitting, t.Evidence = f, Derived
	t.Source = "as the " + as.fitting.Key() + " (" + as.source + "): " + t.Source
	return t, ok
}

// tabulated is the takeoff that a table gives.
func (s System) tabulated(at end, f Fitting, size Size) (Takeoff, bool) {
	row, ok := loaded().takeoffs[fittingPlace{loaded().at(s.ID, size), s.named(f).Key(), at}]
	if !ok || !s.takes(row.schedule) {
		return Takeoff{}, false
	}
	t := row.Takeoff
	t.Fitting, t.Size = f, size
	if s.Joint == Thread {
		return t.lessMakeup()
	}
	return t, true
}

// lessMakeup turns a threaded fitting's center to end into its takeoff. The
// band is one turn, which ASME B1.20.1 allows a joint to make up more or less.
func (t Takeoff) lessMakeup() (Takeoff, bool) {
	thread, ok := ThreadOf(t.Size)
	if !ok || thread.Makeup >= t.Length {
		return Takeoff{}, false
	}
	t.Length -= thread.Makeup
	t.Band = thread.Turn()
	t.Evidence = weaker(t.Evidence, thread.MakeupEvidence)
	t.Note = fmt.Sprintf("makeup %s in by %s; another table has %s in",
		thread.Makeup.Tape(geometry.Sixteenths), thread.MakeupSource, thread.OtherMakeup.Tape(geometry.Sixteenths))
	return t, true
}
