package store

import (
	"io"

	"go.etcd.io/bbolt"
)

// Backup writes the whole database to w as it is at this moment, while the
// program goes on. What was written is a database file, for [Restore].
func (db *DB) Backup(w io.Writer) error {
	db.swap.RLock()
	defer db.swap.RUnlock()
	return db.bolt.View(func(tx *bbolt.Tx) error {
		_, err := tx.WriteTo(w)
		return err
	})
}
