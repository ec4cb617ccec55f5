package model

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// Breakdowns that are put right one after the other are the line without buffers of the textbooks:
// E = 1/(1 + Σ λ·r), with λ in running time and r the time to come and to repair. Sources: Buzacott
// 1967 (from memory), and those beside [TestZeroBufferLine]. Stops of the crew add up with them.
func TestBreakdownsOfALineWithoutBuffers(t *testing.T) {
	for _, c := range []struct {
		name string
		line func() *Line
		sum  float64 // Σ λ·r
	}{
		{"one station, constant times", func() *Line {
			l := zeroBufferLine(3600, 1, zeroBufferFaults{2, 0, 1, 0})
			l.Stations[0].(*Feeder).Breakdowns = Breakdowns{Every: 4000, Comes: sim.Constant(600), Repair: sim.Constant(1400)}
			return l
		}, 0.5},
		{"three stations, times that vary, and stops of the crew", func() *Line {
			l := zeroBufferLine(3600, 1, zeroBufferFaults{3, 0.002, 1, 50})
			for i, s := range l.Stations[:3] {
				*s.Downtime() = Breakdowns{Every: sim.Seconds(4000 * (i + 1)), Comes: lognormal(100, 1), Repair: lognormal(700, 1.2)}
			}
			l.Crew.Technicians = 1
			return l
		}, 800.0/4000 + 800.0/8000 + 800.0/12_000 + 3*0.002*50},
		{"the line as a whole: a device that does nothing", func() *Line {
			l := zeroBufferLine(3600, 1, zeroBufferFaults{2, 0.001, 1, 50})
			last := len(l.Stations) - 1
			l.Stations = slices.Insert(l.Stations, last, Station(&Device{
				Place: Place{Name: "drive", At: last, Breakdowns: Breakdowns{Every: 5000, Comes: sim.Constant(300), Repair: lognormal(700, 1)}},
				Does:  "drive", Noticed: 1, Clear: sim.Constant(0),
			}))
			l.Stations[last+1].Where().At++
			return l
		}, 1000.0/5000 + 2*0.001*50},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := c.line()
			l.Shift = 40_000
			efficiency, _ := zeroBufferRuns(t, l, 400)
			// A shift begins running and may end within a stop that is not drawn to its end: over 40,000 s
			// that is some thousandth, which the shift is long enough not to show.
			want := 1 / (1 + c.sum)
			require.Lessf(t, math.Abs(off(efficiency, want)), z999, "efficiency %.5f, want %.5f", efficiency.Mean(), want)
			require.Greater(t, math.Abs(off(efficiency, 1/(1+1.1*c.sum))), z999, "breakdowns a tenth more frequent go unseen: this test cannot fail")
			require.InDelta(t, want, l.Analytic().Efficiency, 1e-4, "the sum on paper")
		})
	}
}

// With as many technicians as are needed, lines that share nothing else do not wait for one another;
// with one they do: two machines and one repairman, Palm 1947. Coming and repair exponential of mean r in
// all, running time λ⁻¹: of two machines with one repairman each runs the share
// (1 + λr)/(1 + 2λr + 2(λr)²) of the time, from the birth-death equations.
func TestOneTechnicianForTwoLines(t *testing.T) {
	const every, repair = 1000.0, 500.0
	line := func(name string) *Line {
		l := zeroBufferLine(3600, 1, zeroBufferFaults{1, 0, 1, 0})
		l.Name, l.Shift = name, 200_000
		l.Stations[0].(*Feeder).Breakdowns = Breakdowns{Every: every, Comes: sim.Constant(0), Repair: exponential(t, repair)}
		return l
	}
	x := repair / every
	for technicians, want := range map[int]float64{
		0: 1 / (1 + x),
		1: (1 + x) / (1 + 2*x + 2*x*x),
	} {
		h := &LineGroup{Lines: []*Line{line("one"), line("two")}, Crew: Crew{Operators: 1, Walk: sim.Constant(0), Technicians: technicians}}
		s, err := NewLineGroup(h)
		require.NoError(t, err)
		var ran sim.Sample
		outs := make([]Outcome, 2)
		for replication := range 60 {
			require.NoError(t, s.Run(1, replication, outs))
			ran = append(ran, float64((outs[0].Time.Running+outs[1].Time.Running)/2/200_000))
		}
		assert.Lessf(t, math.Abs(off(ran, want)), z999, "%d technicians: running %.5f of the time, want %.5f", technicians, ran.Mean(), want)
		assert.Greater(t, math.Abs(off(ran, want*1.03)), z999, "a difference of 3 % goes unseen: this test cannot fail")
	}
}

