package figure

import (
	"cmp"
	"slices"

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
	Gas             Caution = "gas"               // steel that may carry it: licensed work
	GasNamed        Caution = "gas named"         // the line was said to carry it
	GasInPlastic    Caution = "gas in plastic"    // fuel gas in plastic that no gas code lists
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
	TeeOnItsBack    Caution = "tee on its back"   // a sanitary tee takes level into plumb only
	DryVent         Caution = "dry vent"          // keeps rising
	SweepCorner     Caution = "sweep corner"      // a round bend cuts the corner nearer
	ShortPup        Caution = "short pup"         // a piece too short to weld comfortably
	TestFirst       Caution = "test first"        // nothing covered until tested and inspected
	MedicalGas      Caution = "medical gas"       // certified brazers, nitrogen purge
	AirInPlastic    Caution = "air in plastic"    // compressed air in plastic pipe
	DrainForWater   Caution = "drain for water"   // drain fittings on water under pressure
	AsbestosNamed   Caution = "asbestos named"    // the pipe was said to be asbestos cement
	LeadNamed       Caution = "lead named"        // the pipe was said to be lead
	Structure       Caution = "structure"         // a joist or a stud is gone through
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
		{AsbestosNamed, "the pipe was said to be asbestos cement", "29 CFR 1926.1101; 40 CFR 61 subpart M"},
		{LeadNamed, "the pipe was said to be lead", "Safe Drinking Water Act 1417; 29 CFR 1926.62"},
		{MedicalGas, "the line was said to carry medical gas", "NFPA 99, as recalled"},
		{GasInPlastic, "PVC, CPVC or ABS was said to carry fuel gas", "International Fuel Gas Code, section 403, as recalled"},
		{GasNamed, "the line was said to carry fuel gas, in other pipe", "local gas codes: licensed installer, permit, test before covering"},
		{Gas, "threaded or welded steel, which may carry gas", "local gas codes: licensed installer, permit, test before covering"},
		{AirInPlastic, "plastic other than with solvent cement was said to carry compressed air", airInPlasticBehind},
		{DrainForWater, "drain pipe was said to carry water", "ASTM D2665 and D2661 are for drain, waste and vent; common practice"},
		{CheckTakeoff, "the takeoff is from memory or from geometry", "common practice: measure the fitting in the hand, center to the stop"},
		{DryFitFirst, "the bend is 22-1/2 or less, or a measure is sure only to 1/8", "geometry: 1/16 in set moves the cut 1/16 ÷ sin a"},
		{SolventCement, "plastic joined with solvent cement", "ASTM F402"},
		{PrimerAndCement, "PVC joined with solvent cement", "ASTM D2564, F656, D2855, F3328"},
		{ABSDry, "ABS joined with solvent cement", "ASTM D2235 1.2"},
		{ABSToPVC, "ABS drain", "ASTM D3138 1.2"},
		{NoAirTest, "plastic pipe", "IRC P2503.5.1; ASTM D2855-20 1.2 note 3; IPC 312.1. Some codes allow a vacuum on plastic DWV"},
		{HotWork, "soldered or welded joints", "29 CFR 1910.252(a)(2), 30 minutes; 1926.352; NFPA 51B, 60 as recalled"},
		{CastIronWeight, "cast iron", "common practice"},
		{BlindCut, "a standing pipe is cut", "common practice"},
		{Silica, "masonry is cut or drilled", "29 CFR 1926.1153, Table 1"},
		{Structure, "a joist, a stud or a beam is gone through", "common practice; the local building code"},
		{LiveLine, "a standing pipe is cut", "NAVEDTRA 14119, chapter 16: tag out, depressurize, drain first"},
		{OldLead, "a standing pipe of copper or cast iron is cut", "Safe Drinking Water Act 1417; 29 CFR 1926.62"},
		{OldAsbestos, "a standing pipe is cut, material not said or sewer", "29 CFR 1926.1101; 40 CFR 61 subpart M"},
		{BelowMinimum, "a drain falls less than the least for its size by the code that was named", "the code named: IPC Table 704.1, UPC 708, EN 12056-2, AS/NZS 3500.2"},
		{DrainGrade, "an offset in a drain", "IPC 704.1: uniform slope; fall goes with developed length"},
		{BendNotListed, "a 72, 30, 11-1/4 or 5-5/8 bend in a drain", "IPC 2018 Table 706.3 lists 1/16, 1/8, 1/6 and 1/4 bends"},
		{QuarterInDrain, "a 90 in a drain", "IPC 2018 Table 706.3; UPC 706.3"},
		{Cleanout, "a bend of more than 45 degrees in a drain", "IPC 2018 708.1.4; UPC 707"},
		{StackOffset, "a bend of more than 45 degrees in a drain", "IPC definitions, 710, 711"},
		{TeeOnItsBack, "a sanitary tee in a drain", "IPC 2018 Table 706.3"},
		{NoReduction, "ends of different size in a drain", "IPC 704.2"},
		{DryVent, "a vent, or a DWV offset that may be in one", "IPC 905.2 to 905.5"},
		{SweepCorner, "a long-sweep bend passes an obstacle", "geometry: the corner is nearer by (r - k)(1/cos(a/2) - 1)"},
		{ShortPup, "a welded piece shorter than its own diameter or 2 in", "common practice"},
		{TestFirst, "any line that will be covered", "IRC P2503"},
	}
}

