package store_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dogleg/store"
)

// reopened is what the next process finds when the one before was killed.
func reopened(t *testing.T, path string) *store.Begun {
	t.Helper()
	b, err := store.OpenBegun(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = b.Close() })
	return b
}

func wantDeaths(t *testing.T, b *store.Begun, what string, want int) (end func()) {
	t.Helper()
	got, end := b.Begin(what)
	if got != want {
		t.Errorf("%s: %d deaths, want %d", what, got, want)
	}
	return end
}

func TestWhatWasBegunIsKnownAfterwards(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db.begun")
	first := reopened(t, path)
	wantDeaths(t, first, "update 1", 0)()
	wantDeaths(t, first, "update 2", 0)
	wantDeaths(t, first, "picture 7", 0)
	second := reopened(t, path)
	wantDeaths(t, second, "update 1", 0)
	wantDeaths(t, second, "picture 7", 1)()
	wantDeaths(t, second, "update 2", 1)
	third := reopened(t, path)
	wantDeaths(t, third, "picture 7", 0)()
	wantDeaths(t, third, "update 2", 2)()
	wantDeaths(t, third, "update 1", 1)()
	last := reopened(t, path)
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info, err)
	}
	wantDeaths(t, last, "update 2", 0)()
	if err := last.Close(); err != nil {
		t.Error(err)
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("it stays although it tells nothing")
	}
}

// A file that was cut short, or holds what nobody wrote, costs what it held.
func TestBegunFileIsTorn(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db.begun")
	b := reopened(t, path)
	for n := range 5 {
		wantDeaths(t, b, fmt.Sprint("update ", n), 0)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for cut := range len(text) {
		write(t, path, text[:cut])
		wantDeaths(t, reopened(t, path), "another", 0)()
	}
	write(t, path, []byte("\x00\x00 what\n-7\n99999999999999999999 x\n1\n\n0 update 3\n"))
	wantDeaths(t, reopened(t, path), "update 3", 1)()
}

// It stays small, however many die.
func TestBegunFileStaysSmall(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db.begun")
	for n := range 300 {
		b := reopened(t, path)
		wantDeaths(t, b, fmt.Sprint("update ", n), 0)
		_ = b.Close()
	}
	text, err := os.ReadFile(path)
	if lines := strings.Count(string(text), "update"); err != nil || lines > 65 {
		t.Errorf("%d lines, %v", lines, err)
	}
}

func BenchmarkBegun(b *testing.B) {
	begun, err := store.OpenBegun(filepath.Join(b.TempDir(), "juniper.db.begun"))
	if err != nil {
		b.Fatal(err)
	}
	defer begun.Close()
	for b.Loop() {
		_, end := begun.Begin("telegram 7 https://api.telegram.org 123456789")
		end()
	}
}
