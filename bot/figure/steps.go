package figure

import (
	"slices"

	"dogleg/geometry"
	"dogleg/parser"
)

// The rules behind steps. A wording for each lies with the words.
const (
	RuleTape      = "tape"       // taken as the tape gave it
	RuleCenters   = "to centers" // the way the tape was laid, brought to center to center
	RuleDeepness  = "face less depth"
	RuleTrueSet   = "true set"
	RuleRollAngle = "roll angle" // from plumb: roll over rise
	RuleTrueAngle = "true angle" // set over run

	RuleSetToTravel = "set to travel"
	RuleSetToRun    = "set to run"
	RuleRunToTravel = "run to travel"
	RuleRunToSet    = "run to set"
	RuleTravelToSet = "travel to set"
	RuleTravelToRun = "travel to run"

	RuleRunOfOne = "run of one" // 1 ÷ tan a
	RuleSquares  = "squares"    // travel² is set² and run²

	RuleEndGap       = "end gap"  // run and a takeoff and a gap at each end
	RuleCut          = "cut"      // travel less a takeoff and a gap at each end
	RuleFromCut      = "from cut" // travel is the cut and a takeoff and a gap at each end
	RuleFromEndGap   = "from end gap"
	RuleStandingStop = "standing stop" // first bend's center and a takeoff
	RulePipeLength   = "pipe length"   // laying length and the part in the hub

	RuleMark        = "mark" // reading less what comes off
	RuleTrim        = "trim" // what comes off
	RuleStagger     = "stagger"
	RuleRack        = "rack" // clear space, half of each pipe and what covers it
	RuleSmallestSet = "smallest set"
	RuleClearBefore = "start"        // clearance part and reach part of the first bend's place
	RuleReachPart   = "reach part"   // reach × cot a
	RuleClearPart   = "clear part"   // clearance to the pipe's center ÷ sin a
	RuleKeepClear   = "keep clear"   // clearance and half the pipe
	RuleDeveloped   = "developed"    // all the pipe there is along a drain
	RuleFall        = "fall"         // length × grade
	RuleGrade       = "grade"        // fall ÷ length
	RuleLength      = "length"       // fall ÷ grade
	RuleInvert      = "invert"       // upper less fall, lower plus fall
	RuleHalfAngle   = "half angle"   // radius × tan of half the angle
	RuleArc         = "arc"          // radius × angle in radians
	RuleDryFit      = "dry fit"      // set to travel, of what the dry fit showed
	RuleEachEnd     = "each end"     // shared by the two ends
	RuleArithmetic  = "arithmetic"   // of kind sum
	RuleCorner      = "corner"       // leg × sin of the turn ÷ sin of the other bend
	RuleCornerLeg   = "corner leg"   // travel × sin of the other bend ÷ sin of the turn
	RuleCornerClear = "corner clear" // leg × sin of its bend
	RuleStop        = "stop"         // leg and a takeoff
	RuleGirth       = "girth"        // outside diameter × π
	RuleWrap        = "wrap"         // girth × part of the way around
	RuleCutAngle    = "cut angle"    // turn ÷ twice the welds
	RuleCutback     = "cutback"      // outside diameter × tan of the cut angle
	RuleEndPiece    = "end piece"    // radius × tan of the cut angle
	RuleMiddlePiece = "middle piece" // two end pieces
	RuleInline      = "inline"       // cut less what stands in it
	RuleInlinePlace = "inline place" // place less what comes before
	RuleInlineRest  = "inline rest"  // cut less the first piece and what stands there
	RuleAlike       = "alike"        // shared by the pieces
	RuleRiser       = "riser"        // between two readings
	RuleStraight    = "straight"     // the whole less the two runs
	RuleBetween     = "between"      // straight less a takeoff at each end
	RuleSaddleLean  = "saddle lean"
	RuleSaddleHigh  = "saddle high"
	RuleSaddleShort = "saddle short"
	RuleSaddleHeel  = "saddle heel"
	RuleSaddleLong  = "saddle long"
	RuleSaddleSide  = "saddle side"
	RuleFishmouth   = "fishmouth"
	RuleRiserLong   = "riser long"
	RuleStreet      = "street"        // the spigot and the other's takeoff are all of the travel
	RuleTouching    = "touching"      // travel where the hubs touch
	RuleCutOut      = "cut out"       // of a run, for a branch fitting
	RuleFarEnd      = "far end"       // run and a takeoff along
	RuleFarSet      = "far set"       // set and a takeoff across
	RuleFarAlong    = "far along"     // the part of a takeoff along the first line
	RuleFarAcross   = "far across"    // and across it
	RuleFaces       = "face to face"  // an insertion at each end
	RuleHubFace     = "hub face"      // an insertion into the hub
	RuleEndToCenter = "end to center" // one takeoff
)

