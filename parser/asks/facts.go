package asks

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser/ask"
)

// Facts are what an ask states, so that two can be compared: lengths in inches
// under the name of their role, or under @ and how the tape was laid.
type Facts struct {
	Kind    ask.Kind
	Lengths map[string][]float64
	Words   map[string]string // size, material, fittings …
	Angle   float64
	Grade   float64
	Lines   int
	Pieces  int
	Total   float64
}

// FactsOf are those of an ask.
func FactsOf(a *ask.Ask) Facts {
	f := Facts{Kind: a.Kind, Lengths: map[string][]float64{}, Words: map[string]string{}, Angle: a.Angle.Degrees(), Grade: a.Grade.InchesPerFoot(), Lines: a.Lines, Pieces: a.Pieces}
	for _, m := range a.Measures {
		key := string(m.Role)
		if m.Method != "" && m.Method != ask.Centers {
			key = "@" + string(m.Method)
		}
		f.Lengths[key] = append(f.Lengths[key], m.Length.Inches())
	}
	for _, v := range f.Lengths {
		slices.Sort(v)
	}
	word := func(k, v string) {
		if v != "" {
			f.Words[k] = v
		}
	}
	word("size", string(a.Pipe.Size))
	if a.Ends[0].Size != a.Ends[1].Size || a.Kind == ask.Saddle && a.Ends[1].Size != "" {
		word("size", string(a.Ends[0].Size+","+a.Ends[1].Size))
	}
	word("material", string(a.Pipe.Material))
	word("joint", string(a.Pipe.Joint))
	word("use", string(a.Pipe.Use))
	word("schedule", strings.TrimPrefix(strings.ToLower(strings.ReplaceAll(a.Pipe.Schedule, " ", "")), "sch"))
	word("fittings", fittingsOf(a))
	for _, in := range a.Inline {
		word("inline", strings.TrimPrefix(f.Words["inline"]+","+string(in.Fitting.Shape), ","))
	}
	for _, s := range a.Stations {
		f.Lengths["station"] = append(f.Lengths["station"], s.Reading.Inches())
		word("stations", f.Words["stations"]+" "+s.Fitting.Key())
	}
	for k, on := range map[string]bool{"store": a.Store, "come_back": a.ComeBack} {
		if on {
			f.Words[k] = "yes"
		}
	}
	if a.Sum != nil {
		f.Total = a.Sum.Total()
	}
	return f
}

func fittingsOf(a *ask.Ask) string {
	var names []string
	for _, e := range a.Ends {
		if e.Fitting != (catalog.Fitting{}) {
			names = append(names, strings.ReplaceAll(e.Fitting.Key(), " ", "-"))
		}
	}
	if len(names) == 2 && names[0] == names[1] {
		names = names[:1]
	}
	return strings.Join(names, ",")
}

// Same says how one statement of facts differs from what is wanted, or "". Facts
// that people leave to be understood (joint, use, schedule) may be left out by
// either; where both say one, it must be the same.
func Same(want, got Facts) string {
	switch {
	case want.Kind != got.Kind:
		return fmt.Sprintf("kind %s, want %s", got.Kind, want.Kind)
	case want.Kind == ask.Sum:
		if !ask.Near(want.Total, got.Total) {
			return fmt.Sprintf("total %g, want %g", got.Total, want.Total)
		}
		return ""
	}
	return cmp.Or(sameLengths(want, got), sameNumbers(want, got), sameWords(want, got))
}

func sameLengths(want, got Facts) string {
	for _, k := range slices.Sorted(maps.Keys(both(want.Lengths, got.Lengths))) {
		w, g := want.Lengths[k], got.Lengths[k]
		if want.Kind != ask.Doglegs {
			w, g = once(w), once(g)
		}
		if !slices.EqualFunc(w, g, ask.Near) {
			return fmt.Sprintf("%s %v, want %v", k, got.Lengths[k], want.Lengths[k])
		}
	}
	return ""
}

// sameNumbers compares what is no length. A piece, a takeoff and a check may name
// the fittings in place of the angle.
func sameNumbers(want, got Facts) string {
	fittings := want.Words["fittings"] != "" && (slices.Contains([]ask.Kind{ask.Piece, ask.Takeoff, ask.Check}, want.Kind) || want.Angle == 0)
	switch {
	case math.Abs(want.Angle-got.Angle) > 0.6 && !fittings:
		return fmt.Sprintf("angle %g, want %g", got.Angle, want.Angle)
	case math.Abs(want.Grade-got.Grade) > 0.004:
		return fmt.Sprintf("grade %g, want %g", got.Grade, want.Grade)
	case want.Pieces != got.Pieces:
		return fmt.Sprintf("pieces %d, want %d", got.Pieces, want.Pieces)
	case want.Lines != got.Lines && want.Kind == ask.Parallel:
		return fmt.Sprintf("lines %d, want %d", got.Lines, want.Lines)
	}
	return ""
}

