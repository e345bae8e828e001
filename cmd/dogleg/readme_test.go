package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"dogleg/bot/wording"

	"github.com/google/go-cmp/cmp"
)

// TestPagesSayWhatDoglegSays runs the console blocks of every page and compares
// what they print. In a block, a line after $ is a command for the shell, a line
// after > is typed into it, and the rest is what it prints.
func TestPagesSayWhatDoglegSays(t *testing.T) {
	found := 0
	for _, path := range pages(t) {
		sessions := consoleSessions(page(t, path))
		found += len(sessions)
		for _, s := range sessions {
			t.Run(path+" "+s.command, func(t *testing.T) {
				if diff := cmp.Diff(settled(s.prints), settled(s.run(t))); diff != "" {
					t.Errorf("%s (-) and dogleg (+) differ:\n%s", path, diff)
				}
			})
		}
	}
	if found < 10 {
		t.Fatalf("the pages have %d console sessions; they got lost, or this test no longer finds them", found)
	}
}

// TestPagesLinkToWhatExists: a link from one page to another, or to a folder,
// leads somewhere.
func TestPagesLinkToWhatExists(t *testing.T) {
	link := regexp.MustCompile(`\]\(([^)#\s]+)(?:#[^)\s]*)?\)`)
	for _, path := range pages(t) {
		for _, m := range link.FindAllStringSubmatch(page(t, path), -1) {
			if strings.Contains(m[1], "://") {
				continue
			}
			if _, err := os.Stat(filepath.Join(root, filepath.Dir(path), m[1])); err != nil {
				t.Errorf("%s links to %s: %v", path, m[1], err)
			}
		}
	}
}

// pages are the Markdown files of the repository, by their path from its top.
func pages(t *testing.T) []string {
	t.Helper()
	command := exec.CommandContext(t.Context(), "git", "ls-files", "--cached", "--others", "--exclude-standard", "*.md")
	command.Dir = root
	listing, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	paths := strings.Fields(string(listing))
	if len(paths) < 3 {
		t.Fatalf("only %d pages: %s", len(paths), paths)
	}
	return paths
}

// page is what a page says, by its path from the top of the repository.
func page(t *testing.T, path string) string {
	t.Helper()
	content, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(path)))
	if err != nil {
		t.Fatal(err)
	}
	return string(content)
}

// session is one command of a console block, with what is typed and printed.
type session struct{ command, typed, prints string }

func consoleSessions(page string) []session {
	var found []session
	inside := false
	for line := range strings.Lines(page) {
		text := strings.TrimSpace(line)
		command, isCommand := strings.CutPrefix(text, "$ ")
		typed, isTyped := strings.CutPrefix(text, "> ")
		switch {
		case strings.HasPrefix(text, "```"):
			inside = text == "```console"
		case !inside:
		case isCommand:
			found = append(found, session{command: command})
		case isTyped:
			found[len(found)-1].typed += typed + "\n"
		default:
			found[len(found)-1].prints += line
		}
	}
	return found
}

// run runs the command with nothing kept from before, and returns what it
// prints.
func (s session) run(t *testing.T) string {
	t.Helper()
	var printed bytes.Buffer
	command := exec.CommandContext(t.Context(), "sh", "-c", strings.Replace(s.command, "go run ./cmd/dogleg", "dogleg", 1))
	command.Env = append(os.Environ(), "XDG_DATA_HOME="+t.TempDir(), "DOGLEG_DB=")
	command.Stdin = strings.NewReader(s.typed)
	command.Stdout, command.Stderr = &printed, &printed
	// A status of 2 is an answer too, that it can't be done; what counts is
	// what is printed.
	_ = command.Run()
	return printed.String()
}

// day is when a takeoff was measured, which is another day each time.
var day = regexp.MustCompile(`yours, \d+ [A-Z][a-z]+`)

// settled is what is printed, but for the day and the empty lines at its end.
func settled(prints string) string {
	return strings.TrimRight(day.ReplaceAllString(prints, "yours, today"), "\n")
}

// TestReadmeExamplesAreAnswered asks the examples of the table of asks. Each
// must be answered, as the kind that its row is about.
func TestReadmeExamplesAreAnswered(t *testing.T) {
	rows := regexp.MustCompile("(?m)^\\| ([a-z]+) \\| [^|]+ \\| (`[^|]+`) \\|$").FindAllStringSubmatch(page(t, "README.md"), -1)
	if len(rows) < 12 {
		t.Fatalf("README.md has %d rows of examples; they got lost, or this test no longer finds them", len(rows))
	}
	for _, row := range rows {
		for _, example := range regexp.MustCompile("`([^`]+)`").FindAllStringSubmatch(row[2], -1) {
			exampleIsAnswered(t, example[1], row[1])
		}
	}
}

func exampleIsAnswered(t *testing.T, example, kind string) {
	t.Helper()
	var out bytes.Buffer
	status := Run(t.Context(), []string{"ask", "--json", example}, strings.NewReader(""), &out, &out, environment())
	var record wording.Record
	if err := json.Unmarshal(out.Bytes(), &record); err != nil {
		t.Errorf("%q: %v in %s", example, err, &out)
		return
	}
	if status != answered || string(record.Kind) != kind {
		t.Errorf("%q is answered as %q with status %d, want %q and 0:\n%s",
			example, record.Kind, status, kind, record.Reply)
	}
}

// TestReadmeNamesEveryKey holds the page against the record that ask --json
// prints: whatever it can hold is documented.
func TestReadmeNamesEveryKey(t *testing.T) {
	_, contract, _ := strings.Cut(page(t, "cmd/dogleg/README.md"), "## ask --json")
	contract, _, _ = strings.Cut(contract, "\n## ")
	keys := keysOf(reflect.TypeFor[wording.Record]())
	if len(keys) < 15 {
		t.Fatalf("the record has %d keys; this test no longer finds them", len(keys))
	}
	for _, key := range keys {
		if !strings.Contains(contract, "`"+key+"`") {
			t.Errorf("cmd/dogleg/README.md says nothing of the key %s", key)
		}
	}
}

// TestReadmeNamesEveryRole: what is given and what is figured has a role's key,
// and each is documented.
func TestReadmeNamesEveryRole(t *testing.T) {
	_, contract, _ := strings.Cut(page(t, "cmd/dogleg/README.md"), "## ask --json")
	contract, _, _ = strings.Cut(contract, "\n## ")
	source, err := os.ReadFile(filepath.Join(root, "parser", "ask", "ask.go"))
	if err != nil {
		t.Fatal(err)
	}
	roles := regexp.MustCompile(`(?m)^\t\w+ +Role = "(\w+)"`).FindAllStringSubmatch(string(source), -1)
	if len(roles) < 30 {
		t.Fatalf("only %d roles: this test no longer finds them", len(roles))
	}
	for _, role := range roles {
		switch role[1] {
		case "pipe", "joint", "fitting": // told apart under keys of their own
			continue
		}
		if !strings.Contains(contract, "`"+role[1]+"`") {
			t.Errorf("cmd/dogleg/README.md says nothing of the key %s", role[1])
		}
	}
}

// keysOf are the JSON keys of a struct, with those of the structs in it.
func keysOf(t reflect.Type) []string {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct {
		return nil
	}
	var keys []string
	for field := range t.Fields() {
		key, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		keys = append(append(keys, key), keysOf(field.Type)...)
	}
	return keys
}
