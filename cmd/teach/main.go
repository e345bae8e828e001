// Command teach makes the reader's weights from what people send, and measures
// how well messages are read.
//
//	go run ./cmd/teach -out parser/read/weights.gz   teach from testdata/asks, and write the weights
//	go run ./cmd/teach coverage                      is there a reading that agrees with each message?
//	go run ./cmd/teach -of blind measure             how well are the blind writers' messages answered?
//	go run ./cmd/teach -of blind calibration         how often is the likeliest reading right, by its probability?
//	go run ./cmd/teach -of blind old                 the same for the reader that follows rules
package main

import (
	"errors"
	"flag"
	"fmt"
	"log"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"runtime/pprof"
	"slices"
	"strings"
	"time"

	"dogleg/bot/practice"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/parser/ask"
	"dogleg/parser/asks"
	"dogleg/parser/read"
)

// example is a message of the corpus with what stood before it.
type example struct {
	asks.Message
	said  read.Said
	meant []read.Meant
	want  []*ask.Ask // of each line, as a whole ask; nil where it is none
	sort  string     // plain, several, change, command, none, two readings, refused
}

// load reads the messages of a file in order: each change changes what stands just
// above it.
func load(pattern string) ([]*example, error) {
	all, err := asks.Read(pattern)
	if err != nil {
		return nil, err
	}
	var out []*example
	var last *ask.Ask
	var wanted ask.Role
	file := ""
	for _, m := range all {
		if m.File != file {
			file, last, wanted = m.File, nil, ""
		}
		x := &example{Message: m, said: read.Said{Last: last, Wanted: wanted}}
		wanted = ""
		for _, e := range m.Want {
			a, err := e.Ask()
			if err != nil {
				log.Printf("%s:%d: %v", m.File, m.Line, err)
				x.sort = "broken"
				continue
			}
			x.add(e, a, &last, &wanted)
		}
		x.simplify()
		if len(x.meant) > 1 && x.sort != "broken" && x.sort != "refused" {
			x.sort = "several"
		}
		out = append(out, x)
	}
	return out, nil
}

func (x *example) add(e asks.Expectation, a *ask.Ask, last **ask.Ask, wanted *ask.Role) {
	switch {
	case e.Mark == "/":
		verb, _, _ := strings.Cut(e.What, " ")
		x.meant = append(x.meant, read.Meant{Verb: ask.Verb(verb)})
		x.want = append(x.want, nil)
		x.sort = "command"
	case e.Mark == "?" && e.Kind == "":
		x.sort = "refused"
		x.meant, x.want = append(x.meant, read.Meant{}), append(x.want, nil)
	case e.Mark == "!" && e.Kind == "":
		name := map[string]string{"withdrawn": "withdrawn", "nothing asked": "talk", "not for this": "elsewhere"}[e.What]
		x.sort = "none"
		if name == "" {
			x.sort = "refused"
		}
		x.meant, x.want = append(x.meant, read.Meant{Nothing: name}), append(x.want, nil)
	default:
		x.meant = append(x.meant, read.Meant{Ask: a})
		whole := *a
		x.sort = "plain"
		if a.FollowUp {
			x.sort = "change"
			if *last != nil {
				whole = (*last).With(*a)
			}
			whole.FollowUp = false
		}
		x.want = append(x.want, &whole)
		*last = &whole
		if e.Mark == "?" {
			*wanted = ask.Role(strings.Fields(e.What)[0])
		}
	}
}

// simplify drops what needs no answer of its own: talk beside an ask, and the same
// ask for another of its figures.
func (x *example) simplify() {
	var meant []read.Meant
	var want []*ask.Ask
	asked := slices.ContainsFunc(x.want, func(a *ask.Ask) bool { return a != nil })
	for i, w := range x.meant {
		if asked && w.Nothing != "" {
			continue
		}
		if n := len(want); n > 0 && want[n-1] != nil && x.want[i] != nil && asks.Same(asks.FactsOf(want[n-1]), asks.FactsOf(x.want[i])) == "" {
			continue
		}
		meant, want = append(meant, w), append(want, x.want[i])
	}
	x.meant, x.want = meant, want
	if asked && x.sort == "none" {
		x.sort = "plain"
	}
}

