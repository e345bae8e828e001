package hearing_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dogleg/bot"
	"dogleg/bot/hearing"
)

// guess is a decoder's list of guesses, each so far behind the first.
func guess(texts ...any) (guesses []hearing.Guess) {
	for i := 0; i < len(texts); i += 2 {
		guesses = append(guesses, hearing.Guess{Text: texts[i].(string), Behind: float64(texts[i+1].(int))})
	}
	return guesses
}

var judge = hearing.Judge{Conversation: bot.Answering{}}

func TestChoose(t *testing.T) {
	const beam = "set twelve and a half forty fives two inch pvc"
	const written = "set 12-1/2 45s 2 in pvc"
	for name, c := range map[string]struct {
		decoders [][]hearing.Guess
		sure     bool
		heard    string
		readings []string
	}{
		"both alike": {
			[][]hearing.Guess{guess(beam, 0), guess(beam, 0)},
			true, written, nil,
		},
		"worded otherwise, meaning the same": {
			[][]hearing.Guess{guess(beam, 0), guess("a set of twelve and a half with forty fives in two inch pvc", 0)},
			true, written + " or a set of 12-1/2 with 45s in 2 in pvc", nil,
		},
		"decoders that differ": {
			[][]hearing.Guess{guess(beam, 0), guess("set ten and a half forty fives two inch pvc", 0, beam, 600)},
			false, written,
			[]string{written, "set 10-1/2 45s 2 in pvc"},
		},
		"another meaning near": {
			[][]hearing.Guess{
				guess(beam, 0, "set twelve and a half forty fives ten inch pvc", 20),
				guess(beam, 0, "set twelve and a half forty fives ten inch pvc", 60),
			},
			false, written,
			[]string{written, "set 12-1/2 45s 10 in pvc"},
		},
		"a number read out": {
			[][]hearing.Guess{guess("twenty two twenty six", 0), guess("twenty two twenty six", 0)},
			false, "22 26",
			[]string{"22 26"},
		},
		"another meaning far": {
			[][]hearing.Guess{guess(beam, 0, "set twelve and a half forty fives ten inch pvc", 900), guess(beam, 0)},
			true, written, nil,
		},
		"a teen for a ty, not so near": {
			[][]hearing.Guess{
				guess("set seventeen forty fives two inch pvc", 0, "set seventy forty fives two inch pvc", 650),
				guess("set seventeen forty fives two inch pvc", 0),
			},
			false, "set 17 45s 2 in pvc",
			[]string{"set 17 45s 2 in pvc", "set 70 45s 2 in pvc"},
		},
		"no pipe of that size": {
			[][]hearing.Guess{
				guess("set twelve and a half forty fives one and three eighths inch pvc", 0, beam, 10),
				guess(beam, 0),
			},
			true, written, nil,
		},
		"a word of other talk": {
			[][]hearing.Guess{
				guess("set twelve and a half ~nation forty fives two inch pvc", 0, beam, 90),
				guess("set twelve and a half ~nation forty fives two inch pvc", 0),
			},
			false, written,
			[]string{written},
		},
		"other talk": {
			[][]hearing.Guess{guess("~daddy and ~mommy went ~shopping", 0, "add two", 300), guess("~daddy ~mommy", 0)},
			false, "", nil,
		},
		"what can't be had back": {
			[][]hearing.Guess{guess("forget everything", 0), guess("forget everything", 0)},
			false, "forget everything",
			[]string{"forget everything"},
		},
		"a takeoff to keep": {
			[][]hearing.Guess{guess("takeoff is one and an eighth", 0), guess("takeoff is one and an eighth", 0)},
			false, "takeoff is 1-1/8",
			[]string{"takeoff is 1-1/8"},
		},
		"a word about the list": {
			[][]hearing.Guess{guess("done two", 0), guess("done two", 0)},
			false, "done 2",
			[]string{"done 2"},
		},
		"a unit without its number": {
			[][]hearing.Guess{guess("set twelve and a half forty fives far inch pvc", 0), guess("set twelve and a half forty fives far inch pvc", 0)},
			false, "set 12-1/2 45s 4 in pvc",
			[]string{"set 12-1/2 45s 4 in pvc"},
		},
		"silence":      {[][]hearing.Guess{nil, nil}, false, "", nil},
		"half silence": {[][]hearing.Guess{guess(beam, 0), nil}, false, written, []string{written}},
		"no decoder":   {nil, false, "", nil},
	} {
		t.Run(name, func(t *testing.T) {
			v := judge.Choose(c.decoders)
			if v.Sure != c.sure || !slices.Contains(strings.Split(c.heard, " or "), v.Heard) || !slices.Equal(v.Readings, c.readings) {
				t.Errorf("got %+v, want %v %q %q", v, c.sure, c.heard, c.readings)
			}
		})
	}
}

