package model

import "testing"

// BenchmarkShift times one shift of the reference line, with its rates as they are, ten
// times lower and ten times higher, so that it shows how the work grows with the faults.
func BenchmarkShift(b *testing.B) {
	for _, c := range []struct {
		name   string
		factor float64
	}{{"low", 0.1}, {"usual", 1}, {"high", 10}} {
		b.Run("rates="+c.name, func(b *testing.B) {
			l := referenceLine()
			scaleRates(l, c.factor)
			firstOf[*Inserter](l).Clear = lognormal(60, 0.8)
			s, err := New(l)
			if err != nil {
				b.Fatal(err)
			}
			var o Outcome
			replication, events := 0, uint64(0)
			b.ReportAllocs()
			for b.Loop() {
				if err := s.Run(1, replication, &o); err != nil {
					b.Fatal(err)
				}
				replication++
				events += s.clocks.Events()
			}
			b.ReportMetric(float64(events)/float64(replication), "events/shift")
		})
	}
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