// HalfOutsides is the role, in a step, of the half diameters between the way a
// tape was laid and center to center: both halves in one figure.
const HalfOutsides parser.Role = "half_outsides"

// Covers is the role, in a step, of what covers two lines, between them.
const Covers parser.Role = "covers"

// explain adds the steps of an offset, in the order they come on site: the
// triangle, the end gap, the piece; then the marks, the dry fit, the joint.
// What a handbook's multipliers make stands in them where the answer does.
func (w *work) explain(o solved) {
	factors := exactly(o.Angle, o.from)
	if w.settings.Handbook != ExactFigures && o.from != parser.Bare {
		o.Offset, factors = byTheBook(o.Offset, o.from, w.settings.Handbook)
		o.cut, o.endGap = o.Travel-o.lost(), o.Run+o.lostOfStanding()
	}
	w.triangleSteps(o, factors)
	w.gradeStep(length(parser.Travel, o.Travel))
	if o.pieced {
		w.pieceSteps(o)
	}
	w.endWith(w.answer.Main)
	if o.pieced && w.answer.Kind == parser.Around && w.answer.Main == parser.Start {
		w.standingSteps(o)
	}
	if o.pieced && w.answer.Main == parser.Cut {
		if long := w.sawn(o.cut); long.Role != parser.Cut {
			w.add(RulePipeLength, long, length(parser.Cut, o.cut), length(parser.Depth, long.Length-o.cut))
		}
		marks := []Quantity{length(parser.EndGap, o.endGap), w.sawn(o.cut)}
		if !w.answer.EndGapKnown() {
			marks = marks[1:]
		}
		w.siteSteps(marks...)
	}
}

// standingSteps add, around an obstacle, where the standing pipe stops: a takeoff
// before the first bend's center. It comes before the center's own step, which
// is what is said first.
func (w *work) standingSteps(o solved) {
	start, _ := w.answer.Length(parser.Start)
	stop, ok := w.answer.Length(parser.MarkAt)
	if !ok {
		return
	}
	terms := []Quantity{length(parser.Start, start), length(parser.TakeoffOf, o.joint.ends[0].Takeoff.Length)}
	if o.joint.gap.Length != 0 {
		terms = append(terms, length(parser.JointGap, o.joint.gap.Length))
	}
	w.add(RuleStandingStop, length(parser.MarkAt, stop), terms...)
}

func (w *work) triangleSteps(o solved, m multipliers) {
	set := length(parser.Set, o.Set)
	run := length(parser.Run, o.Run)
	travel := length(parser.Travel, o.Travel)
	switch o.from {
	case parser.Set:
		w.multiply(RuleSetToTravel, set, m.toTravel, travel)
		w.multiply(RuleSetToRun, set, m.toRun, run)
	case parser.Run:
		w.multiply(RuleRunToTravel, run, m.toTravel, travel)
		w.multiply(RuleRunToSet, run, m.toSet, set)
	case parser.Travel:
		w.multiply(RuleTravelToRun, travel, m.toRun, run)
		w.multiply(RuleTravelToSet, travel, m.toSet, set)
	default:
		w.trueAngleSteps(set, run, travel)
	}
}

