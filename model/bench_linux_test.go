package model

import (
	"runtime"
	"testing"

	"netrate/internal/cputime"
	"netrate/sim"
)

// BenchmarkShift times one shift of the reference line, with its rates as they are, ten
// times lower and ten times higher, so that it shows how the work grows with the faults; and as
// they are, with lots of 4,000 pieces and good and bad days, and with lots that never end: what these
// cost beside none is what is not an event.
func BenchmarkShift(b *testing.B) {
	for _, c := range []struct {
		name   string
		factor float64
		lots   float64
	}{{"low", 0.1, 0}, {"usual", 1, 0}, {"high", 10, 0}, {"usual,lots", 1, 4000}, {"usual,endless", 1, 1e9}} {
		b.Run("rates="+c.name, func(b *testing.B) {
			l := referenceLine()
			scaleRates(l, c.factor)
			if c.lots > 0 {
				gammaLots(l, c.lots)
			}
			firstOf[*Inserter](l).Clear = lognormal(60, 0.8)
			s, err := New(l)
			if err != nil {
				b.Fatal(err)
			}
			var o Outcome
			runtime.LockOSThread()
			defer runtime.UnlockOSThread()
			replication, events, begun := 0, uint64(0), cputime.OfThread(b)
			b.ReportAllocs()
			for b.Loop() {
				if err := s.Run(1, replication, &o); err != nil {
					b.Fatal(err)
				}
				replication++
				events += s.clocks.Events()
			}
			b.ReportMetric(float64((cputime.OfThread(b)-begun).Nanoseconds())/1e3/float64(replication), "cpu-µs/shift")
			b.ReportMetric(float64(events)/float64(replication), "events/shift")
		})
	}
}

// gammaLots gives a line lots of gamma factors, and days.
func gammaLots(l *Line, pieces float64) {
	for _, s := range l.Stations {
		if lots := LotsOf(s); lots != nil {
			*lots = Lots{Of: pieces, CV: 0.8}
		}
	}
	l.Days.CV = 0.3
}

// scaleRates multiplies every fault probability of the line.
func scaleRates(l *Line, factor float64) {
	for _, f := range stationsOf[*Feeder](l) {
		f.Misfeed *= factor
		f.Double *= factor
		f.Jam *= factor
	}
	for _, n := range stationsOf[*Inserter](l) {
		n.EnvelopeMisfeed *= factor
		n.Flap *= factor
		n.Jam *= factor
	}
}

// A shift of a line with a document channel whose documents vary, in which each document
// takes its own time, and of one whose documents are all alike, most of which need no look.
func BenchmarkChannel(b *testing.B) {
	table, err := sim.NewTable([]int64{1, 2, 3, 4, 5, 6}, []float64{50, 28, 10, 6, 4, 2})
	if err != nil {
		b.Fatal(err)
	}
	for name, pages := range map[string]sim.IntegerDistribution{"vary": table, "alike": sim.Always(2)} {
		b.Run("documents="+name, func(b *testing.B) {
			l := lettersLine(3)
			l.Stations[0] = &Channel{
				Place: Place{Name: "documents", At: 0}, Sheets: 40_000, Pages: pages, Buffer: 10,
				Misfeed: 1.0 / 8000, Double: 1.0 / 30_000, Jam: 1.0 / 40_000, Noticed: 0.999, Caught: 0.995,
				Stream: Stream{Name: "documents", Tries: 1}, OnMisfeed: Divert, OnDouble: Divert, Clear: sim.Constant(60),
			}
			l.Shift = 28_800
			s, err := New(l)
			if err != nil {
				b.Fatal(err)
			}
			var o Outcome
			b.ReportAllocs()
			b.ResetTimer()
			for i := range b.N {
				if err := s.Run(1, i, &o); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(o.Cycles), "documents/shift")
		})
	}
}
