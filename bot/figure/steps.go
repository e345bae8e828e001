package figure

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

	RuleEndGap     = "end gap"     // run and a takeoff and a gap at each end
	RuleCut        = "cut"         // travel less a takeoff and a gap at each end
	RuleFromCut    = "from cut"    // travel is the cut and a takeoff and a gap at each end
	RuleFromEndGap = "from end gap"
	RulePipeLength = "pipe length" // laying length and the part in the hub

	RuleMark        = "mark" // reading less what comes off
	RuleTrim        = "trim" // what comes off
	RuleStagger     = "stagger"
	RuleSmallestSet = "smallest set"
	RuleClearBefore = "start"         // clearance part and reach part of the first bend's place
	RuleReachPart   = "reach part"    // reach × cot a
	RuleClearPart   = "clear part"    // clearance to the pipe's center ÷ sin a
	RuleKeepClear   = "keep clear"    // clearance and half the pipe
	RuleDeveloped   = "developed"     // all the pipe there is along a drain
	RuleFall        = "fall"          // length × grade
	RuleGrade       = "grade"         // fall ÷ length
	RuleLength      = "length"        // fall ÷ grade
	RuleInvert      = "invert"        // upper less fall, lower plus fall
	RuleHalfAngle   = "half angle"    // radius × tan of half the angle
	RuleArc         = "arc"           // radius × angle in radians
	RuleDryFit      = "dry fit"       // set to travel, of what the dry fit showed
	RuleEachEnd     = "each end"      // shared by the two ends
	RuleArithmetic  = "arithmetic"    // of kind sum
	RuleFaces       = "face to face"  // an insertion at each end
	RuleEndToCenter = "end to center" // one takeoff
)
