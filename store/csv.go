package store

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"dogleg/catalog"
	"dogleg/geometry"
)

// columns are the columns of a table of takeoffs, in the order they are
// written:
//
//   - system, fitting and size, as the catalog names them: pvc-dwv, street 45,
//     1-1/2;
//   - line, the person's own name for a maker's line of fittings, often empty;
//   - inches, as the tape has them, 1-1/8, or in decimals, 1.0625;
//   - how it was measured, in words;
//   - when: 2026-11-03, or with the time of day as in RFC 3339.
var columns = []string{"system", "fitting", "size", "line", "inches", "how", "when"}

// needed are the columns that a table can't do without.
var needed = []string{"system", "fitting", "size", "inches"}

// WriteTakeoffs writes a table with a header, one takeoff a row.
func WriteTakeoffs(w io.Writer, takeoffs []Takeoff) error {
	table := csv.NewWriter(w)
	rows := [][]string{columns}
	for _, t := range takeoffs {
		rows = append(rows, []string{
			t.System, t.Fitting, string(t.Size), guarded(t.Line), inches(t.Length), guarded(t.How), t.When.Format(time.RFC3339),
		})
	}
	return table.WriteAll(rows)
}

// formula are the letters that make of a cell a formula, to a spreadsheet, where they
// come first; a guard before them makes it a text again.
const (
	formula = "=+-@\t\r"
	guard   = "'"
)

// guarded is a text that no spreadsheet takes for a formula, and unguarded is the text
// again.
func guarded(text string) string {
	if text != "" && strings.Contains(formula+guard, text[:1]) {
		return guard + text
	}
	return text
}

func unguarded(cell string) string {
	if text, ok := strings.CutPrefix(cell, guard); ok && text != "" && strings.Contains(formula+guard, text[:1]) {
		return text
	}
	return cell
}

// inches writes a length so that reading it back makes the same length: as the
// tape has it where that is exact, else in decimals.
func inches(l geometry.Length) string {
	if t := l.Tape(64); t.Length() == l {
		return t.String()
	}
	return strconv.FormatFloat(l.Inches(), 'f', -1, 64)
}

// ReadTakeoffs reads such a table. The columns may stand in any order, with
// others beside them; line, how and when may be missing. A row without a day
// gets the time of reading, now. check has the last word on each row; nil
// takes all. All that is wrong is returned, joined, each with its line, and
// then no takeoff is.
func ReadTakeoffs(r io.Reader, now time.Time, check func(Takeoff) error) ([]Takeoff, error) {
	table := csv.NewReader(r)
	table.TrimLeadingSpace = true
	header, err := table.Read()
	if err != nil {
		return nil, fmt.Errorf("no header: %w", err)
	}
	places, err := headed(header)
	if err != nil {
		return nil, err
	}
	var all []Takeoff
	var wrong []error
	for {
		fields, err := table.Read()
		switch {
		case errors.Is(err, io.EOF) && len(wrong) > 0:
			return nil, errors.Join(wrong...)
		case errors.Is(err, io.EOF):
			return all, nil
		case err != nil:
			return nil, errors.Join(append(wrong, err)...)
		}
		t, err := takeoffOf(places, fields, now)
		if err == nil && check != nil {
			err = check(t)
		}
		if err != nil {
			line, _ := table.FieldPos(0)
			wrong = append(wrong, fmt.Errorf("line %d: %w", line, err))
		}
		all = append(all, t)
	}
}

// headed says where each column stands. Some spreadsheets put a mark before the
// first letter of a file.
func headed(header []string) (map[string]int, error) {
	places := map[string]int{}
	for i, name := range header {
		places[strings.ToLower(strings.Trim(name, "\ufeff "))] = i
	}
	for _, name := range needed {
		if _, ok := places[name]; !ok {
			return nil, fmt.Errorf("the header has no %s: it is %s", name, strings.Join(columns, ","))
		}
	}
	return places, nil
}

// takeoffOf reads one row. What the catalog doesn't have is an error, for it
// could never be asked for.
func takeoffOf(places map[string]int, fields []string, now time.Time) (Takeoff, error) {
	field := func(name string) string {
		if i, ok := places[name]; ok {
			return unguarded(strings.Join(strings.Fields(fields[i]), " ")) // a line broken in a cell is one line
		}
		return ""
	}
	t := Takeoff{
		System: field("system"), Fitting: field("fitting"), Size: catalog.Size(field("size")),
		Line: field("line"), How: field("how"), When: now,
	}
	s, known := catalog.SystemByID(t.System)
	if !known {
		return t, fmt.Errorf("no system %q; there is %s", t.System, strings.Join(systems(), ", "))
	}
	if f, ok := catalog.FittingByKey(t.Fitting); !ok || f.Key() != t.Fitting {
		return t, fmt.Errorf("no fitting %q", t.Fitting)
	}
	if !s.HasSize(t.Size) {
		return t, fmt.Errorf("no %s in %s", t.Size, s.Name)
	}
	var ok bool
	if t.Length, ok = catalog.ParseInches(field("inches")); !ok {
		return t, fmt.Errorf("%q is no takeoff in inches, like 1-1/8", field("inches"))
	}
	var err error
	if day := field("when"); day != "" {
		t.When, err = dayOf(day)
	}
	return t, err
}

func systems() []string {
	var ids []string
	for _, s := range catalog.Systems() {
		ids = append(ids, s.ID)
	}
	return ids
}

func dayOf(text string) (time.Time, error) {
	for _, layout := range []string{time.RFC3339, time.DateOnly} {
		if when, err := time.Parse(layout, text); err == nil {
			return when, nil
		}
	}
	return time.Time{}, fmt.Errorf("%q is no day, like 2026-11-03", text)
}
