package store_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"dogleg/store"
	"dogleg/store/storetest"

	"go.etcd.io/bbolt"
)

// TestCheckFindsWhatIsPlanted writes one wrong thing at a time past the
// package, and expects Check to name it.
func TestCheckFindsWhatIsPlanted(t *testing.T) {
	people := func(tx *bbolt.Tx) *bbolt.Bucket { return tx.Bucket([]byte("people")).Bucket([]byte(dana)) }
	crew := func(tx *bbolt.Tx) *bbolt.Bucket { return tx.Bucket([]byte("crews")).Bucket([]byte(dana.Chat())) }
	eight := func(n byte) []byte { return []byte{0, 0, 0, 0, 0, 0, 0, n} }
	for name, planted := range map[string]struct {
		plant func(tx *bbolt.Tx) error
		want  string
	}{
		"no version": {
			func(tx *bbolt.Tx) error { return tx.Bucket([]byte("meta")).Delete([]byte("version")) },
			"version",
		},
		"missing bucket": {
			func(tx *bbolt.Tx) error { return tx.DeleteBucket([]byte("cursors")) },
			"bucket cursors is missing",
		},
		"strange bucket": {
			func(tx *bbolt.Tx) error { _, err := tx.CreateBucket([]byte("tools")); return err },
			"unknown bucket tools",
		},
		"not a person": {
			func(tx *bbolt.Tx) error { return tx.Bucket([]byte("people")).Put([]byte("x"), []byte("y")) },
			"x is not a person",
		},
		"strange entry": {
			func(tx *bbolt.Tx) error { return people(tx).Put([]byte("shoe"), []byte("10")) },
			`unknown entry "shoe"`,
		},
		"half a job": {
			func(tx *bbolt.Tx) error {
				return people(tx).Bucket([]byte("jobs")).Put(eight(1), []byte(`{"Number":1,"Na`))
			},
			"job 1: ",
		},
		"job under another's number": {
			func(tx *bbolt.Tx) error {
				b := people(tx).Bucket([]byte("jobs"))
				if err := b.SetSequence(2); err != nil {
					return err
				}
				return b.Put(eight(2), unsealed(b.Get(eight(1))))
			},
			"job 2: wrong number 1",
		},
		"job ahead of the count": {
			func(tx *bbolt.Tx) error {
				return people(tx).Bucket([]byte("jobs")).Put(eight(9), []byte(`{"Number":9}`))
			},
			"job 9: wrong number",
		},
		"piece under another's number": {
			func(tx *bbolt.Tx) error {
				b := people(tx).Bucket([]byte("cuts"))
				if err := b.SetSequence(2); err != nil {
					return err
				}
				return b.Put(eight(2), unsealed(b.Get(eight(1))))
			},
			"piece 2: wrong number 1",
		},
		"piece of no length": {
			func(tx *bbolt.Tx) error {
				return people(tx).Bucket([]byte("cuts")).Put(eight(1), []byte(`{"Number":1}`))
			},
			"or no length",
		},
		"takeoff under another's key": {
			func(tx *bbolt.Tx) error {
				b := people(tx).Bucket([]byte("takeoffs"))
				k, v := b.Cursor().First()
				return b.Put([]byte(string(k)+"x"), unsealed(v))
			},
			"wrong key",
		},
		"not a crew": {
			func(tx *bbolt.Tx) error { return tx.Bucket([]byte("crews")).Put([]byte("x"), []byte("y")) },
			"x is not a crew",
		},
		"strange entry of a crew": {
			func(tx *bbolt.Tx) error { return crew(tx).Put([]byte("shoe"), []byte("10")) },
			`unknown entry "shoe"`,
		},
		"crew's takeoff under another's key": {
			func(tx *bbolt.Tx) error {
				b := crew(tx).Bucket([]byte("takeoffs"))
				k, v := b.Cursor().First()
				return b.Put([]byte(string(k)+"x"), unsealed(v))
			},
			"wrong key",
		},
		"person whom nobody finds": {
			func(tx *bbolt.Tx) error { return tx.Bucket([]byte("users")).Delete([]byte("telegram/7/1207")) },
			"not found among the users",
		},
		"user that leads to another": {
			func(tx *bbolt.Tx) error {
				return tx.Bucket([]byte("users")).Put([]byte("telegram/8/1207"), []byte(dana))
			},
			"leads to",
		},
		"entry without a chat": {
			func(tx *bbolt.Tx) error { return tx.Bucket([]byte("outbox")).Put(eight(1), []byte(`{}`)) },
			"outbox 1: no chat",
		},
		"id out of order": {
			func(tx *bbolt.Tx) error { return tx.Bucket([]byte("seen_order")).Delete(eight(1)) },
			"has no place in the order",
		},
		"order without an id": {
			func(tx *bbolt.Tx) error { return tx.Bucket([]byte("seen")).Delete([]byte("727334708")) },
			"not seen",
		},
		"bad cursor": {
			func(tx *bbolt.Tx) error { return tx.Bucket([]byte("cursors")).Put([]byte("x"), []byte("5 o'clock")) },
			`cursor "x"`,
		},
		"bad quarantine": {
			func(tx *bbolt.Tx) error { return tx.Bucket([]byte("quarantine")).Put(eight(1), []byte("?")) },
			"quarantine 1",
		},
	} {
		t.Run(name, func(t *testing.T) {
			db, err := store.Open(filepath.Join(t.TempDir(), "juniper.db"))
			if err != nil {
				t.Fatal(err)
			}
			defer db.Close()
			update(t, db, storetest.Everything)
			if err := db.Check(); err != nil {
				t.Fatalf("before anything is planted: %v", err)
			}
			if err := db.Tamper(planted.plant); err != nil {
				t.Fatal(err)
			}
			if err := db.Check(); err == nil || !strings.Contains(err.Error(), planted.want) {
				t.Errorf("Check: %v, want %q in it", err, planted.want)
			}
			if err := db.CheckPages(); err != nil {
				t.Errorf("CheckPages: %v; the pages are whole", err)
			}
			if err := db.CheckRecords(t.Context()); err == nil || !strings.Contains(err.Error(), planted.want) {
				t.Errorf("CheckRecords: %v, want %q in it", err, planted.want)
			}
		})
	}
}

