package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestPromisesAreTested: each test that a page names is there.
func TestPromisesAreTested(t *testing.T) {
	there := map[string]bool{}
	declared := regexp.MustCompile(`(?m)^func (Test\w+)\(`)
	for _, file := range testFiles(t) {
		content, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range declared.FindAllSubmatch(content, -1) {
			there[string(m[1])] = true
		}
	}
	named := 0
	for _, path := range pages(t) {
		for _, m := range regexp.MustCompile("`(Test[A-Z]\\w+)`").FindAllStringSubmatch(page(t, path), -1) {
			named++
			if !there[m[1]] {
				t.Errorf("%s names %s, which is no test", path, m[1])
			}
		}
	}
	if named < 10 {
		t.Fatalf("only %d tests are named", named)
	}
}

func testFiles(t *testing.T) (files []string) {
	t.Helper()
	err := filepath.WalkDir(root, func(path string, _ os.DirEntry, err error) error {
		if strings.HasSuffix(path, "_test.go") {
			files = append(files, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// TestEveryModuleIsListed: deploy/modules.md names each module that is in the binary,
// with its license.
func TestEveryModuleIsListed(t *testing.T) {
	listed := page(t, "deploy/modules.md")
	command := exec.Command("go", "list", "-deps", "-f", `{{with .Module}}{{if not .Main}}{{.Path}}{{end}}{{end}}`, "./cmd/dogleg")
	command.Dir, command.Stderr = root, os.Stderr
	listing, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	modules := map[string]bool{}
	for path := range strings.FieldsSeq(string(listing)) {
		modules[path] = true
	}
	if len(modules) < 5 {
		t.Fatalf("only %d modules", len(modules))
	}
	for path := range modules {
		row := regexp.MustCompile(`(?m)^\|[^|\n]*` + regexp.QuoteMeta(path) + `\b[^|\n]*\|[^|\n]*(MIT|BSD|OFL|FTL|Apache)`)
		if !row.MatchString(listed) {
			t.Errorf("deploy/modules.md has no row with the license of %s", path)
		}
	}
}
