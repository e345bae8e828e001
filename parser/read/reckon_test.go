package read_test

import (
	"math"
	"testing"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser/ask"
	"dogleg/parser/read"
)

// What a change says may have to be reckoned with what was asked last: there is a path
// that does.
func TestReckonedWithTheLast(t *testing.T) {
	two := ask.Measure{Role: ask.Set, Length: 8, Text: "14 − 6", Apart: true, Readings: [2]geometry.Length{14, 6}}
	offset := ask.Ask{Kind: ask.Offset, Angle: 45, Measures: []ask.Measure{two}}
	for _, c := range []struct {
		text string
		set  float64
	}{
		{"sorry, the second one is 6-1/2", 7.5},           // 14 − 6-1/2
		{"the far one is 15", 9},                          // 15 − 6
		{"the next one is 2 more", 10},                    // 8 + 2
		{"make it 1-1/2 less", 6.5},                       // 8 − 1-1/2
		{"two more", 10},                                  //
		{"the other bathroom is an inch less", 7},         //
		{"el segundo está a 5", 9},                        // 14 − 5
		{"una pulgada menos", 7},                          //
		{"no sorry that one is thirteen and a half", 7.5}, // 13-1/2 − 6
	} {
		meant := ask.Ask{FollowUp: true, Measures: []ask.Measure{{Role: ask.Set, Length: geometry.Length(c.set)}}}
		right := func(s []ask.Statement) bool {
			if len(s) != 1 || s[0].Ask == nil {
				return false
			}
			got := s[0].Ask
			if got.FollowUp {
				whole := offset.With(*got)
				got = &whole
			}
			set, _ := got.Length(ask.Set)
			return math.Abs(set.Inches()-c.set) < 1e-9 && got.Angle == 45
		}
		if !read.NewLesson(c.text, read.Said{Last: &offset}, []read.Meant{{Ask: &meant}}, right).Covered() {
			t.Errorf("%q: no path comes to a set of %g", c.text, c.set)
		}
	}
}

// Roll and rise are turned round by a word, and a fitting that is named takes the place
// of one of its sort.
func TestOneEndAndSwap(t *testing.T) {
	rolling := ask.Ask{Kind: ask.Offset, Angle: 45, Measures: []ask.Measure{{Role: ask.Roll, Length: 9, Text: "9"}, {Role: ask.Rise, Length: 12, Text: "12"}}}
	swapped := ask.Ask{FollowUp: true, Measures: []ask.Measure{{Role: ask.Roll, Length: 12}, {Role: ask.Rise, Length: 9}}}
	right := func(s []ask.Statement) bool {
		if len(s) != 1 || s[0].Ask == nil {
			return false
		}
		roll, _ := s[0].Ask.Length(ask.Roll)
		rise, _ := s[0].Ask.Length(ask.Rise)
		return roll == 12 && rise == 9
	}
	if !read.NewLesson("no, swap those", read.Said{Last: &rolling}, []read.Meant{{Ask: &swapped}}, right).Covered() {
		t.Error("roll and rise are not swapped")
	}
	quarter, tee := catalog.BendOf(geometry.QuarterBend), catalog.Fitting{Shape: catalog.Tee}
	sanitary := catalog.Fitting{Shape: catalog.SanitaryTee}
	piece := ask.Ask{Kind: ask.Piece, Ends: [2]ask.End{{Fitting: tee}, {Fitting: quarter}}, Measures: []ask.Measure{{Role: ask.CenterToCenter, Length: 24, Text: "24"}}}
	meant := ask.Ask{FollowUp: true, Ends: [2]ask.End{{Fitting: sanitary}, {Fitting: quarter}}}
	right = func(s []ask.Statement) bool {
		return len(s) == 1 && s[0].Ask != nil && s[0].Ask.Ends[0].Fitting == sanitary && s[0].Ask.Ends[1].Fitting == quarter
	}
	if !read.NewLesson("that's a sanitary tee", read.Said{Last: &piece}, []read.Meant{{Ask: &meant}}, right).Covered() {
		t.Error("the sanitary tee doesn't take the tee's place")
	}
}
