package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dogleg/bot/wording"
	"dogleg/store"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain puts this very program in the shell's path, so that scripts run the
// real one in a process of its own.
func TestMain(m *testing.M) {
	testscript.Main(withTable{m}, map[string]func(){"dogleg": main, "nats-for-tests": natsForTests})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join(root, "testdata", "script"),
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status": status,
			"lock":   lock,
			"talk":   talk,
		},
		Setup: func(env *testscript.Env) error {
			env.Setenv("XDG_DATA_HOME", filepath.Join(env.WorkDir, "data"))
			return nil
		},
	})
}

// status runs a command and wants exactly this exit status of it:
//
//	status 2 dogleg ask 'good morning'
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status NUMBER COMMAND [ARG…]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		failed, ok := errors.AsType[*exec.ExitError](err)
		if !ok {
			ts.Fatalf("%v", err)
		}
		got = failed.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// anyDay is a day as it is cited, and cualquierDía one of a takeoff in Spanish.
var (
	anyDay       = regexp.MustCompile(`\b\d{1,2} (?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\b`)
	cualquierDía = regexp.MustCompile(`\btuyo, \d{1,2} (?:ene|feb|mar|abr|may|jun|jul|ago|sep|oct|nov|dic)\b`)
)

// talk has a conversation with dogleg chat, and compares it with a file. A line
// after > is what somebody writes; what stands below it is the reply, as it is
// broken on a phone of 38 columns. The day that a takeoff was measured on is
// today.
func talk(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: talk FILE")
	}
	want := ts.ReadFile(args[0])
	var got strings.Builder
	for line := range strings.Lines(want) {
		typed, ok := strings.CutPrefix(line, "> ")
		if !ok {
			continue
		}
		ts.Check(os.WriteFile(ts.MkAbs("typed"), []byte(typed), 0o600))
		ts.Check(ts.Exec("sh", "-c", "dogleg chat --seed 3 <typed"))
		reply := anyDay.ReplaceAllString(strings.TrimRight(ts.ReadFile("stdout"), "\n"), "today")
		reply = cualquierDía.ReplaceAllString(reply, "tuyo, hoy")
		got.WriteString(line + strings.Join(wording.Wrap(reply), "\n") + "\n\n")
	}
	if diff := cmp.Diff(strings.TrimRight(want, "\n"), strings.TrimRight(got.String(), "\n")); diff != "" {
		ts.Fatalf("%s (-) and dogleg (+) differ:\n%s", args[0], diff)
	}
}

// lock opens a database for the rest of the script, as another dogleg would.
func lock(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: lock FILE")
	}
	db, err := store.Open(ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Defer(func() { ts.Check(db.Close()) })
}
