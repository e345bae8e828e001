package main

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"

	"dogleg/bot/practice"
	"dogleg/bot/training"
	"dogleg/bot/voice/aloud"
	"dogleg/bot/wording"
	"dogleg/parser/ask"
	"dogleg/parser/asks"
	"dogleg/parser/read"
)

// How the reader is taught. The rate and the decay were chosen on the tune part: a
// higher rate reads as well, and is too sure of itself.
const (
	rounds      = 4    // through all lessons
	stepLessons = 16   // for one step
	ofPromises  = 8    // how often a form that dogleg promises to read is taught
	ownWeight   = 2    // of what dogleg writes itself
	asideWeight = 0.3  // of messages to a theme that is rarer in life
	problems    = 1500 // of practice
	spokenOf    = 3    // of so many messages one is taught as it is said, too
	settling    = 12   // rounds at most in which the promised forms are made sure
	farApart    = 61   // messages between two behind which a promised form is taught
)

// lessons are those of some examples, in order; nil where one is no lesson.
func lessons(in []*example) []*read.Lesson {
	out := make([]*read.Lesson, len(in))
	n := runtime.NumCPU()
	var group sync.WaitGroup
	for w := range n {
		group.Go(func() {
			for i := w; i < len(in); i += n {
				if x := in[i]; x.teachable() {
					out[i] = x.lesson()
				}
			}
		})
	}
	group.Wait()
	return out
}

// lesson is one that an example teaches: all that is said, where a reading says it, or
// what counts.
func (x *example) lesson() *read.Lesson {
	agrees := func(s []ask.Statement) bool { return x.differs(s) == "" }
	l := read.NewLesson(x.Text, x.said, x.meant, func(s []ask.Statement) bool { return agrees(s) && x.saysAll(s) })
	if l.Covered() {
		return l
	}
	return read.NewLesson(x.Text, x.said, x.meant, agrees)
}

// course is all lessons: people's messages, those aside, and what dogleg writes and may
// be sent back.
func course(in, aside []*example) []*read.Lesson {
	var all []*read.Lesson
	for i, l := range lessons(in) {
		switch {
		case l != nil && l.Covered():
			all = append(all, l)
		case in[i].File == promised:
			fmt.Println("no reading agrees:", in[i].Text)
		}
	}
	all = append(all, weighing(asideWeight, aside)...)
	all = append(all, weighing(1, again(in))...)
	all = append(all, weighing(1, spoken(in))...)
	return append(all, weighing(ownWeight, append(typed(in), posed()...))...)
}

// promisedSurely is how probable the right reading of a promised form is at least.
const promisedSurely = 0.92

// promised has the forms that dogleg promises to read.
const promised = "promised.txt"

// promises are the promised forms, each behind what stands above it, and behind another
// message.
func promises(in []*example) (out []*example) {
	for i, x := range in {
		if x.File == promised && x.teachable() {
			out = append(out, x)
			if x.sort != change {
				y := *x
				y.said = in[i*farApart%len(in)].said
				first := *x
				first.said = read.Said{}
				out = append(out, &y, &first)
			}
		}
	}
	return out
}

// again are the promised forms once more, as often as they are taught: a change behind
// what it changes, and all else behind something that somebody asked.
func again(in []*example) (out []*example) {
	for i, x := range in {
		if x.File != promised || !x.teachable() {
			continue
		}
		for k := range ofPromises - 1 {
			y := *x
			if x.sort != change {
				y.said = in[(i*ofPromises+k)*farApart%len(in)].said
			}
			out = append(out, &y)
		}
	}
	return out
}

// weighing are the lessons of some examples that have a weight of their own.
func weighing(weight float64, in []*example) (out []*read.Lesson) {
	for _, l := range lessons(in) {
		if l != nil && l.Covered() {
			l.Weight = weight
			out = append(out, l)
		}
	}
	return out
}

// teach makes the weights, and writes them. The same examples always make the same.
func teach(byPart map[string][]*example, out string) error {
	began := time.Now()
	all := course(byPart[train], byPart["aside"])
	fmt.Printf("%d lessons, %s\n", len(all), time.Since(began).Round(time.Second))
	t := read.NewTeaching()
	chance := rand.New(rand.NewPCG(1, 2))
	for e := range rounds {
		chance.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
		loss := t.Epoch(all, stepLessons, runtime.NumCPU())
		if e == rounds/2-1 {
			t.BeginAverage()
		}
		fmt.Printf("round %d: loss %.3f, %s\n", e+1, loss, time.Since(began).Round(time.Second))
	}
	m := t.Average()
	left := t.Settle(m, weighing(1, promises(byPart[train])), promisedSurely, settling)
	fmt.Printf("%d promised forms are less sure, %s\n", left, time.Since(began).Round(time.Second))
	rounded, err := m.Rounded()
	if err != nil {
		return err
	}
	likeliest(rounded, byPart["tune"], "")
	f, err := os.Create(out)
	if err != nil {
		return err
	}
	return errors.Join(m.Save(f), f.Close())
}

// typed are the asks of some messages as dogleg writes them to be sent back.
func typed(in []*example) []*example {
	var out []*example
	for i, x := range in {
		if x.sort != plain || len(x.want) != 1 || x.want[0] == nil || i%3 != 0 && len(x.Text) > 60 {
			continue
		}
		y := ownExample(wording.Typed(*x.want[0]), *x.want[0])
		if i%2 == 0 {
			y.said = x.said
		}
		out = append(out, y)
	}
	return out
}

// spoken are some messages as their figures are said: a phone that is dictated to often
// writes them so. Nobody says a line break.
func spoken(in []*example) (out []*example) {
	for i, x := range in {
		if i%spokenOf != 0 || !x.teachable() || strings.ContainsAny(x.Text, "\n") || !strings.ContainsAny(x.Text, "0123456789") || slices.ContainsFunc(x.want, inSpanish) {
			continue
		}
		y := *x
		y.Text = aloud.Say(strings.ReplaceAll(x.Text, "?", ""), aloud.Plainly)
		out = append(out, &y)
	}
	return out
}

func inSpanish(a *ask.Ask) bool { return a != nil && a.Language == ask.Spanish }

func ownExample(text string, a ask.Ask) *example {
	return &example{Message: asks.Message{Text: text}, meant: []read.Meant{{Ask: &a}}, want: []*ask.Ask{&a}, sort: plain}
}

var (
	linesSpaced = regexp.MustCompile(`spacing ([^,]+), 2 lines, two`)
	inBrackets  = regexp.MustCompile(` \([^)]*\)`)
)

// posed are problems of practice, which an apprentice may send as they stand.
func posed() []*example {
	var out []*example
	for seed := range uint64(problems) {
		var t practice.Training
		p, err := t.Drill(practice.Focus{}, rand.New(rand.NewPCG(seed, 7)))
		if err != nil {
			panic(err) // a problem of our own making can be figured
		}
		text, question, _ := strings.Cut(training.Problem(p, wording.Options{}), "\n")
		text = strings.ReplaceAll(inBrackets.ReplaceAllString(text, ""), " at each end", "")
		text = linesSpaced.ReplaceAllString(text, "2 lines $1 apart,")
		for _, asked := range []struct{ word, first string }{
			{"travel", "what travel, "},
			{"cut", "how long is the cut, "},
			{"standing pipes", "how far apart are the ends, "},
		} {
			if strings.Contains(question, asked.word) {
				text = asked.first + text
			}
		}
		out = append(out, ownExample(text, p.Ask()))
	}
	return out
}
