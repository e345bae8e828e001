package sketch_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/geometry"
	"dogleg/parser"
)

// Words that a picture helps with have one, in both languages, that shows that
// one thing and calls it by its name; the others have none.
func TestWordsOfTheGlossary(t *testing.T) {
	f, err := os.Open("../training/glossary.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	drawn := 0
	for _, row := range rows[1:] {
		word, _, _ := strings.Cut(row[0], "|")
		for _, l := range []parser.Language{parser.English, parser.Spanish} {
			d, err := sketch.Word(word, word, wording.Options{Language: l})
			if errors.Is(err, sketch.ErrNothingToDraw) {
				continue
			}
			if err != nil || d.Title == "" || len(d.Views) != 1 {
				t.Errorf("%s: %v", word, err)
				continue
			}
			drawn++
			checkWord(t, word, d.Views[0])
			small(t, word, d)
		}
	}
	if drawn < 2*20 {
		t.Errorf("%d pictures", drawn)
	}
}

func checkWord(t *testing.T, word string, v sketch.View) {
	t.Helper()
	if word == "offset" || word == "rolling offset" || word == "multiplier" {
		return // a whole
	}
	if n := len(v.Dimensions); n != 1 || !v.Dimensions[0].Main || v.Dimensions[0].Label == "" {
		t.Errorf("%s: %d dimensions, want the one that it means", word, n)
	}
}

func small(t *testing.T, name string, d *sketch.Drawing) {
	t.Helper()
	var b bytes.Buffer
	if err := d.PNG(&b); err != nil || b.Len() > 100_000 {
		t.Errorf("%s: %d bytes, %v", name, b.Len(), err)
	}
}

// The sides of the triangle are as long as what is written at them: those of 60
// are 1, 1 ÷ √3 and 2 ÷ √3.
func TestTriangle(t *testing.T) {
	d, err := sketch.Triangle(60, "60", wording.Options{})
	if err != nil {
		t.Fatal(err)
	}
	p := view(t, d, "triangle").Lines[0].Points
	for i, want := range []float64{2 / math.Sqrt(3), 1, 1 / math.Sqrt(3)} {
		a, b := p[i], p[i+1]
		if got := math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)); math.Abs(got-want) > 1e-9 {
			t.Errorf("side %d is %v, want %v", i, got, want)
		}
	}
	var labels []string
	for _, l := range view(t, d, "triangle").Labels {
		labels = append(labels, l.Text)
	}
	if got := strings.Join(labels, ", "); got != "travel 1.155, set 1, run 0.577" {
		t.Errorf("labels %s", got)
	}
	if _, err := sketch.Triangle(90, "90", wording.Options{}); !errors.Is(err, sketch.ErrNothingToDraw) {
		t.Errorf("a triangle of 90: %v", err)
	}
	for _, a := range geometry.Bends()[1:] {
		d, err := sketch.Triangle(a, "x", wording.Options{Language: parser.Spanish})
		if err != nil {
			t.Fatal(err)
		}
		small(t, a.String(), d)
	}
}