// airInPlasticBehind is what stands behind the refusal of compressed air in
// plastic pipe.
const airInPlasticBehind = "OSHA, letter of 28 Feb 1991 and hazard bulletin of 1990; ASME B31.3 A323.4.2"

// NamedFirst says whether a caution stands before any cut: the pipe itself is
// what hurts.
func (c Caution) NamedFirst() bool { return c == AsbestosNamed || c == LeadNamed }

// Everyday says whether whoever does this work knows a caution and meets it on
// every job of its kind. It is given once a job, and on request. So is what
// would hold if the line were a vent, and nobody said so.
func (a *Answer) Everyday(c Caution) bool {
	return c == DryVent && a.Ask.Carries != parser.Vent || slices.Contains(everyday, c)
}

// Grave says whether a caution is of what hurts people where it is overlooked,
// and is no matter of every day: it is given every time, however short an answer
// is.
func (a *Answer) Grave(c Caution) bool {
	standing := c == CastIronWeight && a.Kind == parser.Mark // which comes down when it is cut
	return standing || !a.Everyday(c) && slices.Contains(grave, c)
}

// grave are the cautions of what hurts people: what the pipe is or carries, what
// is cut into.
var grave = []Caution{
	AsbestosNamed, LeadNamed, MedicalGas, GasInPlastic, GasNamed, AirInPlastic, DrainForWater, Structure, Silica,
	LiveLine, OldAsbestos, OldLead, BlindCut,
}

// everyday are the cautions that come with every job of a pipe.
var everyday = []Caution{
	HotWork, Gas, SolventCement, PrimerAndCement, ABSDry, ABSToPVC, NoAirTest, CastIronWeight,
	DrainGrade, TestFirst,
}

// cautions chooses those that this very job calls for, the rarest and gravest
// first: what the pipe carries, what the code does not allow, what is done to a
// standing line, and then those of every day.
func (w *work) cautions() []Caution {
	if w.onlyFigures() {
		return nil
	}
	return slices.Concat(w.calledByLoad(), w.calledByLine(), w.calledByPipe())
}

