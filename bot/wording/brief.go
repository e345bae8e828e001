package wording

import (
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Columns is how many letters of a line a phone shows that is held at arm's
// length, and MostRows how many such lines an ordinary answer has: what stands
// on the screen beside what was asked, without scrolling.
const (
	Columns  = 38
	MostRows = 5
)

// Brief is an answer as it is given first, with what was told in it: the one
// number, where the ends stand, what was understood and by which takeoff, what
// else it could be where that changes the cut, and one caution. What else there
// is, [Whole] says.
type Brief struct {
	Text    string
	Told    []figure.Caution // of every day, which are told once a day
	Noticed bool             // that who decides is not dogleg
}

// Reply is the short answer of [NewBrief].
func Reply(a *figure.Answer, o Options) string { return NewBrief(a, o).Text }

// NewBrief words an answer within [MostRows] lines of [Columns]. Only what must
// not be lost goes beyond: measurements that disagree, grave cautions, a takeoff
// that looks like something else.
func NewBrief(a *figure.Answer, o Options) Brief {
	if a == nil {
		return Brief{Text: o.say("went wrong")}
	}
	o = o.For(a.Ask)
	rows := slices.Concat(
		always(o.short(namedFirst(a))...),
		always(o.unequal(a)...),
		always(o.doubts(a)...),
		o.headBriefly(a),
		always(o.readBriefly(a)...),
		always(o.angleBriefly(a)),
		o.misreadBriefly(a.Ask),
		o.rollBriefly(a),
		o.bodyBriefly(a),
		o.takeoffBriefly(a),
		o.assumedBriefly(a),
		o.gapBriefly(a),
		ranked(4, o.limit(a)...),
		ranked(2, o.handbook(a)...),
		ranked(1, o.throws(a)...),
	)
	rows = append(rows, o.cautionsBriefly(a)...)
	var b Brief
	kept := fitting(rows)
	lines := make([]string, len(kept))
	for i, r := range kept {
		lines[i] = r.text
		b.Noticed = b.Noticed || r.notice
		if r.caution != "" && a.Everyday(r.caution) {
			b.Told = append(b.Told, r.caution)
		}
	}
	b.Text = whole(lines)
	return b
}

// row is a line of a brief answer. Of those that don't all fit, the ones with
// the highest rank go first; those of rank 0 never do.
type row struct {
	text    string
	rank    int
	caution figure.Caution // that it is, empty for any other line
	notice  bool
}

func always(lines ...string) []row { return ranked(0, lines...) }

func ranked(rank int, lines ...string) []row {
	var rows []row
	for _, line := range lines {
		if line != "" {
			rows = append(rows, row{text: line, rank: rank})
		}
	}
	return rows
}

// fitting are the rows that go on the screen, in their order.
func fitting(rows []row) []row {
	slots := MostRows
	last := 0
	for _, r := range rows {
		last = max(last, r.rank)
	}
	keep := make([]bool, len(rows))
	for rank := range last + 1 {
		for i, r := range rows {
			if r.rank != rank {
				continue
			}
			if n := Wrapped(r.text); rank == 0 || n <= slots {
				keep[i] = true
				slots -= n
			}
		}
	}
	var kept []row
	for i, r := range rows {
		if keep[i] {
			kept = append(kept, r)
		}
	}
	return kept
}

// Wrapped is how many lines of [Columns] a text takes.
func Wrapped(text string) int { return len(Wrap(text)) }

// Wrap breaks a text between words into lines of [Columns], as a phone does.
func Wrap(text string) []string {
	var lines []string
	for line := range strings.SplitSeq(text, "\n") {
		at, row, begun := 0, "", false
		for word := range strings.SplitSeq(line, " ") {
			long := utf8.RuneCountInString(word)
			if begun && at+1+long > Columns {
				lines = append(lines, strings.TrimRight(row, " "))
				at, row, begun = 0, "", false
			}
			if begun {
				at, row = at+1, row+" "
			}
			at, row, begun = at+long, row+word, true
		}
		lines = append(lines, strings.TrimRight(row, " "))
	}
	return lines
}

// packed puts pieces on as few lines as they fill, in their order.
func packed(pieces []string) []string {
	var lines []string
	for _, p := range spoken(pieces) {
		if n := len(lines); n > 0 && utf8.RuneCountInString(lines[n-1]+" · "+p) <= Columns {
			lines[n-1] += " · " + p
			continue
		}
		lines = append(lines, p)
	}
	for i := range lines {
		lines[i] = capital(lines[i])
	}
	return lines
}

// readBriefly is what was understood, in fewer words where that saves a line.
func (o Options) readBriefly(a *figure.Answer) []string {
	if len(a.Own) > 0 {
		return nil // what is kept says it
	}
	text := capital(o.read(a.Ask, a.System, a.Size))
	if o.terse = true; Wrapped(text) > 1 {
		text = capital(o.read(a.Ask, a.System, a.Size))
	}
	return []string{text}
}

// First is the line with the one number, alone.
func First(a *figure.Answer, o Options) string { return o.For(a.Ask).first(a) }

// firstWithBand is the one number, with how much longer than need be a cut is
// that nobody measured the fittings for.
func (o Options) firstWithBand(a *figure.Answer) string {
	first := o.first(a)
	switch {
	case a.Kind == parser.Mark && a.Main == parser.MarkAt && readsOnTape(&a.Ask):
		return o.say("mark on tape briefly", "mark", first)
	case a.Kind == parser.Mark && a.Main == parser.MarkAt:
		return o.say("mark back briefly", "mark", first)
	}
	if a.TakesOff <= 0 || a.Main != parser.Cut || !unsure(a) || given(&a.Ask, figure.Length{Role: parser.Cut, Length: cutOf(a)}) {
		return first
	}
	return o.say("with band", "cut", first, "off", o.roundedUp(a.TakesOff, ""))
}

// underBriefly says right under the first number what it is measured from.
func (o Options) underBriefly(a *figure.Answer) []row {
	stop, stops := a.Figured(parser.MarkAt)
	_, hub := a.Length(parser.PipeLength)
	switch {
	case a.Kind == parser.Around && a.Main == parser.Start && stops:
		return always(o.say("stop before it", "length", o.bare(stop.Length, mannerOf(a, stop))))
	case hub && a.Main == parser.Cut:
		return ranked(1, o.say("saw at briefly"))
	}
	return nil
}

func (o Options) measureFirstBriefly(a *figure.Answer) []row {
	if a.Unmeasured == nil {
		return nil
	}
	if a.Unmeasured.Declared {
		return always(o.say("own measure briefly", "fitting", o.fitting(a.Unmeasured.Fitting), "means", o.term("briefly "+a.System.TakeoffMeans())))
	}
	rank := 0
	if a.Kind == parser.Parallel {
		rank = 3 // where each line bends is told, cut or none
	}
	return ranked(rank, o.say("measure first briefly", "fitting", o.fitting(a.Unmeasured.Fitting)))
}

// headBriefly is the one number with what goes before all else: what it is
// measured from, what to measure first, and the lengths that are sawn or marked.
// Beside a stagger, and beside an angle, which nothing is sawn by, the first of
// these stands on the same line where it fits.
func (o Options) headBriefly(a *figure.Answer) []row {
	first := o.firstWithBand(a)
	sawn, others := o.lengthsBriefly(a)
	short := a.Kind == parser.Parallel || a.Main == parser.AngleOf
	switch {
	case short && len(sawn) > 0 && utf8.RuneCountInString(first+" · "+sawn[0]) <= Columns:
		first, sawn = first+" · "+sawn[0], sawn[1:]
	case short && len(sawn) == 0 && len(others) > 0 && utf8.RuneCountInString(first+" · "+others[0]) <= Columns:
		first, others = first+" · "+others[0], others[1:]
	}
	rows := slices.Concat(always(first), o.underBriefly(a), o.measureFirstBriefly(a))
	for i, line := range packed(sawn) {
		rank := 1 + 2*i
		if a.Kind == parser.Around {
			rank = 2 * i // what is sawn is told, whatever stands beside it
		}
		rows = append(rows, ranked(rank, line)...)
	}
	if hasCut(a) || a.Unmeasured != nil {
		return rows
	}
	return append(rows, ranked(2, packed(others)...)...)
}

// lengthsBriefly are the lengths that are sawn or marked, and the others, which
// are told where there are none of these.
func (o Options) lengthsBriefly(a *figure.Answer) (sawn, others []string) {
	_, hub := a.Length(parser.PipeLength)
	first, _ := main(a)
	for _, l := range a.Lengths {
		if o.isTold(a, l, first, hub) {
			continue
		}
		switch l.Role {
		case parser.Cut, parser.EndGap, parser.MarkAt, parser.Stagger,
			parser.SecondPiece, parser.StopAt, parser.OtherStopAt, parser.EndPiece, parser.MiddlePiece:
			sawn = append(sawn, o.figure(a, l, o.bare))
		default:
			others = append(others, o.figure(a, l, o.bare))
		}
	}
	return sawn, others
}

// angleBriefly names the angle that follows from two lengths that were given,
// and the stock bend that comes within what a tape is off, with what it would
// change of what was given.
func (o Options) angleBriefly(a *figure.Answer) string {
	if !angleFollows(a) {
		return ""
	}
	var parts []string
	if a.Main != parser.AngleOf {
		parts = append(parts, o.say("angle", "angle", degrees(a.Angle)))
	}
	if a.Ends[0].Takeoff.Note == figure.TrimmedElbow {
		parts = append(parts, o.say("cut from a 90"))
	}
	if i := slices.IndexFunc(a.Bends, isNear); i >= 0 {
		var changed []string
		for role, l := range map[parser.Role]geometry.Length{parser.Run: a.Bends[i].Run, parser.Travel: a.Bends[i].Travel} {
			if _, ok := a.Ask.Length(role); ok {
				changed = append(changed, o.role(role, o.bare(l, exactly)))
			}
		}
		slices.Sort(changed)
		parts = append(parts, o.fittings(catalog.BendOf(a.Bends[i].Angle))+": "+strings.Join(changed, ", "))
	}
	return strings.Join(parts, " · ")
}

// isNear says whether a bend is named since a tape can't tell it from the angle.
func isNear(c figure.Choice) bool { return c.Why == figure.WithinTape }

// isTold says whether a length is on another line of the answer, or was given.
func (o Options) isTold(a *figure.Answer, l, first figure.Length, hub bool) bool {
	switch {
	case l.Role == first.Role && a.Main == first.Role && !marksFirst(a), given(&a.Ask, l), a.Rolling && l.Role == parser.Set:
		return true
	case inItsLine(a, l.Role):
		return true
	case a.Kind == parser.Mark && l.Role == parser.TrimOff:
		return true // which is the mark
	case a.Kind == parser.Around && a.Main == parser.Start && l.Role == parser.MarkAt:
		return true
	}
	return hub && (l.Role == parser.Cut || l.Role == parser.PipeLength)
}

// rollBriefly says how far a rolling offset's fitting is turned.
func (o Options) rollBriefly(a *figure.Answer) []row {
	if !a.Rolling || a.Main == parser.RollAngle {
		return nil
	}
	return ranked(1, o.say("turn", "degrees", decimals(math.Round(90-a.RollAngle.Degrees()), 0)))
}

// bodyBriefly is what only this kind of ask has.
func (o Options) bodyBriefly(a *figure.Answer) []row {
	switch a.Kind {
	case parser.Offset:
		return slices.Concat(ranked(1, o.inline(a)...), always(o.joints(a)...), o.noEndsBriefly(a), o.bendsBriefly(a), o.gradedBriefly(a))
	case parser.Fit, parser.Unstated:
		return o.bendsBriefly(a)
	case parser.Parallel:
		return o.linesBriefly(a)
	case parser.Fall:
		return o.fallBriefly(a)
	case parser.Trim:
		return o.ordinatesBriefly(a)
	case parser.Sum:
		return o.sumBriefly(a)
	case parser.Multiplier:
		return ranked(2, o.factors(a.Factors)...)
	case parser.Takeoff:
		return always(o.keptToo(a.Own)...)
	case parser.Check:
		return o.findingsBriefly(a)
	case parser.Around:
		if a.HubNear {
			return always(o.say("hub near briefly"))
		}
		return ranked(2, o.say("rounded up"))
	case parser.Piece:
		if fromHub(a) {
			return ranked(1, o.say("hub face briefly"))
		}
		return ranked(1, o.inline(a)...)
	case parser.Miter, parser.Saddle:
		return always(o.mitered(a)...)
	case parser.Wrap:
		return ranked(2, o.wrapped(a)...)
	case parser.Riser:
		return always(o.riser(a)...)
	case parser.Doglegs:
		return always(o.allPieces(a))
	case parser.Mark, parser.Corner:
	}
	return nil
}

func (o Options) noEndsBriefly(a *figure.Answer) []row {
	switch {
	case a.NoEnds == catalog.Fitting{}:
		return nil
	case a.NoEnds.Shape.BranchShape() && a.Branch != nil:
		return ranked(1, o.noEnds(a)...)
	}
	return ranked(2, o.say("no ends briefly", "fitting", o.fitting(a.NoEnds)))
}

// bendsBriefly names, of the bends that may suit, those that fit beside the best,
// and those that don't.
func (o Options) bendsBriefly(a *figure.Answer) []row {
	var fit, not []string
	for i, c := range a.Bends {
		switch {
		case isNear(c):
			return nil // it stands beside the angle
		case !c.Fits:
			not = append(not, o.fittings(catalog.BendOf(c.Angle)))
		case i > 0 || o.bestBend(a) == "":
			fit = append(fit, o.fittings(catalog.BendOf(c.Angle)))
		}
	}
	var rows []row
	if len(fit) > 0 {
		rows = ranked(1, o.say("fit too", "bends", o.and(fit)))
	}
	if len(not) > 0 {
		rows = append(rows, ranked(3, o.say("fit not", "bends", o.and(not)))...)
	}
	return rows
}

// linesBriefly says where parallel lines begin their bends.
func (o Options) linesBriefly(a *figure.Answer) []row {
	if a.Rack != nil {
		return always(append(o.rackLines(a), o.rackFirst(a)...)...)
	}
	stagger, _ := a.Length(parser.Stagger)
	rows := always(o.lieBriefly(a))
	if stagger < noStagger {
		return rows
	}
	return append(rows, always(o.lineOne(a, "line one briefly"))...)
}

// gradedBriefly says what an offset in a graded line comes down.
func (o Options) gradedBriefly(a *figure.Answer) []row {
	if a.Grade <= 0 {
		return nil
	}
	var rows []row
	if a.FallOverRun > 0 {
		rows = ranked(2, o.say("fall over run", "fall", o.bare(a.FallOverRun, exactly)))
	}
	return append(rows, o.minimumsBriefly(a.Minimums)...)
}

func (o Options) fallBriefly(a *figure.Answer) []row {
	rows := o.minimumsBriefly(a.Minimums)
	if _, stated := a.Ask.Length(parser.Drop); a.Grade > 0 && a.Main != parser.Grade && stated {
		rows = append(ranked(2, o.say("grade", "grade", o.everyGrade(a.Grade))), rows...)
	}
	return rows
}

// minimumsBriefly names the codes whose least grade a drain has, and always
// those whose it has not.
func (o Options) minimumsBriefly(of []figure.Minimum) []row {
	var meets, under []string
	for _, m := range of {
		behind := o.term(m.Behind)
		if m.Recalled {
			behind = o.say("as recalled", "behind", behind)
		}
		if m.Meets {
			meets = append(meets, behind)
		} else {
			under = append(under, behind)
		}
	}
	var rows []row
	if len(under) > 0 {
		rows = always(o.say("under the least", "behind", o.and(under)))
	}
	if len(meets) > 0 {
		rows = append(rows, ranked(2, o.say("enough by", "behind", o.and(meets)))...)
	}
	return rows
}

// marksOfElbow gives the three marks that a trimmed elbow is cut by.
func (o Options) marksOfElbow(a *figure.Answer) string {
	return o.say("marks briefly", "throat", o.fromFace(a, throat), "side", o.fromFace(a, side), "back", o.fromFace(a, back))
}

// marksFirst says whether the marks of a trimmed elbow stand first, and its takeoff
// in no line of its own.
func marksFirst(a *figure.Answer) bool {
	return a.Kind == parser.Trim && len(a.Ordinates) > back && !used(a.Ends[0])
}

// ordinatesBriefly says which piece of a trimmed elbow is kept.
func (o Options) ordinatesBriefly(a *figure.Answer) []row {
	if len(a.Ordinates) <= back {
		return nil
	}
	return always(o.say("keep the face"))
}

// sumBriefly gives a sum in the other unit where both were used.
func (o Options) sumBriefly(a *figure.Answer) []row {
	mixed := o.Metric || a.Sum.Metric
	if a.Ask.Sum != nil {
		for _, term := range a.Ask.Sum.Terms {
			mixed = mixed || (parser.Measure{Text: term.Text}).Unit().Metric()
		}
	}
	if !mixed {
		return nil
	}
	return ranked(2, o.sumOtherwise(a.Sum)...)
}

// findingsBriefly says what to look at before anything is trimmed: that can't be
// undone.
func (o Options) findingsBriefly(a *figure.Answer) []row {
	if len(a.Findings) == 0 {
		return nil
	}
	var found []string
	for _, f := range a.Findings {
		found = append(found, o.finding(f))
	}
	return append(ranked(1, o.say("set first")), ranked(3, o.say("one of", "findings", o.or(found)))...)
}

// takeoffBriefly says which takeoff was used and how sure it is.
func (o Options) takeoffBriefly(a *figure.Answer) []row {
	first, second := a.Ends[0], a.Ends[1]
	rows := always(o.noLineBriefly(a)...)
	switch {
	case a.Kind == parser.Takeoff && len(a.Own) > 0, !used(first) && !used(second):
		return rows
	case !used(second) || alike(first, second) && a.System.Joint != catalog.Hub:
		return append(o.oneTakeoff(a, first), rows...)
	case !used(first):
		return append(o.oneTakeoff(a, second), rows...)
	case first.Takeoff.Evidence == catalog.Said && second.Takeoff.Evidence == catalog.Said:
		return rows // and so read back
	}
	text := o.say("two takeoffs", "first", o.shortTakeoff(first), "second", o.shortTakeoff(second))
	return append(ranked(1, text+", "+o.howSure(leastSure(first, second))), rows...)
}

func (o Options) oneTakeoff(a *figure.Answer, e figure.End) []row {
	if e.Takeoff.Evidence == catalog.Said {
		return nil // it is read back with what was said
	}
	sure := o.howSure(e.Takeoff)
	if a.Main == parser.TakeoffOf && a.Kind != parser.Trim {
		return ranked(1, capital(sure)) // the takeoff itself stands above
	}
	return ranked(1, o.say("takeoff", "length", o.shortTakeoff(e))+", "+sure)
}

// shortTakeoff is a takeoff as the tape has it; heavy and light mean nothing of
// one that nobody measured.
func (o Options) shortTakeoff(e figure.End) string {
	if e.Takeoff.Evidence.Sure() {
		return o.bare(e.Takeoff.Length, exactly)
	}
	return o.plain(e.Takeoff)
}

// howSure says whose a takeoff is, or that nobody has measured it.
func (o Options) howSure(t catalog.Takeoff) string {
	switch t.Evidence {
	case catalog.Own:
		return o.whose(t.Measured)
	case catalog.Said:
		return o.say("as you said")
	case catalog.Published, catalog.OpenData:
		return o.say("by its standard")
	case catalog.SecondHand, catalog.Memory, catalog.Derived:
		if t.Note == figure.RecalledDepth {
			return o.say("depth from memory")
		}
	}
	return o.say("not measured")
}

func leastSure(a, b figure.End) catalog.Takeoff {
	if !b.Takeoff.Evidence.Sure() || a.Takeoff.Evidence == catalog.Said {
		return b.Takeoff
	}
	return a.Takeoff
}

func (o Options) noLineBriefly(a *figure.Answer) []string {
	if a.NoLine == "" {
		return nil
	}
	return []string{o.say("none of that line briefly", "line", a.NoLine)}
}

// assumedBriefly says what else the pipe could be where that makes another cut:
// always where it makes a longer one than is printed, since nobody puts pipe back.
func (o Options) assumedBriefly(a *figure.Answer) []row {
	var rows []row
	var unknown []string
	for _, s := range a.Assumed {
		var cuts []string
		names, ranks := map[string][]string{}, map[string]int{}
		for _, other := range s.Instead {
			if other.Cut <= 0 {
				unknown = append(unknown, o.shortName(a, other.Name))
				continue
			}
			cut := o.bare(other.Cut, manner{about: true})
			if cut == o.bare(cutOf(a), manner{about: true}) {
				continue // the same on the tape
			}
			if names[cut] == nil {
				cuts = append(cuts, cut)
			}
			names[cut] = append(names[cut], o.shortName(a, other.Name))
			ranks[cut] = 1
			if wantsMore(a, other.Cut) {
				ranks[cut] = 0
			}
		}
		for _, cut := range cuts {
			rows = append(rows, row{text: o.say("if it is", "name", o.or(together(names[cut])), "length", cut), rank: ranks[cut]})
		}
	}
	if rank := 6; len(unknown) > 0 && (hasCut(a) || a.Kind == parser.Takeoff) {
		if len(a.Own) > 0 {
			rank = 1 // it is kept for a pipe that nobody named
		}
		rows = append(rows, ranked(rank, o.say("or is it", "names", o.or(together(unknown))))...)
	}
	return rows
}

// wantsMore says whether a piece that was sawn at the printed mark is too short for
// another cut. What is drawn back in a seal can be pushed home.
func wantsMore(a *figure.Answer, other geometry.Length) bool {
	cut := cutOf(a)
	if a.System.Joint == catalog.PushFit {
		cut += 2 * a.Gap.Length
	}
	return cut > 0 && other > cut+a.Band+geometry.Inch/32 // less than which no tape shows
}

// shortName is what else a pipe could be, without the material that is known.
func (o Options) shortName(a *figure.Answer, name string) string {
	return strings.TrimPrefix(o.term(name), o.material(a.System.Material)+" ")
}

// together are choices without the word that the first begins with too: schedule
// 40, 80.
func together(names []string) []string {
	out := slices.Clone(names)
	word, _, more := strings.Cut(names[0], " ")
	for i := range out {
		if i > 0 && more {
			out[i] = strings.TrimPrefix(out[i], word+" ")
		}
	}
	return out
}

// gapBriefly says what is left open at each joint, unless that was said.
func (o Options) gapBriefly(a *figure.Answer) []row {
	if a.Gap.Length <= 0 || a.Gap.Evidence == catalog.Said {
		return nil
	}
	if a.System.Joint == catalog.PushFit {
		return ranked(1, o.say("push-fit gap briefly", "length", o.stated(a.Gap.Length, "")))
	}
	return ranked(3, o.say("gap briefly", "length", o.stated(a.Gap.Length, "")))
}

// cautionsBriefly are the cautions of this very job, two at most beside those that
// stand before the cut, the grave ones before all; or where there are none of
// these, the most pressing of every day that wasn't told today; and who decides,
// for which those of little weight wait.
func (o Options) cautionsBriefly(a *figure.Answer) []row {
	var rare, everyday []row
	graves := 0
	for i, c := range toSay(a) {
		r := row{text: o.short([]figure.Caution{c})[0], caution: c}
		switch {
		case a.Everyday(c) && (slices.Contains(o.ToldToday, c) || o.FirstTime && i >= shownCautions), c == figure.BelowMinimum:
		case a.Everyday(c) && !a.Grave(c):
			r.rank = 5
			everyday = append(everyday, r)
		case a.Grave(c):
			rare, graves = slices.Insert(rare, graves, r), graves+1
		default:
			if len(rare) > 0 || c == figure.DryFitFirst { // which hurts nobody
				r.rank = 1
			}
			rare = append(rare, r)
		}
	}
	if len(rare) > 0 {
		return rare[:min(shownCautions, len(rare))]
	}
	if o.FirstTime {
		everyday = append(everyday, row{text: o.say("notice briefly"), rank: 7, notice: true})
	}
	return everyday[:min(1, len(everyday))]
}

// short words cautions in few words; what they leave out, [AllCautions] says.
func (o Options) short(of []figure.Caution) []string {
	var lines []string
	for _, c := range of {
		lines = append(lines, cautionSentences()[c].brief.in(o.Language))
	}
	return lines
}

// Otherwise are changes that can be tapped: what was taken that no word said, as
// what else it could be; and how to measure a fitting that nobody measured.
func Otherwise(a *figure.Answer, o Options) []string {
	var ways []string
	for _, s := range a.Assumed {
		for _, other := range s.Instead {
			ways = append(ways, o.term(other.Name))
		}
	}
	if a.Unmeasured != nil || unsure(a) && hasCut(a) {
		ways = append(ways, o.say("how to measure it"))
	}
	return ways
}
