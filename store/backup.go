package store

import "io"

// Backup writes the whole database to w as it is at this moment, while the
// program goes on. What was written is a database file, for [Restore].
func (db *DB) Backup(w io.Writer) error {
	tx, err := db.beginToRead()
	if err != nil {
		return err
	}
	defer func() { _ = tx.Rollback() }() // which fails only where it was called before
	_, err = tx.WriteTo(w)
	return err
}
