package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"os"

	"go.etcd.io/bbolt"
)

// This file looks at a file's pages without bbolt, which maps them into memory and
// follows what stands on them: one flipped bit, and it reads past the end of the
// file, or goes in circles. Here each page is read, and what it says of others is held
// against the file before anybody follows it. The layout is that of bbolt's version 2.

// What stands where on a page, in bytes.
const (
	pageHead    = 16 // number, flags, count, overflow
	pageElement = 16
	bucketHead  = 16 // the root page and the sequence of a bucket
	metaSize    = 64
	metaMagic   = 0xED0CDAED
	metaVersion = 2
)

// The kinds of pages.
const (
	branchPage   = 0x01
	leafPage     = 0x02
	metaPage     = 0x04
	freelistPage = 0x10
)

const (
	bucketElement = 0x01               // flag of a leaf's element
	manyFree      = 0xFFFF             // the count of a freelist whose real count comes first on it
	noFreelist    = 0xFFFFFFFFFFFFFFFF // it is not kept
	mostFound     = 20                 // faults that are told
)

// meta is what one of the two first pages says.
type meta struct {
	root, freelist, pages uint64
	transaction           uint64
	pageSize              uint32
}

// readMeta reads the meta page that counts: of those that are whole the latest, or
// that of a transaction, where it isn't 0.
func readMeta(file io.ReaderAt, transaction uint64) (meta, error) {
	var best meta
	// The first stands at the beginning, the second one page behind it: of a size that
	// only a whole one tells.
	for _, at := range []int64{0, 1024, 2048, 4096, 8192, 16384, 32768, 65536} {
		page := make([]byte, pageHead+metaSize)
		if _, err := file.ReadAt(page, at); err != nil {
			continue
		}
		m, ok := metaOf(page)
		if !ok || at != 0 && int64(m.pageSize) != at {
			continue
		}
		if transaction != 0 && m.transaction != transaction {
			continue
		}
		if m.transaction >= best.transaction {
			best = m
		}
	}
	if best.pageSize == 0 {
		return best, errors.New("no meta page is whole")
	}
	return best, nil
}

func metaOf(page []byte) (meta, bool) {
	b := page[pageHead:]
	sum := fnv.New64a()
	sum.Write(b[:metaSize-8])
	m := meta{
		pageSize: binary.LittleEndian.Uint32(b[8:]), root: binary.LittleEndian.Uint64(b[16:]),
		freelist: binary.LittleEndian.Uint64(b[32:]), pages: binary.LittleEndian.Uint64(b[40:]),
		transaction: binary.LittleEndian.Uint64(b[48:]),
	}
	ok := binary.LittleEndian.Uint16(page[8:])&metaPage != 0 &&
		binary.LittleEndian.Uint32(b) == metaMagic && binary.LittleEndian.Uint32(b[4:]) == metaVersion &&
		binary.LittleEndian.Uint64(b[56:]) == sum.Sum64() && m.pageSize >= 1024 && m.pageSize&(m.pageSize-1) == 0
	return m, ok
}

// walk goes over pages and notes what is wrong.
type walk struct {
	file    io.ReaderAt
	meta    meta
	shallow bool     // only the bucket at the top, and not what is in it
	seen    []uint64 // a bit for each page that something leads to
	todo    []visit
	found   []error
	buffer  []byte
}

// visit is a page to be looked at, and between which keys its own have to be: from the
// first on, below the second; nil is no bound.
type visit struct {
	page        uint64
	from, below []byte
}

