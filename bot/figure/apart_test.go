package figure_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"testing"
)

// What is laid out in space is laid out apart: of package geometry these files have
// the types that an ask is written in, and a unit; of package walk nothing.
func TestTheChecksInSpaceShareNoCode(t *testing.T) {
	for _, name := range []string{"space_test.go", "joints_test.go"} {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		seen := 0
		ast.Inspect(file, func(n ast.Node) bool {
			selected, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			if from, ok := selected.X.(*ast.Ident); ok && from.Name == "geometry" {
				seen++
				if !slices.Contains([]string{"Length", "Angle", "Slope", "Millimeter"}, selected.Sel.Name) {
					t.Errorf("%s uses geometry.%s", name, selected.Sel.Name)
				}
			}
			return true
		})
		if seen == 0 {
			t.Errorf("%s writes no ask: this test sees nothing", name)
		}
		for _, i := range file.Imports {
			if i.Path.Value == `"dogleg/geometry/walk"` {
				t.Errorf("%s walks", name)
			}
		}
	}
}
