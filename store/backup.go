package store

import (
	"io"

	"go.etcd.io/bbolt"
)

// Backup writes the whole database to w as it is at this moment, while the
// program goes on. What was written is a database file: to restore it, put it
// in the place of the old one while no dogleg runs.
func (db *DB) Backup(w io.Writer) error {
	return db.bolt.View(func(tx *bbolt.Tx) error {
		_, err := tx.WriteTo(w)
		return err
	})
}
