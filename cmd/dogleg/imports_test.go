package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// arrows is a statement of policy: what each package of dogleg may import of
// dogleg and of other people's modules. Like the list in the standard library's
// go/build/deps_test.go, it is there so that nobody adds an arrow without
// noticing: to allow a new one, change this table, the picture in
// DEVELOPERS.md, and be ready to say why.
//
// Tests may import what they like; this is about what is shipped.
var arrows = map[string][]string{
	// The trade's mathematics: nothing of ours, no I/O.
	"geometry":      {},
	"geometry/walk": {"geometry"},

	"catalog": {"geometry"},
	"parser":  {"parser/ask", "parser/measure", "parser/read", "parser/words", "catalog", "geometry"},

	// What was asked, as types; what words may mean, as data; how measures are
	// written; and the reader that has learned from people's messages.
	"parser/ask":     {"catalog", "geometry"},
	"parser/words":   {},
	"parser/measure": {"parser/words", "participle"},
	"parser/read":    {"parser/ask", "parser/measure", "parser/words", "catalog", "geometry", "gonum"},

	// The corpus of messages, for the tests of what reads and figures them.
	"parser/asks": {"parser/ask", "catalog", "geometry"},

	"store": {"catalog", "geometry", "bbolt"},

	// What lets several machines be one bot.
	"store/cluster": {"store", "nats"},

	// What any database must do, for the tests of who has one.
	"store/storetest": {"store", "catalog", "geometry", "go-cmp", "rapid"},

	// Below the conversation; none of these may know it.
	"bot/figure":  {"parser", "catalog", "geometry", "geometry/walk"},
	"bot/wording": {"bot/figure", "parser", "catalog", "geometry"},
	"bot/sketch": {
		"bot/figure", "bot/wording", "parser", "catalog", "geometry", "geometry/walk",
		"gg", "liberation", "opentype", "fpdf",
	},

	// The cut list, with its words and its pictures; the sticks are packed below it.
	"bot/cutlist":        {"bot/cutlist/sticks", "bot/figure", "bot/sketch", "bot/wording", "parser", "store", "catalog", "geometry"},
	"bot/cutlist/sticks": {"geometry"},

	// Problems for an apprentice; chance and the clock come in from outside.
	"bot/practice": {"bot/figure", "parser", "catalog", "geometry"},

	// What is said to an apprentice: practice, the exam, words and rules.
	"bot/training": {"bot/figure", "bot/practice", "bot/sketch", "bot/wording", "parser", "catalog", "geometry"},

	"bot": {
		"bot/cutlist", "bot/figure", "bot/sketch", "bot/training", "bot/wording",
		"parser", "parser/words", "store", "catalog", "geometry",
	},

	// Around the conversation; neither knows the other. bot/serve joins Telegram
	// to the conversation and to the store.
	"bot/terminal": {"bot"},
	"bot/telegram": {"bot/telegram/wire"},
	"bot/metrics":  {"bot/telegram", "prometheus"},

	// The ear, the picking of what it heard, and how words sound.
	"bot/voice":       {"opus"},
	"bot/voice/aloud": {},
	"bot/hearing":     {"parser", "parser/read", "catalog"},

	// The Bot API: the calls, and what comes back.
	"bot/telegram/wire": {"telegram-bot-api"},

	// A server for tests to talk to.
	"bot/telegram/loopback": {},

	// Makes what the ear knows of the trade.
	"cmd/teachear": {"bot/hearing", "bot/voice/aloud", "parser/asks"},

	// Makes the reader's weights, and measures how well it reads.
	"cmd/teach": {"bot/figure", "bot/practice", "bot/training", "bot/voice/aloud", "bot/wording", "parser", "parser/ask", "parser/asks", "parser/measure", "parser/read", "geometry"},

	// What runs the bot and keeps it alive.
	"bot/serve": {
		"bot", "bot/telegram", "bot/wording", "bot/hearing", "bot/voice", "bot/metrics",
		"parser", "store", "store/cluster", "systemd", "errgroup",
	},

	// One file a command.
	"cmd/dogleg": {
		"bot", "bot/serve", "bot/terminal", "bot/figure", "bot/wording", "bot/sketch",
		"bot/hearing", "bot/voice", "parser", "catalog", "store", "kong",
	},
}

