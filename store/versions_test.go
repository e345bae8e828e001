package store_test

import (
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	"dogleg/store"

	"go.etcd.io/bbolt"
)

// TestEarlierVersionsAreBroughtUpToDate opens a stored file of each version there
// has been. All that it holds is there afterwards, and all that can be kept today
// can be kept in it.
func TestEarlierVersionsAreBroughtUpToDate(t *testing.T) {
	today := fresh(t).Version()
	for version := uint64(1); version <= today; version++ {
		t.Run(fmt.Sprint(version), func(t *testing.T) {
			db := open(t, unpacked(t, fmt.Sprintf("testdata/versions/%d.db.gz", version)))
			if got := db.Version(); got != today {
				t.Errorf("version %d, want %d", got, today)
			}
			update(t, db, func(tx *store.Tx) {
				p := tx.Person(dana)
				job, _ := p.Job(1)
				if job.Asked != "12 set 45s 2 pvc" || job.Name != "laundry" || !job.When.Equal(noon) {
					t.Errorf("job: %+v", job)
				}
				own := p.Takeoffs()
				if len(own) != 1 || own[0].Length.Inches() != 1.125 || own[0].Fitting != "45" {
					t.Errorf("takeoffs: %+v", own)
				}
				if got := string(p.Note(store.Settings)); got != `{"Metric":true}` {
					t.Errorf("settings: %s", got)
				}
				outbox := tx.Outbox()
				if len(outbox) != 1 || outbox[0].Chat != upstairs || string(outbox[0].Payload) != `{"text":"waits"}` {
					t.Errorf("outbox: %+v", outbox)
				}
				at, _ := tx.Cursor("telegram updates", store.Source{Bot: 1, Server: "https://api.telegram.org"})
				if at != 727334709 || !tx.Done("telegram 1 https://api.telegram.org 727334708") {
					t.Errorf("cursor at %d, or what was done isn't", at)
				}
				if q := tx.Quarantined(); len(q) != 1 || string(q[0].Raw) != `{"update_id":2}` {
					t.Errorf("quarantine: %+v", q)
				}
				p.SetCrewTakeoff(own[0])
				p.AddCut(store.Cut{Length: own[0].Length})
				if n := p.AddJob(store.Job{}); n != 2 {
					t.Errorf("the next job is number %d", n)
				}
			})
		})
	}
}

func unpacked(t *testing.T, packed string) string {
	t.Helper()
	file, err := os.Open(packed)
	if err != nil {
		t.Fatalf("every version has a stored file: %v", err)
	}
	defer file.Close()
	r, err := gzip.NewReader(file)
	if err != nil {
		t.Fatal(err)
	}
	content, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "juniper.db")
	write(t, path, content)
	return path
}

// older makes of an open database a file of an earlier version, which lacks a
// bucket, and closes it.
func older(t *testing.T, db *store.DB, version byte, lacks string) {
	t.Helper()
	err := db.Tamper(func(tx *bbolt.Tx) error {
		if err := tx.DeleteBucket([]byte(lacks)); err != nil {
			return err
		}
		return tx.Bucket([]byte("meta")).Put([]byte("version"), []byte{0, 0, 0, 0, 0, 0, 0, version})
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
}
