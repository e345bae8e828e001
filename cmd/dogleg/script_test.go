package main

import (
	"errors"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"dogleg/store"

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

// lock opens a database for the rest of the script, as another dogleg would.
func lock(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: lock FILE")
	}
	db, err := store.Open(ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Defer(func() { ts.Check(db.Close()) })
}