// unsealed is a value without its checksum, as an earlier version wrote it.
func unsealed(v []byte) []byte { return v[:bytes.LastIndexByte(v, 0x1E)] }

// TestCheckRecordsBesideOthers reads the records through while people come, write
// and are forgotten: none of that is a fault, and it ends when it is told to.
func TestCheckRecordsBesideOthers(t *testing.T) {
	db := fresh(t)
	db.WithoutSync()
	person := func(tx *store.Tx, n int) *store.Person {
		name := strconv.Itoa(n)
		return tx.Person(store.ChatOf("telegram", name).Person(name))
	}
	const people = 500
	update(t, db, func(tx *store.Tx) {
		for n := range people {
			person(tx, n).AddJob(store.Job{Asked: "12 set 45s"})
		}
	})
	over := make(chan error)
	go func() { over <- db.CheckRecords(t.Context()) }()
	for n := people - 1; n >= 0; n -= 9 {
		update(t, db, func(tx *store.Tx) {
			person(tx, n).Forget("")
			person(tx, people+n).AddJob(store.Job{Asked: "14 set 45s"})
		})
	}
	if err := <-over; err != nil {
		t.Error(err)
	}
	ended, end := context.WithCancel(t.Context())
	end()
	if err := db.CheckRecords(ended); !errors.Is(err, context.Canceled) {
		t.Errorf("CheckRecords, of an ended context: %v", err)
	}
}

// TestDamageFurtherIn scribbles over one page at a time. Each time the file is
// refused, or found damaged, or the page held nothing that counts; nothing panics,
// and the file is left as it was.
func TestDamageFurtherIn(t *testing.T) {
	whole, page := filled(t), os.Getpagesize()
	found := 0
	for at := 2 * page; at+page <= len(whole); at += page {
		for _, scribble := range []string{"x", "\x00", "\xff"} {
			damaged := bytes.Clone(whole)
			copy(damaged[at:at+page], bytes.Repeat([]byte(scribble), page))
			path := filepath.Join(t.TempDir(), "juniper.db")
			write(t, path, damaged)
			db, err := store.Open(path)
			if err == nil {
				err = db.Check()
				if closed := db.Close(); closed != nil {
					t.Error(closed)
				}
			}
			if err != nil {
				found++
			}
			if !bytes.Equal(read(t, path), damaged) {
				t.Errorf("page %d, %q: the file was changed", at/page, scribble)
			}
		}
	}
	if pages := len(whole)/page - 2; found < pages {
		t.Errorf("%d of %d kinds of damage found", found, 3*pages)
	}
}

