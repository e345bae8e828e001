package parser

import (
	"dogleg/catalog"
	"dogleg/parser/ask"
)

// What was asked is told in the types of package ask.
type (
	Kind             = ask.Kind
	Role             = ask.Role
	Method           = ask.Method
	Measure          = ask.Measure
	End              = ask.End
	Ask              = ask.Ask
	Language         = ask.Language
	Repair           = ask.Repair
	Taken            = ask.Taken
	Lie              = ask.Lie
	Load             = ask.Load
	Barrier          = ask.Barrier
	Verb             = ask.Verb
	Command          = ask.Command
	Statement        = ask.Statement
	Trouble          = ask.Trouble
	Misunderstanding = ask.Misunderstanding
	Operator         = ask.Operator
	Arithmetic       = ask.Arithmetic
	Term             = ask.Term
	Unit             = ask.Unit
)

// Their values.
const (
	Unstated         = ask.Unstated
	Offset           = ask.Offset
	Fit              = ask.Fit
	Piece            = ask.Piece
	Mark             = ask.Mark
	Parallel         = ask.Parallel
	Around           = ask.Around
	Fall             = ask.Fall
	Trim             = ask.Trim
	Sum              = ask.Sum
	Multiplier       = ask.Multiplier
	Takeoff          = ask.Takeoff
	Check            = ask.Check
	Bare             = ask.Bare
	Set              = ask.Set
	Roll             = ask.Roll
	Rise             = ask.Rise
	Run              = ask.Run
	Travel           = ask.Travel
	Cut              = ask.Cut
	EndGap           = ask.EndGap
	Spacing          = ask.Spacing
	Stagger          = ask.Stagger
	Drop             = ask.Drop
	Long             = ask.Long
	Start            = ask.Start
	Clearance        = ask.Clearance
	Reach            = ask.Reach
	MarkAt           = ask.MarkAt
	Total            = ask.Total
	CenterToCenter   = ask.CenterToCenter
	TakeoffOf        = ask.TakeoffOf
	TrimOff          = ask.TrimOff
	PipeLength       = ask.PipeLength
	Face             = ask.Face
	Depth            = ask.Depth
	Room             = ask.Room
	StickOut         = ask.StickOut
	GapNow           = ask.GapNow
	Overlap          = ask.Overlap
	Reading          = ask.Reading
	Upper            = ask.Upper
	Lower            = ask.Lower
	Radius           = ask.Radius
	JointGap         = ask.JointGap
	DryFit           = ask.DryFit
	Obstacle         = ask.Obstacle
	AngleOf          = ask.AngleOf
	RollAngle        = ask.RollAngle
	Grade            = ask.Grade
	LineCount        = ask.LineCount
	SizeOf           = ask.SizeOf
	PipeOf           = ask.PipeOf
	JointOf          = ask.JointOf
	FittingOf        = ask.FittingOf
	UnitOf           = ask.UnitOf
	OpenUnit         = ask.OpenUnit
	Inches           = ask.Inches
	Feet             = ask.Feet
	Millimeters      = ask.Millimeters
	Centimeters      = ask.Centimeters
	Meters           = ask.Meters
	Centers          = ask.Centers
	OutsideToOutside = ask.OutsideToOutside
	InsideToInside   = ask.InsideToInside
	OutsideToInside  = ask.OutsideToInside
	CenterToOutside  = ask.CenterToOutside
	CenterToInside   = ask.CenterToInside
	BackToBack       = ask.BackToBack
	FaceToFace       = ask.FaceToFace
	CenterToFace     = ask.CenterToFace
	EndToCenter      = ask.EndToCenter
	EndToEnd         = ask.EndToEnd
	SideBySide       = ask.SideBySide
	OneAbove         = ask.OneAbove
	FuelGas          = ask.FuelGas
	MedicalGas       = ask.MedicalGas
	CompressedAir    = ask.CompressedAir
	Water            = ask.Water
	Vent             = ask.Vent
	DrainWater       = ask.DrainWater
	AsbestosCement   = ask.AsbestosCement
	LeadPipe         = ask.LeadPipe
	Masonry          = ask.Masonry
	Joist            = ask.Joist
	English          = ask.English
	Spanish          = ask.Spanish
	Explain          = ask.Explain
	Rule             = ask.Rule
	Jobs             = ask.Jobs
	Help             = ask.Help
	Greet            = ask.Greet
	AllCautions      = ask.AllCautions
	NameJob          = ask.NameJob
	Takeoffs         = ask.Takeoffs
	Forget           = ask.Forget
	ForgetMe         = ask.ForgetMe
	Export           = ask.Export
	Draw             = ask.Draw
	Undo             = ask.Undo
	Setting          = ask.Setting
	Thanks           = ask.Thanks
	Cancel           = ask.Cancel
	Practice         = ask.Practice
	Exam             = ask.Exam
	Skip             = ask.Skip
	Stop             = ask.Stop
	Score            = ask.Score
	Glossary         = ask.Glossary
	NothingRead      = ask.NothingRead
	UnknownWord      = ask.UnknownWord
	OneSide          = ask.OneSide
	NoSuchSize       = ask.NoSuchSize
	NoSuchAngle      = ask.NoSuchAngle
	BadNumber        = ask.BadNumber
	Unclaimed        = ask.Unclaimed
	TwoReadings      = ask.TwoReadings
	Contradiction    = ask.Contradiction
	NotFiguring      = ask.NotFiguring
	TooLong          = ask.TooLong
	OneMore          = ask.OneMore
	Plus             = ask.Plus
	Minus            = ask.Minus
	Times            = ask.Times
	Divide           = ask.Divide
)

// MetricSize says whether a size is a metric one by its name: 110 mm, DN100.
func MetricSize(s catalog.Size) bool { return ask.MetricSize(s) }