// differs says how statements differ from what is meant, or "".
func (x *example) differs(said []ask.Statement) string {
	if len(said) != len(x.meant) {
		return fmt.Sprintf("%d statements, want %d", len(said), len(x.meant))
	}
	last := x.said.Last
	for i, s := range said {
		w := x.meant[i]
		switch {
		case w.Verb != "":
			if s.Command == nil || !sameVerb(s.Command, w.Verb) {
				return "no command " + string(w.Verb)
			}
		case w.Nothing != "":
			if s.Ask != nil || s.Command != nil {
				return "something, want " + w.Nothing
			}
		case s.Ask == nil || x.want[i] == nil:
			return "no ask"
		default:
			got := *s.Ask
			if got.FollowUp && last != nil {
				got = last.With(got)
				got.FollowUp = false
			}
			if d := asks.Same(asks.FactsOf(x.want[i]), asks.FactsOf(&got)); d != "" {
				return d
			}
			last = &got
		}
	}
	return ""
}

func sameVerb(c *ask.Command, verb ask.Verb) bool {
	return c.Verb == verb || c.Verb == ask.Setting && (verb == "metric" || verb == "inches") ||
		(c.Verb == ask.Glossary || c.Verb == ask.Rule) && verb == ask.Explain
}

// parts says which writer belongs to which part.
func parts(name string) map[string]string {
	out := map[string]string{}
	b, err := os.ReadFile(name)
	if err != nil {
		log.Fatal(err)
	}
	for line := range strings.Lines(string(b)) {
		f := strings.Split(strings.TrimSpace(line), ",")
		if len(f) > 1 {
			out[f[0]] = f[1]
		}
	}
	return out
}

var (
	each       = flag.Bool("each", false, "measure after each epoch")
	leastRight = flag.Float64("right", 0, "fails where fewer are right at once, in percent")
	mostWrong  = flag.Float64("wrong", 100, "fails where more are wrong, in percent")
	least      = flag.Int("least", 0, "lessons that a feature must be in")
	rate       = flag.Float64("rate", 0.08, "of learning")
	decay      = flag.Float64("decay", 2e-4, "of weights")
)

func main() {
	dir := flag.String("asks", "testdata/asks", "where the messages are")
	show := flag.String("show", "", "print what fails of files with this in their name")
	epochs := flag.Int("epochs", 4, "how often to go through the lessons")
	out := flag.String("out", "", "where the weights go")
	of := flag.String("of", "train", "the part that is looked at")
	most := flag.Int("n", 1<<30, "lessons at most")
	profile := flag.String("cpuprofile", "", "where a profile goes")
	flag.Parse()
	if *profile != "" {
		f, err := os.Create(*profile)
		if err != nil {
			log.Fatal(err)
		}
		if err := pprof.StartCPUProfile(f); err != nil {
			log.Fatal(err)
		}
		defer pprof.StopCPUProfile()
	}
	byPart := map[string][]*example{}
	people := filepath.Join(*dir, "people")
	part := parts(filepath.Join(people, "parts.csv"))
	files, err := filepath.Glob(filepath.Join(people, "*.txt"))
	if err != nil {
		log.Fatal(err)
	}
	for _, pattern := range []string{"*.txt"} { // one writer's, and with what was once misread
		more, err := filepath.Glob(filepath.Join(*dir, pattern))
		if err != nil {
			log.Fatal(err)
		}
		files = append(files, more...)
	}
	for _, f := range files {
		p := "train"
		if filepath.Dir(f) == people {
			if p = part[strings.TrimSuffix(filepath.Base(f), ".txt")]; p == "" {
				log.Fatalf("%s is in no part: see parts.csv", f)
			}
		}
		x, err := load(f)
		if err != nil {
			log.Fatal(err)
		}
		byPart[p] = append(byPart[p], x...)
	}
	switch flag.Arg(0) {
	case "coverage":
		coverage(byPart[*of], *show)
	case "old":
		judgeOld(byPart[*of])
	case "calibration":
		calibration(byPart[*of])
	case "measure":
		measure(byPart[*of], *show)
	default:
		teach(byPart, *epochs, *out, *show, *most)
	}
}

