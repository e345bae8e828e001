package wording_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

var (
	drain  = catalog.Pipe{Material: catalog.PVC, Use: catalog.DWV, Size: "2"}
	weld4  = catalog.Pipe{Material: catalog.Steel, Joint: catalog.ButtWeld, Size: "4"}
	street = catalog.Fitting{Shape: catalog.Bend, Angle: 45, Street: true}
	wye    = catalog.Fitting{Shape: catalog.Wye, Angle: 45}
	santee = catalog.Fitting{Shape: catalog.SanitaryTee}
)

func at(f catalog.Fitting, takeoff float64) parser.End {
	return parser.End{Fitting: f, Takeoff: geometry.Length(takeoff)}
}

func jointAsk(kind parser.Kind, p catalog.Pipe, first, second parser.End, measures ...parser.Measure) parser.Ask {
	return parser.Ask{Kind: kind, Pipe: p, Ends: [2]parser.End{first, second}, Measures: measures}
}

// jointAsks are asks of the kinds that no message of the corpus asks for, as the
// house on Juniper Street has them.
func jointAsks() []parser.Ask {
	bend := catalog.BendOf(45)
	spigot, branch := at(street, 1.25), at(wye, 3.25)
	spigot.Spigot, branch.Inlet, branch.Outlet = 2.125, 3.25, 1.0625
	pup := jointAsk(parser.Offset, drain, spigot, at(bend, 1.5), given(parser.Cut, 3.5))
	unlike := jointAsk(parser.Offset, drain, at(bend, 1.5), at(catalog.BendOf(22.5), 1.125), given(parser.Set, 12))
	closing := jointAsk(parser.Offset, drain, at(catalog.BendOf(22.5), 1.125), at(catalog.BendOf(60), 1.75), given(parser.Set, 12))
	least := jointAsk(parser.Offset, drain, at(bend, 1.5), at(bend, 1.5))
	least.Want = parser.Least
	corner := jointAsk(parser.Corner, drain, at(bend, 1.5), at(bend, 1.5), given(parser.Leg, 12))
	corner.Angle = 90
	uneven := jointAsk(parser.Corner, drain, at(catalog.BendOf(60), 1.75), at(catalog.BendOf(30), 1.25), given(parser.Leg, 12))
	uneven.Angle = 90
	miter := jointAsk(parser.Miter, weld4, parser.End{}, parser.End{}, given(parser.Radius, 9))
	miter.Angle, miter.Pieces = 90, 4
	saddle := jointAsk(parser.Saddle, weld4, parser.End{}, parser.End{Size: "6"})
	saddle.Angle = 90
	lean := saddle
	lean.Angle = 45
	flat := saddle
	flat.Angle, flat.Pipe.Size = 20, "2"
	wrap := jointAsk(parser.Wrap, weld4, parser.End{}, parser.End{})
	wrap.Angle = 22.5
	rolled := jointAsk(parser.Wrap, weld4, parser.End{}, parser.End{}, given(parser.Roll, 8), given(parser.Rise, 12))
	union := parser.Inline{Fitting: catalog.Fitting{Shape: catalog.Union}, Laying: 2.125}
	inline := jointAsk(parser.Offset, drain, at(bend, 1.5), at(bend, 1.5), given(parser.Set, 30))
	inline.Inline = []parser.Inline{union}
	placed := inline
	union.Place = 16
	placed.Inline = []parser.Inline{union}
	valve := jointAsk(parser.Piece, drain, at(catalog.BendOf(90), 2.25), at(catalog.BendOf(90), 2.25), given(parser.CenterToCenter, 60))
	valve.Inline = []parser.Inline{{Fitting: catalog.Fitting{Shape: catalog.Valve}, Laying: 4}, {Fitting: catalog.Fitting{Shape: catalog.Union}, Laying: 2}}
	riser := jointAsk(parser.Riser, drain, parser.End{}, parser.End{})
	riser.Stations = []parser.Station{{}, {Fitting: wye, Reading: 14.5, Below: 1.0625, Above: 3.25}, {Fitting: bend, Reading: 40, Below: 1.5, Above: 1.5}}
	lines := jointAsk(parser.Doglegs, drain, at(bend, 1.5), at(catalog.BendOf(22.5), 1.125), given(parser.Set, 12), given(parser.Set, 10), given(parser.Straight, 24))
	whole := jointAsk(parser.Doglegs, weld4, at(bend, 2.5), at(bend, 2.5), given(parser.Set, 18), given(parser.Set, 14), given(parser.CenterToCenter, 96))
	whole.ComeBack = true
	return []parser.Ask{
		jointAsk(parser.Offset, drain, at(bend, 1.5), spigot, given(parser.Set, 12)), pup,
		jointAsk(parser.Offset, drain, at(bend, 1.5), spigot), least,
		jointAsk(parser.Offset, drain, branch, at(bend, 1.5), given(parser.Roll, 9), given(parser.Rise, 12)),
		jointAsk(parser.Offset, weld4, at(bend, 2.5), branch, given(parser.Set, 20)),
		jointAsk(parser.Offset, drain, at(santee, 2.25), at(bend, 1.5), given(parser.Set, 12)),
		jointAsk(parser.Offset, drain, at(bend, 1.5), at(catalog.BendOf(90), 2.3125), given(parser.Set, 12)),
		unlike, closing, corner, uneven, miter, saddle, lean, flat, wrap, rolled, inline, placed, valve, riser, lines, whole,
	}
}

// TestJointsAreWorded prints each of these as a phone has it, in both languages: no
// name of ours shows through, nothing is left to be filled in, and the record
// reads back.
func TestJointsAreWorded(t *testing.T) {
	for i, ask := range jointAsks() {
		a, err := figure.Solve(ask, figure.Settings{})
		if err != nil {
			t.Errorf("%d: %v", i, err)
			continue
		}
		for _, l := range []parser.Language{parser.English, parser.Spanish} {
			o := wording.Options{Language: l}
			for _, text := range []string{wording.Reply(a, o), wording.Steps(a, o), wording.Spoken(a, o)} {
				if strings.ContainsAny(text, "{}_") || strings.Contains(text, "  ") || strings.Contains(text, "\n\n") || !utf8.ValidString(text) {
					t.Errorf("%d in %s:\n%s", i, l, text)
				}
			}
		}
		if testing.Verbose() {
			fmt.Printf("--- %d %s\n%s\n%s\n", i, ask.Kind, wording.Reply(a, wording.Options{}), wording.Steps(a, wording.Options{}))
		}
		record := wording.NewRecord(parser.Statement{Ask: &ask}, a, nil, "")
		if _, err := json.Marshal(record); err != nil || len(record.Figures) == 0 && len(record.Stations) == 0 {
			t.Errorf("%d: %v in %+v", i, err, record)
		}
	}
}
