package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"dogleg/store"
)

// TestChatCrash kills the real program while it answers line after line. Every
// job whose reply was read must be on the disk, with none half-saved, and the
// next start goes on with them.
func TestChatCrash(t *testing.T) {
	const kills = 8
	path := filepath.Join(t.TempDir(), "dogleg.db")
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	replies := 0
	for n := range kills {
		replies += repliesUntilKilled(t, path, time.Duration(20+random.IntN(100))*time.Millisecond, n%2 == 0)
	}
	if replies == 0 {
		t.Fatal("killed before it ever replied; nothing was tested")
	}

	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if err := db.Check(); err != nil {
		t.Error(err)
	}
	var kept uint64 // the last job's number: the oldest jobs are let go
	_ = db.View(func(tx *store.Tx) error {
		last, _ := tx.Person(atTheTerminal("")).Job(0)
		kept = last.Number
		return nil
	})
	// Each kill may hit between the commit and the reply.
	if int(kept) < replies || int(kept) > replies+kills {
		t.Errorf("%d jobs kept of %d replies read and %d kills", kept, replies, kills)
	}
}

// repliesUntilKilled writes asks to a chat and counts its replies until the
// time is up, which runs from the start or, where it is to reply, from its first
// reply: on a busy machine the start alone may take longer.
func repliesUntilKilled(t *testing.T, path string, after time.Duration, toReply bool) int {
	t.Helper()
	process := exec.Command("dogleg", "chat", "--db", path)
	process.Stderr = os.Stderr
	in, err := process.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := process.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := process.Start(); err != nil {
		t.Fatal(err)
	}
	timer := time.AfterFunc(after, func() { _ = process.Process.Kill() })
	if toReply {
		timer.Stop()
	}
	count := converse(in, bufio.NewReader(out), func() {
		if toReply {
			timer.Reset(after)
		}
	})
	_ = process.Wait() // says that it was killed
	return count
}

// converse asks for one offset after the other until nobody answers, and
// returns how many were answered whole. A reply ends with an empty line; the
// first is told.
func converse(in io.Writer, out *bufio.Reader, first func()) int {
	for count := 0; ; count++ {
		if count == 1 {
			first()
		}
		if _, err := fmt.Fprintf(in, "set %d 45s 2 in pvc\n", 10+count); err != nil {
			return count
		}
		for line := ""; line != "\n"; {
			var err error
			if line, err = out.ReadString('\n'); err != nil {
				return count
			}
		}
	}
}

// TestDamageIsTrouble overwrites the pages of a database one at a time. Where
// one is damaged that an answer rests on, that is trouble with the machine and
// no answer, and the file stays as it is. Each try is a process of its own,
// since a page without sense may leave bbolt's locks behind.
func TestDamageIsTrouble(t *testing.T) {
	path := filepath.Join(t.TempDir(), "dogleg.db")
	if status, out := dogleg(t, "ask", "--db", path, "set 15 45s 2 in pvc"); status != answered {
		t.Fatalf("exit status %d: %s", status, out)
	}
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	met, page := 0, os.Getpagesize()
	for at := 2 * page; at < len(whole); at += page { // the first two are bbolt's own, each with a checksum
		damaged := slices.Clone(whole)
		copy(damaged[at:], bytes.Repeat([]byte{0xA5}, page))
		if err := os.WriteFile(path, damaged, 0o600); err != nil {
			t.Fatal(err)
		}
		if status, _ := dogleg(t, "check", "--db", path); status == answered {
			continue // a page that nothing is on
		}
		met++
		if status, out := dogleg(t, "ask", "--db", path, "jobs"); status != trouble || out != "" {
			t.Errorf("page %d damaged: exit status %d, want %d; printed %q", at/page, status, trouble, out)
		}
		if now, _ := os.ReadFile(path); !bytes.Equal(now, damaged) {
			t.Errorf("page %d damaged: the file was written to", at/page)
		}
	}
	if met == 0 {
		t.Error("no page that mattered was damaged")
	}
}

// dogleg runs the program in a process of its own; what it prints is that on
// standard output.
func dogleg(t *testing.T, args ...string) (status int, printed string) {
	t.Helper()
	var out bytes.Buffer
	process := exec.CommandContext(t.Context(), "dogleg", args...)
	process.Stdout = &out
	if err := process.Run(); err != nil && process.ProcessState == nil {
		t.Fatal(err)
	}
	return process.ProcessState.ExitCode(), out.String()
}