// soundPages looks at all pages of a file that a transaction sees, or only at those
// that are looked at to open it.
func soundPages(path string, tx *bbolt.Tx, shallow bool) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return err
	}
	m, err := readMeta(file, uint64(tx.ID()))
	if err != nil { // others have written since
		size := tx.DB().Info().PageSize
		m = meta{root: uint64(tx.Cursor().Bucket().Root()), freelist: noFreelist, pages: uint64(tx.Size()) / uint64(size), pageSize: uint32(size)}
	}
	if m.pages > uint64(info.Size())/uint64(m.pageSize) || m.pages < 3 {
		return fmt.Errorf("%w: it has %d bytes, and %d pages of %d", ErrDamaged, info.Size(), m.pages, m.pageSize)
	}
	w := &walk{file: file, meta: m, shallow: shallow, seen: make([]uint64, m.pages/64+1)}
	w.mark(0)
	w.mark(1)
	w.follow(m.root, nil, nil)
	for len(w.todo) > 0 && len(w.found) < mostFound {
		next := w.todo[len(w.todo)-1]
		w.todo = w.todo[:len(w.todo)-1]
		w.look(next)
	}
	if len(w.found) == 0 {
		w.free()
	}
	if len(w.found) == 0 {
		return nil
	}
	return fmt.Errorf("%w: %w", ErrDamaged, errors.Join(w.found...))
}

func (w *walk) wrong(format string, args ...any) {
	if len(w.found) < mostFound {
		w.found = append(w.found, fmt.Errorf(format, args...))
	}
}

// mark notes that something leads to a page; it is false if something did already.
func (w *walk) mark(page uint64) bool {
	bit := uint64(1) << (page % 64)
	if w.seen[page/64]&bit != 0 {
		return false
	}
	w.seen[page/64] |= bit
	return true
}

// follow has a page looked at, unless there is no such page.
func (w *walk) follow(page uint64, from, below []byte) {
	if page < 2 || page >= w.meta.pages {
		w.wrong("something leads to page %d of %d", page, w.meta.pages)
		return
	}
	w.todo = append(w.todo, visit{page, from, below})
}

// read reads a page with what runs over from it. It is nil, and noted, where its head
// can't be right.
func (w *walk) read(page uint64, kinds ...uint16) []byte {
	size := int(w.meta.pageSize)
	if w.buffer == nil {
		w.buffer = make([]byte, size)
	}
	head := w.buffer[:size]
	if _, err := w.file.ReadAt(head, int64(page)*int64(size)); err != nil {
		w.wrong("page %d can't be read: %w", page, err)
		return nil
	}
	flags, overflow := binary.LittleEndian.Uint16(head[8:]), uint64(binary.LittleEndian.Uint32(head[12:]))
	known := false
	for _, k := range kinds {
		known = known || flags == k
	}
	switch {
	case binary.LittleEndian.Uint64(head) != page:
		w.wrong("page %d says that it is %d", page, binary.LittleEndian.Uint64(head))
		return nil
	case !known:
		w.wrong("page %d is of kind %#x", page, flags)
		return nil
	case overflow >= w.meta.pages || page+overflow >= w.meta.pages:
		w.wrong("page %d runs over into %d more, and the last is %d", page, overflow, w.meta.pages-1)
		return nil
	}
	for p := page; p <= page+overflow; p++ {
		if !w.mark(p) {
			w.wrong("two lead to page %d", p)
			return nil
		}
	}
	if overflow == 0 {
		return head
	}
	whole := int(overflow+1) * size
	if cap(w.buffer) < whole {
		w.buffer = make([]byte, whole)
	}
	b := w.buffer[:whole]
	if _, err := w.file.ReadAt(b, int64(page)*int64(size)); err != nil {
		w.wrong("page %d can't be read: %w", page, err)
		return nil
	}
	return b
}

// look looks at a page of keys.
func (w *walk) look(at visit) {
	b := w.read(at.page, branchPage, leafPage)
	if b == nil {
		return
	}
	count := int(binary.LittleEndian.Uint16(b[10:]))
	if binary.LittleEndian.Uint16(b[8:]) == leafPage {
		w.leaf(b, count, at)
		return
	}
	if count == 0 {
		w.wrong("page %d leads nowhere", at.page)
	}
	w.branch(b, count, at)
}

