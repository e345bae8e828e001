package store

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"
)

// survive does something with the file and makes an error of a panic in bbolt, and of
// a fault in the memory that the file is mapped into: a damaged page leads to either,
// past the end of the file too, where else the program would be killed. Other panics go
// on up.
func (db *DB) survive(do func() error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		p := recover()
		if p == nil {
			return
		}
		if _, fault := p.(interface{ Addr() uintptr }); !fault && !panickedInBolt() {
			panic(p)
		}
		err = fmt.Errorf("%s: %w: %v", db.path, ErrDamaged, p)
	}()
	return do()
}

// panickedInBolt says, of who recovers, whether bbolt's code panicked.
func panickedInBolt() bool {
	callers := make([]uintptr, 64)
	frames := runtime.CallersFrames(callers[:runtime.Callers(1, callers)])
	for panicked := false; ; {
		f, more := frames.Next()
		switch {
		case f.Function == "runtime.gopanic":
			panicked = true
		case panicked && !strings.HasPrefix(f.Function, "runtime."):
			return strings.HasPrefix(f.Function, "go.etcd.io/bbolt")
		}
		if !more {
			return false
		}
	}
}