func lessons(in []*example) []*read.Lesson {
	out := make([]*read.Lesson, len(in))
	n := runtime.NumCPU()
	done := make(chan bool)
	for w := range n {
		go func() {
			for i := w; i < len(in); i += n {
				x := in[i]
				if x.sort == "refused" || x.sort == "broken" {
					continue
				}
				out[i] = read.NewLesson(x.Text, x.said, x.meant, func(s []ask.Statement) bool { return x.differs(s) == "" })
			}
			done <- true
		}()
	}
	for range n {
		<-done
	}
	return out
}

func coverage(in []*example, show string) {
	type tally struct{ all, covered int }
	sorts, byFile := map[string]*tally{}, map[string]*tally{}
	count := func(m map[string]*tally, k string, ok bool) {
		if m[k] == nil {
			m[k] = &tally{}
		}
		m[k].all++
		if ok {
			m[k].covered++
		}
	}
	for i, l := range lessons(in) {
		x := in[i]
		if l == nil {
			continue
		}
		count(sorts, x.sort, l.Covered())
		count(sorts, "all", l.Covered())
		count(byFile, x.File, l.Covered())
		if !l.Covered() && show != "" && (show == "all" || strings.Contains(x.File, show)) {
			fmt.Printf("%s:%d [%s] %q\n", x.File, x.Line, x.sort, x.Text)
			for _, e := range x.Want {
				fmt.Printf("\t%s\n", e.Line)
			}
			fmt.Printf("\t-> %s\n", x.differs(l.Near))
		}
	}
	for _, m := range []map[string]*tally{byFile, sorts} {
		var names []string
		for k := range m {
			names = append(names, k)
		}
		slices.Sort(names)
		for _, k := range names {
			fmt.Printf("%-34s %5d of %5d  %.1f %%\n", k, m[k].covered, m[k].all, 100*float64(m[k].covered)/float64(m[k].all))
		}
	}
}

func teach(byPart map[string][]*example, epochs int, out, show string, most int) {
	began := time.Now()
	var all []*read.Lesson
	for i, l := range lessons(byPart["train"]) {
		if l == nil || !l.Covered() {
			if byPart["train"][i].File == "promised.txt" {
				fmt.Println("no reading agrees:", byPart["train"][i].Text)
			}
			continue
		}
		all = append(all, l)
		if byPart["train"][i].File == "promised.txt" {
			all = append(all, l, l, l, l, l, l, l)
		}
	}
	if len(all) > most {
		all = all[:most]
	}
	for _, l := range lessons(append(typed(byPart["train"]), posed()...)) {
		if l != nil && l.Covered() {
			l.Weight = 2
			all = append(all, l)
		}
	}
	fmt.Printf("%d lessons, %s\n", len(all), time.Since(began).Round(time.Second))
	t := read.NewTeaching()
	t.Rate, t.Decay = *rate, *decay
	if *least > 0 {
		t.Least = uint8(*least)
		t.Count(all)
	}
	chance := rand.New(rand.NewPCG(1, 2))
	for e := range epochs {
		chance.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
		loss := t.Epoch(all, 16, 16, runtime.NumCPU())
		fmt.Printf("epoch %d: loss %.3f, %s\n", e+1, loss, time.Since(began).Round(time.Second))
		if *each {
			judge(t.Average(), byPart["tune"], "", "all")
		}
	}
	m := t.Average()
	judge(m, byPart["tune"], show, "")
	if out == "" {
		return
	}
	judge(m.Rounded(), byPart["tune"], "", "all")
	f, err := os.Create(out)
	if err != nil {
		log.Fatal(err)
	}
	if err := errors.Join(m.Save(f), f.Close()); err != nil {
		log.Fatal(err)
	}
}

