package catalog

import (
	"bytes"
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"sync"

	"dogleg/geometry"
)

//go:embed data/*.csv
var files embed.FS

// loaded holds the tables, read on first use.
var loaded = sync.OnceValue(func() *tables { return load(files) })

// Check reports everything that is wrong with the embedded tables; nil if they
// are sound. A row that is wrong is left out of what the package answers.
func Check() error { return errors.Join(loaded().problems...) }

// tables is all the data, by what it is asked for.
type tables struct {
	systems  []*entry
	named    map[place]Size // other names of a size: DN100 of what is 110 mm outside
	pipes    map[place][]pipeRow
	depths   map[place]depthRow
	takeoffs map[fittingPlace]takeoffRow
	threads  map[Size]PipeThread
	stock    map[string][]StockLength
	kerfs    []Kerf
	hangers  map[string][]Hanger
	cement   map[Size]Cement
	problems []error
}

// place is a size of a system.
type place struct {
	system string
	size   Size
}

// fittingPlace is an end of a fitting in a size of a system.
type fittingPlace struct {
	place
	fitting string // its key
	at      end
}

// entry is a system with what belongs to all its sizes.
type entry struct {
	System
	gap          Allowance
	means        string
	missingBends []derivation
	whyMissing   string
	sizes        []Size
	fittings     []Fitting
	fittingKeys  []string // of the same
	alike        map[string]likeness
}

// The rows that may hold for one schedule of the pipe only.
type (
	pipeRow struct {
		Dimensions
		schedule string
	}
	depthRow struct {
		Depth
		schedule string
	}
	takeoffRow struct {
		Takeoff
		schedule string
	}
)

// likeness says that a fitting has the takeoff of another one.
type likeness struct {
	fitting Fitting
	source  string
}

// at is where a size of a system stands in the tables, by whichever of its names.
func (t *tables) at(system string, s Size) place {
	if own, ok := t.named[place{system, s}]; ok {
		s = own
	}
	return place{system, s}
}

// system finds a system; one without anything in it if there is none.
func (t *tables) system(id string) *entry {
	for _, e := range t.systems {
		if e.ID == id {
			return e
		}
	}
	return &entry{}
}

// load reads the tables from a folder "data".
func load(from fs.FS) *tables {
	t := &tables{
		named:    map[place]Size{},
		pipes:    map[place][]pipeRow{},
		depths:   map[place]depthRow{},
		takeoffs: map[fittingPlace]takeoffRow{},
		threads:  map[Size]PipeThread{},
		stock:    map[string][]StockLength{},
		hangers:  map[string][]Hanger{},
		cement:   map[Size]Cement{},
	}
	t.read(from, "systems.csv", t.addSystem)
	t.read(from, "pipes.csv", t.addPipe)
	t.read(from, "sockets.csv", t.addDepth)
	t.read(from, "fittings.csv", t.addFitting)
	t.read(from, "takeoffs.csv", t.addTakeoff)
	t.read(from, "threads.csv", t.addThread)
	t.read(from, "stock_lengths.csv", t.addStock)
	t.read(from, "kerfs.csv", t.addKerf)
	t.read(from, "hangers.csv", t.addHanger)
	t.read(from, "cement.csv", t.addCement)
	for _, e := range t.systems {
		slices.SortFunc(e.sizes, compareSizes)
		e.sizes = slices.Compact(e.sizes)
	}
	return t
}

// read hands each row of a file to add, which keeps it unless the row has an
// error.
func (t *tables) read(from fs.FS, name string, add func(*row)) {
	text, err := fs.ReadFile(from, "data/"+name)
	if err != nil {
		t.problems = append(t.problems, err)
		return
	}
	records, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err == nil && len(records) == 0 {
		err = io.ErrUnexpectedEOF
	}
	if err != nil {
		t.problems = append(t.problems, fmt.Errorf("%s: %w", name, err))
		return
	}
	for i, fields := range records[1:] {
		r := &row{columns: records[0], fields: fields, tables: t}
		add(r)
		if r.err != nil {
			t.problems = append(t.problems, fmt.Errorf("%s, row %d: %w", name, i+2, r.err))
		}
	}
}

