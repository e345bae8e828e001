package wording

import (
	"cmp"
	"errors"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Refusal words in short why there is no answer: what is wrong, what would work,
// what was read. It knows *parser.Misunderstanding, *figure.Missing and
// *figure.Impossible; for anything else, which is our fault and not the
// user's, it is one plain sentence. [WholeRefusal] says all of it.
func Refusal(err error, o Options) string {
	var unread *parser.Misunderstanding
	var missing *figure.Missing
	var impossible *figure.Impossible
	var rows []row
	switch {
	case errors.As(err, &unread):
		o = o.For(unread.Read)
		rows = slices.Concat(ranked(2, o.soFar(unread.Read)...), always(o.trouble(unread)), ranked(1, o.wayOut(unread)...))
	case errors.As(err, &missing):
		rows = o.ofPartly(missing.Partly).missingBriefly(missing)
	case errors.As(err, &impossible):
		rows = o.ofPartly(impossible.Partly).impossibleBriefly(impossible)
	default:
		return o.say("went wrong")
	}
	kept := fitting(rows)
	lines := make([]string, len(kept))
	for i, r := range kept {
		lines[i] = r.text
	}
	return whole(lines)
}

// missingBriefly asks the one question, with what was read and what needs no more
// where there is room.
func (o Options) missingBriefly(m *figure.Missing) []row {
	question := always(o.questionOf(m))
	if m.Partly == nil {
		return question
	}
	rows := append(always(o.short(namedOf(m.Partly.Ask))...), ranked(1, capital(o.readFor(m)))...)
	rows = append(rows, ranked(1, o.misread(m.Partly.Ask)...)...)
	return slices.Concat(rows, ranked(2, o.figuredPartly(m)), question)
}

// impossibleBriefly says why something can't be built and the first thing that
// would work.
func (o Options) impossibleBriefly(i *figure.Impossible) []row {
	var rows []row
	if i.Partly != nil {
		rows = append(always(o.short(namedOf(i.Partly.Ask))...),
			ranked(2, capital(o.read(i.Partly.Ask, i.Partly.System, i.Partly.Size)))...)
	}
	if i.Cause == figure.Collide {
		rows = append(rows, always(o.collideBriefly(i)...)...)
	} else {
		rows = append(rows, always(o.cause(i))...)
	}
	if len(i.Bends) > 0 {
		rows = append(rows, ranked(1, o.otherBends(i))...)
	}
	if i.Takeoff > 0 {
		rows = append(rows, ranked(3, o.say("takeoff would do briefly", "length", o.roundedDown(i.Takeoff, "")))...)
	}
	return rows
}

// collideBriefly says which fittings collide and where they touch.
func (o Options) collideBriefly(i *figure.Impossible) []string {
	what, at := o.colliding(i)
	collide := "collide"
	t, guessed := guess(i)
	if guessed {
		collide = "may collide"
	}
	verb, _ := o.said(collide)
	lines := []string{what + " " + verb + at + "."}
	switch touching := o.bare(i.Smallest, manner{up: true}); {
	case i.Smallest <= 0:
	case guessed:
		lines = append(lines, o.say("touch by a guess", "takeoff", o.plain(t), "length", touching))
	default:
		lines = append(lines, o.say("touch briefly", "length", touching))
	}
	return lines
}

// WholeRefusal says all that there is to say of why there is no answer.
func WholeRefusal(err error, o Options) string {
	var unread *parser.Misunderstanding
	var missing *figure.Missing
	var impossible *figure.Impossible
	switch {
	case errors.As(err, &unread):
		return whole(o.For(unread.Read).misunderstood(unread))
	case errors.As(err, &missing):
		return whole(o.ofPartly(missing.Partly).missing(missing))
	case errors.As(err, &impossible):
		return whole(o.ofPartly(impossible.Partly).impossible(impossible))
	}
	return o.say("went wrong")
}

// ofPartly are the options to speak of what was figured so far with.
func (o Options) ofPartly(a *figure.Answer) Options {
	if a == nil {
		return o
	}
	return o.For(a.Ask)
}

// misunderstood words a message that could not be read.
func (o Options) misunderstood(m *parser.Misunderstanding) []string {
	return append(append(o.soFar(m.Read), o.trouble(m)), o.wayOut(m)...)
}

// soFar says what was read of a message that was not read whole.
func (o Options) soFar(ask parser.Ask) []string {
	read := o.read(ask, catalog.System{}, "")
	if read == "" {
		return nil
	}
	return []string{o.say("so far", "read", read)}
}

// trouble says what is wrong with a message.
func (o Options) trouble(m *parser.Misunderstanding) string {
	subject := inShort(m.Subject)
	switch m.Trouble {
	case parser.NothingRead:
		return o.say("nothing read")
	case parser.UnknownWord:
		return o.say("unknown word", "subject", subject)
	case parser.OneSide:
		return o.say("one side", "subject", subject)
	case parser.NoSuchSize:
		return o.noSize(subject, o.material(m.Read.Pipe.Material), m.Near)
	case parser.NoSuchAngle:
		return o.say("no such angle", "subject", subject)
	case parser.BadNumber:
		if notPositive(m.Text, subject) {
			return o.say("nothing or less")
		}
		return o.say("bad number", "subject", subject)
	case parser.Unclaimed:
		return o.say("unclaimed", "subject", subject)
	case parser.TwoReadings:
		switch {
		case len(o.readings(m)) == 1:
			return o.say("one reading")
		case subject == "":
			return o.say("two readings of it")
		}
		return o.say("two readings", "subject", subject)
	case parser.Contradiction:
		return o.contradiction(m)
	case parser.NotFiguring:
		return o.say("not figuring")
	case parser.TooLong:
		return o.say("too long")
	case parser.OneMore:
		return o.question(m.Wanted, m.Near)
	}
	return o.say("nothing read")
}

// inShort is a word that a message can name without filling the screen with it.
func inShort(word string) string { return cutAt(word, 40) }

// cutAt is so many letters of a text at most, and says where more were.
func cutAt(text string, most int) string {
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most]) + "…"
	}
	return text
}