// judge measures how well a model reads.
func judge(m *read.Model, in []*example, show, only string) {
	type tally struct{ all, right, three, wrong, sure, sureWrong int }
	sorts := map[string]*tally{}
	began := time.Now()
	for _, x := range in {
		r := m.Read(x.Text, x.said)
		right, at := false, -1
		answered := len(r) > 0 && slices.ContainsFunc(r[0].Statements, func(s ask.Statement) bool { return s.Ask != nil })
		if x.sort == "refused" || x.sort == "broken" {
			continue
		}
		for i := range r {
			if x.differs(r[i].Statements) == "" {
				at = i
				break
			}
		}
		right = at == 0
		p := 0.0
		for _, q := range r {
			if len(r) > 0 && x.same(q.Statements, r[0].Statements) {
				p += q.Probability
			}
		}
		for _, k := range []string{x.sort, "all", x.File} {
			t := sorts[k]
			if t == nil {
				t = &tally{}
				sorts[k] = t
			}
			t.all++
			if right {
				t.right++
			}
			if at >= 0 && at < 6 {
				t.three++
			}
			if !right && answered {
				t.wrong++
			}
			if p > 0.9 {
				t.sure++
				if !right && answered {
					t.sureWrong++
				}
			}
		}
		if !right && show != "" && (show == "all" || strings.Contains(x.File, show)) {
			fmt.Printf("%s:%d [%s] p=%.2f at=%d %q\n", x.File, x.Line, x.sort, p, at, x.Text)
			for _, e := range x.Want {
				fmt.Printf("\t%s\n", e.Line)
			}
			if len(r) > 0 {
				fmt.Printf("\t-> %s\n", x.differs(r[0].Statements))
			}
		}
	}
	var names []string
	for k := range sorts {
		names = append(names, k)
	}
	slices.Sort(names)
	for _, k := range names {
		if only != "" && k != only {
			continue
		}
		t := sorts[k]
		pc := func(n int) float64 { return 100 * float64(n) / float64(t.all) }
		fmt.Printf("%-30s %5d  right %.1f  six best %.1f  wrong %.1f | sure %.1f of these wrong %.1f\n", k, t.all, pc(t.right), pc(t.three), pc(t.wrong), pc(t.sure), pc(t.sureWrong))
	}
	fmt.Printf("%.2f ms a message\n", time.Since(began).Seconds()*1000/float64(max(1, len(in))))
}

// same says whether two readings come to the same.
func (x *example) same(a, b []ask.Statement) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		p, q := a[i], b[i]
		switch {
		case p.Ask != nil && q.Ask != nil:
			if p.Ask.FollowUp != q.Ask.FollowUp || p.Ask.Store != q.Ask.Store || asks.Same(asks.FactsOf(p.Ask), asks.FactsOf(q.Ask)) != "" {
				return false
			}
		case p.Command != nil && q.Command != nil:
			if p.Command.Verb != q.Command.Verb {
				return false
			}
		case p.Misunderstanding != nil && q.Misunderstanding != nil:
		default:
			return false
		}
	}
	return true
}

func judgeOld(in []*example) {
	all, right, wrong := map[string]int{}, map[string]int{}, map[string]int{}
	for _, x := range in {
		if x.sort == "refused" || x.sort == "broken" {
			continue
		}
		s := parser.Parse(x.Text)
		answered := slices.ContainsFunc(s, func(s ask.Statement) bool { return s.Ask != nil })
		for _, k := range []string{"all", x.sort} {
			all[k]++
			if x.differs(s) == "" {
				right[k]++
			} else if answered {
				wrong[k]++
			}
		}
	}
	for k := range all {
		fmt.Printf("%-10s %d: right %.1f wrong %.1f\n", k, all[k], 100*float64(right[k])/float64(all[k]), 100*float64(wrong[k])/float64(all[k]))
	}
}

