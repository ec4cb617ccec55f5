package model

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// zeroBufferLine returns a line of stations that fail with the given probabilities in each
// cycle and are put right in constant times, with stocks that outlast the shift: the line
// without buffers of the textbooks.
func zeroBufferLine(perHour float64, operators int, faults ...zeroBufferFaults) *Line {
	l := &Line{Name: "no buffers", Speed: perHour, Restart: sim.Constant(0), Crew: Crew{Operators: operators, Walk: sim.Constant(0)}}
	for _, f := range faults {
		for range f.stations {
			at := len(l.Stations)
			l.Stations = append(l.Stations, &Feeder{
				Place:  Place{Name: fmt.Sprint("station ", at+1), At: at, Rated: perHour},
				Hopper: Stock{Capacity: 1e9, Work: sim.Constant(0)},
				Double: f.fault, Caught: f.caught, Material: 1, Share: 1,
				OnDouble: Stop, Clear: sim.Constant(f.down),
			})
		}
	}
	at := len(l.Stations)
	return withEnd(l, at)
}

// withEnd adds an inserter and a delivery at which nothing goes wrong.
func withEnd(l *Line, at int) *Line {
	l.Stations = append(l.Stations,
		&Inserter{Place: Place{Name: "inserter", At: at}, Hopper: Stock{Capacity: 1e9, Work: sim.Constant(0)}, Clear: sim.Constant(0)},
		&Delivery{Place: Place{Name: "delivery", At: at + 1}})
	return l
}

type zeroBufferFaults struct {
	stations int
	fault    float64     // probability in each cycle
	caught   float64     // of which a stop
	down     sim.Seconds // length of a stop
}

// The textbook's line without buffers: E = T / (T + Σ pᵢ dᵢ). One operator, so that stops
// add up. The sources are beside the cases; where the answer was computed from the
// statement of the exercise, it says so.
func TestZeroBufferLine(t *testing.T) {
	const minute = 60
	for _, c := range []struct {
		name       string
		perHour    float64
		operators  int
		faults     []zeroBufferFaults
		efficiency float64
		good       float64 // an hour
		source     string
	}{
		{
			"twenty stations alike", 50, 1,
			[]zeroBufferFaults{{20, 0.005, 1, 8 * minute}},
			0.60, 30,
			"Groover, Automation, Production Systems, and CIM, 4th ed., Examples 16A.2 and 16A.4",
		},
		{
			"stations of three kinds", 120, 1,
			[]zeroBufferFaults{{6, 1.0 / 1000, 1, 10 * minute}, {5, 1.0 / 500, 1, 5 * minute}, {20, 1.0 / 100_000, 1, 60 * minute}},
			0.8038585, 0.8038585 * 120,
			"textbook exercise, believed Askin and Standridge 1993, ch. 3; answer computed from the statement",
		},
		{
			"parts that jam or go on defective", 300, 1,
			[]zeroBufferFaults{{1, 1.0 / 50, 1, 3 * minute}, {6, 0.02, 0.5, 2 * minute}},
			0.526316, 148.655,
			"Groover, assembly chapter: six stations, T = 12 s; answers computed from the statement",
		},
		{
			"six stations, one operator: stops add up", 3600, 1,
			[]zeroBufferFaults{{6, 0.01, 1, 20}},
			0.454545, 0.454545 * 3600,
			"the same formula, computed",
		},
		{
			"six stations, an operator each, rare stops: they hardly ever overlap", 3600, 6,
			[]zeroBufferFaults{{6, 0.0002, 1, 20}},
			1 / 1.024, 3600 / 1.024,
			"E = 1 / (1 + Σ MTTR/MTBF), Buzacott 1967 (from memory); overlaps make it some 1e-5 larger",
		},
		{
			"six stations, an operator each: stops overlap", 3600, 6,
			[]zeroBufferFaults{{6, 0.01, 1, 20}},
			0.460745, 0.460745 * 3600,
			"computed: with equal constant stops d, Σ pᵢ dᵢ becomes d·(1 − Π(1 − pᵢ))",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := zeroBufferLine(c.perHour, c.operators, c.faults...)
			const cycles = 20_000
			l.Shift = sim.Seconds(cycles * 3600 / c.perHour)
			efficiency, good := zeroBufferRuns(t, l, 100)
			require.Lessf(t, math.Abs(off(efficiency, c.efficiency)), z999, "efficiency %.6f, want %.6f (%s)", efficiency.Mean(), c.efficiency, c.source)
			require.Lessf(t, math.Abs(off(good, c.good)), z999, "good %.3f an hour, want %.3f (%s)", good.Mean(), c.good, c.source)
			require.Greater(t, math.Abs(off(efficiency, c.efficiency*1.01)), z999, "an efficiency 1 % off goes unseen: this test cannot fail")
			if c.operators == 1 {
				require.InDelta(t, c.efficiency, l.Analytic().Efficiency, 1e-6, "the sum on paper")
				require.InEpsilon(t, c.good, l.Analytic().NetRate, 1e-5, "the sum on paper")
			}
		})
	}
}

// zeroBufferRuns returns the running share of the shift and the good sets an hour. What is
// on the line at the end counts as good: a line as long as these starts late, by its own
// length in cycles, and the formula knows no start.
func zeroBufferRuns(t *testing.T, l *Line, replications int) (efficiency, good sim.Sample) {
	t.Helper()
	s, err := New(l)
	require.NoError(t, err)
	var o Outcome
	for r := range replications {
		require.NoError(t, s.Run(1, r, &o))
		hours := float64(o.Time.Shift) / 3600
		efficiency = append(efficiency, float64(o.Time.Running/o.Time.Shift))
		started := float64(o.Sets.Started) / float64(o.Sets.Started-o.Sets.OnLine)
		good = append(good, float64(o.Sets.Good)*started/hours)
	}
	return efficiency, good
}

// z999 bounds a standard normal figure in 99.9 % of cases, on both sides.
const z999 = 3.2905267315

// off returns how many standard errors the mean of a sample lies off a value.
func off(s sim.Sample, value float64) float64 {
	return (s.Mean() - value) / (s.SD() / math.Sqrt(float64(len(s))))
}
