package hearing

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dogleg/parser"
)

// number is a number of a text in figures.
var number = regexp.MustCompile(`\d+-\d+/\d+|\d+/\d+|\d+\.\d+|\d+`)

// usesAll says whether statements use every number of a text: a reading that
// passes one over leaves out what was said.
func usesAll(text string, statements []parser.Statement) bool {
	var used []float64
	for _, s := range statements {
		switch {
		case s.Command != nil:
			return true
		case s.Ask != nil:
			used = append(used, uses(*s.Ask)...)
		}
	}
	for _, at := range number.FindAllStringIndex(text, -1) {
		if n := value(text[at[0]:at[1]]); n != 0 && !claimed(n, used) && !takenBack.MatchString(text[at[1]:]) {
			return false
		}
	}
	return true
}

// takenBack is what follows a number that is said again, and right.
var takenBack = regexp.MustCompile(`^(?: in| ft)?,? (?:no|wait|sorry|i mean|make that|make it)\b`)

// uses are the numbers that an ask holds, in each unit they may be said in.
func uses(a parser.Ask) (all []float64) {
	for _, m := range a.Measures {
		inches := m.Length.Inches()
		all = append(all, inches, inches/12, math.Floor(inches/12), math.Mod(inches, 12), 25.4*inches, 2.54*inches, 0.0254*inches)
		for _, n := range number.FindAllString(m.Text, -1) {
			all = append(all, value(n))
		}
	}
	for _, n := range number.FindAllString(string(a.Pipe.Size)+" "+a.Pipe.Schedule+" "+string(a.Ends[0].Size)+" "+string(a.Ends[1].Size)+" "+a.Name, -1) {
		all = append(all, value(n))
	}
	grade := a.Grade.InchesPerFoot()
	all = append(all, a.Angle.Degrees(), a.Angle.Degrees()/360, float64(a.Lines), grade, 100*grade/12, 1000*grade/12, 12/max(grade, 1e-9), 1, 2)
	for _, e := range a.Ends {
		all = append(all, e.Takeoff.Inches(), e.Face.Inches(), e.Depth.Inches())
		for _, n := range number.FindAllString(e.Fitting.Key(), -1) {
			all = append(all, value(n), value(n)/360)
		}
	}
	if a.Sum != nil {
		for _, t := range a.Sum.Terms {
			inches := t.Length.Inches()
			all = append(all, inches, inches/12, 25.4*inches, math.Floor(inches/12), math.Mod(inches, 12), t.Number)
		}
	}
	return all
}

// claimed says whether a number is among those used. A bend's name is rounded:
// a 22 is the bend of 22½, and the ends of fittings have names of parts of a turn.
func claimed(n float64, used []float64) bool {
	for _, u := range used {
		if math.Abs(n-u) < 0.01 || n > 10 && math.Abs(n-u) <= 0.5 && (u == 22.5 || u == 11.25) {
			return true
		}
	}
	return false
}

func value(figure string) float64 {
	whole, fraction, mixed := strings.Cut(figure, "-")
	if !mixed && strings.Contains(figure, "/") {
		whole, fraction = "0", figure
	}
	n, _ := strconv.ParseFloat(whole, 64)
	if top, bottom, ok := strings.Cut(fraction, "/"); ok {
		t, _ := strconv.ParseFloat(top, 64)
		b, _ := strconv.ParseFloat(bottom, 64)
		n += t / max(b, 1)
	}
	return n
}

// orphaned says whether a unit stands in words without a number in front: a word
// that was misheard stands in its place.
func orphaned(said string) bool {
	words := strings.Fields(said)
	for i, w := range words {
		if w != "inch" && w != "inches" && w != "foot" && w != "feet" {
			continue
		}
		next := ""
		if i+1 < len(words) {
			next = words[i+1]
		}
		if i == 0 || next == "and" || slices.Contains(materials, next) && (bends[words[i-1]] || slices.Contains(plurals, words[i-1])) {
			continue
		}
		before := words[i-1]
		_, counted := figures[before]
		_, parted := fractions[strings.TrimSuffix(before, "s")]
		_, sounds := homophones[before]
		_, written := digits(before)
		if !counted && !parted && !sounds && !written && !slices.Contains(beforeUnits, before) {
			return true
		}
	}
	return false
}

// beforeUnits are the words besides numbers that a unit follows.
var beforeUnits = strings.Fields("a an per the each every hundred thousand square second seconds halves of in my okay so uh um got")
