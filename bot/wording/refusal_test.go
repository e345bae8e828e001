package wording_test

import (
	"errors"
	"strings"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

func TestRefusalMissing(t *testing.T) {
	missing := &figure.Missing{
		Wanted:  parser.PipeOf,
		Options: []string{"pvc", "abs", "copper", "steel", "cast-iron", "cpvc"},
		Partly: &figure.Answer{
			Ask:     parser.Ask{Kind: parser.Offset, Angle: 45, Measures: []parser.Measure{given(parser.Set, 12)}},
			Lengths: []figure.Length{inches(parser.Travel, 16.970562748477143), inches(parser.Run, 12), inches(parser.Cut, 14)},
		},
	}
	same(t, wording.WholeRefusal(missing, wording.Options{}),
		"Set 12, two 45s",
		"Travel 17 light, run 12.",
		`What pipe? Say "2 pvc".`,
	)
	same(t, wording.WholeRefusal(missing, wording.Options{Language: parser.Spanish}),
		"Desvío 12, dos codos de 45",
		"Diagonal 17 un pelo menos, avance 12.",
		`¿Qué tubo? Di "2 pvc".`,
	)
}

func TestRefusalNamesAFewOptions(t *testing.T) {
	same(t, wording.WholeRefusal(&figure.Missing{Wanted: parser.JointOf, Options: []string{"threaded", "butt-weld"}}, wording.Options{}),
		"Which joint: threaded or butt-weld?")
}

func TestRefusalNoSuchSize(t *testing.T) {
	m := &parser.Misunderstanding{
		Trouble: parser.NoSuchSize, Subject: "1-3/8", Near: []string{"1-1/4", "1-1/2"},
		Read: parser.Ask{Angle: 45, Measures: []parser.Measure{given(parser.Set, 12)}, Pipe: catalog.Pipe{Material: catalog.PVC}},
	}
	same(t, wording.WholeRefusal(m, wording.Options{}),
		"I read: set 12, two 45s, PVC.",
		"I carry no 1-3/8 PVC pipe; 1-1/4 or 1-1/2?",
	)
}

func TestRefusalTwoReadings(t *testing.T) {
	m := &parser.Misunderstanding{
		Trouble: parser.TwoReadings, Subject: "7 1/2", Text: "7 1/2 pvc 45s",
		Readings: [][]parser.Ask{
			{{Angle: 45, Measures: []parser.Measure{given(parser.Set, 7.5)}, Pipe: catalog.Pipe{Material: catalog.PVC}}},
			{{Angle: 45, Measures: []parser.Measure{given(parser.Set, 7)}, Pipe: catalog.Pipe{Material: catalog.PVC, Size: "1/2"}}},
		},
	}
	same(t, wording.WholeRefusal(m, wording.Options{}),
		`"7 1/2" can be read two ways. Which?`,
		"set 7-1/2, 45s, pvc",
		"set 7, 45s, 1/2 pvc",
	)
}

// Center to face 2-1/8, depth 1-1/8: hubs of two 45s touch at a set of
// 3.0052, which is 3-1/16 rounded up.
func TestRefusalCollide(t *testing.T) {
	i := &figure.Impossible{
		Cause: figure.Collide, Subject: "45", Smallest: 3.005203820042827, Takeoff: 0.2892, Bends: []geometry.Angle{22.5}, Street: 2.125, StreetSets: [2]geometry.Length{1.5, 2.25},
		Partly: &figure.Answer{
			Angle:   45,
			Ask:     parser.Ask{Angle: 45, Measures: []parser.Measure{given(parser.Set, 2)}},
			Lengths: []figure.Length{inches(parser.Set, 2)},
			Ends:    ends(45, 1, catalog.Own),
		},
	}
	same(t, wording.WholeRefusal(i, wording.Options{}),
		"Set 2, two 45s",
		"These 45s collide at a set of 2: hubs touch at 3-1/16 (rounded up).",
		"22-1/2s clear at this set. A takeoff of 1/4 or less would work (rounded down). A street 45 straight into the other makes this set if it is 2-1/8 from its center to the end of its spigot; they make about 1-1/2 to 2-1/4.",
	)
}

func TestRefusalNoBendTurns(t *testing.T) {
	i := &figure.Impossible{Cause: figure.NoFit, Subject: "35.217592968192434", Bends: []geometry.Angle{45, 22.5}}
	same(t, wording.WholeRefusal(i, wording.Options{}),
		"No stock bend turns 35.22°.",
		"45s and 22-1/2s come nearest.",
	)
}

// A fault of ours is one plain sentence that gives nothing away.
func TestRefusalOfAnyOtherError(t *testing.T) {
	got := wording.WholeRefusal(errors.New("bolt: page 7 of /home/juniper/dogleg.db"), wording.Options{})
	same(t, got, "Something went wrong here, and it was not you. Try it once more.")
}

// Every reason for a refusal has its own words, in both languages.
func TestEveryRefusalIsWorded(t *testing.T) {
	var errs []error
	for _, trouble := range constants(t, "../../parser/ask", "Trouble") {
		errs = append(errs, &parser.Misunderstanding{Trouble: parser.Trouble(trouble), Subject: "12-5/0", Wanted: parser.AngleOf})
	}
	for _, cause := range constants(t, "../figure", "Cause") {
		if cause != string(figure.BadGeometry) {
			errs = append(errs, &figure.Impossible{Cause: figure.Cause(cause), Subject: "45"})
		}
	}
	for reason := geometry.NotANumber; reason.String() != geometry.Reason(0).String(); reason++ {
		errs = append(errs, &figure.Impossible{Cause: figure.BadGeometry, Problem: &geometry.Problem{Reason: reason, What: "set"}})
	}
	for _, o := range []wording.Options{{}, {Language: parser.Spanish}} {
		fault := wording.WholeRefusal(errors.New("any"), o)
		words := map[string]error{}
		for _, err := range errs {
			text := wording.WholeRefusal(err, o)
			if text == "" || text == fault {
				t.Errorf("%v: not worded: %q", err, text)
			}
			if before, ok := words[text]; ok {
				t.Errorf("%v and %v are worded alike: %q", before, err, text)
			}
			words[text] = err
		}
	}
}

// Every fact that may be missing has its question, in both languages.
func TestEveryQuestionIsWorded(t *testing.T) {
	roles := constants(t, "../../parser/ask", "Role")
	for _, o := range []wording.Options{{}, {Language: parser.Spanish}} {
		for _, role := range roles {
			text := wording.WholeRefusal(&figure.Missing{Wanted: parser.Role(role)}, o)
			if !strings.Contains(text, "?") || strings.ContainsAny(text, "_{}") {
				t.Errorf("%s: %q is no question", role, text)
			}
		}
	}
}

// TestWhatIsNotCarriedIsNotDenied: that no such thing is made, only a standard
// could say; and a collision by a takeoff that nobody checked is only possible.
func TestWhatIsNotCarriedIsNotDenied(t *testing.T) {
	for ask, want := range map[string]string{
		"set 12 45s 2 copper dwv":           "I carry no copper DWV",
		"set 12 tee and 45 2 abs":           "I carry no tee in ABS DWV",
		"set 12 30s 110 mm pressure pvc":    "I carry no 30 in metric PVC",
		"set 12 45s 4 SDR 35 pvc":           "4 PVC sewer", // its own name
		"set 3 45s 4 pvc dwv":               "may collide at a set of 3: by a takeoff of 2-3/16, ±1/8, which nobody checked, hubs touch at 5-5/8",
		"set 14 45s 10 no hub":              "I carry no 10 no-hub cast iron pipe", // CISPI 301 has it
		"set 3 45s 4 butt weld":             "the fittings touch at ",
		"set 14 room 30 8 no hub":           "I know no takeoff of 8 90 in no-hub cast iron. Measure it, center to the plain end",
		"set 3 45s 4 pvc dwv takeoff 2-1/4": "collide at a set of 3: hubs touch at",
	} {
		text := told(t, ask)
		if !strings.Contains(text, want) || strings.Contains(text, "There is no") {
			t.Errorf("%q: want %q in\n%s", ask, want, text)
		}
	}
}
