package store

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// Changes are what one transaction wrote, for [DB.Apply] to write into another
// copy of the database. Empty ones are of a transaction that wrote nothing.
//
// They are bytes, to be kept and sent as they are: the number of this form, the
// version of the schema, and then one operation after another. An operation is
// a letter and its fields; it is about the bucket that the last operation of the
// kind inBucket named, at first the root. A field is its length and its bytes;
// the path of a bucket is one field that holds the names on the way.
type Changes []byte

// ErrMisfit: changes that are damaged, or were made on a database that held
// something else than the copy they should be written into.
var ErrMisfit = errors.New("changes that don't fit this copy of the database")

// changesForm is the number of the form above.
const changesForm = 1

// operation is a kind of write.
type operation byte

const (
	inBucket     operation = 'i' // path
	putKey       operation = 'p' // key, value
	deleteKey    operation = 'd' // key
	makeBucket   operation = 'm' // name
	deleteBucket operation = 'x' // name
	setSequence  operation = 's' // number
)

// fields is how many fields the operation has; false for one that there isn't.
func (o operation) fields() (n int, ok bool) {
	switch o {
	case putKey:
		return 2, true
	case inBucket, deleteKey, makeBucket, deleteBucket, setSequence:
		return 1, true
	}
	return 0, false
}

// record gathers the operations of a transaction.
type record struct {
	operations []byte
	path       string // of the bucket that the last one was about
}

// add notes an operation that was done on a bucket. A nil record notes nothing.
func (r *record) add(on *bucket, o operation, fields ...[]byte) {
	if r == nil {
		return
	}
	if r.path != string(on.path) {
		r.path = string(on.path)
		r.append(inBucket, on.path)
	}
	r.append(o, fields...)
}

func (r *record) append(o operation, fields ...[]byte) {
	r.operations = append(r.operations, byte(o))
	for _, field := range fields {
		r.operations = appendField(r.operations, field)
	}
}

// rewind sees to it that what follows can be read by itself, and returns where it
// will begin.
func (r *record) rewind() int {
	if r.path != "" {
		r.path = ""
		r.append(inBucket, nil)
	}
	return len(r.operations)
}

// changes are what was gathered from there on, of a database with this version.
func (r *record) changes(from int, version uint64) Changes {
	c := binary.AppendUvarint([]byte{changesForm}, version)
	return append(c, r.operations[from:]...)
}

func appendField(to, field []byte) []byte {
	return append(binary.AppendUvarint(to, uint64(len(field))), field...)
}

// cutField takes the first field off.
func cutField(text []byte) (field, rest []byte, ok bool) {
	n, read := binary.Uvarint(text)
	if read <= 0 || n > uint64(len(text)-read) {
		return nil, nil, false
	}
	return text[read : read+int(n)], text[read+int(n):], true
}

// header is the version of the schema, and the operations behind it.
func (c Changes) header() (version uint64, operations []byte, err error) {
	if c[0] > changesForm {
		return 0, nil, ErrNewer
	}
	version, read := binary.Uvarint(c[1:])
	switch {
	case c[0] != changesForm || read <= 0:
		return 0, nil, ErrMisfit
	case version > uint64(len(migrations)):
		return 0, nil, ErrNewer
	}
	return version, c[1+read:], nil
}

// replay does to a database what was done to another. It fails before it does
// anything that another than the one the changes were made on would suffer: at
// the end both have the same version, and of ours all that it has at its top.
func (c Changes) replay(root *bucket) error {
	if len(c) == 0 {
		return nil
	}
	made, rest, err := c.header()
	if err != nil {
		return err
	}
	err = perform(root, rest, (*bucket).along, (*bucket).do)
	switch {
	case err != nil:
		return fmt.Errorf("%w: %w", ErrMisfit, err)
	case root.Bucket(metaBucket) == nil:
		return fmt.Errorf("%w: they leave nothing to keep where the copy stands in", ErrMisfit)
	case version(root) != made:
		return fmt.Errorf("%w: they are of version %d, it is of %d", ErrMisfit, made, version(root))
	case made < uint64(len(migrations)):
		return nil
	}
	if wrong := misplaced(root); len(wrong) > 0 {
		return fmt.Errorf("%w: %s", ErrMisfit, wrong[0])
	}
	return nil
}

// perform does one operation after another, each in the bucket that along finds.
func perform(root *bucket, operations []byte, along func(*bucket, []byte) *bucket, do func(*bucket, operation, [2][]byte) error) error {
	at := root
	for len(operations) > 0 {
		o := operation(operations[0])
		fields, rest, err := cutFields(o, operations[1:])
		if err != nil {
			return err
		}
		operations = rest
		if o == inBucket {
			at = along(root, fields[0])
			continue
		}
		if at == nil {
			return errors.New("a bucket is missing")
		}
		if err := do(at, o, fields); err != nil {
			return err
		}
	}
	return nil
}

var errCutShort = errors.New("they are damaged")

// cutFields takes the fields of an operation off.
func cutFields(o operation, text []byte) (fields [2][]byte, rest []byte, err error) {
	n, ok := o.fields()
	for i := 0; ok && i < n; i++ {
		fields[i], text, ok = cutField(text)
	}
	if !ok {
		return fields, nil, errCutShort
	}
	return fields, text, nil
}

// along is the bucket at the end of a path, nil if there is none.
func (b *bucket) along(path []byte) *bucket {
	for len(path) > 0 && b != nil {
		name, rest, ok := cutField(path)
		if !ok {
			return nil
		}
		b, path = b.Bucket(name), rest
	}
	return b
}

// do does one operation.
func (b *bucket) do(o operation, fields [2][]byte) error {
	switch o {
	case putKey:
		return b.Put(fields[0], fields[1])
	case deleteKey:
		return b.Delete(fields[0])
	case makeBucket:
		_, err := b.create(fields[0])
		return err
	case deleteBucket:
		return b.DeleteBucket(fields[0])
	case setSequence:
		return b.SetSequence(numberOf(fields[0]))
	case inBucket: // says where, and does nothing
	}
	return nil
}
