package wording_test

import (
	"regexp"
	"testing"

	"pgregory.net/rapid"

	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/parser"
)

func TestCardinal(t *testing.T) {
	for n, want := range map[int][2]string{
		0:       {"zero", "cero"},
		1:       {"one", "uno"},
		15:      {"fifteen", "quince"},
		16:      {"sixteen", "dieciséis"},
		20:      {"twenty", "veinte"},
		22:      {"twenty-two", "veintidós"},
		30:      {"thirty", "treinta"},
		31:      {"thirty-one", "treinta y uno"},
		45:      {"forty-five", "cuarenta y cinco"},
		100:     {"one hundred", "cien"},
		101:     {"one hundred one", "ciento uno"},
		238:     {"two hundred thirty-eight", "doscientos treinta y ocho"},
		425:     {"four hundred twenty-five", "cuatrocientos veinticinco"},
		999:     {"nine hundred ninety-nine", "novecientos noventa y nueve"},
		1000:    {"one thousand", "mil"},
		1599:    {"one thousand five hundred ninety-nine", "mil quinientos noventa y nueve"},
		2100:    {"two thousand one hundred", "dos mil cien"},
		21000:   {"twenty-one thousand", "veintiún mil"},
		31001:   {"thirty-one thousand one", "treinta y un mil uno"},
		999_999: {"nine hundred ninety-nine thousand nine hundred ninety-nine", "novecientos noventa y nueve mil novecientos noventa y nueve"},
	} {
		if got := wording.Cardinal(n, parser.English); got != want[0] {
			t.Errorf("%d is %q, want %q", n, got, want[0])
		}
		if got := wording.Cardinal(n, parser.Spanish); got != want[1] {
			t.Errorf("%d is %q, want %q", n, got, want[1])
		}
	}
}

func TestEar(t *testing.T) {
	spanish := wording.Options{Language: parser.Spanish}
	for _, c := range []struct {
		printed string
		o       wording.Options
		want    string
	}{
		{"Cut 14-3/4 in heavy", wording.Options{}, "Cut fourteen and three quarters, heavy"},
		{"Cut about 14-1/2 in", wording.Options{}, "Cut about fourteen and a half"},
		{"Cut 9 in", wording.Options{}, "Cut nine inches"},
		{"Cut 15/16 in light", wording.Options{}, "Cut fifteen sixteenths, light"},
		{"two 45s, 1-1/2 PVC", wording.Options{}, "two forty-fives, one and a half PVC"},
		{"two 22-1/2s", wording.Options{}, "two twenty-two and a halfs"},
		{"two 60s", wording.Options{}, "two sixties"},
		{`62-15/16 in heavy (5' 2-15/16")`, wording.Options{}, "sixty-two and fifteen sixteenths, heavy, that is five feet two and fifteen sixteenths"},
		{`432 in (36' 0")`, wording.Options{}, "four hundred thirty-two inches, that is thirty-six feet"},
		{"1-1/2-inch PVC", wording.Options{}, "one and a half-inch PVC"},
		{"(±1/4)", wording.Options{}, "(plus or minus a quarter)"},
		{"5-13/16 up in 12 across", wording.Options{}, "five and thirteen sixteenths up in twelve across"},
		{"8-5/16 light across in 12 up", wording.Options{}, "eight and five sixteenths, light, across in twelve up"},
		{"Turn the fitting 26° up", wording.Options{}, "Turn the fitting twenty-six degrees up"},
		{"Angle 35.04°", wording.Options{}, "Angle thirty-five point zero four degrees"},
		{"1.04%, 1 in 96", wording.Options{}, "one point zero four percent, one in ninety-six"},
		{"Cut 283 mm", wording.Options{}, "Cut two hundred eighty-three millimeters"},
		{"Length 6 m, 1 in 40", wording.Options{}, "Length six meters, one in forty"},
		{"Cut 9-17/32 in", wording.Options{}, "Cut nine and seventeen thirty-seconds"},
		{"Corte 14-3/4 pulg un pelo más", spanish, "Corte catorce y tres cuartos, un pelo más"},
		{"dos codos de 45, 1-1/2 PVC", spanish, "dos codos de cuarenta y cinco, uno y medio PVC"},
		{"Corte 15/16 pulg", spanish, "Corte quince dieciseisavos"},
		{"Corte 9 pulg", spanish, "Corte nueve pulgadas"},
	} {
		if got := wording.Ear(c.printed, c.o); got != c.want {
			t.Errorf("%q is %q for the ear, want %q", c.printed, got, c.want)
		}
	}
}

func TestSpoken(t *testing.T) {
	const want = "Cut eleven and an eighth. Set nine and three eighths, two forty-fives, takeoff one and a sixteenth"
	if got := wording.Spoken(simple(), wording.Options{}); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A voice is never left with figures to guess at.
func TestSpokenHasNoFigures(t *testing.T) {
	figures := regexp.MustCompile(`[0-9±°×·"]`)
	rapid.Check(t, func(t *rapid.T) {
		a := anyAnswer(catalog.Own, catalog.Memory).Draw(t, "answer")
		o := options().Draw(t, "options")
		text := wording.Spoken(a, o)
		if found := figures.FindString(text); found != "" {
			t.Fatalf("%q is left in %q", found, text)
		}
	})
}
