package main

import (
	"bytes"
	"errors"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"testing"

	"dogleg/store"
)

// A copy that can't be checked is not left behind as a backup.
func TestFailedBackupLeavesNoFile(t *testing.T) {
	folder := t.TempDir()
	path, file := filepath.Join(folder, "juniper.db"), filepath.Join(folder, "backup.db")
	listener, err := net.Listen("unix", path+".backup")
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	juniperBase(t, path)
	held, err := store.Open(path) // as one who serves holds it
	if err != nil {
		t.Fatal(err)
	}
	defer held.Close()
	go func() {
		connection, err := listener.Accept()
		if err == nil {
			fmt.Fprint(connection, "dogleg backup\nhalf a database")
			connection.Close()
		}
	}()
	var out, problems bytes.Buffer
	if status := Run(t.Context(), []string{"backup", "--db", path, file}, nil, &out, &problems, environment()); status == 0 {
		t.Error("a broken copy passes for a backup")
	}
	if _, err := os.Stat(file); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("it is left behind; %s", &problems)
	}
}
