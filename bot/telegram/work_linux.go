package telegram

import (
	"runtime"
	"syscall"
	"time"
)

// thread is RUSAGE_THREAD of getrusage(2).
const thread = 1

// working says, when the returned function is called, how long the processor has
// worked meanwhile for who called: on a machine that is busy with other things that
// is less than has passed. Both are called by one goroutine.
func working() (worked func() time.Duration) {
	runtime.LockOSThread()
	before := used()
	return func() time.Duration {
		defer runtime.UnlockOSThread()
		return used() - before
	}
}

func used() time.Duration {
	var u syscall.Rusage
	_ = syscall.Getrusage(thread, &u) // it can't fail for oneself
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
