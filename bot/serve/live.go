package serve

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"sync"
	"time"

	"dogleg/store"
)

// A database that is being served can't be opened by another process. Its
// server hands out copies of it by a socket beside the file.

// socketOf is where the server of a database listens: beside the file itself, by
// whatever link it is named.
func socketOf(path string) string {
	if real, err := store.RealPath(path); err == nil {
		path = real
	}
	return path + ".backup"
}

// handOutBackups gives a copy of the database to whoever connects to the socket,
// until the returned function is called. It does without where there can be no
// socket, as in a folder with a very long name.
func handOutBackups(db *store.DB, d Database, log *slog.Logger) (stop func()) {
	listener, err := listenBeside(d)
	if err != nil {
		log.Warn("no backups while serving", "error", err)
		return func() {}
	}
	ctx, end := context.WithCancel(context.Background())
	var copying sync.WaitGroup
	copying.Go(func() {
		for {
			connection, err := listener.Accept()
			if err != nil {
				return // closed
			}
			copying.Go(func() { handOut(ctx, db, connection, readerStands, log) })
		}
	})
	return func() { listener.Close(); end(); copying.Wait() }
}

// listenBeside makes the socket, in the place of one that a process left behind
// which was killed: who has the database has the socket.
func listenBeside(d Database) (net.Listener, error) {
	path, _, err := d.Path()
	if err != nil {
		return nil, err
	}
	socket := socketOf(path)
	if info, err := os.Lstat(socket); err == nil && info.Mode().Type() == os.ModeSocket {
		if err := os.Remove(socket); err != nil {
			return nil, err
		}
	}
	listener, err := net.Listen("unix", socket)
	if err != nil {
		return nil, err
	}
	return listener, os.Chmod(socket, 0o600)
}

// ready begins what is handed out.
const ready = "dogleg backup\n"

// readerStands is how long whoever takes a copy may take nothing: until it is over,
// the file that is copied can't be let go of.
const readerStands = 10 * time.Second

// handOut gives a copy to one reader, until the context ends or the reader stands
// still.
func handOut(ctx context.Context, db *store.DB, to net.Conn, stands time.Duration, log *slog.Logger) {
	defer context.AfterFunc(ctx, func() { to.Close() })()
	out := impatient{to, stands}
	_, err := io.WriteString(out, ready)
	if err == nil {
		err = db.Backup(out)
	}
	if err := errors.Join(err, to.Close()); err != nil {
		log.Warn("a backup broke off", "error", err)
	}
}

// impatient is a connection whose reader may take nothing only for so long.
type impatient struct {
	net.Conn
	stands time.Duration
}

// Write writes a little at a time, so that a slow reader is told from one that stands
// still.
func (c impatient) Write(p []byte) (n int, err error) {
	const atOnce = 64 << 10
	for len(p) > 0 && err == nil {
		if err = c.SetWriteDeadline(time.Now().Add(c.stands)); err == nil {
			var wrote int
			wrote, err = c.Conn.Write(p[:min(len(p), atOnce)])
			n, p = n+wrote, p[wrote:]
		}
	}
	return n, err
}

// CopyLive copies a database that another process has open, by its server's
// socket. Where nothing serves it, busy is why it can't be copied.
func CopyLive(path string, w io.Writer, busy error) error {
	from, err := net.Dial("unix", socketOf(path))
	if err != nil {
		return busy
	}
	defer from.Close()
	r := bufio.NewReader(from)
	if line, err := r.ReadString('\n'); err != nil || line != ready {
		return fmt.Errorf("%s: what listens there is no dogleg", socketOf(path))
	}
	_, err = io.Copy(w, r)
	return err
}
