package bot_test

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"dogleg/bot"
	"dogleg/bot/wording"
	"dogleg/parser/asks"
)

// metricWords are millimeters and meters behind a number; a meter and so many
// centimeters is told in no other way, and what is said in centimeters is as
// likely inches where the word is left out; 1'035 is feet and inches without its word.
var (
	metricWords = regexp.MustCompile(`(?i)(\d)\s*(?:mms?|m|mil+[ií]met(?:er|re|ro)s?|met(?:er|re)s?|metros?)\b(\s*(?:/|per|por|a)\s*m\pL*)?`)
	others      = regexp.MustCompile(`(?i)\d\s*(?:cms?\b|cent[ií]m)|(?:\bm|met(?:er|re)s?|metros?)\s+\d|\d'\d`)
)

// Whatever people said in millimeters comes to the same figures when its units
// are left out, or is asked about: never to figures that are another unit's. It
// is tried on all messages of the corpus that a helper may read.
func TestUnitsLeftOutNeverMakeAnotherLength(t *testing.T) {
	if testing.Short() {
		t.Skip("reads many messages twice")
	}
	tried, asked, otherwise := 0, 0, 0
	for _, m := range readable(t) {
		bare := metricWords.ReplaceAllString(m.Text, "$1")
		if bare == m.Text || others.MatchString(m.Text) || !asksOne(m) {
			continue
		}
		with, without := answers(m.Text), answers(bare)
		if len(with) != 1 || len(without) != 1 || !with[0].Understood || with[0].Figures == nil {
			continue
		}
		tried++
		switch r := without[0]; {
		case r.AskBack == "unit":
			asked++
		case !r.Understood || r.AskBack != "" && r.Figures == nil:
		case !inAnotherUnit(with[0].Figures, r.Figures):
			if !sameFigures(with[0].Figures, r.Figures) {
				otherwise++ // another number of the message is taken
			}
		default:
			t.Errorf("%s:%d %q: %v, without its units %v", m.File, m.Line, m.Text, with[0].Figures, r.Figures)
		}
	}
	t.Logf("%d messages, the unit of %d asked, %d read otherwise", tried, asked, otherwise)
	if tried < 150 || asked < tried/4 || otherwise > tried/100 {
		t.Errorf("%d messages tried, %d asked about, %d read otherwise", tried, asked, otherwise)
	}
}

// asksOne says whether a message asks one thing, and no sum.
func asksOne(m asks.Message) bool {
	return len(m.Want) == 1 && m.Want[0].Mark == "" && m.Want[0].Kind != "sum"
}

// unitRatios are how many times too long a length is that was told in one unit and
// taken for another: millimeters, centimeters, meters, inches and feet.
var unitRatios = []float64{25.4, 2.54, 304.8, 30.48, 10, 1000, 100, 1 / 39.3700787, 0.3048, 12}

// inAnotherUnit says whether two figures of the same name differ as units do.
func inAnotherUnit(a, b map[string]float64) bool {
	for name, v := range a {
		for _, ratio := range unitRatios {
			if w := b[name]; v != 0 && w != 0 && (math.Abs(w/v/ratio-1) < 1e-3 || math.Abs(v/w/ratio-1) < 1e-3) {
				return true
			}
		}
	}
	return false
}

// readable are the messages of the corpus but for those that are kept to measure
// the reader with.
func readable(t *testing.T) []asks.Message {
	t.Helper()
	all, err := asks.Read("../testdata/asks/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	parts, err := os.ReadFile("../testdata/asks/people/parts.csv")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(parts)) {
		fields := strings.Split(strings.TrimSpace(line), ",")
		if len(fields) < 2 || fields[1] != "train" {
			continue
		}
		set, err := asks.Read(filepath.Join("../testdata/asks/people", fields[0]+".txt"))
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, set...)
	}
	return all
}

func answers(text string) []wording.Record {
	c := bot.Conversation{}
	return c.Handle(bot.Message{Text: text, When: time.Date(2026, 11, 3, 8, 0, 0, 0, time.UTC)}, new(bot.Forgetful)).Records
}

func sameFigures(a, b map[string]float64) bool {
	for k, v := range a {
		if w, ok := b[k]; ok && math.Abs(v-w) > 1e-6 {
			return false
		}
	}
	return true
}
