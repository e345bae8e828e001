package main

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// An apprentice sits the exam by phone, with pencil and paper, and gets all of
// them with a chart.
func TestExamByPhone(t *testing.T) {
	const apprentice = 501
	c := juniperStreet(t)
	answered := func() int { return len(replies(c.api)["501"]) + len(c.api.Calls("sendPhoto")) }
	say := func(text string) {
		t.Helper()
		before := answered()
		c.when.Add(60)
		c.api.Post(apprentice, map[string]any{"text": text, "date": c.when.Load()}) // the hour seeds the problems
		if !c.api.Await(patience, func() bool { return answered() > before }) {
			t.Fatalf("%q is not answered", text)
		}
	}
	say("exam")
	for range 12 {
		posed := replies(c.api)["501"]
		say(pencil(t, posed[len(posed)-1]))
	}
	photos := c.api.Calls("sendPhoto")
	if len(photos) != 1 {
		t.Fatalf("%d pictures at the end, want one; the last text is\n%s", len(photos), replies(c.api)["501"][12])
	}
	if caption := photos[0].Params["caption"]; !strings.Contains(caption, "12 of 12 right, in 12 min") {
		t.Errorf("the results are %q", caption)
	}
}

// Words of a posed problem.
var (
	figureAfter = regexp.MustCompile(`(?i)(set|roll|rise|center to center|spacing|length|takeoff|dry fit|ends now) (\d[-\d/]*)`)
	bendsOf     = regexp.MustCompile(`(?:two |wye and |, )(\d+(?:-1/2)?)(?:s\b|,| and \d)`) // of two that differ the first
	gradeOf     = regexp.MustCompile(`1/(\d) per foot`)
)

// pencil works the problem that a text ends with, as one does on paper, and
// reads the answer off the tape.
func pencil(t *testing.T, posed string) string {
	t.Helper()
	lines := strings.Split(posed, "\n")
	given, question := lines[len(lines)-2], lines[len(lines)-1]
	said := map[string]float64{}
	takeoffs := 0.0
	for _, m := range figureAfter.FindAllStringSubmatch(given, -1) {
		l := onTape(t, m[2])
		said[strings.ToLower(m[1])] = l
		if m[1] == "takeoff" {
			takeoffs += l
		}
	}
	if strings.Contains(given, "at each end") {
		takeoffs *= 2
	}
	angle := 0.0
	if m := bendsOf.FindStringSubmatch(given); m != nil {
		angle = onTape(t, m[1]) * math.Pi / 180
	}
	set := math.Hypot(said["set"], math.Hypot(said["roll"], said["rise"]))
	switch {
	case strings.Contains(question, "travel"):
		return sixteenths(set / math.Sin(angle))
	case strings.Contains(question, "straight"):
		return sixteenths(said["center to center"] - takeoffs)
	case strings.Contains(question, "cut"):
		return sixteenths(set/math.Sin(angle) - takeoffs)
	case strings.Contains(question, "comes off"):
		return sixteenths((said["dry fit"] - said["set"]) / math.Sin(angle))
	case strings.Contains(question, "mark the standing pipe"):
		return sixteenths(set/math.Tan(angle) + takeoffs - said["ends now"])
	case strings.Contains(question, "standing pipes"):
		return sixteenths(set/math.Tan(angle) + takeoffs)
	case strings.Contains(question, "sooner"):
		return sixteenths(said["spacing"] * math.Tan(angle/2))
	case strings.Contains(question, "fall"):
		parts, _ := strconv.ParseFloat(gradeOf.FindStringSubmatch(given)[1], 64)
		length := said["length"]
		if !strings.Contains(given, " ft") {
			length /= 12
		}
		return sixteenths(length / parts)
	}
	t.Fatalf("not a question that is known: %q", question)
	return ""
}

// onTape reads 12-5/8.
func onTape(t *testing.T, text string) float64 {
	t.Helper()
	whole, part, mixed := strings.Cut(text, "-")
	if !mixed && strings.Contains(text, "/") {
		whole, part = "0", text
	}
	inches, err := strconv.ParseFloat(whole, 64)
	if over, under, ok := strings.Cut(part, "/"); ok {
		a, _ := strconv.ParseFloat(over, 64)
		b, _ := strconv.ParseFloat(under, 64)
		inches += a / b
	}
	if err != nil || math.IsNaN(inches) {
		t.Fatalf("no length: %q", text)
	}
	return inches
}

// sixteenths writes a length as it reads on a tape.
func sixteenths(inches float64) string {
	n := int(math.Round(inches * 16))
	if n%16 == 0 {
		return strconv.Itoa(n / 16)
	}
	return strconv.Itoa(n/16) + " " + strconv.Itoa(n%16) + "/16"
}