// TestOneBitFlipped flips one bit near the start of a page, where a page says what it
// is, how much is on it and where that stands. Each time the file is opened, looked
// through, read and written to as far as that goes; nothing is read beyond the file, or
// without end, and what is said of it names the file.
func TestOneBitFlipped(t *testing.T) {
	whole, page := filled(t), os.Getpagesize()
	refused, found, sound := 0, 0, 0
	for at := 0; at+page <= len(whole); at += page {
		for _, bit := range []int{0, 3, 8, 64, 69, 80, 82, 94, 96, 100, 104, 127, 128, 133, 160, 161, 175, 176, 190, 191, 192, 200, 222, 223, 224, 255, 256 + 31} {
			damaged := bytes.Clone(whole)
			damaged[at+bit/8] ^= 1 << (bit % 8)
			path := filepath.Join(t.TempDir(), "juniper.db")
			write(t, path, damaged)
			db, err := store.Open(path)
			if err != nil {
				refused++
				named(t, path, err)
				continue
			}
			err = db.CheckPages()
			if err == nil {
				sound++
			} else {
				found++
				named(t, path, err)
			}
			if everything := db.Check(); everything != nil {
				named(t, path, everything)
			}
			// Whoever doesn't look first is not killed either.
			_ = db.View(func(tx *store.Tx) error {
				for _, k := range tx.People() {
					tx.Person(k).Jobs()
				}
				tx.Outbox()
				return nil
			})
			_ = db.Close()
		}
	}
	t.Logf("%d refused, %d found, %d whole", refused, found, sound)
	if found+refused < sound {
		t.Errorf("%d are found or refused, %d look whole", found+refused, sound)
	}
}

// TestRotInARecord flips one bit of each value that a person keeps, so that it still
// reads as JSON or not. Whatever is read afterwards is what was written, or an error, and
// Check names the record.
func TestRotInARecord(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	const length = 14.7205627484771 // of a cut, whose last digits may rot
	update(t, db, func(tx *store.Tx) {
		tx.Person(dana).AddCut(store.Cut{Length: length, System: "pvc-dwv", Size: "2"})
	})
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	whole := read(t, path)
	at := bytes.Index(whole, []byte(`"Length":14.7`))
	if at < 0 || bytes.Count(whole, []byte(`"Length":14.7`)) != 1 {
		t.Fatal("the piece isn't where it was expected: the test proves nothing")
	}
	for n := range 60 {
		damaged := bytes.Clone(whole)
		damaged[at+n/2] ^= 1 << (n % 2)
		write(t, path, damaged)
		db, err := store.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		read := db.View(func(tx *store.Tx) error {
			if cuts := tx.Person(dana).Cuts(); len(cuts) == 1 {
				t.Errorf("%q is read as %v", damaged[at:at+30], cuts[0].Length.Inches())
			}
			return nil
		})
		if read == nil {
			t.Errorf("%q is read without an error", damaged[at:at+30])
		}
		if err := db.Check(); err == nil || !strings.Contains(err.Error(), "checksum") {
			t.Errorf("Check: %v", err)
		} else {
			named(t, path, err)
		}
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	}
}

func named(t *testing.T, path string, err error) {
	t.Helper()
	if !strings.Contains(err.Error(), path) {
		t.Errorf("the file is not named: %v", err)
	}
}

// One message of the outbox that can't be read stops none of the others, and can be
// struck off.
func TestRotInTheOutbox(t *testing.T) {
	db, err := store.Open(filepath.Join(t.TempDir(), "juniper.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	update(t, db, func(tx *store.Tx) {
		for _, text := range []string{"first", "second", "third"} {
			tx.Queue(upstairs, []byte(text))
		}
	})
	err = db.Tamper(func(tx *bbolt.Tx) error {
		second := []byte{0, 0, 0, 0, 0, 0, 0, 2}
		rotten := bytes.Clone(tx.Bucket([]byte("outbox")).Get(second))
		rotten[20] ^= 1
		return tx.Bucket([]byte("outbox")).Put(second, rotten)
	})
	if err != nil {
		t.Fatal(err)
	}
	update(t, db, func(tx *store.Tx) {
		box := tx.Outbox()
		if len(box) != 3 || string(box[0].Payload) != "first" || box[1].Payload != nil || box[1].Chat != "" || string(box[2].Payload) != "third" {
			t.Errorf("waits: %+v", box)
		}
		if _, ok := tx.Entry(2); ok {
			t.Error("the second is read")
		}
		tx.StrikeOff(box[1])
	})
	if err := db.Check(); err != nil {
		t.Error(err)
	}
}