// measure says how well whole messages are answered: right at once, asked back with
// the right reading among those offered, and figured from a wrong reading.
func measure(in []*example, show string) {
	type tally struct{ all, right, tap, wrong int }
	sorts := map[string]*tally{}
	for _, x := range in {
		if x.sort == "broken" {
			continue
		}
		s := parser.Read(x.Text, x.said)
		d := "answered, want a question"
		if x.sort != "refused" {
			d = x.differs(s)
		}
		answered := slices.ContainsFunc(s, func(s ask.Statement) bool { return s.Ask != nil })
		if x.sort == "refused" && !answered {
			d = ""
		}
		tap := false
		for _, st := range s {
			if m := st.Misunderstanding; m != nil {
				for _, r := range m.Readings {
					tap = tap || x.differs([]ask.Statement{{Ask: &r}}) == ""
				}
			}
		}
		for _, k := range []string{"all", x.sort, x.File} {
			t := sorts[k]
			if t == nil {
				t = &tally{}
				sorts[k] = t
			}
			t.all++
			switch {
			case d == "":
				t.right++
			case answered && x.sort != "refused":
				t.wrong++
			case tap:
				t.tap++
			}
		}
		if d != "" && answered && x.sort != "refused" && show != "" && (show == "all" || strings.Contains(x.File, show)) {
			fmt.Printf("%s:%d [%s] %q\n", x.File, x.Line, x.sort, x.Text)
			for _, e := range x.Want {
				fmt.Printf("\t%s\n", e.Line)
			}
			fmt.Printf("\t-> %s\n", d)
		}
	}
	var names []string
	for k := range sorts {
		names = append(names, k)
	}
	slices.Sort(names)
	all := sorts["all"]
	if share := 100 * float64(all.right) / float64(all.all); share < *leastRight {
		log.Printf("right at once %.1f %%, at least %.1f %% before", share, *leastRight)
		defer os.Exit(1)
	}
	if share := 100 * float64(all.wrong) / float64(all.all); share > *mostWrong {
		log.Printf("wrong %.1f %%, at most %.1f %% before", share, *mostWrong)
		defer os.Exit(1)
	}
	fmt.Printf("%-32s %5s %8s %8s %8s\n", "", "", "right", "or a tap", "wrong")
	for _, k := range names {
		t := sorts[k]
		pc := func(n int) float64 { return 100 * float64(n) / float64(t.all) }
		fmt.Printf("%-32s %5d %7.1f%% %7.1f%% %7.1f%%\n", k, t.all, pc(t.right), pc(t.right+t.tap), pc(t.wrong))
	}
}

// typed are the asks of some messages as the program writes them to be sent back.
func typed(in []*example) []*example {
	var out []*example
	for i, x := range in {
		if x.sort != "plain" || len(x.want) != 1 || x.want[0] == nil || i%3 != 0 && len(x.Text) > 60 {
			continue
		}
		a := *x.want[0]
		y := &example{Message: asks.Message{Text: wording.Typed(a), File: x.File}, meant: []read.Meant{{Ask: &a}}, want: []*ask.Ask{&a}, sort: "plain"}
		if i%2 == 0 {
			y.said = x.said
		}
		out = append(out, y)
	}
	return out
}

// calibration prints how often the likeliest reading is right, by its probability.
func calibration(in []*example) {
	type bin struct{ all, right int }
	var alone, both [21]bin
	for _, x := range in {
		if x.sort == "broken" || x.sort == "refused" {
			continue
		}
		r := read.Learned().Read(x.Text, x.said)
		if len(r) == 0 {
			continue
		}
		p := 0.0
		for _, q := range r {
			if x.same(q.Statements, r[0].Statements) {
				p += q.Probability
			}
		}
		k := int(p * 20)
		b := &alone
		if x.same(parser.Parse(x.Text), r[0].Statements) {
			b = &both
		}
		b[k].all++
		if x.differs(r[0].Statements) == "" {
			b[k].right++
		}
	}
	for i := range alone {
		fmt.Printf("p %.2f  alone %4d right %4d   with the rules %4d right %4d\n", float64(i)/20, alone[i].all, alone[i].right, both[i].all, both[i].right)
	}
}

// posed are problems of practice, which an apprentice may send as they stand. What
// they mean is known to the rules, which read what the program writes.
func posed() []*example {
	var out []*example
	bank := regexp.MustCompile(`spacing ([^,]+), 2 lines, two`)
	feet := regexp.MustCompile(` \([^)]*\)`)
	for seed := range uint64(1500) {
		var t practice.Training
		p, err := t.Drill(practice.Focus{}, rand.New(rand.NewPCG(seed, 7)))
		if err != nil {
			log.Fatal(err)
		}
		text, question, _ := strings.Cut(wording.Problem(p, wording.Options{}), "\n")
		text = bank.ReplaceAllString(strings.ReplaceAll(feet.ReplaceAllString(text, ""), " at each end", ""), "2 lines $1 apart,")
		for words, want := range map[string]string{"travel": "what travel, ", "cut": "how long is the cut, ", "standing pipes": "how far apart are the ends, "} {
			if strings.Contains(question, words) {
				text = want + text
			}
		}
		s := parser.Parse(text)
		if len(s) == 1 && s[0].Ask != nil {
			a := *s[0].Ask
			out = append(out, &example{Message: asks.Message{Text: text}, meant: []read.Meant{{Ask: &a}}, want: []*ask.Ask{&a}, sort: "plain"})
		}
	}
	return out
}
