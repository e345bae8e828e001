package wording_test

import (
	"go/ast"
	goparser "go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/parser"
)

// constants reads the values of the string constants of a type from the source
// of its package, so that a new one can't be forgotten here.
func constants(t *testing.T, folder, typeName string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	var values []string
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		tree, err := goparser.ParseFile(token.NewFileSet(), file, source, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			if spec, ok := n.(*ast.ValueSpec); ok {
				values = append(values, valuesOf(spec, typeName)...)
			}
			return true
		})
	}
	if len(values) < 3 {
		t.Fatalf("found only %d constants of type %s in %s", len(values), typeName, folder)
	}
	return values
}

func valuesOf(spec *ast.ValueSpec, typeName string) []string {
	name := ""
	switch typ := spec.Type.(type) {
	case *ast.Ident:
		name = typ.Name
	case *ast.SelectorExpr:
		name = typ.Sel.Name
	}
	if name != typeName {
		return nil
	}
	var values []string
	for _, v := range spec.Values {
		if lit, ok := v.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if s, err := strconv.Unquote(lit.Value); err == nil {
				values = append(values, s)
			}
		}
	}
	return values
}

// secondLine is the line of a reply that says what was understood.
func secondLine(a *figure.Answer, l parser.Language) string {
	lines := strings.Split(wording.Whole(a, wording.Options{Language: l}), "\n")
	return lines[min(1, len(lines)-1)]
}

// Every role, way of laying the tape, material and shape that the parser or the
// catalog knows is called by a name, and in Spanish by a Spanish one.
func TestEveryWordOfTheParserIsWorded(t *testing.T) {
	for _, role := range constants(t, "../../parser/ask", "Role") {
		if notALength(parser.Role(role)) {
			continue
		}
		a := &figure.Answer{Ask: parser.Ask{Measures: []parser.Measure{given(parser.Role(role), 12)}}}
		english, spanish := secondLine(a, parser.English), secondLine(a, parser.Spanish)
		if strings.Contains(english, "_") || english == spanish && role != "" && role != "sum" {
			t.Errorf("%s is read back as %q and %q", role, english, spanish)
		}
		if (english == "12") != (role == "" || role == "sum") {
			t.Errorf("%s has no words: %q", role, english)
		}
	}
	for _, method := range constants(t, "../../parser/ask", "Method") {
		m := given(parser.Set, 12)
		m.Method = parser.Method(method)
		a := &figure.Answer{Ask: parser.Ask{Measures: []parser.Measure{m}}}
		english, spanish := secondLine(a, parser.English), secondLine(a, parser.Spanish)
		if m.Method != parser.Centers && !strings.Contains(english, strings.ReplaceAll(method, "-", " ")) {
			t.Errorf("%s is read back as %q", method, english)
		}
		if m.Method != parser.Centers && !strings.Contains(spanish, "de ") {
			t.Errorf("%s is read back in Spanish as %q", method, spanish)
		}
	}
}

// notALength tells apart the roles of what is not a length.
func notALength(r parser.Role) bool {
	switch r {
	case parser.AngleOf, parser.RollAngle, parser.Grade, parser.LineCount, parser.SizeOf,
		parser.PipeOf, parser.JointOf, parser.FittingOf, parser.UnitOf:
		return true
	}
	return false
}

func TestEveryWordOfTheCatalogIsWorded(t *testing.T) {
	for _, shape := range constants(t, "../../catalog", "Shape") {
		f := catalog.Fitting{Shape: catalog.Shape(shape), Angle: 45}
		a := &figure.Answer{Ask: parser.Ask{Ends: [2]parser.End{{Fitting: f}, {Fitting: f}}}}
		english, spanish := secondLine(a, parser.English), secondLine(a, parser.Spanish)
		if !strings.HasPrefix(english, "Two ") || !strings.HasSuffix(english, "s") || !strings.HasPrefix(spanish, "Dos ") {
			t.Errorf("two of %s are %q and %q", shape, english, spanish)
		}
	}
	for _, m := range constants(t, "../../catalog", "Material") {
		a := &figure.Answer{Ask: parser.Ask{Pipe: catalog.Pipe{Material: catalog.Material(m), Size: "2"}}}
		if got := secondLine(a, parser.English); got != "2 "+strings.ToUpper(m) && got != "2 "+strings.ReplaceAll(m, "-", " ") {
			t.Errorf("2 in %s is %q", m, got)
		}
	}
}

// Names of systems that are English words have Spanish ones beside them.
func TestSystemsInSpanish(t *testing.T) {
	for _, s := range catalog.Systems() {
		a := &figure.Answer{System: s, Size: "2"}
		got := secondLine(a, parser.Spanish)
		for _, english := range []string{"steel", "copper", "cast iron", "schedule", "metric", "sewer", "threaded"} {
			if strings.Contains(got, english) {
				t.Errorf("%s is %q in Spanish", s.ID, got)
			}
		}
	}
}

// Every rule of a step is explained.
func TestEveryRuleIsWorded(t *testing.T) {
	for _, rule := range rules(t) {
		a := &figure.Answer{Steps: []figure.Step{{Name: figure.StepAdd, Rule: rule, Result: figure.Quantity{Role: parser.Travel, Length: 12}}}}
		for _, l := range []parser.Language{parser.English, parser.Spanish} {
			if steps := wording.Steps(a, wording.Options{Language: l}); !strings.Contains(steps, " (") {
				t.Errorf("rule %q is not explained in %s: %q", rule, l, steps)
			}
		}
	}
}

// rules are the untyped constants of package figure whose names begin with
// Rule.
func rules(t *testing.T) []string {
	t.Helper()
	tree, err := goparser.ParseFile(token.NewFileSet(), "../figure/steps.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	ast.Inspect(tree, func(n ast.Node) bool {
		spec, ok := n.(*ast.ValueSpec)
		if ok && strings.HasPrefix(spec.Names[0].Name, "Rule") {
			s, err := strconv.Unquote(spec.Values[0].(*ast.BasicLit).Value)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, s)
		}
		return true
	})
	if len(all) < 20 {
		t.Fatalf("found only %d rules", len(all))
	}
	return all
}

func TestEveryCautionIsWorded(t *testing.T) {
	cautions := constants(t, "../figure", "Caution")
	for _, l := range []parser.Language{parser.English, parser.Spanish} {
		seen := map[string]bool{}
		for _, c := range cautions {
			text := wording.AllCautions(&figure.Answer{Cautions: []figure.Caution{figure.Caution(c)}}, wording.Options{Language: l})
			sentence, behind, ok := strings.Cut(strings.Split(text, "\n")[0], " (")
			if !ok || len(sentence) < 10 || behind == ")" || seen[sentence] {
				t.Errorf("%s: %s is worded %q", l, c, text)
			}
			seen[sentence] = true
		}
	}
}

// All cautions end with who decides.
func TestAllCautionsDefer(t *testing.T) {
	for _, a := range []*figure.Answer{nil, {}, {Cautions: []figure.Caution{figure.Gas}}} {
		if text := wording.AllCautions(a, wording.Options{}); !strings.HasSuffix(text, "The local code, the inspector and the license decide.") {
			t.Errorf("got %q", text)
		}
	}
}
