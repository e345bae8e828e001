package wire

import (
	"html"
	"strings"
	"testing"
	"unicode/utf16"

	"pgregory.net/rapid"
)

// unspaced is a text without what splitting may drop.
func unspaced(text string) string {
	return strings.NewReplacer(" ", "", "\n", "", "\t", "", "\u00a0", "").Replace(strings.Join(strings.Fields(text), ""))
}

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		text    string
		longest int
		want    []string
	}{
		{"", 10, nil},
		{" \n ", 10, nil},
		{"Cut 14-3/4", 10, []string{"Cut 14-3/4"}},
		{"Cut 14\nrun 12\ngap 9", 13, []string{"Cut 14\nrun 12", "gap 9"}},
		{"Cut 14\nrun 12\ngap 9", 15, []string{"Cut 14\nrun 12", "gap 9"}},
		{"\n\nCut 14\n\nrun 12", 8, []string{"Cut 14", "run 12"}},
		{"one long line of pipe", 10, []string{"one long", "line of", "pipe"}},
		{"𝟏𝟏𝟏", 5, []string{"𝟏𝟏", "𝟏"}}, // two units each
	} {
		got := Split(c.text, c.longest)
		if strings.Join(got, "|") != strings.Join(c.want, "|") {
			t.Errorf("split(%q, %d) = %q, want %q", c.text, c.longest, got, c.want)
		}
	}
}

func TestSplitLosesNothingAndFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.ToValidUTF8(rapid.StringOf(rapid.RuneFrom([]rune("ab<&1½𝟏🔧 \n"))).Draw(t, "text"), "")
		longest := rapid.IntRange(2, 40).Draw(t, "longest")
		parts := Split(text, longest)
		for _, part := range parts {
			if units := len(utf16.Encode([]rune(part))); units > longest {
				t.Fatalf("%q has %d units, %d allowed", part, units, longest)
			}
			if strings.TrimSpace(part) == "" {
				t.Fatalf("an empty part among %q", parts)
			}
		}
		if got, want := unspaced(strings.Join(parts, "")), unspaced(text); got != want {
			t.Fatalf("parts hold %q, want %q", got, want)
		}
	})
}

// The HTML is undone by the standard library, which shares nothing with the
// escaper.
func TestFormattedReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.OneOf(rapid.RuneFrom([]rune("<>&;\"'/b#x3ltgamp\n    ")), rapid.Rune())).Draw(t, "text")
		marked := Formatted(text)
		bare := marked
		if strings.Contains(text, "\n") {
			if !strings.HasPrefix(marked, "<b>") {
				t.Fatalf("the first of several lines is not bold: %q", marked)
			}
			bare = strings.Replace(strings.TrimPrefix(marked, "<b>"), "</b>\n", "\n", 1)
		}
		bare = strings.NewReplacer("<pre>", "", "</pre>", "").Replace(bare)
		if strings.ContainsAny(bare, "<>") {
			t.Fatalf("a tag that is not ours in %q", marked)
		}
		if got := html.UnescapeString(bare); got != text {
			t.Fatalf("reads back as %q, want %q", got, text)
		}
	})
}

func TestDrawingKeepsItsColumns(t *testing.T) {
	got := Formatted("Measure it\nSo:\n    +--|\n     <T>\nand on.\n    +")
	want := "<b>Measure it</b>\nSo:\n<pre>    +--|\n     &lt;T&gt;</pre>\nand on.\n<pre>    +</pre>"
	if got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
