package cluster

import (
	"context"
	"testing"

	"dogleg/store"
	"dogleg/store/storetest"
)

// TestContract: a database with a journal does all that one in a file does.
func TestContract(t *testing.T) {
	t.Parallel()
	storetest.Test(t, func(t *testing.T) *store.DB { return shipped(t, sharedServers(t, 1)) })
}

// shipped is a database with a journal; in the end a copy made of the journal
// must hold the same.
func shipped(t *testing.T, s *servers) *store.DB {
	t.Helper()
	w := startWorker(t, s, unhurried)
	db := w.db()
	t.Cleanup(func() {
		k, err := w.shared.Copy(context.Background(), t.TempDir())
		if err != nil {
			t.Error(err)
			return
		}
		sameAs(t, db, k)
		if err := k.Close(); err != nil {
			t.Error(err)
		}
	})
	return db
}
