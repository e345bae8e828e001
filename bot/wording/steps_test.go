package wording_test

import (
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/parser"
)

// stepwise is the simple offset with its steps, the arithmetic as a handbook
// lays it out (Dibble, Elements of Plumbing, 1918, "Measurements").
func stepwise() *figure.Answer {
	a := simple()
	set := figure.Quantity{Role: parser.Set, Length: 9.375}
	travel := figure.Quantity{Role: parser.Travel, Length: 13.258252147247767}
	takeoff := figure.Quantity{Role: parser.TakeoffOf, Length: 1.0625, Minus: true, Times: 2}
	cut := figure.Quantity{Role: parser.Cut, Length: 11.133252147247767}
	gap := figure.Quantity{Role: parser.EndGap, Length: 11.5}
	a.Steps = []figure.Step{
		{Name: figure.StepMeasure, Rule: figure.RuleTape, Result: set},
		{Name: figure.StepMultiply, Rule: figure.RuleSetToTravel, Result: travel, Terms: []figure.Quantity{set}, Factor: 1.414213562373},
		{Name: figure.StepAdd, Rule: figure.RuleCut, Result: cut, Terms: []figure.Quantity{travel, takeoff}},
		{Name: figure.StepMark, Result: gap},
		{Name: figure.StepMark, Result: cut},
		{Name: figure.StepDryFit},
		{Name: figure.StepJoin},
	}
	a.Handbook = &figure.Handbook{Name: "two decimals", Multiplier: 1.41, Travel: 13.21875, Run: 9.375, Cut: 11.09375, Differs: true}
	a.Throws = []figure.Throw{{What: "set", Off: "1/8 in", Cut: 0.176776695, Set: 0.125, Run: 0.125}}
	return a
}

func TestSteps(t *testing.T) {
	same(t, wording.Steps(stepwise(), wording.Options{}),
		"Set 9-3/8, two 45s, takeoff 1-1/16",
		"1. Set (as the tape gave it): 9-3/8",
		"2. Travel (set to travel): 9.375 × 1.4142 = 13.2583, on the tape 13-1/4",
		"3. Cut (travel less a takeoff at each end): 13.2583 - 2 × 1.0625 = 11.1333, on the tape 11-1/8",
		"4. Mark the standing pipes to end 11-1/2 apart, along the line.",
		"5. Mark the piece at 11-1/8 and cut it square.",
		"6. Put it together dry, both fittings turned to the line, and check the set center to center.",
		"7. Make the joints for good, one end and then the other.",
		"Takeoff 1-1/16 each, as you said.",
		"By the book (two decimals): travel 13-1/4 light, run 9-3/8, cut 11-1/8 light.",
		"They differ because the book rounds its multipliers.",
		"Set off by 1/8: cut moves 3/16, run moves 1/8.",
	)
}

// What hangs on a takeoff from memory is about so in the steps too.
func TestStepsProvisional(t *testing.T) {
	a := stepwise()
	a.Ends = ends(45, 1.0625, catalog.Memory)
	a.Steps = a.Steps[1:5]
	a.Handbook, a.Throws = nil, nil
	a.Ask.Ends = [2]parser.End{}
	same(t, wording.Steps(a, wording.Options{}),
		"Set 9-3/8, two 45s",
		"1. Travel (set to travel): 9.375 × 1.4142 = 13.2583, on the tape 13-1/4",
		"2. Cut (travel less a takeoff at each end): 13.2583 - 2 × 1.0625 = 11.1333, on the tape about 11-1/8",
		"3. Mark the standing pipes to end about 11-1/2 apart, along the line.",
		"4. Mark the piece at about 11-1/8 and cut it square.",
		`Takeoff 1-1/16 each: pattern from memory. Measure yours: say takeoff and what you found.`,
		"Leave it long and trim, or measure the fitting.",
	)
}

func TestStepsOfARollingOffset(t *testing.T) {
	roll, rise := figure.Quantity{Role: parser.Roll, Length: 14.0625}, figure.Quantity{Role: parser.Rise, Length: 6.8125}
	a := &figure.Answer{
		Ask:  parser.Ask{Kind: parser.Offset, Measures: []parser.Measure{given(parser.Roll, 14.0625), given(parser.Rise, 6.8125)}},
		Kind: parser.Offset, Rolling: true, RollAngle: 64.152389779403745,
		Steps: []figure.Step{
			{Name: figure.StepRoot, Rule: figure.RuleTrueSet, Result: figure.Quantity{Role: parser.Set, Length: 15.625749982000864}, Terms: []figure.Quantity{roll, rise}},
			{Name: figure.StepTangent, Rule: figure.RuleRollAngle, Result: figure.Quantity{Role: parser.RollAngle, Angle: 64.152389779403745}, Terms: []figure.Quantity{roll, rise}},
		},
	}
	same(t, wording.Steps(a, wording.Options{}),
		"Roll 14-1/16, rise 6-13/16",
		"1. True set (root of roll squared and rise squared): √(14.0625² + 6.8125²) = 15.6257, on the tape 15-5/8",
		"2. Roll angle, from plumb (roll over rise): tan = 14.0625 ÷ 6.8125 = 64.15°, 25.85° up from level",
	)
}
