package words

import (
	"testing"

	"pgregory.net/rapid"
)

// TestSlipsAreThoseOfTheDefinition counts slips by the definition of optimal string
// alignment, which needs no table and knows nothing of what both words begin with.
// Of more than are asked for it is only told that there are more.
func TestSlipsAreThoseOfTheDefinition(t *testing.T) {
	word := rapid.StringOfN(rapid.SampledFrom([]rune("abcé")), 0, 7, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		most := rapid.IntRange(1, 7).Draw(t, "most")
		if got, want := slips(a, b, most), min(apart([]rune(a), []rune(b)), most+1); min(got, most+1) != want {
			t.Errorf("%q and %q: %d slips, want %d", a, b, got, want)
		}
	})
}

func apart(a, b []rune) int {
	i, j := len(a), len(b)
	if i == 0 || j == 0 {
		return i + j
	}
	change := 1
	if a[i-1] == b[j-1] {
		change = 0
	}
	least := min(apart(a[:i-1], b)+1, apart(a, b[:j-1])+1, apart(a[:i-1], b[:j-1])+change)
	if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
		least = min(least, apart(a[:i-2], b[:j-2])+1)
	}
	return least
}
