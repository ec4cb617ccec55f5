package cputime

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// OfThread returns the time of this thread; the caller has locked it to its goroutine.
func OfThread(b *testing.B) time.Duration {
	b.Helper()
	var t unix.Timespec
	require.NoError(b, unix.ClockGettime(unix.CLOCK_THREAD_CPUTIME_ID, &t))
	return time.Duration(t.Nano())
}

// OfProcess returns the time of all threads.
func OfProcess(b *testing.B) time.Duration {
	b.Helper()
	var t unix.Timespec
	require.NoError(b, unix.ClockGettime(unix.CLOCK_PROCESS_CPUTIME_ID, &t))
	return time.Duration(t.Nano())
}
