package runs

import (
	"math"

	"netrate/sim"
	"netrate/sim/output"
	"netrate/sim/portable"
)

// RecordFigure is what a record is compared in.
type RecordFigure int

// The figures of a record.
const (
	AllStops       RecordFigure = iota // how often the line stood in all
	AllSeconds                         // for how long
	VaryingStops                       // how much periods differ in stops: see [CompareRecords]
	VaryingSeconds                     // and in seconds
)

// RecordTest is a test of whether a record may be one of those that are simulated.
type RecordTest struct {
	Figure    RecordFigure
	Log       float64    // of the record
	Simulated sim.Sample // of each replica
	P         float64    // how often a replica would lie as far off or farther
	Out       bool       // it is out of line, the other tests being allowed for
}

// CompareRecords tests a record against replicas of it, in four figures, or in the first two
// where it has one period only. Out is by Holm's procedure at the given level. There must be
// replicas.
//
// How much periods differ is Pearson's dispersion: with the mean m and the variance v that
// a period has in all records, the tested one among them, it is the mean over periods, with
// divisor n − 1, of (x − k m)² / (K v). Here k is what the record has of all that is expected,
// Σx / Σm, so that a record which is long or short in all does not count as one that varies;
// and K is what this makes of the variance: k for stops, as they come at random; for seconds
// k² over the k of stops, as a variance grows with the square of their length. 1 is what may
// be expected, and less where something of the line is uncertain, as v then holds that too.
//
// All records are treated alike, so that each P is exact whatever their distribution is: see
// [sim.AmongDrawn]. Sources: for draws of what is uncertain, Gelman, Meng and Stern, Statistica
// Sinica 6 (1996) 733–807; for the dispersion, McCullagh and Nelder, Generalized Linear Models
// (1989), section 4.5 (both from memory).
func CompareRecords(log Replica, replicas []Replica, level float64) []RecordTest {
	all := append([]Replica{log}, replicas...)
	figures := [][]float64{AllStops: nil, AllSeconds: nil}
	for _, r := range all {
		whole := r.IntegerDistribution()
		figures[AllStops] = append(figures[AllStops], float64(whole.Stops))
		figures[AllSeconds] = append(figures[AllSeconds], float64(whole.Seconds))
	}
	if len(log.Periods) > 1 {
		stops, seconds := varying(all)
		figures = append(figures, stops, seconds)
	}
	var tests []RecordTest
	var ps []float64
	for i, x := range figures {
		t := RecordTest{Figure: RecordFigure(i), Log: x[0], Simulated: x[1:]}
		t.P = output.AmongDrawn(t.Log, t.Simulated)
		tests, ps = append(tests, t), append(ps, t.P)
	}
	for i, out := range output.Holm(ps, level) {
		tests[i].Out = out
	}
	return tests
}

// IntegerDistribution returns the stops of all periods.
func (r *Replica) IntegerDistribution() (sum StopSum) {
	for _, p := range r.Periods {
		sum.Add(p)
	}
	return sum
}

// varying returns the dispersion of each record, in stops and in seconds.
func varying(all []Replica) (stops, seconds []float64) {
	byStops := momentsOf(all, func(s StopSum) float64 { return float64(s.Stops) })
	bySeconds := momentsOf(all, func(s StopSum) float64 { return float64(s.Seconds) })
	for i := range all {
		often, long := byStops.level(i), bySeconds.level(i)
		stops = append(stops, byStops.dispersion(i, often))
		seconds = append(seconds, bySeconds.dispersion(i, long*long/often))
	}
	return stops, seconds
}

// moments are what periods have in several records.
type moments struct {
	x              [][]float64 // of each record and each period
	mean, variance []float64   // of each period
}

func momentsOf(all []Replica, of func(StopSum) float64) (m moments) {
	for _, r := range all {
		var x []float64
		for _, p := range r.Periods {
			x = append(x, of(p))
		}
		m.x = append(m.x, x)
	}
	for k := range all[0].Periods {
		var x sim.Sample
		for i := range all {
			x = append(x, m.x[i][k])
		}
		sd := x.SD()
		m.mean, m.variance = append(m.mean, x.Mean()), append(m.variance, sd*sd)
	}
	return m
}

// level returns how much record i has of what is expected; NaN if nothing is.
func (m *moments) level(i int) float64 { return portable.Sum(m.x[i]) / portable.Sum(m.mean) }

// dispersion returns how much the periods of record i differ, if the variances are times
// as large there as in all records; 0 if nothing happens.
func (m *moments) dispersion(i int, times float64) float64 {
	k, sum := m.level(i), 0.0
	for p, x := range m.x[i] {
		if v := times * m.variance[p]; v > 0 {
			sum += (x - float64(k*m.mean[p])) * (x - float64(k*m.mean[p])) / v
		}
	}
	return sum / math.Max(1, float64(len(m.x[i])-1))
}