// trueAngleSteps are those of two lengths: the third by the root, then the
// angle.
func (w *work) trueAngleSteps(set, run, travel Quantity) {
	minus := func(q Quantity) Quantity { q.Minus = true; return q }
	_, hasSet := w.given.of(parser.Set)
	_, hasRun := w.given.of(parser.Run)
	_, hasTravel := w.given.of(parser.Travel)
	switch third := (Step{Name: StepRoot}); {
	case hasTravel && !hasRun:
		third.Rule, third.Result, third.Terms = RuleTravelToRun, run, []Quantity{travel, minus(set)}
		w.step(third)
	case hasTravel && !hasSet:
		third.Rule, third.Result, third.Terms = RuleTravelToSet, set, []Quantity{travel, minus(run)}
		w.step(third)
	default:
		third.Rule, third.Result, third.Terms = RuleSetToTravel, travel, []Quantity{set, run}
		w.step(third)
	}
	angle := Quantity{Role: parser.AngleOf, Angle: geometry.Atan2(set.Length, run.Length)}
	w.step(Step{Name: StepTangent, Rule: RuleTrueAngle, Result: angle, Terms: []Quantity{set, run}})
}

func (w *work) pieceSteps(o solved) {
	endGap := append([]Quantity{length(parser.Run, o.Run)}, takenTerms(o.ofStandingJoint(), false)...)
	if w.answer.EndGapKnown() {
		w.add(RuleEndGap, length(parser.EndGap, o.endGap), endGap...)
	}
	w.branchSteps(o)
	w.unlikeSteps(o)
	if o.back {
		return // the cut is what it was figured from
	}
	cut := append([]Quantity{length(parser.Travel, o.Travel)}, takenTerms(o.joint, true)...)
	w.add(RuleCut, length(parser.Cut, o.cut), cut...)
}

// sawn is the piece as it is sawn: of hub-and-spigot pipe with the part in the
// hub.
func (w *work) sawn(cut geometry.Length) Quantity {
	if long, ok := w.answer.Length(parser.PipeLength); ok {
		return length(parser.PipeLength, long)
	}
	return length(parser.Cut, cut)
}

// siteSteps end what is done on site: marks, dry fit, joint.
func (w *work) siteSteps(marks ...Quantity) {
	for _, m := range marks {
		w.step(Step{Name: StepMark, Rule: string(m.Role), Result: m})
	}
	w.step(Step{Name: StepDryFit, Rule: string(w.answer.Kind)})
	w.step(Step{Name: StepJoin, Rule: string(w.answer.Kind)})
}

// length is a length in a step.
func length(r parser.Role, l geometry.Length) Quantity { return Quantity{Role: r, Length: l} }

// less is a length that is taken off.
func less(r parser.Role, l geometry.Length) Quantity {
	return Quantity{Role: r, Length: l, Minus: true}
}

func (w *work) add(rule string, result Quantity, terms ...Quantity) {
	w.step(Step{Name: StepAdd, Rule: rule, Terms: terms, Result: result})
}

func (w *work) divide(rule string, term Quantity, by float64, result Quantity) {
	w.step(Step{Name: StepDivide, Rule: rule, Terms: []Quantity{term}, Factor: by, Result: result})
}

func (w *work) multiply(rule string, term Quantity, factor float64, result Quantity) {
	w.step(Step{Name: StepMultiply, Rule: rule, Terms: []Quantity{term}, Factor: factor, Result: result})
}

// takenTerms are the takeoffs and gaps of a joint as terms of a sum; two alike
// are one term, taken twice.
func takenTerms(j joint, minus bool) []Quantity {
	terms := []Quantity{
		{Role: parser.TakeoffOf, Length: j.ends[0].Takeoff.Length, Minus: minus},
		{Role: parser.TakeoffOf, Length: j.ends[1].Takeoff.Length, Minus: minus},
	}
	if terms[0] == terms[1] {
		terms = terms[:1]
		terms[0].Times = 2
	}
	if j.gap.Length != 0 {
		terms = append(terms, Quantity{Role: parser.JointGap, Length: j.gap.Length, Minus: minus, Times: 2})
	}
	return terms
}

// endWith orders the steps so that the last result is the main figure: what
// only follows from it is dropped, what stands beside it comes before.
func (w *work) endWith(main parser.Role) {
	steps := w.answer.Steps
	at := -1
	for i, s := range steps {
		if s.Result.Role == main {
			at = i
		}
	}
	if at < 0 {
		return
	}
	last, kept := steps[at], steps[:at]
	following := map[parser.Role]bool{main: true}
	for _, s := range steps[at+1:] {
		if slices.ContainsFunc(s.Terms, func(q Quantity) bool { return following[q.Role] }) {
			following[s.Result.Role] = true
			continue
		}
		kept = append(kept, s)
	}
	w.answer.Steps = append(kept, last)
}
