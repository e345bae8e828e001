package wording

import (
	"errors"
	"maps"
	"math"
	"slices"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Record is one thing asked and its answer as JSON: a public contract that
// grows only by adding keys. Lengths are inches, angles degrees, in full
// precision. What the message does not state is not in Given.
type Record struct {
	Understood bool                 `json:"understood"`
	Possible   *bool                `json:"possible,omitempty"` // only ever false
	Kind       parser.Kind          `json:"kind,omitempty"`
	Read       string               `json:"read,omitempty"`
	Given      map[string]any       `json:"given,omitempty"`
	EachGiven  map[string][]float64 `json:"each_given,omitempty"` // of what was given more than once, each value in order
	Figures    map[string]float64   `json:"figures,omitempty"`
	Takeoffs   []TakeoffRecord      `json:"takeoffs,omitempty"`
	Printed    map[string]float64   `json:"printed,omitempty"`
	Pipe       *PipeRecord          `json:"pipe,omitempty"`
	Gap        *GapRecord           `json:"gap,omitempty"`
	Tape       *TapeRecord          `json:"tape,omitempty"`

	MeasureFirst string `json:"measure_first,omitempty"` // the fitting to measure before there is a cut

	Doubts []string `json:"doubts,omitempty"` // takeoffs that look like something else, as the reply asks about them

	Provisional bool    `json:"provisional,omitempty"` // the cut is only about so
	Band        float64 `json:"band,omitempty"`        // and may be out by this much, either way

	Branch     *BranchRecord   `json:"branch,omitempty"`      // that the offset leaves, or ends in
	Unlike     *UnlikeRecord   `json:"unlike,omitempty"`      // of two bends that differ
	Pieces     []float64       `json:"pieces,omitempty"`      // where there is more than one to cut, in order
	Inline     []InlineRecord  `json:"inline,omitempty"`      // what stands in the travel
	Stations   []StationRecord `json:"stations,omitempty"`    // of kind riser
	WrapMarks  []WrapRecord    `json:"wrap_marks,omitempty"`  // of kind miter and saddle
	Turns      []float64       `json:"turns,omitempty"`       // of kind corner: what each bend turns
	Header     string          `json:"header,omitempty"`      // of kind saddle: the size that the branch sits on
	StreetSets []float64       `json:"street_sets,omitempty"` // the least and the most that a street fitting makes straight in the other

	Bends       []BendRecord       `json:"bends,omitempty"`       // of kind fit
	Bank        *BankRecord        `json:"bank,omitempty"`        // of kind parallel
	EachLine    []LineRecord       `json:"each_line,omitempty"`   // of kind parallel
	Minimums    []MinimumRecord    `json:"minimums,omitempty"`    // of a drain
	Marks       []MarkRecord       `json:"marks,omitempty"`       // of kind trim
	Multipliers []MultiplierRecord `json:"multipliers,omitempty"` // of kind multiplier

	Problem string   `json:"problem,omitempty"`
	Suggest []string `json:"suggest,omitempty"`
	AskBack string   `json:"ask_back,omitempty"`

	Cautions []string `json:"cautions,omitempty"`
	Reply    string   `json:"reply"`
}

// TakeoffRecord is the takeoff at one end of the piece.
type TakeoffRecord struct {
	Fitting  string           `json:"fitting"`
	Inches   float64          `json:"inches"`
	Source   string           `json:"source"`
	Evidence catalog.Evidence `json:"evidence,omitempty"`
}

// PipeRecord is the pipe that was settled on: what the words left open is taken
// as the likeliest, and here.
type PipeRecord struct {
	System   string  `json:"system"`
	Joint    string  `json:"joint"`
	Use      string  `json:"use,omitempty"`
	Schedule string  `json:"schedule,omitempty"`
	Outside  float64 `json:"outside,omitempty"`
}

// MinimumRecord is the usual least grade of a drain by one code.
type MinimumRecord struct {
	Behind string  `json:"behind"`
	Grade  float64 `json:"grade"`
	Meets  bool    `json:"meets"`
}

// GapRecord is what is left open at each joint; Least is the narrow end of what
// is usual.
type GapRecord struct {
	Inches   float64          `json:"inches"`
	Least    float64          `json:"least,omitempty"`
	Source   string           `json:"source"`
	Evidence catalog.Evidence `json:"evidence,omitempty"`
}

// TapeRecord is the cut as it reads on the tape of who asked, an unsure one as long
// as it is left: in sixteenths, or where they asked in metric in whole millimeters, "356 mm". CutOff is heavy,
// light or absent, as it always is in millimeters.
type TapeRecord struct {
	Cut    string `json:"cut"`
	CutOff string `json:"cut_off,omitempty"`
}

// BendRecord is one bend that may suit the room there is.
type BendRecord struct {
	Angle       float64 `json:"angle"`
	Fits        bool    `json:"fits"`
	Run         float64 `json:"run"`
	Travel      float64 `json:"travel"`
	Cut         float64 `json:"cut"`
	EndGap      float64 `json:"end_gap"`
	Spare       float64 `json:"spare"`
	Provisional bool    `json:"provisional,omitempty"`
	Why         string  `json:"why,omitempty"`
}

// BranchRecord is a fitting that sits in a run and lets a branch into it.
type BranchRecord struct {
	Fitting string   `json:"fitting"`
	End     int      `json:"end"`             // of the offset: 0 it leaves, 1 it ends in
	Inlet   *float64 `json:"inlet,omitempty"` // from its center to where the run is cut, upstream; absent where nobody measured it
	Outlet  *float64 `json:"outlet,omitempty"`
}

// UnlikeRecord is how the far line runs where two bends differ.
type UnlikeRecord struct {
	Turns   [2]float64 `json:"turns"`
	OffLine float64    `json:"off_line"` // how far it is out of parallel
	Leads   string     `json:"leads"`    // away, back
}

// BankRecord is how a bank lies against its step, and what it closes up to on
// the diagonal where all its lines bend at one place.
type BankRecord struct {
	Lies        string  `json:"lies"` // side by side, one above the other, along the step
	Taken       bool    `json:"taken,omitempty"`
	Otherwise   float64 `json:"stagger_otherwise"` // if it lay the other way
	Unstaggered float64 `json:"unstaggered"`
}

// LineRecord is one of parallel lines; Start is how much sooner than the
// first line's its bend begins.
type LineRecord struct {
	Line   int      `json:"line"`
	Start  float64  `json:"start"`
	Run    float64  `json:"run"`
	Travel float64  `json:"travel"`
	Cut    *float64 `json:"cut,omitempty"`

	// Of a rack of lines that differ, or are covered.
	Size    string   `json:"size,omitempty"`
	Outside float64  `json:"outside,omitempty"` // of the pipe
	Cover   float64  `json:"cover,omitempty"`   // how thick
	Over    float64  `json:"over,omitempty"`    // its center, from that of line 1
	Clear   *float64 `json:"clear,omitempty"`   // from the line before, between what covers them
	Unsure  bool     `json:"unsure,omitempty"`  // its cut is only about so
}

// MarkRecord is one mark around an elbow that is trimmed: at so many eighths of
// the way round from the throat, so far along the wall, and so far from the face.
type MarkRecord struct {
	Eighth int     `json:"eighth"`
	Around float64 `json:"around"`
	Face   float64 `json:"from_face"`
}

// MultiplierRecord is one multiplier of an angle.
type MultiplierRecord struct {
	From   parser.Role `json:"from"`
	To     parser.Role `json:"to"`
	Factor float64     `json:"factor"`
}

// NewRecord makes the record of a statement: of what Solve returned for its
// ask, or of the misunderstanding that it is. reply is what was said.
func NewRecord(s parser.Statement, a *figure.Answer, err error, reply string) Record {
	r := Record{Understood: s.Misunderstanding == nil, Reply: reply}
	if s.Ask != nil {
		r.asked(*s.Ask)
	}
	switch {
	case err != nil:
		r.refused(err)
	case s.Misunderstanding != nil:
		r.refused(s.Misunderstanding)
	case a != nil:
		r.answered(a)
	}
	return r
}

// asked puts in what the message states.
func (r *Record) asked(ask parser.Ask) {
	r.Kind = ask.Kind
	r.Read = optionsOf(ask).read(ask, catalog.System{}, "")
	r.Given, r.EachGiven = givenBy(ask), eachGiven(ask)
}

// answered puts in what was figured.
func (r *Record) answered(a *figure.Answer) {
	r.Kind = a.Kind
	r.Read = optionsOf(a.Ask).read(a.Ask, a.System, a.Size)
	r.Figures = figuresOf(a)
	r.Printed = printedMarks(a)
	r.Pipe = pipeRecord(a)
	r.takeoffs(a)
	r.Gap = gapRecord(a)
	if cut, ok := a.Figured(parser.Cut); ok {
		r.Tape = optionsOf(a.Ask).tapeRecord(cut.Length, mannerOf(a, cut))
	}
	if a.Unmeasured != nil {
		r.MeasureFirst = a.Unmeasured.Fitting.Key()
	}
	r.Doubts = optionsOf(a.Ask).doubts(a)
	r.Provisional = unsure(a)
	if r.Provisional {
		r.Band = a.Band.Inches()
	}
	r.lists(a)
	r.Cautions = append(optionsOf(a.Ask).namedFirst(a), optionsOf(a.Ask).pressing(a)...)
}

// optionsOf are the options that a record is worded with: the language of the
// message, a tape in sixteenths.
func optionsOf(ask parser.Ask) Options { return Options{Language: ask.Language}.For(ask) }

func (r *Record) takeoffs(a *figure.Answer) {
	for _, e := range slices.Concat(a.Ends[:], a.Sides) {
		if used(e) {
			r.Takeoffs = append(r.Takeoffs, TakeoffRecord{
				Fitting: e.Fitting.Key(), Inches: e.Takeoff.Length.Inches(),
				Source: sourceOf(e.Takeoff), Evidence: e.Takeoff.Evidence,
			})
		}
	}
}

// printedMarks are the figures that the reply prints otherwise than at the nearest
// mark, a sixteenth or a millimeter: clearances rounded up, and what an unsure cut
// is left long.
func printedMarks(a *figure.Answer) map[string]float64 {
	marks := map[string]float64{}
	mark := 1.0 / 16
	if a.Ask.Metric() {
		mark = geometry.Millimeter.Inches()
	}
	for _, l := range a.Lengths {
		m := mannerOf(a, l)
		switch long := (l.Length + m.left).Inches(); {
		case m.up, m.left > 0:
			marks[string(l.Role)] = math.Ceil(long/mark-1e-9) * mark
		case m.left < 0:
			marks[string(l.Role)] = math.Floor(max(0, long)/mark+1e-9) * mark
		}
	}
	return marks
}

func pipeRecord(a *figure.Answer) *PipeRecord {
	s := a.System
	if s.ID == "" {
		return nil
	}
	p := &PipeRecord{System: s.ID, Joint: string(s.Joint), Use: string(s.Use), Schedule: s.Schedule}
	if d, ok := s.Dimensions(a.Size); ok {
		p.Outside = d.Outside.Inches()
	}
	return p
}

// gapRecord is the gap at each joint; nil where none was thought of.
func gapRecord(a *figure.Answer) *GapRecord {
	g := a.Gap
	if !figuredGap(a) {
		return nil
	}
	source := Options{}.source(g.Source)
	if g.Evidence == catalog.Said {
		source = "given in the message"
	}
	return &GapRecord{Inches: g.Length.Inches(), Least: g.Least.Inches(), Source: source, Evidence: g.Evidence}
}

// figuredGap says whether a gap went into the figures, be it none that was said.
func figuredGap(a *figure.Answer) bool {
	return a.Gap.Length > 0 || a.Gap.Evidence == catalog.Said
}

// sourceOf is where a takeoff comes from, never nothing.
func sourceOf(t catalog.Takeoff) string {
	switch t.Evidence {
	case catalog.Said:
		return "given in the message"
	case catalog.Own:
		return Options{}.whose(t.Measured)
	case catalog.Published, catalog.OpenData, catalog.SecondHand, catalog.Memory, catalog.Derived:
	}
	return Options{}.source(t.Source)
}

// tapeRecord is a cut as the reply prints it: one that isn't sure is left long.
func (o Options) tapeRecord(cut geometry.Length, m manner) *TapeRecord {
	switch {
	case m.left > 0 && o.Metric:
		return &TapeRecord{Cut: o.roundedUp(cut+m.left, "")}
	case m.left > 0:
		return &TapeRecord{Cut: (cut + m.left).TapeUp(o.division()).String()}
	case o.Metric:
		return &TapeRecord{Cut: cut.Metric(0)}
	}
	t := cut.Tape(geometry.Sixteenths)
	return &TapeRecord{Cut: t.String(), CutOff: Options{}.lean(t.Lean)}
}

// lists puts in what single kinds have besides lengths.
func (r *Record) lists(a *figure.Answer) {
	r.joints(a)
	r.pieces(a)
	for _, c := range a.Bends {
		r.Bends = append(r.Bends, BendRecord{
			Angle: c.Angle.Degrees(), Fits: c.Fits, Run: c.Run.Inches(), Travel: c.Travel.Inches(),
			Cut: c.Cut.Inches(), EndGap: c.EndGap.Inches(), Spare: c.Spare.Inches(),
			Provisional: chancy(a, c), Why: c.Why,
		})
	}
	if a.Kind == parser.Parallel {
		b := a.Bank
		lies := string(b.Lie)
		if b.Along {
			lies = "along the step"
		}
		r.Bank = &BankRecord{Lies: lies, Taken: b.Taken || b.Along, Otherwise: b.Other.Inches(), Unstaggered: a.Unstaggered.Inches()}
	}
	for _, l := range a.Lines {
		line := LineRecord{Line: l.Number, Start: l.Start.Inches(), Run: l.Run.Inches(), Travel: l.Travel.Inches()}
		if l.HasCut {
			cut := l.Cut.Inches()
			line.Cut = &cut
		}
		if a.Rack != nil {
			line.Size, line.Outside, line.Cover, line.Over = string(l.Size), l.Outside.Inches(), l.Cover.Inches(), l.Spacing.Inches()
			line.Unsure = l.Alone != nil && unsure(l.Alone)
			if space := l.Clear.Inches(); l.Number > 1 && l.Outside > 0 {
				line.Clear = &space
			}
		}
		r.EachLine = append(r.EachLine, line)
	}
	for _, m := range a.Minimums {
		r.Minimums = append(r.Minimums, MinimumRecord{m.Behind, perFoot(m.Grade), m.Meets})
	}
	for _, m := range a.Ordinates {
		if a.Kind != parser.Trim {
			break
		}
		r.Marks = append(r.Marks, MarkRecord{m.Eighth, m.Arc.Inches(), m.Back.Inches()})
	}
	for _, f := range a.Factors {
		if !math.IsInf(f.Exact, 0) && !math.IsNaN(f.Exact) {
			r.Multipliers = append(r.Multipliers, MultiplierRecord{f.From, f.To, f.Exact})
		}
	}
}

// refused puts in what is wrong and what would work. No cut comes with it.
func (r *Record) refused(err error) {
	var unread *parser.Misunderstanding
	var missing *figure.Missing
	var impossible *figure.Impossible
	switch {
	case errors.As(err, &unread):
		r.misunderstood(unread)
	case errors.As(err, &missing):
		r.notPossible(missing.Partly)
		r.Problem, r.Suggest = string(missing.Wanted)+" is missing", missing.Options
		r.AskBack = string(missing.Wanted)
	case errors.As(err, &impossible):
		r.notPossible(impossible.Partly)
		r.StreetSets = streetSets(impossible.StreetSets)
		r.Problem, r.Suggest = Options{}.cause(impossible), suggestions(impossible)
	default:
		r.notPossible(nil)
		r.Problem = Options{}.say("went wrong")
	}
}

func (r *Record) misunderstood(m *parser.Misunderstanding) {
	r.Understood = false
	r.Read = optionsOf(m.Read).read(m.Read, catalog.System{}, "")
	if r.Read == "" {
		r.Read = m.Text
	}
	r.Given, r.EachGiven = givenBy(m.Read), eachGiven(m.Read)
	r.Problem, r.Suggest = Options{}.trouble(m), m.Near
	r.AskBack = string(m.Wanted)
	r.Suggest = append(r.Suggest, Options{}.readings(m)...)
}

// notPossible keeps the figures that need no more, without any cut.
func (r *Record) notPossible(partly *figure.Answer) {
	possible := false
	r.Possible = &possible
	if partly == nil {
		return
	}
	r.Figures = figuresOf(partly)
	for role := range r.Figures {
		if !onlyGeometry(parser.Role(role)) {
			delete(r.Figures, role)
		}
	}
}

// suggestions are what would work, as words to type.
func suggestions(i *figure.Impossible) []string {
	suggest := i.Near
	for _, bend := range i.Bends {
		suggest = append(suggest, Options{}.fittings(catalog.BendOf(bend)))
	}
	return suggest
}

// figuresOf are the figures of an answer by their keys.
func figuresOf(a *figure.Answer) map[string]float64 {
	figures := map[string]float64{}
	for _, l := range a.Lengths {
		figures[string(l.Role)] = l.Length.Inches()
	}
	if a.Angle > 0 && a.Ask.Angle != a.Angle && (a.Kind != parser.Fit || angleFollows(a)) {
		figures[string(parser.AngleOf)] = a.Angle.Degrees()
	}
	if a.Rolling {
		figures[string(parser.RollAngle)] = a.RollAngle.Degrees()
	}
	if a.Grade > 0 {
		figures[string(parser.Grade)] = perFoot(a.Grade)
	}
	if a.CutAngle > 0 {
		figures["cut_angle"] = a.CutAngle.Degrees()
	}
	if a.FallOverRun > 0 {
		figures["fall_over_run"] = a.FallOverRun.Inches()
	}
	if figuredGap(a) {
		figures[string(parser.JointGap)] = a.Gap.Length.Inches()
	}
	return figures
}

// givenBy is what an ask states, by the keys of the contract. A length whose
// tape was not laid center to center is given as measured, with its method:
// what it makes center to center was not stated.
func givenBy(ask parser.Ask) map[string]any {
	given := map[string]any{}
	for _, m := range ask.Measures {
		if m.Method != "" && m.Method != parser.Centers {
			given["method"], given["measured"] = string(m.Method), m.Length.Inches()
			continue
		}
		if _, twice := given[string(m.Role)]; !twice {
			given[string(m.Role)] = m.Length.Inches()
		}
	}
	if ask.Angle > 0 {
		given[string(parser.AngleOf)] = ask.Angle.Degrees()
	}
	if ask.Lines > 0 {
		given[string(parser.LineCount)] = float64(ask.Lines)
	}
	if len(ask.Rack) > 0 {
		given["rack"] = rackGiven(ask)
	}
	for key, word := range map[string]string{"line_one": string(ask.LineOne), "lies": string(ask.Lie), "carries": string(ask.Carries), "through": string(ask.Through)} {
		if word != "" {
			given[key] = word
		}
	}
	if ask.Grade > 0 {
		given[string(parser.Grade)] = perFoot(ask.Grade)
	}
	pipeGiven(ask.Pipe, given)
	jointsGiven(ask, given)
	endsGiven(ask.Ends, given)
	return given
}

// eachGiven lists what was given more than once: two readings of one tape, a
// takeoff for each end, a set that was measured twice.
func eachGiven(ask parser.Ask) map[string][]float64 {
	each := map[string][]float64{}
	for _, m := range ask.Measures {
		each[string(m.Role)] = append(each[string(m.Role)], m.Length.Inches())
	}
	second := measures(ask.Ends[1])
	for i, first := range measures(ask.Ends[0]) {
		if first.Length > 0 && second[i].Length > 0 && first.Length != second[i].Length {
			each[string(first.Role)] = []float64{first.Length.Inches(), second[i].Length.Inches()}
		}
	}
	maps.DeleteFunc(each, func(_ string, values []float64) bool { return len(values) < 2 })
	return each
}

// rackGiven are the lines of a rack as they were said.
func rackGiven(ask parser.Ask) []map[string]any {
	var lines []map[string]any
	for _, l := range ask.Rack {
		line := map[string]any{}
		if l.Size != "" {
			line["size"] = string(l.Size)
		}
		if l.Insulation > 0 {
			line["cover"] = l.Insulation.Inches()
		}
		if l.Takeoff > 0 {
			line["takeoff"] = l.Takeoff.Inches()
		}
		lines = append(lines, line)
	}
	return lines
}

func pipeGiven(p catalog.Pipe, given map[string]any) {
	if p.Size != "" {
		given[string(parser.SizeOf)] = string(p.Size)
	}
	if p.Material != "" {
		given["material"] = string(p.Material)
	}
}

// endsGiven puts in what was said of the fittings: their names only where the
// two differ, their measures by role.
func endsGiven(ends [2]parser.End, given map[string]any) {
	first, second := ends[0].Fitting, ends[1].Fitting
	if first != second && first.Shape != "" && second.Shape != "" {
		given["fittings"] = []string{first.Key(), second.Key()}
	}
	for i := len(ends) - 1; i >= 0; i-- { // so that the first end has the last word
		for _, l := range measures(ends[i]) {
			if l.Length > 0 {
				given[string(l.Role)] = l.Length.Inches()
			}
		}
	}
}

// perFoot is a grade in inches per foot without the last bits that 1/12 leaves:
// 2% is 0.24.
func perFoot(s geometry.Slope) float64 {
	return math.Round(s.InchesPerFoot()*1e12) / 1e12
}
