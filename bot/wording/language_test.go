package wording

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

var inBraces = regexp.MustCompile(`\{\w+\}`)

// Both languages fill in the same words, and neither is left out.
func TestLanguagesAgree(t *testing.T) {
	for key, s := range sentences() {
		english, spanish := inBraces.FindAllString(s.english, -1), inBraces.FindAllString(s.spanish, -1)
		slices.Sort(english)
		slices.Sort(spanish)
		if !slices.Equal(english, spanish) {
			t.Errorf("%q: English has %v, Spanish %v", key, english, spanish)
		}
		if s.english == "" || s.spanish == "" {
			t.Errorf("%q is not said in every language", key)
		}
	}
}

// The rules of speech: no exclamation marks, no emoji.
func TestManners(t *testing.T) {
	all := []sentence{}
	for _, s := range sentences() {
		all = append(all, s)
	}
	for _, s := range cautionSentences() {
		all = append(all, s.full, s.brief)
	}
	for _, s := range all {
		for _, text := range []string{s.english, s.spanish} {
			if strings.ContainsAny(text, "!¡") || strings.ContainsFunc(text, func(r rune) bool { return r > 0x2300 }) {
				t.Errorf("%q breaks the rules of speech", text)
			}
		}
	}
}

// Every sentence that the code names is in the table, with the words that the
// code fills in.
func TestSentencesNamedInCodeExist(t *testing.T) {
	calls := 0
	for _, file := range source(t) {
		ast.Inspect(file, func(n ast.Node) bool {
			if key, names, ok := sayCall(n); ok {
				calls++
				checkCall(t, key, names)
			}
			return true
		})
	}
	if calls < 100 {
		t.Errorf("found only %d calls of say: the test no longer sees the code", calls)
	}
}

// byValue are the beginnings of keys that are put together with a value.
var byValue = []string{
	"role ", "name ", "method ", "material ", "term ", "rule ", "ask ", "command ", "one ", "many ", "talk ", "parts of ", "step ", "problem ", "kind ", "slip ", "behind ", "doubt ", "setting ", "said ", "not measured ", "side ",
}

// citation is a sentence named in another.
var citation = regexp.MustCompile(`\{=([^}]*)\}`)

// No sentence is left over that nothing says.
func TestEverySentenceIsSaid(t *testing.T) {
	named := map[string]bool{}
	for _, file := range source(t) {
		ast.Inspect(file, func(n ast.Node) bool {
			if e, ok := n.(ast.Expr); ok {
				if s, ok := literal(e); ok {
					named[s] = true
				}
			}
			return true
		})
	}
	for _, s := range sentences() {
		for _, text := range []string{s.english, s.spanish} {
			for _, cited := range citation.FindAllStringSubmatch(text, -1) {
				named[cited[1]] = true
				if _, ok := sentences()[cited[1]]; !ok {
					t.Errorf("%q cites no sentence: %q", text, cited[1])
				}
			}
		}
	}
	for key := range sentences() {
		if base, ok := strings.CutSuffix(key, " metric"); ok && named[base] {
			continue
		}
		if !named[key] && !slices.ContainsFunc(byValue, func(p string) bool { return strings.HasPrefix(key, p) }) {
			t.Errorf("nothing says %q", key)
		}
	}
}

// source is this package's code.
func source(t *testing.T) []*ast.File {
	t.Helper()
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	return files
}

// sayCall reads a call o.say("key", "name", value, …) with a literal key.
func sayCall(n ast.Node) (key string, names []string, ok bool) {
	call, isCall := n.(*ast.CallExpr)
	if !isCall || len(call.Args) == 0 {
		return "", nil, false
	}
	f, isMethod := call.Fun.(*ast.SelectorExpr)
	if !isMethod || f.Sel.Name != "say" {
		return "", nil, false
	}
	key, ok = literal(call.Args[0])
	for i := 1; i < len(call.Args); i += 2 {
		if name, ok := literal(call.Args[i]); ok {
			names = append(names, "{"+name+"}")
		}
	}
	return key, names, ok
}

func literal(e ast.Expr) (string, bool) {
	lit, ok := e.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(lit.Value)
	return s, err == nil
}

func checkCall(t *testing.T, key string, names []string) {
	t.Helper()
	s, ok := sentences()[key]
	if !ok {
		t.Errorf("no sentence for %q", key)
		return
	}
	for _, wanted := range inBraces.FindAllString(s.english, -1) {
		if !slices.Contains(names, wanted) {
			t.Errorf("%q: the code does not fill in %s", key, wanted)
		}
	}
}
