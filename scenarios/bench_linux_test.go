package scenarios

import (
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/internal/cputime"
	"netrate/model"
)

// BenchmarkExample times one shift of the line, or of the lines together, of every example, and
// reports what happens in it: faults, stops, and calls to fill or empty a stock; of a single line
// also the events, by what they call. The time of the processor, cpu-µs/shift, is that of this
// thread alone.
func BenchmarkExample(b *testing.B) {
	for _, x := range Examples() {
		b.Run("name="+x.Name, func(b *testing.B) {
			s, err := Load(x.Name, x.Data)
			require.NoError(b, err)
			run := shifts(b, &s.Shop)
			runtime.LockOSThread()
			defer runtime.UnlockOSThread()
			b.ReportAllocs()
			var all happened
			for replication := range 64 {
				all.add(run(replication))
			}
			replication, begun := 0, cputime.OfThread(b)
			for b.Loop() {
				replication++
				run(replication)
			}
			b.ReportMetric(float64((cputime.OfThread(b)-begun).Nanoseconds())/1e3/float64(replication), "cpu-µs/shift")
			b.ReportMetric(float64(all.faults)/64, "faults/shift")
			b.ReportMetric(float64(all.stops)/64, "stops/shift")
			b.ReportMetric(float64(all.stocks)/64, "stocks/shift")
			if s.LineGroup == nil {
				reportEvents(b, s.Line)
			}
		})
	}
}

// happened is what happened in some shifts.
type happened struct{ faults, stops, stocks int64 }

func (h *happened) add(lines []model.Outcome) {
	for i := range lines {
		o := &lines[i]
		h.stops += o.Stopped().Count
		h.stocks += o.Crew().Stock.Calls
		for k := range o.Stations {
			for _, n := range o.Stations[k].Faults {
				h.faults += n
			}
		}
	}
}

// reportEvents reports the events of a shift by kind, counted in shifts that are not timed.
func reportEvents(b *testing.B, l *model.Line) {
	b.Helper()
	line, err := model.New(l)
	require.NoError(b, err)
	var o model.Outcome
	run := func(replication int) { require.NoError(b, line.Run(1, replication, &o)) }
	for replication := range 64 { // of timers that are never set nothing would be known
		run(replication)
	}
	byKind, last := line.CountEvents()
	all, onTrack := uint64(0), int64(0)
	for replication := range 64 {
		run(replication)
		all += last()
	}
	for kind, n := range byKind {
		onTrack += *n
		if *n > 0 {
			b.ReportMetric(float64(*n)/64, kind+"/shift")
		}
	}
	b.ReportMetric(float64(all-uint64(onTrack))/64, "by-shop-clock/shift")
	b.ReportMetric(float64(all)/64, "events/shift")
}

// shifts returns what runs one replication.
func shifts(b *testing.B, s *Shop) func(replication int) []model.Outcome {
	b.Helper()
	if s.LineGroup == nil {
		line, err := model.New(s.Line)
		require.NoError(b, err)
		outs := make([]model.Outcome, 1)
		return func(replication int) []model.Outcome {
			require.NoError(b, line.Run(1, replication, &outs[0]))
			return outs
		}
	}
	group, err := model.NewLineGroup(s.LineGroup)
	require.NoError(b, err)
	outs := make([]model.Outcome, len(s.LineGroup.Lines))
	return func(replication int) []model.Outcome {
		require.NoError(b, group.Run(1, replication, outs))
		return outs
	}
}
