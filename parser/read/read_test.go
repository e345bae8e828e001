package read_test

import (
	"slices"
	"strings"
	"testing"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser/ask"
	"dogleg/parser/read"
)

// The main job, as a stranger may send it.
func TestLearnedReadsTheMainJob(t *testing.T) {
	for _, text := range []string{"12 set 45s 1-1/2 pvc", "need a set of 12 w 45s in 1-1/2 pvc"} {
		r := read.Learned().Read(text, read.Said{})
		if len(r) == 0 || len(r[0].Statements) != 1 || r[0].Statements[0].Ask == nil {
			t.Fatalf("%q: %+v", text, r)
		}
		a := r[0].Statements[0].Ask
		if set, _ := a.Length(ask.Set); a.Kind != ask.Offset || set != 12 || a.Angle != 45 || a.Pipe.Size != "1-1/2" || a.Pipe.Material != catalog.PVC {
			t.Errorf("%q: %+v", text, a)
		}
	}
}

// The probabilities of all that a message may mean add up to one.
func TestProbabilities(t *testing.T) {
	sum := 0.0
	for _, r := range read.Learned().Read("over 9 up 4, 45s, 2 abs and then 7 more", read.Said{}) {
		sum += r.Probability
	}
	if sum < 0.999 || sum > 1.001 {
		t.Errorf("they add up to %g", sum)
	}
}

func TestTakenBack(t *testing.T) {
	for text, want := range map[string]bool{
		"26 set 45s 6 std weld, scratch that": true,
		"12 set 45s 2 pvc, never mind":        true,
		"scratch that, 8-1/2":                 false,
		"12 set 45s 2 pvc":                    false,
		"":                                    false,
	} {
		r := read.Learned().Read(text, read.Said{})
		if got := len(r) > 0 && r[0].TakenBack; got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}

// A lesson of a message finds the reading that is meant, and none of another.
func TestLessons(t *testing.T) {
	meant := []read.Meant{{Ask: &ask.Ask{Kind: ask.Offset, Measures: []ask.Measure{{Role: ask.Set, Length: 12}}, Angle: 45}}}
	right := func(s []ask.Statement) bool {
		if len(s) != 1 || s[0].Ask == nil || s[0].Ask.Kind != ask.Offset || s[0].Ask.Angle != 45 {
			return false
		}
		set, ok := s[0].Ask.Length(ask.Set)
		return ok && set == 12 && len(s[0].Ask.Measures) == 1
	}
	if !read.NewLesson("12 set 45s, unit 7", read.Said{}, meant, right).Covered() {
		t.Error("no path says what is meant")
	}
	if read.NewLesson("9 set 45s", read.Said{}, meant, right).Covered() {
		t.Error("a path says what is not there")
	}
}

// Of a corner the whole turn and its bends are told apart, a riser's readings get their
// fittings, and the ends of a piece theirs.
func TestTurnsAndStations(t *testing.T) {
	bend := func(a geometry.Angle) catalog.Fitting { return catalog.BendOf(a) }
	for text, w := range map[string]ask.Ask{
		"two 45s, leg 12":                                          {Kind: ask.Corner, Angle: 90, Ends: [2]ask.End{{Fitting: bend(45)}, {Fitting: bend(45)}}},
		"60 turn of two 30s, leg 12":                               {Kind: ask.Corner, Angle: 60, Ends: [2]ask.End{{Fitting: bend(30)}, {Fitting: bend(30)}}},
		"90 of a 60 and a 30, leg 12":                              {Kind: ask.Corner, Angle: 90, Ends: [2]ask.End{{Fitting: bend(60)}, {Fitting: bend(30)}}},
		"riser 0, tee 20, 45 at 42":                                {Kind: ask.Riser, Stations: []ask.Station{{}, {Reading: 20, Fitting: catalog.Fitting{Shape: catalog.Tee}}, {Reading: 42, Fitting: bend(45)}}},
		"riser, tape starts at the plain end, tee at 20, 45 at 42": {Kind: ask.Riser, Stations: []ask.Station{{}, {Reading: 20, Fitting: catalog.Fitting{Shape: catalog.Tee}}, {Reading: 42, Fitting: bend(45)}}},
		"riser tee at 20, another T at 42, top plain end at 60":    {Kind: ask.Riser, Stations: []ask.Station{{Reading: 20, Fitting: catalog.Fitting{Shape: catalog.Tee}}, {Reading: 42, Fitting: catalog.Fitting{Shape: catalog.Tee}}, {Reading: 60}}},
		"combo to long sweep":                                      {Kind: ask.Piece, Ends: [2]ask.End{{Fitting: catalog.Fitting{Shape: catalog.Combination}}, {Fitting: catalog.Fitting{Shape: catalog.Bend, Angle: 90, Sweep: catalog.Long}}}},
		"de eje de te a eje de codo 90 radio largo":                {Kind: ask.Piece, Ends: [2]ask.End{{Fitting: catalog.Fitting{Shape: catalog.Tee}}, {Fitting: catalog.Fitting{Shape: catalog.Bend, Angle: 90, Sweep: catalog.Long}}}},
		"te a noventa largo":                                       {Kind: ask.Piece, Ends: [2]ask.End{{Fitting: catalog.Fitting{Shape: catalog.Tee}}, {Fitting: catalog.Fitting{Shape: catalog.Bend, Angle: 90, Sweep: catalog.Long}}}},
		"stub on a header, square to it":                           {Kind: ask.Saddle, Angle: 90},
		"riser 90 at 6, tees at 24 and 37":                         {Kind: ask.Riser, Stations: []ask.Station{{Reading: 6, Fitting: bend(90)}, {Reading: 24, Fitting: catalog.Fitting{Shape: catalog.Tee}}, {Reading: 37, Fitting: catalog.Fitting{Shape: catalog.Tee}}}},
	} {
		if w.Kind == ask.Corner {
			w.Measures = []ask.Measure{{Role: ask.Leg, Length: 12}}
		}
		right := func(s []ask.Statement) bool {
			return len(s) == 1 && s[0].Ask != nil && s[0].Ask.Kind == w.Kind && s[0].Ask.Angle == w.Angle &&
				s[0].Ask.Ends == w.Ends && slices.Equal(s[0].Ask.Stations, w.Stations)
		}
		if !read.NewLesson(text, read.Said{}, []read.Meant{{Ask: &w}}, right).Covered() {
			t.Errorf("%q: no path says what is meant", text)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, text := range []string{"12 set 45s 2 pvc", "roll 8 rise 14 45s, same but 9\nthen 22s", "1:60 over 12,5 m", strings.Repeat("9 ", 300)} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, r := range read.Learned().Read(text, read.Said{}) {
			for _, s := range r.Statements {
				if s.Ask == nil {
					continue
				}
				for _, m := range s.Ask.Measures {
					if m.Length < 0 {
						t.Fatalf("%q: a length below nothing: %+v", text, m)
					}
				}
			}
		}
	})
}