func sameWords(want, got Facts) string {
	if w, g := want.Words["size"], got.Words["size"]; !ask.SameSize(catalog.Size(w), catalog.Size(g)) {
		return fmt.Sprintf("size %q, want %q", g, w)
	}
	for _, k := range []string{"material", "store", "come_back", "inline", "stations"} {
		if want.Words[k] != got.Words[k] {
			return fmt.Sprintf("%s %q, want %q", k, got.Words[k], want.Words[k])
		}
	}
	for _, k := range []string{"joint", "schedule"} {
		if w, g := want.Words[k], got.Words[k]; w != "" && g != "" && w != g {
			return fmt.Sprintf("%s %q, want %q", k, g, w)
		}
	}
	if w, g := want.fittings(), got.fittings(); w != g && want.Kind != ask.Trim {
		return fmt.Sprintf("fittings %q, want %q", g, w)
	}
	return ""
}

// once is a list without what is there twice: a takeoff at both ends.
func once(v []float64) []float64 { return slices.Compact(slices.Clone(v)) }

// fittings are the names without those of plain bends at both ends, sorted.
func (f Facts) fittings() string {
	names := strings.Split(f.Words["fittings"], ",")
	for i, n := range names {
		if v, err := strconv.ParseFloat(strings.ReplaceAll(n, "-1/2", ".5"), 64); err == nil {
			names[i] = strconv.FormatFloat(v, 'f', -1, 64)
			if len(names) == 1 {
				return ""
			}
		}
	}
	if len(names) == 2 && names[0] == names[1] {
		names = names[:1]
	}
	slices.Sort(names)
	return strings.Join(names, ",")
}

func both(a, b map[string][]float64) map[string][]float64 {
	all := maps.Clone(a)
	for k, v := range b {
		if _, ok := all[k]; !ok {
			all[k] = v
		}
	}
	return all
}

// Ask is the ask that an expectation states, nil where it states none. A follow-up
// states a change.
func (e Expectation) Ask() (*ask.Ask, error) {
	if e.Mark == "/" || e.Mark == "!" && e.Kind == "" || e.Mark == "?" && e.Kind == "" {
		return nil, nil
	}
	a := &ask.Ask{Kind: ask.Kind(e.Kind), FollowUp: e.Mark == "~"}
	method := ask.Method("")
	if v := e.Keys["method"]; len(v) > 0 {
		method = ask.Method(v[0])
	}
	for _, key := range slices.Sorted(maps.Keys(e.Keys)) {
		for _, v := range e.Keys[key] {
			if err := e.state(a, key, v, method); err != nil {
				return nil, fmt.Errorf("%s=%s: %w", key, v, err)
			}
		}
	}
	if n := len(a.Inline); n > 0 {
		a.Inline[n-1].Laying, _ = a.Length(ask.Laying)
		a.Inline[n-1].Place, _ = a.Length(ask.Place)
	}
	a.GiveEnds()
	return a, nil
}

// word puts what is said by a word into an ask, and says whether the key is of that
// sort.
func (e Expectation) word(a *ask.Ask, key, v string) bool {
	switch key {
	case "name":
		a.Name = v
	case "want":
		a.Want = ask.Role(v)
	case "store":
		a.Store = true
	case "come_back":
		a.ComeBack = true
	case "handbook":
		a.Handbook = true
	case "material":
		a.Pipe.Material = catalog.Material(v)
	case "joint":
		a.Pipe.Joint = catalog.Joint(map[string]string{"hub": "hub-and-spigot"}[v])
		if a.Pipe.Joint == "" {
			a.Pipe.Joint = catalog.Joint(strings.ReplaceAll(v, " ", "-"))
		}
	case "use":
		a.Pipe.Use = catalog.Use(v)
	case "schedule":
		a.Pipe.Schedule = v
	default:
		return false
	}
	return true
}

