package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The sizes that dogleg keeps to, as a statement of policy like arrows: a reader's
// time is what they save.
const (
	mostOfAPage = 10 << 10 // bytes of README.md and of DEVELOPERS.md
	mostMethods = 60       // of a type
	mostLines   = 65_500   // of Go that is not a test; lower it when code goes
)

// tooLarge are the types that have more methods than mostMethods, with the number
// that each may have until it is cut up. Numbers only fall; take a type out when
// it is small enough.
var tooLarge = map[string]int{
	"bot.turn":              150,
	"bot/figure.work":       297,
	"bot/sketch.sketcher":   84,
	"bot/wording.Options":   221,
	"parser/read.message":   70,
	"store/cluster.Cluster": 76,
}

func TestTwoPagesAreShort(t *testing.T) {
	for _, path := range []string{"README.md", "DEVELOPERS.md"} {
		if n := len(page(t, path)); n > mostOfAPage {
			t.Errorf("%s has %d bytes, at most %d are a page: move what is about one room to that room's README", path, n, mostOfAPage)
		}
	}
}

func TestTypesAreOfAHandsSize(t *testing.T) {
	methods := map[string]int{}
	for _, file := range goFiles(t) {
		for _, receiver := range receiversIn(t, file) {
			methods[path.Dir(file)+"."+receiver]++
		}
	}
	if len(methods) < 100 {
		t.Fatalf("only %d types have methods: this test no longer finds them", len(methods))
	}
	for name, n := range methods {
		if most := max(mostMethods, tooLarge[name]); n > most {
			t.Errorf("%s has %d methods, more than %d", name, n, most)
		}
	}
	for name := range tooLarge {
		if n := methods[name]; n <= mostMethods {
			t.Errorf("%s has %d methods: take it out of tooLarge", name, n)
		}
	}
}

func TestProgramDoesNotGrow(t *testing.T) {
	lines := 0
	for _, file := range goFiles(t) {
		lines += bytes.Count(goSource(t, file), []byte("\n"))
	}
	if lines > mostLines {
		t.Errorf("%d lines of Go that are not tests, more than %d: what can go instead?", lines, mostLines)
	}
	t.Logf("%d lines", lines)
}

// goFiles are the Go files that are not tests, by their path from the top.
func goFiles(t *testing.T) []string {
	t.Helper()
	command := exec.CommandContext(t.Context(), "git", "ls-files", "--cached", "--others", "--exclude-standard", "*.go")
	command.Dir = root
	listing, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	files := strings.Fields(string(listing))
	return slices.DeleteFunc(files, func(name string) bool {
		_, err := os.Stat(filepath.Join(root, name)) // one that is moved may be listed still
		return err != nil || strings.HasSuffix(name, "_test.go")
	})
}

func goSource(t *testing.T, file string) []byte {
	t.Helper()
	content, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(file)))
	if err != nil {
		t.Fatal(err)
	}
	return content
}

// receiversIn are the types of a file's methods, one for each method.
func receiversIn(t *testing.T, file string) (types []string) {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, goSource(t, file), parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	for _, declaration := range parsed.Decls {
		if method, ok := declaration.(*ast.FuncDecl); ok && method.Recv != nil {
			types = append(types, nameOf(method.Recv.List[0].Type))
		}
	}
	return types
}

// nameOf is the name of a receiver's type, be it a pointer or generic.
func nameOf(receiver ast.Expr) string {
	switch of := receiver.(type) {
	case *ast.StarExpr:
		return nameOf(of.X)
	case *ast.IndexExpr:
		return nameOf(of.X)
	case *ast.IndexListExpr:
		return nameOf(of.X)
	case *ast.Ident:
		return of.Name
	}
	return "?"
}