// onlyFigures says whether nothing is built: sums and multipliers.
func (w *work) onlyFigures() bool {
	k := w.answer.Kind
	return k == parser.Sum || k == parser.Multiplier || k == parser.Wrap || k == parser.Takeoff && len(w.answer.Own) > 0
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

// calledByLoad are the cautions of what the pipe carries, and of an old pipe
// whose name is a caution.
func (w *work) calledByLoad() []Caution {
	load, s := w.ask.Carries, w.answer.System
	return those([]called{
		{AsbestosNamed, load == parser.AsbestosCement},
		{LeadNamed, load == parser.LeadPipe},
		{MedicalGas, load == parser.MedicalGas},
		{GasInPlastic, load == parser.FuelGas && Brittle(s.Material)},
		{GasNamed, load == parser.FuelGas && !Brittle(s.Material)},
		{AirInPlastic, load == parser.CompressedAir && (s.Material == catalog.PEX || s.Material == catalog.PP || s.Material == catalog.PE)},
		{DrainForWater, load == parser.Water && w.drainPattern()},
		{DryVent, load == parser.Vent},
		{Structure, w.ask.Through == parser.Joist},
		{Silica, w.ask.Through == parser.Masonry},
	})
}

// drainPattern says whether the fittings are made for drains.
func (w *work) drainPattern() bool {
	return w.answer.System.Use == catalog.DWV || w.answer.System.Use == catalog.Sewer
}

// refuseLoad refuses what no pipe of this material may carry: compressed air or
// gas in PVC, CPVC or ABS, which burst in shards.
func (w *work) refuseLoad() error {
	m := w.answer.System.Material
	if m == "" {
		m = w.ask.Pipe.Material
	}
	if w.ask.Carries != parser.CompressedAir || !Brittle(m) {
		return nil
	}
	return &Impossible{Cause: AirPlastic, Subject: string(m), Behind: airInPlasticBehind}
}

// Brittle says whether a plastic bursts in shards.
func Brittle(m catalog.Material) bool {
	return m == catalog.PVC || m == catalog.CPVC || m == catalog.ABS
}

// calledByLine are the cautions of what is done with the line: where it is
// cut, how it falls, how it turns.
func (w *work) calledByLine() []Caution {
	a, kind := w.turn(), w.answer.Kind
	stands, passes, turns := kind == parser.Mark, kind == parser.Around, w.turnsDrain()
	s := w.answer.System
	return those([]called{
		{CheckTakeoff, w.unsure()},
		{BelowMinimum, w.belowMinimum()},
		{CastIronWeight, stands && s.Material == catalog.CastIron},
		{LiveLine, stands},
		{OldAsbestos, stands && (s.ID == "" || s.Use == catalog.Sewer)},
		{OldLead, stands && (s.Material == catalog.CastIron || s.Material == catalog.Copper)},
		{NoReduction, w.isDrain() && w.sizesDiffer()},
		{BendNotListed, turns && !listed(a) && !s.Metric}, // in the table of an American code
		{TeeOnItsBack, turns && w.hasSanitaryTee()},
		{QuarterInDrain, turns && a > steep},
		{Cleanout, turns && (a > geometry.EighthBend || kind == parser.Corner && w.answer.Angle > geometry.EighthBend)},
		{StackOffset, turns && a > geometry.EighthBend},
		{SweepCorner, passes && w.fittingAt(0, a).Sweep == catalog.Long && s.Joint != catalog.ButtWeld},
		{ShortPup, w.shortPup()},
		{BlindCut, stands},
		{DryFitFirst, a != 0 && a <= geometry.SixteenthBend && kind != parser.Check && len(w.answer.Ordinates) == 0},
	})
}

// hasSanitaryTee says whether one stands at an end.
func (w *work) hasSanitaryTee() bool {
	return w.ask.Ends[0].Fitting.Shape == catalog.SanitaryTee || w.ask.Ends[1].Fitting.Shape == catalog.SanitaryTee
}

// calledByPipe are the cautions of what the pipe is, and how it is joined: of
// every day, but for gas that steel may carry and a vent that a drain may be.
// Of ABS the first is that it has to be dry, of pressure pipe and of large pipe,
// for which no code waives it, the primer.
func (w *work) calledByPipe() []Caution {
	s := w.answer.System
	plastic, abs := s.Joint == catalog.Solvent, s.Material == catalog.ABS
	primed := plastic && (s.Material == catalog.PVC || s.Material == catalog.CPVC)
	large := primed && (s.Use == catalog.Pressure || w.isLarge())
	standing := w.answer.Kind == parser.Mark
	return those([]called{
		{HotWork, s.Joint == catalog.Solder || s.Joint == catalog.ButtWeld || s.Joint == catalog.SocketWeld},
		{Gas, w.ask.Carries == "" && s.Material == catalog.Steel && (s.Joint == catalog.Thread || s.Joint == catalog.ButtWeld)},
		{ABSDry, plastic && abs},
		{PrimerAndCement, large},
		{CastIronWeight, s.Material == catalog.CastIron && !standing},
		{SolventCement, plastic && !large && !abs},
		{NoAirTest, plastic || sealedPlastic(s)},
		{SolventCement, plastic && (large || abs)},
		{ABSToPVC, plastic && abs},
		{PrimerAndCement, primed && !large},
		{DrainGrade, w.turnsDrain()},
		{DryVent, w.turnsDrain() && w.ask.Carries == ""},
		{TestFirst, s.ID != ""},
	})
}

// sealedPlastic says whether a pipe is of plastic that no cement joins.
func sealedPlastic(s catalog.System) bool {
	return s.Joint == catalog.PushFit || s.Joint == catalog.Fusion || s.Material == catalog.PEX
}

// steep is from where on a bend is a quarter bend to who lays drains: those of 87.5
// and 88 are made so for the fall of the branch.
const steep = 80 * geometry.Degree

// isLarge says whether a pipe is more than 4 in across.
func (w *work) isLarge() bool {
	d, ok := w.answer.System.Dimensions(w.answer.Size)
	return ok && d.Outside > 4.5*geometry.Inch+hairline
}

// turn is what the fittings turn: of a fit, the best bend, not the true angle.
func (w *work) turn() geometry.Angle {
	if w.answer.Kind == parser.Fit && len(w.answer.Bends) > 0 {
		return w.answer.Bends[0].Angle
	}
	if w.answer.Kind == parser.Corner {
		return max(w.answer.Legs[0], w.answer.Legs[1])
	}
	return cmp.Or(w.answer.Stock, w.answer.Angle)
}

// turnsDrain says whether a drain is turned by a bend. A vent is none.
func (w *work) turnsDrain() bool {
	return w.isDrain() && w.turn() != 0 && w.answer.Kind != parser.Fall && w.ask.Carries != parser.Vent
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
