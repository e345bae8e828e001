package training

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var (
	inBraces = regexp.MustCompile(`\{\w+\}`)
	quoted   = regexp.MustCompile(`"([^"\n]*)"`)
)

// Both languages fill in the same words, neither is left out, and none breaks the
// rules of speech.
func TestLanguagesAgree(t *testing.T) {
	for key, s := range sentences {
		english, spanish := inBraces.FindAllString(s[0], -1), inBraces.FindAllString(s[1], -1)
		slices.Sort(english)
		slices.Sort(spanish)
		if !slices.Equal(english, spanish) || s[0] == "" || s[1] == "" {
			t.Errorf("%q: %q and %q", key, s[0], s[1])
		}
		if strings.ContainsAny(s[0]+s[1], "!¡") {
			t.Errorf("%q breaks the rules of speech", key)
		}
	}
}

// byValue are the beginnings of keys that are put together with a value.
var byValue = []string{"problem ", "kind ", "slip "}

// No sentence is left over that nothing says, and all that is said is there.
func TestEverySentenceIsSaid(t *testing.T) {
	named := map[string]bool{}
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if name == "sentences.go" || strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, found := range quoted.FindAllStringSubmatch(string(text), -1) {
			named[found[1]] = true
		}
		for _, call := range regexp.MustCompile(`(?:Say|say|tell)\((?:true, |false, )?"([^"]*)"(,|\))`).FindAllStringSubmatch(string(text), -1) {
			if _, ok := sentences[call[1]]; !ok {
				t.Errorf("%s: no sentence for %q", name, call[1])
			}
		}
	}
	if len(named) < 50 {
		t.Errorf("found only %d strings: the test no longer sees the code", len(named))
	}
	for key := range sentences {
		if !named[key] && !slices.ContainsFunc(byValue, func(p string) bool { return strings.HasPrefix(key, p) }) {
			t.Errorf("nothing says %q", key)
		}
	}
}