func (e Expectation) state(a *ask.Ask, key, v string, method ask.Method) error {
	if e.word(a, key, v) {
		return nil
	}
	switch key {
	case "method":
		if len(e.Keys["measured"]) == 0 {
			a.Method = method
		}
	case "size":
		s := catalog.Size(v)
		if mm, ok := strings.CutSuffix(v, "mm"); ok {
			s = catalog.Size(mm + " mm")
		}
		if a.Pipe.Size != "" && (a.Pipe.Size != s || a.Kind == ask.Saddle) {
			a.Ends[0].Size, a.Ends[1].Size = a.Pipe.Size, s
			return nil
		}
		a.Pipe.Size = s
	case "lines":
		n, err := strconv.Atoi(v)
		a.Lines = n
		return err
	case "pieces":
		n, err := strconv.Atoi(v)
		a.Pieces = n
		return err
	case "inline":
		a.Inline = append(a.Inline, ask.Inline{Fitting: catalog.Fitting{Shape: catalog.Shape(strings.ReplaceAll(v, "-", " "))}})
	case "station":
		return station(a, v)
	case "angle":
		f, err := number(v)
		a.Angle = geometry.Angle(f)
		return err
	case "grade":
		f, err := gradeOf(v)
		a.Grade = geometry.Slope(f) * geometry.InchPerFoot
		return err
	case "fittings":
		return fit(a, v)
	case "total":
		f, err := inches(v)
		a.Sum = &ask.Arithmetic{Terms: []ask.Term{{Length: geometry.Length(f), Text: v}}}
		return err
	default:
		f, err := inches(v)
		m := ask.Measure{Role: ask.Role(key), Length: geometry.Length(f), Text: v}
		if key == "measured" {
			m.Method = method
			m.Role = map[ask.Kind]ask.Role{ask.Piece: ask.CenterToCenter, ask.Parallel: ask.Spacing, ask.Check: ask.DryFit}[a.Kind]
			if m.Role == "" {
				m.Role = ask.Set
			}
		}
		a.Measures = append(a.Measures, m)
		return err
	}
	return nil
}

// station is a fitting on a tape, by its reading: 14-1/2:wye; 0:end is a plain end.
func station(a *ask.Ask, v string) error {
	at, name, _ := strings.Cut(v, ":")
	f, err := inches(at)
	s := ask.Station{Reading: geometry.Length(f)}
	if name != "end" {
		var of ask.Ask
		if err := fit(&of, name); err != nil {
			return err
		}
		s.Fitting = of.Ends[0].Fitting
	}
	a.Stations = append(a.Stations, s)
	return err
}

func fit(a *ask.Ask, v string) error {
	for i, name := range strings.Split(v, ",") {
		key := strings.ReplaceAll(name, "-", " ")
		if f, err := number(name); err == nil {
			key = catalog.BendOf(geometry.Angle(f)).Key()
		}
		f, ok := catalog.FittingByKey(key)
		if !ok {
			f = catalog.Fitting{Shape: catalog.Shape(key)}
		}
		if i > 1 {
			return fmt.Errorf("more than two ends")
		}
		a.Ends[i].Fitting = f
		if i == 0 {
			a.Ends[1].Fitting = f
		}
	}
	return nil
}

// gradeOf is a slope as it is written, in inches for each foot.
func gradeOf(v string) (float64, error) {
	if p, ok := strings.CutSuffix(v, "%"); ok {
		f, err := number(p)
		return f / 100 * 12, err
	}
	if p, ok := strings.CutPrefix(v, "1:"); ok {
		f, err := number(p)
		return 12 / f, err
	}
	if p, ok := strings.CutSuffix(v, "mm/m"); ok {
		f, err := number(p)
		return f / 1000 * 12, err
	}
	if p, ok := strings.CutSuffix(v, "cm/m"); ok {
		f, err := number(p)
		return f / 100 * 12, err
	}
	return number(v)
}

// number reads 12-5/8, 5/8 and 12.625.
func number(v string) (float64, error) {
	sum := 0.0
	for p := range strings.SplitSeq(v, "-") {
		over, under, ok := strings.Cut(p, "/")
		n, err := strconv.ParseFloat(over, 64)
		if err != nil {
			return 0, err
		}
		if ok {
			d, err := strconv.ParseFloat(under, 64)
			if err != nil {
				return 0, err
			}
			n /= d
		}
		sum += n
	}
	return sum, nil
}

// inches reads a length in any of the units of the corpus.
func inches(v string) (float64, error) {
	sign := 1.0
	if p, ok := strings.CutPrefix(v, "-"); ok {
		v, sign = p, -1
	}
	if feet, rest, ok := strings.Cut(v, "'"); ok {
		f, err := number(feet)
		if err != nil {
			return 0, err
		}
		rest = strings.Trim(rest, `"-`)
		if rest == "" {
			return sign * f * 12, nil
		}
		in, err := number(rest)
		return sign * (f*12 + in), err
	}
	for _, u := range []struct {
		name  string
		scale float64
	}{{"mm", 1 / 25.4}, {"cm", 1 / 2.54}, {"ft", 12}, {"in", 1}, {`"`, 1}, {"m", 1000 / 25.4}} {
		if p, ok := strings.CutSuffix(v, u.name); ok {
			f, err := number(p)
			return sign * f * u.scale, err
		}
	}
	f, err := number(v)
	return sign * f, err
}