// modules are other people's modules, by the short names used in arrows.
var modules = map[string]string{
	// What watches over the bot.
	"github.com/coreos/go-systemd/v22/daemon":                   "systemd",
	"github.com/prometheus/client_golang/prometheus":            "prometheus",
	"github.com/prometheus/client_golang/prometheus/collectors": "prometheus",
	"github.com/prometheus/client_golang/prometheus/promhttp":   "prometheus",

	// What several machines keep together.
	"golang.org/x/sync/errgroup":           "errgroup",
	"github.com/nats-io/nats.go":           "nats",
	"github.com/nats-io/nats.go/jetstream": "nats",
	"github.com/nats-io/nuid":              "nats",

	// What tests compare with, in a package that tests import.
	"github.com/google/go-cmp/cmp":         "go-cmp",
	"github.com/google/go-cmp/cmp/cmpopts": "go-cmp",
	"pgregory.net/rapid":                   "rapid",

	// All else.
	"github.com/alecthomas/participle/v2":                 "participle",
	"github.com/alecthomas/participle/v2/lexer":           "participle",
	"gonum.org/v1/gonum/blas":                             "gonum",
	"gonum.org/v1/gonum/blas/blas32":                      "gonum",
	"go.etcd.io/bbolt":                                    "bbolt",
	"go.etcd.io/bbolt/errors":                             "bbolt",
	"github.com/go-telegram-bot-api/telegram-bot-api/v5":  "telegram-bot-api",
	"github.com/alecthomas/kong":                          "kong",
	"git.sr.ht/~sbinet/gg":                                "gg",
	"codeberg.org/go-fonts/liberation/liberationsansbold": "liberation",
	"codeberg.org/go-pdf/fpdf":                            "fpdf",
	"github.com/pion/opus":                                "opus",
	"golang.org/x/image/font":                             "opentype",
	"golang.org/x/image/font/opentype":                    "opentype",
	"golang.org/x/image/math/fixed":                       "opentype",
}

// pure are the packages that only figure: what they return depends on what
// they are given and on nothing else, so they touch no file, network or clock.
var pure = []string{"geometry", "geometry/walk", "catalog", "parser", "bot/figure", "bot/wording", "bot/cutlist/sticks", "bot/cutlist", "bot/sketch", "bot/practice", "bot/hearing", "bot/voice/aloud"}

// outside are the packages of the standard library that reach out of the
// program.
var outside = []string{"os", "os/exec", "net", "net/http", "log", "math/rand", "math/rand/v2", "syscall", "unsafe"}

func TestImportsFollowTheArrows(t *testing.T) {
	imports := goList(t)
	for name := range arrows {
		if _, exists := imports[name]; !exists {
			t.Errorf("arrows has %s, which is no package", name)
		}
	}
	for name, imported := range imports {
		allowed, known := arrows[name]
		if !known {
			t.Errorf("%s is a package without a row in arrows", name)
			continue
		}
		used := map[string]bool{}
		for _, path := range imported {
			short, foreign := shortName(path)
			used[short] = true
			if foreign && !slices.Contains(allowed, short) {
				t.Errorf("%s imports %s", name, path)
			}
		}
		for _, short := range allowed {
			if !used[short] {
				t.Errorf("arrows lets %s import %s, which it no longer does", name, short)
			}
		}
	}
}

func TestPurePackagesReachNothingOutside(t *testing.T) {
	imports := goList(t)
	for _, name := range pure {
		for _, path := range imports[name] {
			if slices.Contains(outside, path) {
				t.Errorf("%s imports %s, but only figures", name, path)
			}
		}
	}
}

func TestTopLevelHoldsNothingNew(t *testing.T) {
	fixed := []string{
		"cmd", "bot", "parser", "geometry", "catalog", "store", "testdata", "deploy",
		"go.mod", "go.sum", "README.md", "DEVELOPERS.md",
	}
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	for _, entry := range entries {
		name := entry.Name()
		found[name] = true
		if strings.HasPrefix(name, ".") || slices.Contains(fixed, name) || ignored(t, name) {
			continue
		}
		t.Errorf("%s is no top-level entry of dogleg's", name)
	}
	for _, name := range fixed {
		if !found[name] {
			t.Errorf("%s is missing at the top level", name)
		}
	}
}

// root is the top of the repository, seen from this package's folder.
var root = filepath.Join("..", "..")

// goList is what each package imports, tests apart: the packages by their path
// within dogleg.
func goList(t *testing.T) map[string][]string {
	t.Helper()
	command := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "./...")
	command.Dir = root
	command.Stderr = os.Stderr
	listing, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	imports := map[string][]string{}
	for line := range strings.Lines(string(listing)) {
		words := strings.Fields(line)
		imports[strings.TrimPrefix(words[0], "dogleg/")] = words[1:]
	}
	return imports
}

// shortName is the name that arrows uses for an import, and whether the import
// is not of the standard library. A module that modules lacks keeps its path,
// which no row allows.
func shortName(path string) (name string, foreign bool) {
	if own, ok := strings.CutPrefix(path, "dogleg/"); ok {
		return own, true
	}
	if short, ok := modules[path]; ok {
		return short, true
	}
	first, _, _ := strings.Cut(path, "/")
	return path, strings.Contains(first, ".")
}

// ignored says whether git ignores a top-level entry: a binary that was built
// there, a database that was tried.
func ignored(t *testing.T, name string) bool {
	t.Helper()
	command := exec.Command("git", "check-ignore", "-q", name)
	command.Dir = root
	return command.Run() == nil
}
