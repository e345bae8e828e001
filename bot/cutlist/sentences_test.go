package cutlist

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// inBraces and named find what is filled into a sentence, and the sentences that
// the code names.
var (
	inBraces = regexp.MustCompile(`\{\w+\}`)
	named    = regexp.MustCompile(`(?:\b[Ss]ay|\btell)\((?:o, )?"([a-z][^"]*)"`)
)

// Both languages fill in the same words, neither is left out, and both keep to the
// rules of speech: no exclamation marks, no emoji.
func TestLanguagesAgree(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(sentencesCSV)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		english, spanish := inBraces.FindAllString(row[1], -1), inBraces.FindAllString(row[2], -1)
		slices.Sort(english)
		slices.Sort(spanish)
		if !slices.Equal(english, spanish) || row[1] == "" || row[2] == "" {
			t.Errorf("%q: English has %v, Spanish %v", row[0], english, spanish)
		}
		if text := row[1] + row[2]; strings.ContainsAny(text, "!¡") || strings.ContainsFunc(text, func(r rune) bool { return r > 0x2300 }) {
			t.Errorf("%q breaks the rules of speech", text)
		}
	}
	if len(sentences()) != len(rows)-1 {
		t.Errorf("%d sentences in %d rows: two have the same key", len(sentences()), len(rows)-1)
	}
}

// Every sentence that the code names is in the table, and none is left over.
func TestSentencesAreSaid(t *testing.T) {
	var source strings.Builder
	for _, pattern := range []string{"*.go", "../*.go"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if !strings.HasSuffix(file, "_test.go") {
				source.WriteString(string(text))
			}
		}
	}
	calls := 0
	for _, found := range named.FindAllStringSubmatch(source.String(), -1) {
		if _, ok := sentences()[found[1]]; !ok && !strings.HasPrefix(found[1], "saw ") {
			t.Errorf("no sentence for %q", found[1])
		}
		calls++
	}
	if calls < 30 {
		t.Errorf("found only %d calls: the test no longer sees the code", calls)
	}
	for key := range sentences() {
		key = strings.TrimSuffix(key, " metric")
		if !strings.Contains(source.String(), `"`+key+`"`) && !strings.HasPrefix(key, "saw ") && !strings.HasPrefix(key, "joint ") {
			t.Errorf("nothing says %q", key)
		}
	}
}
