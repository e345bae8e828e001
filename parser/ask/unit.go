package ask

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
)

// Unit is the unit that a length was said in.
type Unit string

// The units. An open one is that of a bare number: 250. A fraction is said of
// inches only. A measure in feet and inches is one of inches.
const (
	OpenUnit    Unit = ""
	Inches      Unit = "in"
	Feet        Unit = "ft"
	Millimeters Unit = "mm"
	Centimeters Unit = "cm"
	Meters      Unit = "m"
)

// Metric says whether the unit is one of a metric tape.
func (u Unit) Metric() bool { return u == Millimeters || u == Centimeters || u == Meters }

// length is one of the unit.
func (u Unit) length() geometry.Length {
	switch u {
	case Millimeters:
		return geometry.Millimeter
	case Centimeters:
		return geometry.Centimeter
	case Meters:
		return geometry.Meter
	case Feet:
		return geometry.Foot
	case OpenUnit, Inches:
	}
	return geometry.Inch
}

// The words of units, as they stand in a measure. Where a measure has both, as
// an inch told beside its millimeters, the metric one is that of its number.
var (
	saysMetric  = regexp.MustCompile(`(?:^|[^\pL])(?:(mms?|mils?|mil[lí]?i?m\pL*)|(cms?|cent[ií]m\pL*)|(m|met(?:er|re)s?|metros?))(?:[^\pL]|$)`)
	saysInches  = regexp.MustCompile(`[/"'″′”’¼½¾⅛⅜⅝⅞]|(?:^|[^\pL])(?:in|ins|inch\pL*|ft|foots?|feet|pulgs?|pulgadas?|pies?|half|halves|halfs|quarters?|eighths?|sixteenths?|\pL*seconds?|medi[oa]s?|cuartos?|octavos?|\pL*avos?|\d+ths?|heavy|light|shy|fat|strong|scant)(?:[^\pL]|$)`)
	plainFigure = regexp.MustCompile(`^\d+(?:[.,]\d+)*$`)
)

// Unit is the unit that a length was said in. Figures that come to a fraction of
// an inch without a sign of one, as 12 5 8, are inches.
func (m Measure) Unit() Unit {
	u := unitOf(m.Text)
	if inches := m.Length.Inches(); u == OpenUnit && !plainFigure.MatchString(strings.TrimSpace(m.Text)) && whole(inches*64) && !whole(inches) {
		return Inches
	}
	return u
}

func unitOf(text string) Unit {
	letters := strings.Trim(text, "0123456789.,-/ \t")
	switch { // nearly all measures need no search
	case text == "":
		return Inches // what has no words is made of what was said: ends that touch
	case letters == "" && strings.Contains(text, "/"):
		return Inches
	case letters == "":
		return OpenUnit
	case letters == "mm":
		return Millimeters
	}
	text = strings.ToLower(text)
	if found := saysMetric.FindStringSubmatch(text); found != nil {
		switch {
		case found[1] != "":
			return Millimeters
		case found[2] != "":
			return Centimeters
		}
		return Meters
	}
	if saysInches.MatchString(text) {
		return Inches
	}
	return OpenUnit
}

// Number is the figure of a measure whose unit is open, and the unit that it was
// taken in: inches, feet along a graded line, or millimeters.
func (m Measure) Number() (n float64, taken Unit) {
	inches, mm := m.Length.Inches(), m.Length.Millimeters()
	if text := strings.TrimSpace(m.Text); plainFigure.MatchString(text) {
		for _, figure := range []string{strings.ReplaceAll(text, ",", "."), strings.NewReplacer(",", "", ".", "").Replace(text)} {
			v, err := strconv.ParseFloat(figure, 64)
			switch {
			case err != nil:
			case math.Abs(v-inches) < 1e-6:
				return v, Inches
			case math.Abs(v-mm) < 1e-6:
				return v, Millimeters
			case math.Abs(v-inches/12) < 1e-6:
				return v, Feet
			}
		}
	}
	if whole(inches*64) || !whole(mm) {
		return inches, Inches
	}
	return math.Round(mm), Millimeters
}

func whole(v float64) bool { return math.Abs(v-math.Round(v)) < 1e-6 }

// In is a measure whose unit is open, said in a unit.
func (m Measure) In(u Unit) Measure {
	n, _ := m.Number()
	told := geometry.Length(n) * u.length()
	for i := range m.Readings {
		m.Readings[i] *= told / m.Length
	}
	m.Length = told
	m.Text = strconv.FormatFloat(n, 'f', -1, 64) + " " + string(u)
	return m
}

// Open lists the places of the measures whose unit is open.
func (a Ask) Open() []int {
	var open []int
	for i, m := range a.Measures {
		if m.Unit() == OpenUnit && m.Length != 0 {
			open = append(open, i)
		}
	}
	return open
}

// In is the ask with its open measures in a unit each: units tells which.
func (a Ask) In(units func(Measure) Unit) Ask {
	a.Measures = slices.Clone(a.Measures)
	for _, i := range a.Open() {
		old := a.Measures[i]
		m := old.In(units(old))
		a.Measures[i] = m
		for e := range a.Ends {
			a.Ends[e] = a.Ends[e].scaled(old, m)
		}
	}
	return a
}

// scaled is the end with what a measure gave it told anew.
func (e End) scaled(old, m Measure) End {
	same := func(l geometry.Length) bool { return l != 0 && math.Abs((l-old.Length).Inches()) < 1e-9 }
	switch {
	case old.Role == TakeoffOf && same(e.Takeoff):
		e.Takeoff = m.Length
	case old.Role == Face && same(e.Face):
		e.Face = m.Length
	case old.Role == Depth && same(e.Depth):
		e.Depth = m.Length
	}
	return e
}

// OfFitting says whether a length of this role belongs to a fitting, and not to
// the line.
func (r Role) OfFitting() bool {
	return r == TakeoffOf || r == Face || r == Depth || r == JointGap || r == Radius
}

// Metric says whether the ask was said in metric: by the lengths of its line,
// else by those of its fittings, else by the size of its pipe. What was said in
// inches first is not metric, whatever the pipe.
func (a Ask) Metric() bool {
	if a.Sum != nil {
		return a.Sum.metric()
	}
	for _, ofFittings := range []bool{false, true} {
		for _, m := range a.Measures {
			if m.Role.OfFitting() == ofFittings && m.Text != "" {
				_, taken := m.Number()
				return m.Unit().Metric() || m.Unit() == OpenUnit && taken.Metric()
			}
		}
	}
	return MetricSize(a.Pipe.Size)
}

// metric says whether all lengths of a sum of several are metric. A single one
// is to be told in the other unit.
func (s *Arithmetic) metric() bool {
	if s.InMetric {
		return true
	}
	lengths := 0
	for _, t := range s.Terms {
		if t.Plain {
			continue
		}
		if !unitOf(t.Text).Metric() {
			return false
		}
		lengths++
	}
	return lengths > 0 && len(s.Terms) > 1
}

// MetricSize says whether a size is a metric one by its name: 110 mm, DN100.
func MetricSize(s catalog.Size) bool { return s.Metric() || strings.HasPrefix(string(s), "DN") }