// element is the key, and where it leads, of a branch; or the key and the value of a
// leaf.
func (w *walk) element(b []byte, i int, at visit, leaf bool) (flags uint32, child uint64, key, value []byte, ok bool) {
	start := pageHead + i*pageElement
	if start+pageElement > len(b) {
		w.wrong("page %d has no room for what it counts", at.page)
		return 0, 0, nil, nil, false
	}
	e := b[start:]
	var pos, long, more uint64
	if leaf {
		flags = binary.LittleEndian.Uint32(e)
		pos, long, more = uint64(binary.LittleEndian.Uint32(e[4:])), uint64(binary.LittleEndian.Uint32(e[8:])), uint64(binary.LittleEndian.Uint32(e[12:]))
	} else {
		pos, long = uint64(binary.LittleEndian.Uint32(e)), uint64(binary.LittleEndian.Uint32(e[4:]))
		child = binary.LittleEndian.Uint64(e[8:])
	}
	if pos < pageElement && pos != 0 || pos+long+more > uint64(len(e)) {
		w.wrong("page %d: element %d lies beyond it", at.page, i)
		return 0, 0, nil, nil, false
	}
	return flags, child, e[pos : pos+long], e[pos+long : pos+long+more], true
}

// inOrder says whether a key comes where it has to.
func (w *walk) inOrder(key, before []byte, at visit) bool {
	if before != nil && bytes.Compare(before, key) >= 0 || at.from != nil && bytes.Compare(key, at.from) < 0 || at.below != nil && bytes.Compare(key, at.below) >= 0 {
		w.wrong("page %d: a key is out of order", at.page)
		return false
	}
	return true
}

func (w *walk) branch(b []byte, count int, at visit) {
	var before []byte
	var steps []visit
	for i := range count {
		_, child, key, _, ok := w.element(b, i, at, false)
		if !ok || !w.inOrder(key, before, at) {
			return
		}
		before = bytes.Clone(key)
		if n := len(steps); n > 0 {
			steps[n-1].below = before
		}
		steps = append(steps, visit{child, before, at.below})
	}
	for _, s := range steps {
		w.follow(s.page, s.from, s.below)
	}
}

func (w *walk) leaf(b []byte, count int, at visit) {
	var before []byte
	for i := range count {
		flags, _, key, value, ok := w.element(b, i, at, true)
		if !ok || !w.inOrder(key, before, at) {
			return
		}
		before = key
		if flags&bucketElement != 0 {
			w.bucket(value, at)
		}
	}
}

// bucket looks at a bucket that stands on a page: it has a page of its own, or a small
// one follows it there.
func (w *walk) bucket(value []byte, at visit) {
	if len(value) < bucketHead {
		w.wrong("page %d: half a bucket", at.page)
		return
	}
	if root := binary.LittleEndian.Uint64(value); root != 0 {
		if !w.shallow {
			w.follow(root, nil, nil)
		}
		return
	}
	inner := value[bucketHead:]
	if len(inner) < pageHead || binary.LittleEndian.Uint16(inner[8:]) != leafPage {
		w.wrong("page %d: a bucket without its page", at.page)
		return
	}
	w.leaf(inner, int(binary.LittleEndian.Uint16(inner[10:])), visit{page: at.page})
}

// free looks at the list of pages that may be used again: none that something leads to
// may be on it.
func (w *walk) free() {
	if w.meta.freelist == noFreelist {
		return
	}
	if w.meta.freelist < 2 || w.meta.freelist >= w.meta.pages {
		w.wrong("the list of free pages is said to be on page %d of %d", w.meta.freelist, w.meta.pages)
		return
	}
	b := w.read(w.meta.freelist, freelistPage)
	if b == nil {
		return
	}
	list, count := b[pageHead:], uint64(binary.LittleEndian.Uint16(b[10:]))
	if count == manyFree && len(list) >= 8 {
		count, list = binary.LittleEndian.Uint64(list), list[8:]
	}
	if count > uint64(len(list)/8) {
		w.wrong("the list of free pages has no room for the %d that it counts", count)
		return
	}
	for i := range count {
		page := binary.LittleEndian.Uint64(list[8*i:])
		if page < 2 || page >= w.meta.pages {
			w.wrong("page %d of %d is said to be free", page, w.meta.pages)
			return
		}
		if !w.shallow && !w.mark(page) {
			w.wrong("page %d is said to be free, and is not", page)
			return
		}
	}
	for page := uint64(2); page < w.meta.pages && !w.shallow; page++ {
		if w.mark(page) {
			w.wrong("nothing leads to page %d, and it is not free", page)
		}
	}
}
