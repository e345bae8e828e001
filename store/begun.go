package store

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"sync"
)

// Begun is a small file in which a process says what it has begun, so that the next one
// knows what an earlier one died over. It costs a write into the system's memory at the
// beginning and one at the end, and waits for no disk: it outlives a process that is
// killed, or runs out of memory, and not a machine that loses power, which no message
// brings about. It is safe for use by several goroutines, by one process at a time.
type Begun struct {
	mu    sync.Mutex
	file  *os.File
	begun []string
	died  []death // the oldest first
	size  int     // bytes of the file
}

// death is how often processes have died over something.
type death struct {
	what  string
	often int
}

// mostDied is how many things are remembered over which a process died.
const mostDied = 64

// OpenBegun opens the file, or makes it. What was begun in it and not ended has cost an
// earlier process its life.
func OpenBegun(path string) (*Begun, error) {
	file, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, mode)
	if err != nil {
		return nil, err
	}
	text, err := io.ReadAll(io.LimitReader(file, 1<<20))
	if err != nil {
		return nil, errors.Join(err, file.Close())
	}
	b := &Begun{file: file, size: len(text)}
	var over []string
	for line := range strings.Lines(string(text)) {
		often, what, _ := strings.Cut(strings.TrimSpace(line), " ")
		switch n, err := strconv.Atoi(often); {
		case err != nil || what == "": // torn, or filled up
		case n == 0:
			over = append(over, what)
		default:
			b.died = append(b.died, death{what, n})
		}
	}
	for _, what := range over {
		b.dieOver(what)
	}
	return b, b.write()
}

func (b *Begun) dieOver(what string) {
	for i := range b.died {
		if b.died[i].what == what {
			b.died[i].often++
			return
		}
	}
	b.died = append(b.died, death{what, 1})
	b.died = b.died[max(0, len(b.died)-mostDied):]
}

// Begin notes that something is begun, under a name of one line, and says how many
// processes have died over it. Whoever comes to its end calls end; then nobody did. What
// can't be noted is done all the same.
func (b *Begun) Begin(what string) (deaths int, end func()) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.begun = append(b.begun, what)
	_ = b.write()
	for _, d := range b.died {
		if d.what == what {
			deaths = d.often
		}
	}
	return deaths, func() { b.end(what) }
}

func (b *Begun) end(what string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for i := range b.begun {
		if b.begun[i] == what {
			b.begun = append(b.begun[:i], b.begun[i+1:]...)
			break
		}
	}
	for i := range b.died {
		if b.died[i].what == what {
			b.died = append(b.died[:i], b.died[i+1:]...)
			break
		}
	}
	_ = b.write()
}

// write writes all of it in one go, and fills up what was longer before.
func (b *Begun) write() error {
	var text []byte
	for _, what := range b.begun {
		text = fmt.Appendf(text, "0 %s\n", what)
	}
	for _, d := range b.died {
		text = fmt.Appendf(text, "%d %s\n", d.often, d.what)
	}
	for len(text) < b.size {
		text = append(text, '\n')
	}
	b.size = len(text)
	if len(text) == 0 {
		return nil
	}
	_, err := b.file.WriteAt(text, 0)
	return err
}

// Close closes the file, and takes it away where it tells nothing.
func (b *Begun) Close() error {
	b.mu.Lock()
	defer b.mu.Unlock()
	err := b.file.Close()
	if len(b.begun)+len(b.died) == 0 {
		err = errors.Join(err, os.Remove(b.file.Name()))
	}
	return err
}
