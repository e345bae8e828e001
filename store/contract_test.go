package store_test

import (
	"errors"
	"path/filepath"
	"testing"
	"time"

	"dogleg/store"
	"dogleg/store/storetest"

	"pgregory.net/rapid"
)

// TestContract: a file does what any database must.
func TestContract(t *testing.T) {
	storetest.Test(t, func(t *testing.T) *store.DB {
		db := fresh(t)
		db.WithoutSync()
		return db
	})
}

// TestContractOfCopies: so does a copy whose changes are shipped, and another that
// they are applied to is the same in the end.
func TestContractOfCopies(t *testing.T) {
	storetest.Test(t, func(t *testing.T) *store.DB {
		there := freshCopy(t)
		db, j := shipping(t)
		t.Cleanup(func() {
			j.apply(t, there)
			alike(t, db, there)
		})
		return db
	})
}

// TestLikeTheModel: with restarts in between as well.
func TestLikeTheModel(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	reopen := func() *store.DB {
		db, err := store.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		db.WithoutSync()
		return db
	}
	db := reopen()
	db.Now = func() time.Time { return noon }
	storetest.LikeTheModel(t, db, func(*store.DB) *store.DB {
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
		db = reopen()
		return db
	})
	if err := errors.Join(db.Check(), db.Close()); err != nil {
		t.Fatal(err)
	}
}

// TestCopiesStayAlike writes at random to a copy that now and then can't ship, and
// applies what it shipped to another, which falls behind and catches up. Either may
// be compacted, or begun anew from a backup of the one that writes.
func TestCopiesStayAlike(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		db, j := shipping(t)
		there := freshCopy(t)
		unplugged := errors.New("unplugged")
		rt.Repeat(map[string]func(*rapid.T){
			"update": func(rt *rapid.T) {
				j.fails = nil
				if rapid.IntRange(0, 4).Draw(rt, "fails") == 0 {
					j.fails = unplugged
				}
				before, shipped := hash(t, db), len(j.all)
				err := db.Update(func(tx *store.Tx) error {
					for range rapid.IntRange(1, 8).Draw(rt, "writes") {
						storetest.Anything(rt, tx)
					}
					return nil
				})
				if err != nil && (j.fails == nil || !errors.Is(err, unplugged)) {
					rt.Fatal(err)
				}
				if changed := hash(t, db) != before; changed && len(j.all) == shipped {
					rt.Fatal("something was written that was not shipped")
				}
			},
			"catch up": func(*rapid.T) { j.apply(t, there) },
			"compact": func(*rapid.T) {
				if err := errors.Join(db.Compact(t.Context()), there.Compact(t.Context())); err != nil {
					rt.Fatal(err)
				}
			},
			"begin anew": func(*rapid.T) { there = backedUp(t, db) },
		})
		j.apply(t, there)
		alike(t, db, there)
	})
}