// wayOut says what would work instead.
func (o Options) wayOut(m *parser.Misunderstanding) []string {
	switch m.Trouble {
	case parser.TwoReadings:
		return o.readings(m)
	case parser.UnknownWord, parser.NoSuchAngle, parser.BadNumber:
		if near := Near(m); len(near) > 0 {
			return []string{o.say("did you mean", "near", o.or(near))}
		}
		return []string{o.say("try")}
	case parser.OneSide:
		return []string{o.say("ways to measure")}
	case parser.Unclaimed:
		if m.Wanted != parser.Bare {
			return []string{o.question(m.Wanted, m.Near)}
		}
	case parser.NothingRead, parser.NotFiguring, parser.TooLong:
		return []string{o.say("try")}
	case parser.Contradiction:
		if text := strings.ToLower(m.Text); strings.Contains(text, "abs") && strings.Contains(text, "pvc") {
			return o.cautions([]figure.Caution{figure.ABSToPVC})
		}
	case parser.NoSuchSize, parser.OneMore:
	}
	return nil
}

// readings are what a message may mean, each as one types it, and once.
func (o Options) readings(m *parser.Misunderstanding) []string {
	var lines []string
	for _, reading := range m.Readings {
		if line := TypedAll(reading, o); !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
	}
	for _, verb := range m.Commands {
		lines = append(lines, o.say("command "+string(verb), "number", strconv.Itoa(m.Number)))
	}
	return lines
}

// Near are what a word may have been, without the word itself.
func Near(m *parser.Misunderstanding) []string {
	return slices.DeleteFunc(slices.Clone(m.Near), func(near string) bool { return strings.EqualFold(near, m.Subject) })
}

// Readings are what a message may mean, to be tapped.
func Readings(m *parser.Misunderstanding, o Options) []string { return o.readings(m) }

func (o Options) contradiction(m *parser.Misunderstanding) string {
	if len(m.Near) > 0 {
		return o.say("contradiction between", "subject", o.subject(m.Subject), "near", o.or(m.Near))
	}
	return o.say("contradiction", "subject", o.subject(m.Subject))
}

// subject is a role's name where the subject is a role, else the word itself.
func (o Options) subject(s string) string {
	return o.name(parser.Role(s))
}