func (t *tables) addSystem(r *row) {
	e := &entry{
		System: System{
			ID:       r.needed("id"),
			Name:     r.needed("name"),
			Material: Material(r.needed("material")),
			Joint:    Joint(r.needed("joint")),
			Use:      Use(r.text("use")),
			Schedule: r.text("schedule"),
			Declared: r.text("declared"),
		},
		gap:        Allowance{r.length("gap"), r.lengthOrNone("gap_least"), r.evidence("gap_evidence"), r.needed("gap_source")},
		means:      r.needed("takeoff_means"),
		whyMissing: r.text("why_missing"),
	}
	for word := range strings.FieldsSeq(r.text("missing_bends")) {
		way := derivation(word)
		if way != byPattern && way != roughly {
			r.fail("no way %q to figure a bend", word)
		}
		e.missingBends = append(e.missingBends, way)
	}
	if r.err == nil {
		t.systems = append(t.systems, e)
	}
}

func (t *tables) addPipe(r *row) {
	size := r.size()
	p := pipeRow{
		Dimensions: Dimensions{
			Outside:  r.length("outside"),
			Wall:     r.lengthOrNone("wall"),
			Evidence: r.evidence("evidence"),
			Source:   r.needed("standard"),
		},
		schedule: r.text("schedule"),
	}
	for _, e := range r.systems() {
		at := place{e.ID, size}
		t.pipes[at] = append(t.pipes[at], p)
		for name := range strings.SplitSeq(r.text("also"), ";") {
			if name != "" {
				t.named[place{e.ID, Size(name)}] = size
			}
		}
		e.sizes = append(e.sizes, size)
		e.Metric = e.Metric || size.Metric()
	}
}

func (t *tables) addDepth(r *row) {
	size := r.pipeSize()
	d := depthRow{
		Depth:    Depth{r.length("depth"), r.evidence("evidence"), r.needed("standard")},
		schedule: r.text("schedule"),
	}
	for _, e := range r.systems() {
		t.depths[place{e.ID, size}] = d
	}
}

func (t *tables) addFitting(r *row) {
	f, ok := FittingByKey(r.needed("fitting"))
	if !ok {
		r.fail("no fitting %q", r.text("fitting"))
	}
	r.evidence("evidence")
	r.needed("source")
	as := likeness{source: r.text("as_source")}
	if key := r.text("as"); key != "" {
		if as.fitting, ok = FittingByKey(key); !ok || as.source == "" {
			r.fail("as %q: no fitting, or no source", key)
		}
	}
	for _, e := range r.systems() {
		if as.fitting != (Fitting{}) {
			if e.alike == nil {
				e.alike = map[string]likeness{}
			}
			e.alike[f.Key()] = as
		}
		e.fittings, e.fittingKeys = append(e.fittings, f), append(e.fittingKeys, f.Key())
	}
}

func (t *tables) addTakeoff(r *row) {
	size, key, evidence := r.pipeSize(), r.needed("fitting"), r.evidence("evidence")
	source := r.needed("standard") + ", center to " + r.needed("to")
	switch evidence {
	case Memory:
		source += ", recalled, unchecked"
	case SecondHand:
		source += ", from a machine-written summary, unchecked"
	case Own, Said, Published, OpenData, Derived:
	}
	r.needed("source")
	row := takeoffRow{
		Takeoff: Takeoff{
			Length:   r.length("length"),
			Band:     r.band(),
			Evidence: evidence,
			Source:   source,
			Note:     r.text("note"),
		},
		schedule: r.text("schedule"),
	}
	for _, e := range r.systems() {
		at := fittingPlace{place{e.ID, size}, key, end(strings.TrimPrefix(r.text("end"), "hub"))}
		if _, twice := t.takeoffs[at]; twice {
			r.fail("a second takeoff for %v", at)
		}
		t.takeoffs[at] = row
	}
}

func (t *tables) addThread(r *row) {
	thread := PipeThread{
		Size:           r.size(),
		PerInch:        r.number("per_inch"),
		HandTight:      r.length("hand_tight"),
		Effective:      r.length("effective"),
		Wrench:         r.length("wrench"),
		Evidence:       r.evidence("evidence"),
		Source:         r.needed("standard"),
		Makeup:         r.length("makeup"),
		MakeupEvidence: r.evidence("makeup_evidence"),
		MakeupSource:   r.needed("makeup_source"),
		OtherMakeup:    r.length("other_makeup"),
		OtherSource:    r.needed("other_source"),
	}
	if r.err == nil {
		t.threads[thread.Size] = thread
	}
}

