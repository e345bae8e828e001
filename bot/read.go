package bot

import (
	"dogleg/parser"
	"dogleg/parser/words"
)

// Read reads a message, with what the pipe carries and goes through where it is
// told anywhere in the words of an ask.
func Read(text string) []parser.Statement {
	statements := parser.Parse(text)
	for _, s := range statements {
		if s.Ask != nil {
			carried(s.Ask, s.Text)
		}
		if s.Misunderstanding != nil {
			carried(&s.Misunderstanding.Read, s.Text)
		}
	}
	return statements
}

// loads and barriers are what the words of cautions mean to an ask.
var (
	loads = map[string]parser.Load{
		"gas": parser.FuelGas, "medical gas": parser.MedicalGas, "compressed air": parser.CompressedAir,
		"water": parser.Water, "vent": parser.Vent, "drain": parser.DrainWater,
		"asbestos cement": parser.AsbestosCement, "lead": parser.LeadPipe,
	}
	barriers = map[string]parser.Barrier{"masonry": parser.Masonry, "joist": parser.Joist}
)

// carried puts into an ask what its words say, unless that is there: of several
// the first.
func carried(ask *parser.Ask, text string) {
	for _, word := range words.Carried(text) {
		if load, ok := loads[word]; ok && ask.Carries == "" {
			ask.Carries = load
		}
		if barrier, ok := barriers[word]; ok && ask.Through == "" {
			ask.Through = barrier
		}
	}
}