// noSize says that a pipe is not carried in a size, and which are next to it.
func (o Options) noSize(size, pipe string, around []string) string {
	line := strings.Join(strings.Fields(o.say("no such size", "size", size, "pipe", pipe)), " ")
	if len(around) == 0 {
		return line + "."
	}
	return line + o.say("sizes around", "near", o.or(around))
}

// missing gives the figures that need no more, then asks the one question.
func (o Options) missing(m *figure.Missing) []string {
	question := o.questionOf(m)
	if m.Partly == nil {
		return []string{question}
	}
	lines := append(o.named(m.Partly.Ask), capital(o.readFor(m)))
	lines = append(lines, o.misread(m.Partly.Ask)...)
	return spoken(append(lines, o.figuredPartly(m), question))
}

// questionOf is the one question that a missing fact is asked by.
func (o Options) questionOf(m *figure.Missing) string {
	if m.Of != parser.Bare {
		question, _ := o.said("ask " + string(m.Wanted) + " of " + string(m.Of))
		return question
	}
	return o.question(m.Wanted, m.Options)
}

// readFor reads back what a fact is missing of. Where the unit is, a long length has
// no feet behind it, which would take the answer for granted.
func (o Options) readFor(m *figure.Missing) string {
	read := o.read(m.Partly.Ask, m.Partly.System, m.Partly.Size)
	if m.Wanted == parser.UnitOf {
		return inFeet.ReplaceAllString(read, "")
	}
	return read
}

// figuredPartly are the figures that need no more.
func (o Options) figuredPartly(m *figure.Missing) string {
	var figured []string
	for _, l := range m.Partly.Lengths {
		if onlyGeometry(l.Role) && !given(&m.Partly.Ask, l) {
			figured = append(figured, o.figure(m.Partly, l, o.bare))
		}
	}
	if len(figured) == 0 {
		return ""
	}
	return capital(strings.Join(figured, ", ")) + "."
}

// inFeet is what is added to a long length: the same in feet.
var inFeet = regexp.MustCompile(` \(\d+' [^)]*"\)`)

// notPositive says whether a number was told as nothing, or as less than that: 0, -12.
func notPositive(text, number string) bool {
	if v, err := strconv.ParseFloat(strings.ReplaceAll(number, ",", "."), 64); err == nil && v == 0 {
		return true
	}
	before, _, found := strings.Cut(text, number)
	sign := strings.TrimRight(before, "-−")
	return found && sign != before && (sign == "" || strings.HasSuffix(sign, " "))
}

// fewOptions is how many good answers are named in a question; of more the
// question is put without them.
const fewOptions = 4

// question asks for one fact. Where only a few answers are good it names them.
func (o Options) question(wanted parser.Role, options []string) string {
	if wanted == parser.UnitOf {
		return o.say("ask unit", "options", o.or(options))
	}
	if len(options) > 0 && len(options) <= fewOptions {
		terms := make([]string, len(options))
		for i, option := range options {
			terms[i] = o.term(option)
		}
		return o.say("which", "what", o.name(wanted), "options", o.or(terms))
	}
	if text, ok := o.said("ask " + string(wanted)); ok {
		return text
	}
	return o.say("ask any length", "what", o.name(wanted))
}

// impossible says why something can't be built and what would work.
func (o Options) impossible(i *figure.Impossible) []string {
	var lines []string
	if i.Partly != nil {
		lines = append(o.named(i.Partly.Ask), capital(o.read(i.Partly.Ask, i.Partly.System, i.Partly.Size)))
	}
	return append(append(lines, o.cause(i)), o.instead(i)...)
}

// named are the cautions of what a pipe is or carries that go with a refusal and
// a question too.
func (o Options) named(ask parser.Ask) []string { return o.cautions(namedOf(ask)) }

func namedOf(ask parser.Ask) []figure.Caution {
	switch ask.Carries {
	case parser.AsbestosCement:
		return []figure.Caution{figure.AsbestosNamed}
	case parser.LeadPipe:
		return []figure.Caution{figure.LeadNamed}
	case parser.FuelGas:
		if figure.Brittle(ask.Pipe.Material) {
			return []figure.Caution{figure.GasInPlastic}
		}
		return []figure.Caution{figure.GasNamed}
	case parser.MedicalGas:
		return []figure.Caution{figure.MedicalGas}
	case parser.CompressedAir, parser.Water, parser.Vent, parser.DrainWater:
	}
	return nil
}