// Figures as a carpenter's tape and the trade write them.
func TestFigures(t *testing.T) {
	for said, want := range map[string]string{
		"twelve and five eighths set forty fives inch and a half pvc":    "12-5/8 set 45s 1-1/2 pvc",
		"set thirty forty fives three inch pvc":                          "set 30 45s 3 in pvc",
		"set seventeen and nine sixteenths forty fives half inch copper": "set 17-9/16 45s 1/2 in copper",
		"set ten forty fives three quarter copper":                       "set 10 45s 3/4 copper",
		"set eleven twenty two and a halfs in three inch no hub":         "set 11 22-1/2s in 3 in no hub",
		"fall over thirty six feet at a quarter inch per foot":           "fall over 36 ft at 1/4 in per ft",
		"set one hundred eight and a half sixties four inch cast iron":   "set 108-1/2 60s 4 in cast iron",
		"multiplier for twenty two point five degrees":                   "multiplier for 22.5 degrees",
		"sixteen and fifteen sixteenths minus three":                     "16-15/16 - 3",
		"explain": "explain",
		// As millimeters are said.
		"two hundred and forty offset": "240 offset", "eight ninety between the ends": "890 between the ends",
		"one ten pvc up one thirty forty five elbows": "110 pvc up 130 45 elbows", "a hundred mil drain": "100 mil drain",
		"twelve hundred and twenty millimeters": "1220 millimeters", "one thousand two hundred five": "1205",
		"down two ten thirty degree bends": "down 210 30 degree bends", "two thirty degree bends": "2 30 degree bends",
		// What is no number, and what is.
		"the other one is uh two inch": "the other one is 2 in", "fourteen eighth bends": "14 1/8 bends",
		"set ten forty fives inch copper": "set 10 45s 1 in copper", "oh i need two one eighth bends": "oh i need 2 1/8 bends", "what is a one eighth bend": "what is a 1/8 bend",
		"an inch and a quarter black iron ninety takeoff": "1-1/4 black iron 90 takeoff",
		"set four fifty forty fives hundred mil":          "set 450 45s 100 mil",
	} {
		if got := hearing.Figures(said); got != want {
			t.Errorf("%q is written %q, want %q", said, got, want)
		}
	}
}

// Whatever number words run on, each is written once and the writing ends.
func TestFiguresEnd(t *testing.T) {
	words := strings.Fields("a an and one two five ten twelve twenty thirty forty fives nineties hundred thousand half quarter eighths sixteenths inch foot mil degrees point to for bends pvc the second")
	rapid.Check(t, func(t *rapid.T) {
		said := rapid.SliceOfN(rapid.SampledFrom(words), 1, 12).Draw(t, "said")
		if got := hearing.Figures(strings.Join(said, " ")); len(strings.Fields(got)) > 2*len(said) {
			t.Errorf("%q is written %q", said, got)
		}
	})
}

func TestWhatIsSaidOfANote(t *testing.T) {
	sure := hearing.Verdict{Heard: "set 12 45s 2 pvc", Sure: true}
	if got := sure.Echo(); got != "Heard: set 12 45s 2 pvc" {
		t.Errorf("echo %q", got)
	}
	kept := hearing.Verdict{Heard: "done 2", Keeps: true, Readings: []string{"done 2"}}
	if got := kept.Question(); !strings.Contains(got, "kept") || !strings.HasSuffix(got, "\ndone 2") {
		t.Errorf("what is to be kept: %q", got)
	}
	for _, readings := range [][]string{nil, {"set 12 45s 2 pvc"}, {"set 17 45s 2 pvc", "set 70 45s 2 pvc"}} {
		question := hearing.Verdict{Readings: readings}.Question()
		for _, r := range readings {
			if !slices.Contains(strings.Split(question, "\n"), r) {
				t.Errorf("%q has no line %q to send back", question, r)
			}
		}
	}
}
