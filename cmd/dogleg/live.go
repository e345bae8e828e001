package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"sync"

	"dogleg/store"
)

// A database that is being served can't be opened by another process. Its
// server hands out copies of it by a socket beside the file.

// socketOf is where the server of a database listens.
func socketOf(path string) string { return path + ".backup" }

// handOutBackups gives a copy of the database to whoever connects to the socket,
// until the returned function is called. It does without where there can be no
// socket, as in a folder with a very long name.
func (f databaseFlag) handOutBackups(db *store.DB, env func(string) string, log *slog.Logger) (stop func()) {
	listener, err := listenBeside(f, env)
	if err != nil {
		log.Warn("no backups while serving", "error", err)
		return func() {}
	}
	var copying sync.WaitGroup
	copying.Go(func() {
		for {
			connection, err := listener.Accept()
			if err != nil {
				return // closed
			}
			copying.Go(func() { handOut(db, connection, log) })
		}
	})
	return func() { listener.Close(); copying.Wait() }
}

// listenBeside makes the socket, in the place of one that a process left behind
// which was killed: who has the database has the socket.
func listenBeside(f databaseFlag, env func(string) string) (net.Listener, error) {
	path, _, err := f.path(env)
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

func handOut(db *store.DB, to net.Conn, log *slog.Logger) {
	_, err := io.WriteString(to, ready)
	if err == nil {
		err = db.Backup(to)
	}
	if err := errors.Join(err, to.Close()); err != nil {
		log.Warn("a backup broke off", "error", err)
	}
}

// copyLive copies a database that another process has open, by its server's
// socket. Where nothing serves it, busy is why it can't be copied.
func copyLive(path string, w io.Writer, busy error) error {
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