// noTakeoff says that a fitting has no takeoff in any table, and what to measure.
func noTakeoff(i *figure.Impossible, o Options) string {
	if i.System.Declared != "" {
		_, fitting, _ := strings.Cut(strings.TrimPrefix(i.Subject, string(i.Partly.Size)), " ")
		key := "own measure"
		if i.Partly.Kind == parser.Takeoff {
			key = "own measure of takeoff"
		}
		own, _ := o.said(key, "fitting", fitting, "means", o.term(i.System.TakeoffMeans()))
		return strings.Join(append([]string{own}, pushedHome(i.System, i.Partly.Size, o)...), "\n")
	}
	return o.say("no takeoff", "fitting", i.Subject, "pipe", o.term(i.System.Name), "means", o.term(cmp.Or(i.System.TakeoffMeans(), figure.CenterToStop)))
}

// cause says why something can't be built.
func (o Options) cause(i *figure.Impossible) string {
	switch i.Cause {
	case figure.Collide:
		return o.collide(i)
	case figure.NoSuchSize:
		return o.noSize(i.Subject, o.term(i.System.Name), i.Near)
	case figure.NoSuchFitting:
		return o.noFitting(i)
	case figure.NoTakeoff:
		return noTakeoff(i, o)
	case figure.BadGeometry:
		return o.badGeometry(i)
	case figure.BadTakeoff:
		return o.doubted(i)
	case figure.NotMeasured:
		return o.notMeasured(i)
	case figure.AirPlastic:
		return o.say("air in plastic", "material", o.material(catalog.Material(i.Subject)), "behind", o.term(i.Behind))
	case figure.NotLanding:
		return o.say("not landing")
	case figure.NoFit:
		return o.noFit(i)
	case figure.TooShort:
		return o.say("too short")
	case figure.Overgiven:
		return o.say("figures disagree", "what", o.name(parser.Role(i.Subject)), "given", Tape(i.Lengths[0], o), "figured", Tape(i.Lengths[1], o), "bend", strings.Join(i.Near, ""))
	case figure.TurnDiffers:
		return o.say("turn differs", "subject", i.Subject, "made", degrees(i.Turns[0]), "wanted", degrees(i.Turns[1]))
	case figure.CornerTooTight:
		return o.say("corner too tight", "length", o.bare(i.Smallest, manner{up: true}))
	case figure.PieceCount:
		return o.say("piece count")
	case figure.BranchLarger:
		return o.say("branch larger", "subject", i.Subject, "near", strings.Join(i.Near, ""))
	case figure.LinesOverlap:
		return o.say("lines overlap", "number", i.Subject, "length", o.bare(i.Smallest, manner{up: true}))
	case figure.AnglesDiffer:
		return o.say("angles differ", "subject", i.Subject)
	}
	return o.say("went wrong")
}

// Questioned says in plain English, for a table that is read whole, what is
// wrong with a takeoff that figure.Plausible refused.
func Questioned(err error) string {
	var i *figure.Impossible
	o := Options{}
	if !errors.As(err, &i) || i.Cause != figure.BadTakeoff {
		return Refusal(err, o)
	}
	t := i.Doubted
	return o.say("out of range", "length", o.bare(t.Length, exactly), "fitting", o.fitting(t.Fitting),
		"pipe", o.pipe(catalog.Pipe{}, i.System, t.Size),
		"least", o.roundedUp(i.Between[0], ""), "most", o.roundedDown(i.Between[1], ""))
}

// doubted questions a takeoff that its fitting can't have: what was given,
// and between which marks of the tape it would be believed.
func (o Options) doubted(i *figure.Impossible) string {
	t := i.Doubted
	if i.Between[1] <= 0 {
		return o.say("face in the socket", "face", o.bare(t.CenterToFace(), exactly), "depth", o.bare(t.Insertion, exactly))
	}
	key := "bad takeoff"
	if i.Between[0] <= 0 {
		key = "bad takeoff at most"
	}
	text, _ := o.said(key, "length", o.bare(t.Length, exactly), "fitting", o.fitting(t.Fitting),
		"pipe", o.pipe(catalog.Pipe{}, i.System, t.Size),
		"least", o.roundedUp(i.Between[0], ""), "most", o.roundedDown(i.Between[1], ""))
	return text
}

