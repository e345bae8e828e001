package wording

import (
	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/parser"
)

// takeoffs says which takeoff was used at each end and where it comes from. A
// published takeoff is a pattern, not the fitting in the hand, so it asks for
// a look at the fitting.
func (o Options) takeoffs(a *figure.Answer) []string {
	first, second := a.Ends[0], a.Ends[1]
	if a.Kind == parser.Takeoff && len(a.Own) > 0 {
		return nil
	}
	switch {
	case !used(first) && !used(second):
		return nil
	case !used(second):
		return o.takeoffLine("takeoff", first)
	case !used(first):
		return o.takeoffLine("takeoff", second)
	case alike(first, second):
		return o.takeoffLine("takeoff each", first)
	}
	return append(o.takeoffLine("takeoff at", first), o.takeoffLine("takeoff at", second)...)
}

func used(e figure.End) bool { return e.Takeoff.Length != 0 }

// alike tells whether one line says all there is to say of two ends.
func alike(a, b figure.End) bool {
	return a.Fitting == b.Fitting && a.Takeoff.Length == b.Takeoff.Length &&
		a.Takeoff.Evidence == b.Takeoff.Evidence && a.Takeoff.Source == b.Takeoff.Source
}

func (o Options) takeoffLine(key string, e figure.End) []string {
	what, _ := o.said(key, "length", o.bare(e.Takeoff.Length, exactly), "fitting", o.fitting(e.Fitting))
	return []string{what + o.origin(e.Takeoff)}
}

// origin says where a takeoff comes from, and what to do about it.
func (o Options) origin(t catalog.Takeoff) string {
	switch t.Evidence {
	case catalog.Own:
		return ", " + o.yours(t)
	case catalog.Said:
		return ", " + o.say("as you said")
	case catalog.Published, catalog.OpenData:
		return ": " + o.source(t.Source) + o.cutFrom(t) + ". " + o.say("check it")
	case catalog.Memory:
		return ": " + o.roughly("from memory", t)
	case catalog.Derived:
		return ": " + o.roughly("from geometry", t)
	}
	return "."
}

// roughly words a takeoff that nobody has checked, and how to make it sure:
// the face is given too, since that is what a tape can reach.
func (o Options) roughly(key string, t catalog.Takeoff) string {
	text, _ := o.said(key)
	if t.Band > 0 {
		text += ", " + o.band(t.Band)
	}
	takeoff := o.plain(t)
	if t.Insertion <= 0 {
		return text + ". " + o.say("measure yours", "takeoff", takeoff)
	}
	return text + ". " + o.say("measure yours or face", "takeoff", takeoff, "face", o.plainFace(t))
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

// yours cites the user's own takeoff: by the day it was measured, kept in its
// note, and by its source, which is how it was measured or the user's name for
// the maker's line.
func (o Options) yours(t catalog.Takeoff) string {
	text := o.say("yours")
	if t.Note != "" {
		text = o.say("yours from", "when", t.Note)
	}
	if t.Source != "" {
		text += " (" + o.term(t.Source) + ")"
	}
	return text
}

// source names a source; what has none is common practice.
func (o Options) source(s string) string {
	if s == "" {
		return o.say("common practice")
	}
	return o.term(s)
}

// leaveLong says what to do where the cut is only about so.
func (o Options) leaveLong(a *figure.Answer) []string {
	if !unsure(a) || !hasCut(a) {
		return nil
	}
	if a.Band <= 0 {
		return []string{o.say("leave long")}
	}
	return []string{o.say("leave long by", "band", o.band(a.Band))}
}

func hasCut(a *figure.Answer) bool {
	_, ok := a.Length(parser.Cut)
	return ok || len(a.Bends) > 0
}