func exponential(t *testing.T, mean sim.Seconds) sim.Duration {
	t.Helper()
	d, err := sim.NewExponential(mean)
	require.NoError(t, err)
	return d
}

// A line whose stops take no time once somebody comes loses of an absence of length a what is left
// after its first fault: a − (1 − e^(−λa))/λ. That is the sum by hand of a break without relief; half an
// operator is absent, between two blocks of length b, for (1 − u)·s + v·s, where s = b/2 and u and v
// are even in [0, 1], so that e^(−λa) is ((1 − e^(−λs))/(λs))² in the mean, and in the first and in the
// last absence of the shift the root of it.
func TestAbsencesByHand(t *testing.T) {
	const fault, cycle, shift = 0.001, 0.1, 7200.0
	rate := -math.Log1p(-fault) / cycle
	line := func() *Line {
		l := zeroBufferLine(3600/cycle, 1, zeroBufferFaults{1, fault, 1, 0})
		l.Shift = shift
		return l
	}
	lost := func(a, gone float64) float64 { return a - (1-gone)/rate }
	single := func(s float64) float64 { return (1 - math.Exp(-rate*s)) / (rate * s) }
	for _, c := range []struct {
		name   string
		change func(x *Crew)
		lost   float64
	}{
		{
			"two breaks in which the line runs on",
			func(x *Crew) { x.Breaks = []Break{{After: 1000, Length: 900}, {After: 4000, Length: 60}} },
			lost(900, math.Exp(-rate*900)) + lost(60, math.Exp(-rate*60)),
		},
		{
			"a break in which one of two remains",
			func(x *Crew) { x.Operators, x.Breaks = 2, []Break{{After: 1000, Length: 900, Remain: 1}} },
			0,
		},
		{
			"nobody for the last hour", func(x *Crew) { x.Later = []Presence{{After: 3600}} },
			lost(3600, math.Exp(-rate*3600)),
		},
		{
			"half an operator in blocks of ten minutes", func(x *Crew) { x.Operators, x.Part, x.Block = 0, 0.5, 600 },
			11*lost(300, math.Pow(single(300), 2)) + 2*lost(150, single(300)),
		},
		{
			"a break for which the line stands", func(x *Crew) { x.Breaks = []Break{{After: 1000.05, Length: 900, Stands: true}} },
			900 - cycle/2,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := line()
			c.change(&l.Crew)
			s, err := New(l)
			require.NoError(t, err)
			var stood sim.Sample
			var o Outcome
			for r := range 300 {
				require.NoError(t, s.Run(1, r, &o))
				stood = append(stood, float64(o.Time.Shift-o.Time.Running))
			}
			if stood.SD() < 1e-6 {
				require.InDelta(t, c.lost, stood.Mean(), 0.11) // a cycle
				return
			}
			require.Lessf(t, math.Abs(off(stood, c.lost)), z999, "stood %.3f s, want %.3f", stood.Mean(), c.lost)
			require.Greater(t, math.Abs(off(stood, c.lost*1.05)), z999, "a twentieth more goes unseen: this test cannot fail")
		})
	}
}

// The hours that are paid and those that are worked, by hand: two for 2 h, then one and a half for 2 h,
// a break of half an hour in which one remains and one of six minutes in which nobody does.
func TestHoursOfACrew(t *testing.T) {
	c := Crew{
		Operators: 2, Block: 1800, Later: []Presence{{After: 7200, Operators: 1, Part: 0.5}},
		Breaks: []Break{{After: 3600, Length: 1800, Remain: 1}, {After: 10_800, Length: 360}},
	}
	assert.InDelta(t, 2*7200+1.5*7200, float64(c.Paid(14_400)), 1e-9)
	assert.InDelta(t, 2*7200+1.5*7200-1800-1.5*360, float64(c.There(14_400)), 1e-9)
	assert.InDelta(t, 2*3600.0, float64(c.Paid(3600)), 1e-9)
	assert.Equal(t, 2, c.Most())
}

