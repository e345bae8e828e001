//go:build !linux

package telegram

import "time"

// working says, when the returned function is called, how long it has been: here
// nobody tells how much of that the processor worked.
func working() (worked func() time.Duration) {
	began := time.Now()
	return func() time.Duration { return time.Since(began) }
}
