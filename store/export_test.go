package store

import "go.etcd.io/bbolt"

// Tamper writes to the file past this package, as damage would.
func (db *DB) Tamper(fn func(*bbolt.Tx) error) error { return db.bolt.Update(fn) }

// WithoutSync is for tests that make thousands of commits and kill nothing.
func (db *DB) WithoutSync() { db.bolt.NoSync = true }

// Full says whether the disk is full: the file can't grow.
func (db *DB) Full(full bool) {
	db.bolt.MaxSize = 0
	if full {
		db.bolt.MaxSize = 1
	}
}

// CopyAtOnce says how many bytes Compact copies at once.
func (db *DB) CopyAtOnce(n int) { db.copyAtOnce = n }

// LittleSpace lets no file that Compact makes become larger than so many bytes.
func (db *DB) LittleSpace(bytes int) { db.options.MaxSize = bytes }

// MigrateWith brings an open file up to date by other steps than the real ones.
func (db *DB) MigrateWith(steps ...func(*bbolt.Tx) error) error {
	all := append([]migration{}, migrations...)
	for _, s := range steps {
		all = append(all, func(root *bucket) error { return s(root.bolt.Tx()) })
	}
	return migrate(db.bolt, all)
}

// Version is that of the open file.
func (db *DB) Version() (v uint64) {
	_ = db.bolt.View(func(tx *bbolt.Tx) error { v = version(rootOf(tx, nil)); return nil })
	return v
}