// What cannot be of people is refused, and says where.
func TestCheckOfPeople(t *testing.T) {
	for _, c := range []struct {
		field  string
		change func(l *Line)
	}{
		{"crew.operators", func(l *Line) { l.Crew.Operators = 0 }},
		{"crew.operators", func(l *Line) { l.Crew.Part, l.Crew.Block = math.NaN(), 60 }},
		{"crew.operators", func(l *Line) { l.Crew.Part, l.Crew.Block = 1, 60 }},
		{"crew.blocks", func(l *Line) { l.Crew.Part = 0.5 }},
		{"crew.blocks", func(l *Line) { l.Crew.Part, l.Crew.Block = 0.5, sim.Seconds(math.Inf(1)) }},
		{"crew.later", func(l *Line) { l.Crew.Later = []Presence{{After: 0, Operators: 1}} }},
		{"crew.later", func(l *Line) { l.Crew.Later = []Presence{{After: 5, Operators: -1}} }},
		{"crew.later", func(l *Line) { l.Crew.Later = []Presence{{After: 5, Operators: 1}, {After: 5, Operators: 1}} }},
		{"crew.breaks", func(l *Line) { l.Crew.Breaks = []Break{{After: 5}} }},
		{"crew.breaks", func(l *Line) { l.Crew.Breaks = []Break{{After: 5, Length: sim.Seconds(math.NaN())}} }},
		{"crew.breaks", func(l *Line) { l.Crew.Breaks = []Break{{After: 5, Length: 9}, {After: 10, Length: 9}} }},
		{"crew.breaks", func(l *Line) { l.Crew.Breaks = []Break{{After: 5, Length: 9, Remain: -1}} }},
		{"crew.people", func(l *Line) { l.Crew.People = []Person{{Name: "a", Operators: 1, Only: Clearing}} }},
		{"crew.people", func(l *Line) { l.Crew.People = []Person{{Name: "a", Operators: 1, Stations: []string{"1"}}} }},
		{"crew.people", func(l *Line) { l.Crew.People = []Person{{Name: "a", Operators: 2}} }},
		{"crew.people", func(l *Line) { l.Crew.People = []Person{} }},
		{"crew.people", func(l *Line) { l.Crew.People = []Person{{Name: "a", Operators: 1e9}} }},
		{"crew.people", func(l *Line) { l.Crew.People = []Person{{Name: "a", Operators: 1, Stays: "nowhere"}} }},
		{"crew.help", func(l *Line) { l.Crew.Help = math.NaN() }},
		{"crew.help", func(l *Line) { l.Crew.Help = 0.9 }},
		{"crew.technicians", func(l *Line) { l.Crew.Technicians = -1 }},
		{"breakdowns.every", func(l *Line) { l.Stations[0].Downtime().Repair = sim.Constant(1) }},
		{"breakdowns.comes", func(l *Line) { *l.Stations[0].Downtime() = Breakdowns{Every: 1, Repair: sim.Constant(1)} }},
		{"breakdowns.repair", func(l *Line) { *l.Stations[0].Downtime() = Breakdowns{Every: 1, Comes: sim.Constant(1)} }},
		{"breakdowns.repair", func(l *Line) {
			*l.Stations[0].Downtime() = Breakdowns{Every: 1, Comes: sim.Constant(1), Repair: sim.Constant(-1)}
		}},
	} {
		l := referenceLine()
		c.change(l)
		var fields []string
		for _, err := range l.Check() {
			var p *Problem
			require.ErrorAs(t, err, &p)
			fields = append(fields, p.Field)
		}
		assert.Contains(t, fields, c.field)
	}
	job := referenceLine()
	job.Shift, job.Job.Sets = 0, 10
	job.Crew.Later = []Presence{{After: 5, Operators: 1}}
	assert.NotEmpty(t, job.Check(), "a job does not know the time")
}
