package aloud_test

import (
	"fmt"
	"testing"

	"dogleg/bot/voice/aloud"
)

func Example() {
	fmt.Println(aloud.Say(`laundry: set 10-3/8", 45s, 2 pvc dwv`, aloud.Plainly))
	// Output: laundry set ten and three eighths inch forty fives two pvc dwv
}

func TestSay(t *testing.T) {
	for typed, want := range map[string]string{
		"9-3/8 set 45s 2 abs":           "nine and three eighths set forty fives two abs",
		"set 14-1/8 22-1/2s":            "set fourteen and an eighth twenty two and a halfs",
		"set 7½, 45's w/ 1/2 copper":    "set seven and a half forty fives with half copper",
		`5' 2-1/4" c-c`:                 "five foot two and a quarter center to center",
		"fall over 36 ft at 1/4 per ft": "fall over thirty six foot at one quarter per foot",
		"16-15/16 - 3":                  "sixteen and fifteen sixteenths minus three",
		"238 mm, 22.5°":                 "two hundred thirty eight millimeters twenty two point five degree",
		"2% over 101.50'":               "two percent over one hundred one point five zero",
		"60s, 90s & 30s":                "sixties nineties and thirties",
	} {
		if got := aloud.Say(typed, aloud.Plainly); got != want {
			t.Errorf("%q is said %q, want %q", typed, got, want)
		}
	}
}

// Each of the ways to say a thing can be chosen.
func TestOtherWays(t *testing.T) {
	last := func(n int) int { return n - 1 }
	if got, want := aloud.Say(`1-1/2 copper, 22-1/2s, 3-3/8"`, last), "one one half copper twenty two one halves three three eighths inches"; got != want {
		t.Errorf("said %q, want %q", got, want)
	}
}
