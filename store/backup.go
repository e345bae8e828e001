package store

import "io"

// Backup writes the whole database to w as it is at this moment, while the
// program goes on. What was written is a database file, for [Restore].
func (db *DB) Backup(w io.Writer) error {
	return db.look(func(root *bucket) error {
		_, err := root.bolt.Tx().WriteTo(w)
		return err
	})
}