// notMeasured asks whether a takeoff was measured that is just what the table
// has.
func (o Options) notMeasured(i *figure.Impossible) string {
	t := i.Doubted
	key := "not measured " + i.Subject
	if _, ok := sentences()[key]; !ok {
		key = "not measured takeoff"
	}
	length := t.Length
	if i.Subject == figure.MeasuredFace {
		length = t.CenterToFace()
	}
	text, _ := o.said(key, "length", o.bare(length, exactly),
		"fitting", o.fitting(t.Fitting), "pipe", o.pipe(catalog.Pipe{}, i.System, t.Size))
	return text
}

// collide says which fittings collide, at which set, and where they touch:
// rounded up, to the safe side.
func (o Options) collide(i *figure.Impossible) string {
	what, at := o.colliding(i)
	guess, collide := o.guessed(i), o.say("collide")
	if guess != "" {
		collide = o.say("may collide")
	}
	line := what + " " + collide + at
	if i.Smallest <= 0 {
		return line + "."
	}
	touch := o.say("touch at", "length", o.bare(i.Smallest, manner{up: true}))
	if !hubbed(i.System) {
		touch = o.say("ends touch at", "length", o.bare(i.Smallest, manner{up: true}))
	}
	return line + ": " + guess + touch
}

// colliding names the fittings that collide, and the set.
func (o Options) colliding(i *figure.Impossible) (what, at string) {
	what = o.say("these fittings")
	if i.Partly != nil {
		if f := i.Partly.Ends[0].Fitting; f.Shape != "" && f == i.Partly.Ends[1].Fitting {
			what = o.say("these", "fittings", o.fittings(f))
		} else if tradeBend(i.Partly.Angle) {
			what = o.say("these", "fittings", o.fittings(catalog.BendOf(i.Partly.Angle)))
		}
		if set, ok := i.Partly.Length(parser.Set); ok {
			at = " " + o.say("at a set", "length", o.bare(set, exactly))
		}
	}
	return what, at
}

// guessed says by which takeoff fittings collide where nobody has checked it:
// then they only may.
func (o Options) guessed(i *figure.Impossible) string {
	t, ok := guess(i)
	if !ok {
		return ""
	}
	band := ""
	if t.Band > 0 {
		band = ", " + o.band(t.Band)
	}
	return o.say("by a guess", "takeoff", o.plain(t), "band", band) + " "
}

// guess is the takeoff behind a refusal that nobody has checked; false where there
// is none.
func guess(i *figure.Impossible) (catalog.Takeoff, bool) {
	if i.Partly == nil {
		return catalog.Takeoff{}, false
	}
	for _, e := range i.Partly.Ends {
		if t := e.Takeoff; t.Evidence != "" && !t.Evidence.Sure() {
			return t, true
		}
	}
	return catalog.Takeoff{}, false
}

// hubbed says whether the fittings of a system have hubs that can touch; those
// of no-hub and butt-weld pipe end where the pipe begins.
func hubbed(s catalog.System) bool {
	return s.Joint != catalog.ButtWeld && s.Joint != catalog.NoHub
}

func (o Options) noFitting(i *figure.Impossible) string {
	line := o.say("no such fitting", "subject", i.Subject)
	if i.System.Name != "" {
		line = o.say("no such fitting in", "subject", i.Subject, "pipe", o.term(i.System.Name))
	}
	if len(i.Near) == 0 {
		return line + "."
	}
	near := make([]string, len(i.Near))
	for n, name := range i.Near {
		if near[n] = o.term(name); near[n] == name {
			near[n] = o.material(catalog.Material(name))
		}
	}
	return line + o.say("there is", "near", o.or(near))
}

// isPipe says whether a name is one of a pipe, and of no fitting.
func isPipe(name string) bool {
	return slices.ContainsFunc(catalog.Systems(), func(s catalog.System) bool { return s.Name == name || string(s.Material) == name })
}

// instead lists what would work where a joint can't be built.
func (o Options) instead(i *figure.Impossible) []string {
	var ways []string
	if len(i.Bends) > 0 {
		ways = append(ways, o.otherBends(i))
	}
	if i.Takeoff > 0 {
		ways = append(ways, o.say("takeoff would do", "length", o.roundedDown(i.Takeoff, "")))
	}
	if street := o.streetInstead(i); street != "" {
		ways = append(ways, street)
	}
	lines := []string{strings.Join(ways, " ")}
	if i.Cause == figure.NoFit && i.Partly != nil {
		lines = append(lines, o.bends(i.Partly)...)
	}
	return lines
}

