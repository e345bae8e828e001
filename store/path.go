package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// RealPath is where a database is that is named by a path, with no link on the way: a
// file that is written anew takes the place of the real one, and its lock and all that
// stands beside it are there. Of a file that isn't there yet it is where it will be.
// A link that leads to nothing is [ErrNotDatabase].
func RealPath(path string) (string, error) {
	real, err := filepath.EvalSymlinks(path)
	if !errors.Is(err, fs.ErrNotExist) {
		return real, err
	}
	if _, err := os.Lstat(path); err == nil {
		return "", fmt.Errorf("%w: it is a link that leads to nothing", ErrNotDatabase)
	}
	folder, err := filepath.EvalSymlinks(filepath.Dir(path))
	if err != nil {
		return path, nil // whoever makes the file says what is wrong with the folder
	}
	return filepath.Join(folder, filepath.Base(path)), nil
}
