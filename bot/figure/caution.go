package figure

import (
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// Caution names one caution; its sentence is a matter of wording.
type Caution string

// The cautions. [Authorities] says what stands behind each.
const (
	CheckTakeoff    Caution = "check takeoff"     // the cut rests on an unsure takeoff
	DryFitFirst     Caution = "dry fit first"     // a small angle throws the cut far
	SolventCement   Caution = "solvent cement"    // fumes and fire
	PrimerAndCement Caution = "primer and cement" // the ones made for this plastic
	ABSDry          Caution = "abs dry"           // water ruins the bond
	ABSToPVC        Caution = "abs to pvc"        // unlike plastics
	NoAirTest       Caution = "no air test"       // plastic is tested with water
	HotWork         Caution = "hot work"          // soldering, brazing, welding
	CastIronWeight  Caution = "cast-iron weight"  // an unsupported stack comes down
	BlindCut        Caution = "blind cut"         // what lies behind a wall or under a floor
	Silica          Caution = "silica"            // dust of concrete, block, brick, clay
	Gas             Caution = "gas"               // licensed work
	LiveLine        Caution = "live line"         // shut, drained, vented, tagged
	OldLead         Caution = "old lead"          // lead pipe, lead joints, old solder
	OldAsbestos     Caution = "old asbestos"      // asbestos-cement pipe
	BelowMinimum    Caution = "below minimum"     // a drain flatter than the usual minimum
	DrainGrade      Caution = "drain grade"       // an offset in a drain has to keep its fall
	BendNotListed   Caution = "bend not listed"   // not in the table of fittings for change in direction
	QuarterInDrain  Caution = "quarter in drain"  // a short 90 turns a drain only in places
	Cleanout        Caution = "cleanout"          // at a change of more than 45 degrees
	StackOffset     Caution = "stack offset"      // more than 45 degrees from plumb counts as horizontal
	NoReduction     Caution = "no reduction"      // never smaller in the direction of flow
	DryVent         Caution = "dry vent"          // keeps rising
	SweepCorner     Caution = "sweep corner"      // a round bend cuts the corner nearer
	ShortPup        Caution = "short pup"         // a piece too short to weld comfortably
	TestFirst       Caution = "test first"        // nothing covered until tested and inspected
)

// Authority is what stands behind a caution.
type Authority struct {
	Caution Caution
	When    string // it is given
	Behind  string // code, standard or "common practice"
}

// Authorities lists every caution with when it is given and what stands
// behind it. Every adoption of a code differs: the local code, the inspector
// and the licence decide.
func Authorities() []Authority {
	return []Authority{
		{CheckTakeoff, "the takeoff is from memory or from geometry", "common practice: measure the fitting in the hand, center to the stop"},
		{DryFitFirst, "the bend is 22-1/2 or less, or a measure is sure only to 1/8", "geometry: 1/16 in set moves the cut 1/16 ÷ sin a"},
		{SolventCement, "plastic joined with solvent cement", "ASTM F402"},
		{PrimerAndCement, "PVC joined with solvent cement", "ASTM D2564, F656, D2855, F3328"},
		{ABSDry, "ABS joined with solvent cement", "ASTM D2235 1.2"},
		{ABSToPVC, "ABS drain", "ASTM D3138 1.2"},
		{NoAirTest, "plastic pipe", "IRC P2503.5.1; ASTM D2855-20 1.2 note 3; IPC 312.1. Some codes allow a vacuum on plastic DWV"},
		{HotWork, "soldered or welded joints", "29 CFR 1910.252(a)(2), 1926.352; NFPA 51B"},
		{CastIronWeight, "cast iron", "common practice"},
		{BlindCut, "a standing pipe is cut, or an obstacle is passed", "common practice"},
		{Silica, "an obstacle is passed", "29 CFR 1926.1153, Table 1"},
		{Gas, "threaded or welded steel that may carry gas", "local gas codes: licensed installer, permit, test before covering"},
		{LiveLine, "a standing pipe is cut", "NAVEDTRA 14119, chapter 16: tag out, depressurize, drain first"},
		{OldLead, "a standing pipe of copper or cast iron is cut", "Safe Drinking Water Act 1417; 29 CFR 1926.62"},
		{OldAsbestos, "a standing pipe is cut, material not said or sewer", "29 CFR 1926.1101; 40 CFR 61 subpart M"},
		{BelowMinimum, "a drain falls less than the usual minimum for its size", "IPC Table 704.1; UPC 708"},
		{DrainGrade, "an offset in a drain", "IPC 704.1: uniform slope; fall goes with developed length"},
		{BendNotListed, "a 72, 30, 11-1/4 or 5-5/8 bend in a drain", "IPC 2018 Table 706.3 lists 1/16, 1/8, 1/6 and 1/4 bends"},
		{QuarterInDrain, "a 90 in a drain", "IPC 2018 Table 706.3; UPC 706.3"},
		{Cleanout, "a bend of more than 45 degrees in a drain", "IPC 2018 708.1.4; UPC 707"},
		{StackOffset, "a bend of more than 45 degrees in a drain", "IPC definitions, 710, 711"},
		{NoReduction, "ends of different size in a drain", "IPC 704.2"},
		{DryVent, "a DWV offset may be in a vent", "IPC 905.2 to 905.5"},
		{SweepCorner, "a long-radius bend passes an obstacle", "geometry: the corner is nearer by (r - k)(1/cos(a/2) - 1)"},
		{ShortPup, "a welded piece shorter than its own diameter or 2 in", "common practice"},
		{TestFirst, "any line that will be covered", "IRC P2503"},
	}
}

// cautions chooses those that this very job calls for, the most pressing
// first: what makes the cut wrong, what the code does not allow, what hurts
// people, and then the rest.
func (w *work) cautions() []Caution {
	if w.onlyFigures() {
		return nil
	}
	return append(w.calledByLine(), w.calledByPipe()...)
}

// onlyFigures says whether nothing is built: sums and multipliers.
func (w *work) onlyFigures() bool {
	k := w.answer.Kind
	return k == parser.Sum || k == parser.Multiplier || k == parser.Takeoff && len(w.answer.Own) > 0
}

type called struct {
	caution Caution
	called  bool
}

// those are the cautions that are called for.
func those(all []called) []Caution {
	var out []Caution
	for _, c := range all {
		if c.called {
			out = append(out, c.caution)
		}
	}
	return out
}

// calledByPipe are the cautions of what the pipe is, and how it is joined.
func (w *work) calledByPipe() []Caution {
	s := w.answer.System
	plastic := s.Joint == catalog.Solvent
	return those([]called{
		{HotWork, s.Joint == catalog.Solder || s.Joint == catalog.ButtWeld || s.Joint == catalog.SocketWeld},
		{Gas, s.Material == catalog.Steel && (s.Joint == catalog.Thread || s.Joint == catalog.ButtWeld)},
		{ABSDry, plastic && s.Material == catalog.ABS},
		{SolventCement, plastic},
		{CastIronWeight, s.Material == catalog.CastIron},
		{DryFitFirst, w.turn() != 0 && w.turn() <= geometry.SixteenthBend || len(w.answer.Findings) > 0},
		{ShortPup, w.shortPup()},
		{NoAirTest, plastic || s.Material == catalog.PEX},
		{ABSToPVC, plastic && s.Material == catalog.ABS},
		{PrimerAndCement, plastic && (s.Material == catalog.PVC || s.Material == catalog.CPVC)},
		{Cleanout, w.turnsDrain() && w.turn() > geometry.EighthBend},
		{StackOffset, w.turnsDrain() && w.turn() > geometry.EighthBend},
		{DrainGrade, w.turnsDrain()},
		{DryVent, w.turnsDrain()},
		{TestFirst, s.ID != ""},
	})
}

// turn is what the fittings turn: of a fit, the best bend, not the true angle.
func (w *work) turn() geometry.Angle {
	if w.answer.Kind == parser.Fit && len(w.answer.Bends) > 0 {
		return w.answer.Bends[0].Angle
	}
	return w.answer.Angle
}

// turnsDrain says whether a drain is turned by a bend.
func (w *work) turnsDrain() bool {
	return w.isDrain() && w.turn() != 0 && w.answer.Kind != parser.Fall
}

// calledByLine are the cautions of what is done with the line: where it is
// cut, how it falls, how it turns.
func (w *work) calledByLine() []Caution {
	a, kind := w.turn(), w.answer.Kind
	stands, passes, turns := kind == parser.Mark, kind == parser.Around, w.turnsDrain()
	return those([]called{
		{CheckTakeoff, w.unsure()},
		{BelowMinimum, w.belowMinimum()},
		{LiveLine, stands},
		{BlindCut, stands || passes},
		{BendNotListed, turns && !listed(a)},
		{QuarterInDrain, turns && a == geometry.QuarterBend},
		{NoReduction, w.isDrain() && w.sizesDiffer()},
		{SweepCorner, passes && w.answer.System.Joint == catalog.ButtWeld},
		{Silica, passes},
		{OldLead, stands && (w.answer.System.Material == catalog.CastIron || w.answer.System.Material == catalog.Copper)},
		{OldAsbestos, stands && (w.answer.System.ID == "" || w.answer.System.Use == catalog.Sewer)},
	})
}

// listed says whether a bend is in the IPC's table of fittings for a change in
// direction; a 1/16, 1/8, 1/6 and, in places, a 1/4 bend is.
func listed(a geometry.Angle) bool {
	switch a {
	case geometry.QuarterBend, geometry.SixthBend, geometry.EighthBend, geometry.SixteenthBend:
		return true
	}
	return false
}

// isDrain says whether the line is one, by what was said or by what it is
// made for. Cast iron, where no use was said, is.
func (w *work) isDrain() bool {
	s := w.answer.System
	use := w.ask.Pipe.Use
	if use == "" {
		use = s.Use
	}
	return use == catalog.DWV || use == catalog.Sewer || w.answer.Kind == parser.Fall || use == "" && s.Material == catalog.CastIron
}

func (w *work) unsure() bool {
	for _, e := range w.answer.Ends {
		if e.Takeoff.Evidence != "" && !e.Takeoff.Evidence.Sure() {
			return true
		}
	}
	return w.answer.Provisional || w.answer.Unmeasured != nil
}

func (w *work) belowMinimum() bool {
	for _, m := range w.answer.Minimums {
		if !m.Meets {
			return true
		}
	}
	return false
}

func (w *work) sizesDiffer() bool {
	return w.settled && w.sizeAt(0) != w.sizeAt(1)
}

// shortPup says whether a welded piece is shorter than its pipe is across, or
// than 2 in: two welds that near to each other are hard to make.
func (w *work) shortPup() bool {
	cut, ok := w.answer.Length(parser.Cut)
	d, known := w.answer.System.Dimensions(w.answer.Size)
	return ok && known && w.answer.System.Joint == catalog.ButtWeld && cut < max(d.Outside, 2*geometry.Inch)
}
