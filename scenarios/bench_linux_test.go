package scenarios

import (
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"netrate/model"
)

// BenchmarkExample times one shift of the line, or of the lines together, of every example. The
// time of the processor, cpu-µs/shift, is that of this thread alone: on a machine that is shared
// it says more than the time on the wall.
func BenchmarkExample(b *testing.B) {
	for _, x := range Examples() {
		b.Run("name="+x.Name, func(b *testing.B) {
			s, err := Load(x.Name, x.Data)
			require.NoError(b, err)
			run := shifts(b, &s.Shop)
			runtime.LockOSThread()
			defer runtime.UnlockOSThread()
			b.ReportAllocs()
			run(0)
			replication, begun := 0, threadTime(b)
			for b.Loop() {
				replication++
				run(replication)
			}
			b.ReportMetric(float64((threadTime(b)-begun).Nanoseconds())/1e3/float64(replication), "cpu-µs/shift")
		})
	}
}

// shifts returns what runs one replication.
func shifts(b *testing.B, s *Shop) func(replication int) {
	b.Helper()
	if s.LineGroup == nil {
		line, err := model.New(s.Line)
		require.NoError(b, err)
		var o model.Outcome
		return func(replication int) { require.NoError(b, line.Run(1, replication, &o)) }
	}
	group, err := model.NewLineGroup(s.LineGroup)
	require.NoError(b, err)
	outs := make([]model.Outcome, len(s.LineGroup.Lines))
	return func(replication int) { require.NoError(b, group.Run(1, replication, outs)) }
}

func threadTime(b *testing.B) time.Duration {
	b.Helper()
	var u unix.Rusage
	require.NoError(b, unix.Getrusage(unix.RUSAGE_THREAD, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
