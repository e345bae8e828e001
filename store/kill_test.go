package store_test

import (
	"bufio"
	"context"
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"dogleg/store"
)

// childPath, when set in the environment, turns the test program into the
// process that is to be killed.
const childPath = "DOGLEG_STORE_TEST_CHILD"

func TestMain(m *testing.M) {
	if path := os.Getenv(childPath); path != "" {
		writeUntilKilled(path)
	}
	os.Exit(m.Run())
}

// kills is how often the process is killed; enough to hit every part of a
// commit, which takes most of the time that the child runs.
const kills = 40

// writeUntilKilled commits one message after another and prints the number of
// each after its commit. Each leaves a job, a reply, a mark and a cursor. After
// every few the file is compacted.
func writeUntilKilled(path string) {
	db, err := store.Open(path)
	if err != nil {
		fmt.Println("error:", err)
		os.Exit(1)
	}
	for {
		var n uint64
		err := db.Update(func(tx *store.Tx) error {
			p := tx.Person(dana)
			n = p.AddJob(store.Job{Asked: strings.Repeat("12 set 45s ", 200)})
			tx.Queue(upstairs, binary.BigEndian.AppendUint64(nil, n))
			tx.MarkDone(fmt.Sprint(n))
			tx.SetCursor("getUpdates", store.Source{}, int64(n))
			return nil
		})
		if err != nil {
			fmt.Println("error:", err)
			os.Exit(1)
		}
		fmt.Println(n)
		if n%5 == 0 {
			if err := db.Compact(context.Background()); err != nil {
				fmt.Println("error:", err)
				os.Exit(1)
			}
		}
	}
}

// TestKilledInMidCommit kills a process again and again that writes and compacts. What it had
// reported as committed must be there, whole; what it had not must be there
// whole or not at all.
func TestKilledInMidCommit(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	var reported uint64
	for kill := range kills {
		// The pause only has to differ from kill to kill; where it falls in a
		// commit is up to the disk.
		reported = max(reported, runAndKill(t, path, time.Duration(1+kill*7%20)*time.Millisecond))
		reported = afterKill(t, path, reported)
	}
	if reported < kills {
		t.Errorf("%d commits in %d runs: the kills came too early to prove anything", reported, kills)
	}
}

// runAndKill starts the child, kills it some time after its first commit, and
// returns the last number that it reported.
func runAndKill(t *testing.T, path string, pause time.Duration) (reported uint64) {
	t.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), childPath+"="+path)
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if reported == 0 {
			time.AfterFunc(pause, func() { _ = child.Process.Kill() })
		}
		if _, err := fmt.Sscan(lines.Text(), &reported); err != nil {
			t.Errorf("the child said %q", lines.Text())
		}
	}
	_ = child.Wait() // killed: always an error
	return reported
}

// afterKill opens what the child left and returns the number of its last
// message.
func afterKill(t *testing.T, path string, reported uint64) (last uint64) {
	t.Helper()
	db, err := store.Open(path)
	if err != nil {
		t.Fatalf("Open after a kill: %v", err)
	}
	defer db.Close()
	if err := db.Check(); err != nil {
		t.Fatalf("check after a kill: %v", err)
	}
	if files, err := os.ReadDir(filepath.Dir(path)); err != nil || len(files) != 1 {
		t.Errorf("left behind: %v, %v", files, err)
	}
	view(t, db, func(tx *store.Tx) {
		job, _ := tx.Person(dana).Job(0)
		last = job.Number
		if last < reported {
			t.Fatalf("job %d was committed, the last one there is %d", reported, last)
		}
		if at, _ := tx.Cursor("getUpdates", store.Source{}); uint64(at) != last {
			t.Errorf("cursor at %d beside job %d", at, last)
		}
		if tx.Done(fmt.Sprint(last+1)) || last > 0 && !tx.Done(fmt.Sprint(last)) {
			t.Errorf("the marks don't end with job %d", last)
		}
		outbox := tx.Outbox()
		if uint64(len(outbox)) != last {
			t.Fatalf("%d replies for %d jobs", len(outbox), last)
		}
		for i, e := range outbox {
			if n := binary.BigEndian.Uint64(e.Payload); n != uint64(i+1) {
				t.Fatalf("reply %d is for job %d", i+1, n)
			}
		}
	})
	return last
}