func (t *tables) addStock(r *row) {
	s := StockLength{r.length("length"), r.evidence("evidence"), r.needed("standard"), r.text("note")}
	for _, e := range r.systems() {
		t.stock[e.ID] = append(t.stock[e.ID], s)
	}
}

func (t *tables) addKerf(r *row) {
	k := Kerf{r.needed("saw"), Allowance{Length: r.length("kerf"), Evidence: r.evidence("evidence"), Source: r.needed("source")}, r.text("note")}
	if r.err == nil {
		t.kerfs = append(t.kerfs, k)
	}
}

func (t *tables) addHanger(r *row) {
	h := Hanger{
		Code: r.needed("code"), From: Size(r.text("from")), Spacing: r.length("spacing"),
		Table: r.needed("table"), Evidence: r.evidence("evidence"), Note: r.text("note"),
	}
	r.needed("source")
	for _, e := range r.systems() {
		t.hangers[e.ID] = append(t.hangers[e.ID], h)
	}
}

func (t *tables) addCement(r *row) {
	size := r.size()
	c := Cement{r.number("joints"), r.evidence("evidence"), r.needed("source")}
	if r.err == nil {
		t.cement[size] = c
	}
}

// row is one row of a file. Its readers keep the first error and go on, so
// that whoever fills a struct from it looks at err once, at the end.
type row struct {
	columns, fields []string
	tables          *tables
	err             error
}

func (r *row) fail(format string, values ...any) {
	if r.err == nil {
		r.err = fmt.Errorf(format, values...)
	}
}

// text is a field; empty is a value like any other.
func (r *row) text(column string) string {
	at := slices.Index(r.columns, column)
	if at < 0 {
		r.fail("no column %q", column)
		return ""
	}
	return r.fields[at]
}

// needed is a field that may not be empty.
func (r *row) needed(column string) string {
	text := r.text(column)
	if text == "" {
		r.fail("%s is empty", column)
	}
	return text
}

func (r *row) length(column string) geometry.Length {
	l, ok := parseLength(r.text(column))
	if !ok {
		r.fail("%s %q is no length", column, r.text(column))
	}
	return l
}

func (r *row) lengthOrNone(column string) geometry.Length {
	if r.text(column) == "" {
		return 0
	}
	return r.length(column)
}

// band is how far a fitting may differ. That of a threaded one is a turn of
// its thread, which is worked out when it is asked for.
func (r *row) band() geometry.Length {
	if r.text("band") == "one turn" {
		return 0
	}
	return r.length("band")
}

func (r *row) number(column string) float64 {
	n, err := strconv.ParseFloat(r.text(column), 64)
	if err != nil || n <= 0 {
		r.fail("%s %q is no number", column, r.text(column))
	}
	return n
}

func (r *row) evidence(column string) Evidence {
	switch e := Evidence(r.text(column)); e {
	case Published, OpenData, SecondHand, Memory, Derived:
		return e
	case Own, Said:
		r.fail("%s: a table holds nobody's own %q", column, e)
	default:
		r.fail("%s: no evidence %q", column, e)
	}
	return ""
}

func (r *row) size() Size {
	size := Size(r.needed("size"))
	if _, ok := size.nominal(); !ok {
		r.fail("size %q is no size", size)
	}
	return size
}

// pipeSize is a size that each system of the row has pipe of.
func (r *row) pipeSize() Size {
	size := r.size()
	for _, e := range r.systems() {
		if !slices.Contains(e.sizes, size) {
			r.fail("%s has no pipe of %s", e.ID, size)
		}
	}
	return size
}

// systems are those that a row is for; none if the row has an error, so that
// nothing wrong is kept.
func (r *row) systems() []*entry {
	var all []*entry
	for id := range strings.FieldsSeq(r.needed("systems")) {
		e := r.tables.system(id)
		if e.ID == "" {
			r.fail("no system %q", id)
		}
		all = append(all, e)
	}
	if r.err != nil {
		return nil
	}
	return all
}
