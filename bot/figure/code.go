package figure

import (
	"regexp"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
)

// Code is a plumbing code that somebody lays drains by. Its value is its name.
type Code string

// The codes whose least grades are at hand. Of a person who named none of them,
// none is cited.
const (
	NoCode Code = ""
	IPC    Code = "IPC"
	UPC    Code = "UPC"
	BSEN   Code = "BS EN 12056"
	ASNZS  Code = "AS/NZS 3500"
)

// Codes lists them.
func Codes() []Code { return []Code{IPC, UPC, BSEN, ASNZS} }

// codeNumbers are what tells the codes apart, however they are written.
var codeNumbers = []struct {
	words *regexp.Regexp
	code  Code
}{
	{regexp.MustCompile(`^ipc( ?\d{4})?$`), IPC},
	{regexp.MustCompile(`^upc( ?\d{4})?$`), UPC},
	{regexp.MustCompile(`^(bs )?(en )?12056([ -]\d)?$`), BSEN},
	{regexp.MustCompile(`^(as ?/?(nzs)? )?3500([ .]\d)?$`), ASNZS},
	{regexp.MustCompile(`^(none|no|another|other|ninguno|otro|no code|ningún código)$`), NoCode},
}

// CodeNamed reads the name of a code, or that there is none; false where it is no
// such name.
func CodeNamed(text string) (Code, bool) {
	text = strings.Join(strings.Fields(strings.ToLower(strings.Trim(text, " .?¿\t"))), " ")
	for _, c := range codeNumbers {
		if c.words.MatchString(text) {
			return c.code, true
		}
	}
	return NoCode, false
}

// leastGrade is the least grade of a code for drains from a size up.
type leastGrade struct {
	from  float64 // nominal size in inches; that of a metric size is the one it stands for
	grade nominalGrade
}

// leastGrades are the least grades of a code, the smallest size first. Of those
// that are recalled no table was seen; what it prints may differ by size, by use
// and by edition.
type leastGrades struct {
	behind   string
	recalled bool
	grades   []leastGrade
}

// grades of the codes: IPC Table 704.1 was read in Chicago's adopted copy; UPC 708,
// Table 3.4.1 of AS/NZS 3500.2 and the 18 mm/m of branches in system III of EN
// 12056-2, which is that of the United Kingdom, are recalled, unchecked.
var grades = map[Code]leastGrades{
	IPC: {behind: "IPC Table 704.1", grades: []leastGrade{{0, quarterInch}, {3, eighthInch}, {8, sixteenthInch}}},
	UPC: {behind: "UPC 708", recalled: true, grades: []leastGrade{{0, quarterInch}}},
	BSEN: {behind: "BS EN 12056-2 for branches", recalled: true, grades: []leastGrade{
		{0, oneInOr(1000.0/18, 1.8)},
	}},
	ASNZS: {behind: "AS/NZS 3500.2", recalled: true, grades: []leastGrade{
		{0, oneInOr(40, 2.5)}, {3, oneInOr(60, 1.65)}, {5, oneInOr(80, 1.25)}, {6, oneInOr(100, 1)}, {8, oneInOr(150, 0.65)},
	}},
}

// The grades of the American codes, each with the percent that is printed as the
// same.
var (
	quarterInch   = nominalGrade{geometry.InchPerFoot / 4, 2 * geometry.Percent}
	eighthInch    = nominalGrade{geometry.InchPerFoot / 8, 1 * geometry.Percent}
	sixteenthInch = nominalGrade{geometry.InchPerFoot / 16, geometry.Percent / 2}
)

// oneInOr is a grade that is printed as one in n and in percent.
func oneInOr(n, percent float64) nominalGrade {
	return nominalGrade{geometry.OneIn(n), geometry.Slope(percent) * geometry.Percent}
}

// nominalGrade is one grade as the codes print it, as a ratio and in percent. 1/4
// in per foot is 2.083 %, yet 2 % passes for it.
type nominalGrade struct{ ratio, percent geometry.Slope }

// met says whether a grade is at least this one, by either figure. What floating
// point takes off the last bit does not count.
func (n nominalGrade) met(s geometry.Slope) bool {
	return float64(s) >= min(float64(n.ratio), float64(n.percent))*(1-1e-9)
}

// minimums notes the least grade of the code that was named, for a drain of this
// size. Without a size there is none to note; pressure pipe has none.
func (w *work) minimums(grade geometry.Slope) error {
	if w.ask.Pipe.Size == "" || w.ask.Pipe.Use == catalog.Pressure {
		return nil
	}
	if w.pipeSaid() {
		if err := w.pipe(); err != nil {
			return err
		}
	}
	size, ok := inches(w.ask.Pipe.Size)
	if !ok {
		return nil
	}
	w.answer.Drain = true
	code, ok := grades[w.settings.Code]
	if !ok {
		return nil
	}
	least := code.grades[0].grade
	for _, g := range code.grades {
		if size >= g.from {
			least = g.grade
		}
	}
	w.answer.Minimums = append(w.answer.Minimums, Minimum{
		Behind: code.behind, Grade: least.ratio, Meets: least.met(grade), Recalled: code.recalled,
	})
	return nil
}

// nominalSizes are the trade sizes of drains as numbers, for the codes' tables: a
// metric size by the inch size it stands for.
var nominalSizes = map[catalog.Size]float64{
	"1-1/4": 1.25, "1-1/2": 1.5, "2": 2, "2-1/2": 2.5, "3": 3, "4": 4, "5": 5, "6": 6,
	"8": 8, "10": 10, "12": 12, "15": 15,
	"32 mm": 1.25, "40 mm": 1.5, "50 mm": 2, "63 mm": 2, "75 mm": 2.5, "80 mm": 3, "82 mm": 3, "90 mm": 3, "100 mm": 4, "110 mm": 4,
	"125 mm": 5, "150 mm": 6, "160 mm": 6, "200 mm": 8, "225 mm": 9, "250 mm": 10, "300 mm": 12, "315 mm": 12,
	"DN32": 1.25, "DN40": 1.5, "DN50": 2, "DN65": 2.5, "DN70": 2.5, "DN75": 2.5, "DN80": 3, "DN90": 3, "DN100": 4, "DN110": 4,
	"DN125": 5, "DN150": 6, "DN160": 6, "DN200": 8, "DN225": 9, "DN250": 10, "DN300": 12, "DN315": 12,
}

func inches(size catalog.Size) (float64, bool) {
	n, ok := nominalSizes[size]
	return n, ok
}
