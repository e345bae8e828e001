package wording

import (
	"slices"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// takeoffs says which takeoff was used at each end and where it comes from. A
// published takeoff is a pattern, not the fitting in the hand, so it asks for
// a look at the fitting.
func (o Options) takeoffs(a *figure.Answer) []string {
	if a.Kind == parser.Takeoff && len(a.Own) > 0 {
		return nil
	}
	lines := slices.Concat(o.takeoffLines(a), o.sides(a), o.roughRule(a), o.depths(a))
	if a.NoLine != "" {
		lines = append(lines, o.say("none of that line", "line", a.NoLine))
	}
	return lines
}

func (o Options) takeoffLines(a *figure.Answer) []string {
	first, second := a.Ends[0], a.Ends[1]
	switch {
	case used(first) && used(second) && a.System.Joint == catalog.Hub && first.Fitting == second.Fitting:
		return append(o.takeoffLine("takeoff at hub", first), o.takeoffLine("takeoff at spigot", second)...)
	case !used(first) && !used(second):
		return nil
	case !used(second):
		return o.takeoffLine("takeoff", first)
	case !used(first):
		return o.takeoffLine("takeoff", second)
	case alike(first, second):
		return o.takeoffLine("takeoff each", first)
	}
	return append(o.takeoffOf(first), o.takeoffOf(second)...)
}

// takeoffOf words the takeoff of one of two unlike ends, by its fitting if that was
// said.
func (o Options) takeoffOf(e figure.End) []string {
	if e.Fitting == (catalog.Fitting{}) {
		return o.takeoffLine("takeoff", e)
	}
	return o.takeoffLine("takeoff at", e)
}

func used(e figure.End) bool { return e.Takeoff.Length != 0 }

// alike tells whether one line says all there is to say of two ends.
func alike(a, b figure.End) bool {
	return a.Fitting == b.Fitting && a.Takeoff.Length == b.Takeoff.Length &&
		a.Takeoff.Evidence == b.Takeoff.Evidence && a.Takeoff.Source == b.Takeoff.Source &&
		a.Takeoff.Measured == b.Takeoff.Measured
}

// takeoffLine words one takeoff. Heavy and light mean nothing of one that is
// only about so.
func (o Options) takeoffLine(key string, e figure.End) []string {
	length := o.plain(e.Takeoff)
	if e.Takeoff.Evidence.Sure() || e.Takeoff.Note == figure.TrimmedElbow {
		length = o.ofFitting(e.Takeoff.Length)
	}
	what, _ := o.said(key, "length", length, "fitting", o.fitting(e.Fitting))
	return []string{what + o.origin(e.Takeoff)}
}

// ofFitting writes a length that was measured of a fitting: in millimeters to a
// tenth, which a caliper shows and a cut has twice.
func (o Options) ofFitting(l geometry.Length) string {
	if o.Metric {
		return o.stated(l, "")
	}
	return o.bare(l, exactly)
}

// origin says where a takeoff comes from, and what to do about it.
func (o Options) origin(t catalog.Takeoff) string {
	switch t.Evidence {
	case catalog.Own:
		return ", " + o.whose(t.Measured)
	case catalog.Said:
		return ", " + o.say("as you said")
	case catalog.Published, catalog.OpenData:
		return ": " + o.source(t.Source) + o.cutFrom(t) + ". " + o.say("check it")
	case catalog.SecondHand:
		return ": " + o.roughly("second-hand", t)
	case catalog.Memory:
		if t.Note == figure.RecalledDepth {
			return ": " + o.say("face less recalled", "face", o.plainFace(t), "depth", o.mark(t.Insertion, "", false))
		}
		return ": " + o.roughly("from memory", t)
	case catalog.Derived:
		if t.Note == figure.TrimmedElbow {
			return ": " + o.say("cut from a 90") + ", " + o.band(t.Band) + ". " + o.say("measure the cut elbow")
		}
		return ": " + o.roughly("from geometry", t)
	}
	return "."
}

// roughly words a takeoff that nobody has checked, and how to make it sure: by
// the face too, since that is what a tape can reach. It never shows the guess
// as what to type: sent back unmeasured it would be kept as measured.
func (o Options) roughly(key string, t catalog.Takeoff) string {
	text, _ := o.said(key)
	if t.Band > 0 {
		text += ", " + o.band(t.Band)
	}
	if t.Insertion <= 0 {
		return text + ". " + o.say("measure yours")
	}
	return text + ". " + o.say("measure yours or face")
}

// cutFrom adds that an elbow has to be cut to this angle first.
func (o Options) cutFrom(t catalog.Takeoff) string {
	if t.Note != figure.TrimmedElbow {
		return ""
	}
	return ", " + o.say("cut from a 90")
}

// plain is a takeoff as one would type it back.
func (o Options) plain(t catalog.Takeoff) string {
	return o.mark(t.Length, "", false)
}

func (o Options) plainFace(t catalog.Takeoff) string {
	return o.mark(t.CenterToFace(), "", false)
}

// whose cites an own takeoff: "yours, 3 Nov", "the crew's, set by Dana, 3 Nov",
// with the user's name for the maker's line where there is one.
func (o Options) whose(m catalog.Measured) string {
	text := o.say("yours on", "when", m.When)
	switch {
	case m.When == "" && m.Crew:
		text = o.say("crew's")
	case m.When == "":
		text = o.say("yours")
	case m.Crew && m.By == "":
		text = o.say("crew's on", "when", m.When)
	case m.Crew:
		text = o.say("crew's by", "by", m.By, "when", m.When)
	}
	if m.Line != "" {
		text += " (" + m.Line + ")"
	}
	return text
}

// roughRule names the plain rule behind a first figure, and why there is none
// better.
func (o Options) roughRule(a *figure.Answer) []string {
	for _, e := range a.Ends {
		if e.Takeoff.Evidence == catalog.Derived && e.Takeoff.Note != "" && e.Takeoff.Note != figure.TrimmedElbow {
			return []string{o.say("rough rule", "why", capital(o.term(e.Takeoff.Note)))}
		}
	}
	return nil
}

// depths says how far a piece that was measured face to face goes in, unless
// that was said.
func (o Options) depths(a *figure.Answer) []string {
	d := a.Depths[0]
	if d.Length <= 0 || d.Evidence == catalog.Said {
		return nil
	}
	depth, source := o.mark(d.Length, "", false), o.source(d.Source)
	var lines []string
	if fromHub(a) {
		lines = append(lines, o.say("hub face"))
	}
	if d.Evidence.Sure() {
		return append(lines, o.say("goes in", "depth", depth, "source", source))
	}
	return append(lines, o.say("goes in about", "depth", depth, "source", source))
}

// fromHub says whether a piece was measured from the face of a hub.
func fromHub(a *figure.Answer) bool {
	return a.System.Joint == catalog.Hub && a.Depths[0].Length > 0
}

// means says, of a takeoff that was looked up, from where to where it runs in
// this pipe, and its source in full.
func (o Options) means(a *figure.Answer) []string {
	t := a.Ends[0].Takeoff
	means := a.System.TakeoffMeans()
	if len(a.Own) > 0 || means == "" {
		return nil
	}
	source := o.source(t.Source)
	if t.Evidence == catalog.Own {
		source = o.whose(t.Measured)
	}
	return []string{o.say("takeoff means", "means", o.term(means), "source", source)}
}

// source names a source; what has none is common practice.
func (o Options) source(s string) string {
	if s == "" {
		return o.say("common practice")
	}
	return o.term(s)
}

// leaveLong says, where the cut is only about so, that it was left long and by
// how much, and what it is by the takeoffs and the gap as they were told.
func (o Options) leaveLong(a *figure.Answer) []string {
	if !unsure(a) || !hasCut(a) {
		return nil
	}
	cut := cutOf(a)
	for _, role := range []parser.Role{parser.PipeLength, parser.FirstPiece} {
		if long, ok := a.Length(role); ok {
			cut = long
		}
	}
	switch {
	case len(a.Pieces) == 0 && given(&a.Ask, figure.Length{Role: parser.Cut, Length: cutOf(a)}):
		return nil
	case cut <= 0:
		return nil
	case a.Band <= 0 && a.System.Joint == catalog.PushFit && a.Ends[0].Takeoff.Evidence.Sure() && a.Ends[1].Takeoff.Evidence.Sure():
		return nil // only how far it is drawn back is unsure, and a line of its own says so
	case a.Band <= 0:
		return []string{o.say("leave long")}
	}
	by := "by takeoff"
	if a.Depths[0].Evidence != "" {
		by = "by depth"
	}
	if a.Gap.Length > 0 && a.Gap.Evidence != catalog.Said {
		by = "by takeoff and gap"
	}
	return []string{o.say("left long", "by", o.say(by), "length", o.mark(cut, "", false), "off", o.roundedUp(a.TakesOff, ""))}
}

func hasCut(a *figure.Answer) bool {
	_, ok := a.Length(parser.Cut)
	return ok || len(a.Bends) > 0 || len(a.Pieces) > 0 && a.Kind != parser.Riser
}