// otherBends names the bends that clear, or that come nearest to an angle that
// no bend turns.
func (o Options) otherBends(i *figure.Impossible) string {
	names := make([]string, len(i.Bends))
	for n, bend := range i.Bends {
		names[n] = o.fittings(catalog.BendOf(bend))
	}
	if i.Cause == figure.NoFit {
		return capital(o.say("bends nearest", "bends", o.and(names)))
	}
	return capital(o.say("bends clear", "bends", o.and(names)))
}

// noFit says that no bend fits a room, or that none turns a true angle.
func (o Options) noFit(i *figure.Impossible) string {
	angle, err := strconv.ParseFloat(i.Subject, 64)
	if err != nil || len(i.Bends) == 0 {
		return o.say("no bend fits")
	}
	return o.say("no bend turns", "angle", degrees(geometry.Angle(angle)))
}

// badGeometry says what is wrong with a value, or that a way of laying the
// tape says nothing here.
func (o Options) badGeometry(i *figure.Impossible) string {
	p := i.Problem
	if p == nil {
		return o.say("bad measure", "subject", o.method(parser.Method(i.Subject)))
	}
	what := o.subject(p.What)
	switch p.Reason {
	case geometry.NotANumber:
		return o.say("not a number", "what", what)
	case geometry.NotPositive:
		return o.say("not positive", "what", what)
	case geometry.TooLong:
		return o.say("longer than a mile", "what", what)
	case geometry.AngleRange:
		return o.say("angle range")
	case geometry.TravelTooShort:
		return o.say("travel too short")
	case geometry.NoRoom:
		return o.say("no room")
	case geometry.NothingToResolve:
		return o.say("nothing to resolve")
	case geometry.TooSteep:
		return o.say("too steep")
	case geometry.TooTight:
		return o.say("too tight")
	}
	return o.say("went wrong")
}

// GoodAnswers are answers to a question that can be tapped: those that are known
// to be good, else usual ones.
func GoodAnswers(wanted parser.Role, options []string, o Options) []string {
	if len(options) > 0 && wanted != parser.PipeOf {
		return options
	}
	switch wanted {
	case parser.PipeOf:
		return []string{o.say("usual pvc"), o.say("usual abs"), o.say("usual copper"), o.say("usual iron")}
	case parser.AngleOf, parser.FittingOf:
		return []string{"45", "22-1/2", "60", "90"}
	case parser.SizeOf:
		return strings.Split(o.say("usual sizes"), ", ")
	case parser.Grade:
		return []string{o.say("usual grade"), "2%"}
	case parser.LineCount:
		return []string{o.say("usual lines", "number", "2"), o.say("usual lines", "number", "3"), o.say("usual lines", "number", "4")}
	case parser.TakeoffOf, parser.Face, parser.Depth:
		return []string{o.say("how to measure it")}
	default:
	}
	return nil
}

// Instead are changes that can be tapped where something can't be built.
func Instead(i *figure.Impossible, o Options) []string {
	var ways []string
	for _, bend := range i.Bends {
		ways = append(ways, o.say("with bends", "bends", o.fittings(catalog.BendOf(bend))))
	}
	switch i.Cause {
	case figure.NoSuchSize:
		ways = append(ways, i.Near...)
	case figure.NoSuchFitting:
		for _, near := range i.Near {
			if isPipe(near) {
				ways = append(ways, o.term(near))
				continue
			}
			ways = append(ways, o.say("with bends", "bends", near+"s"))
		}
	case figure.NoTakeoff, figure.BadTakeoff, figure.NotMeasured:
		ways = append(ways, o.say("how to measure it"))
	case figure.Collide, figure.BadGeometry, figure.NotLanding, figure.NoFit, figure.TooShort, figure.AirPlastic,
		figure.Overgiven, figure.AnglesDiffer, figure.TurnDiffers, figure.CornerTooTight, figure.PieceCount, figure.BranchLarger, figure.LinesOverlap:
	}
	return ways
}
