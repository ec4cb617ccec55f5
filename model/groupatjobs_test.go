package model

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// jobLine returns the reference line at a job, whose remakes are closed in further passes.
func jobLine(name string) *Line {
	l := referenceLine()
	l.Name, l.Random, l.Shift, l.Job = name, name, 0, Job{Sets: 1}
	return l
}

// A group of one line does its jobs as the line alone does them, one after the other: the same
// outcomes, but for the rounding of later times. The crew is that of the line.
func TestGroupAtJobsOfOne(t *testing.T) {
	l := jobLine("a")
	g, err := NewGroupAtJobs(&GroupAtJobs{Names: []string{"one"}, Setups: [][]*Line{{l}}, Crew: l.Crew})
	require.NoError(t, err)
	alone, err := New(l)
	require.NoError(t, err)
	work := [][]JobRun{{
		{Sets: 9_000, Replication: 4, Change: []sim.Seconds{100, 40}, Automatic: 300},
		{Sets: 20_000, Replication: 5, NotBefore: 50_000},
		{Sets: 1_000, Replication: 6},
	}}
	require.NoError(t, g.Run(1, work))
	now := sim.Seconds(0)
	for i, j := range work[0] {
		var out Outcome
		alone.KeepLots(i > 0)
		require.NoError(t, alone.RunJob(1, j.Replication, j.Sets, &out))
		assert.Equal(t, max(now, j.NotBefore), j.Begun)
		assert.InDelta(t, float64(out.Job.Finish), float64(j.Finished-j.First), 1e-6)
		assert.Equal(t, out.Sets, j.Outcome.Sets)
		for k := range out.Stations {
			assert.Equal(t, out.Stations[k].Faults, j.Outcome.Stations[k].Faults)
			assert.Equal(t, out.Stations[k].Pieces, j.Outcome.Stations[k].Pieces)
		}
		now = j.Finished
	}
	assert.InDelta(t, 300, float64(work[0][0].First), 1e-9, "what is automatic takes longest")
}

// Until the first of them is done, lines at one job each are a line group in a shift: the same
// events, so that a shift that ends with the first job has the same outcome of its line.
func TestGroupAtJobsIsALineGroup(t *testing.T) {
	a, b := jobLine("first"), jobLine("second")
	b.Speed = 12_000
	crew := Crew{Operators: 1, Walk: sim.Constant(15)}
	g, err := NewGroupAtJobs(&GroupAtJobs{Names: []string{"first", "second"}, Setups: [][]*Line{{a}, {b}}, Crew: crew})
	require.NoError(t, err)
	for replication := range 5 {
		work := [][]JobRun{{{Sets: 20_000, Replication: replication}}, {{Sets: 90_000, Replication: replication}}}
		require.NoError(t, g.Run(1, work))
		until := work[0][0].Finished
		h := &LineGroup{Crew: crew}
		for _, l := range []*Line{a, b} {
			own := *l
			own.Job, own.Shift = Job{}, until
			h.Lines = append(h.Lines, &own)
		}
		s, err := NewLineGroup(h)
		require.NoError(t, err)
		outs := make([]Outcome, 2)
		require.NoError(t, s.Run(1, replication, outs))
		job := &work[0][0].Outcome
		assert.Equal(t, job.Cycles, outs[0].Cycles)
		for k := range job.Stations[:len(job.Stations)-1] {
			assert.Equal(t, job.Stations[k].Faults, outs[0].Stations[k].Faults, "what is at the first station when the job ends is no set of it")
			assert.Equal(t, job.Stations[k].Clearing, outs[0].Stations[k].Clearing)
		}
		assert.Greater(t, float64(outs[0].Stopped().Waiting), 0.0)
	}
}

// A hand case: a line without faults that runs 1 set a second, and what its jobs wait for.
func TestGroupAtJobsByHand(t *testing.T) {
	line := func(name string) *Line {
		return &Line{
			Name: name, Speed: 3600, Job: Job{Sets: 1}, Restart: sim.Constant(5),
			Stations: []Station{
				&Inserter{Place: Place{Name: "inserter"}, Hopper: Stock{Capacity: 1e9, Work: sim.Constant(0)}, Clear: sim.Constant(1)},
				&Delivery{Place: Place{Name: "delivery", At: 1}},
			},
		}
	}
	spec := &GroupAtJobs{
		Names: []string{"x", "y"}, Setups: [][]*Line{{line("p")}, {line("p")}},
		Crew:  Crew{Operators: 1, Walk: sim.Constant(0)},
		Staff: []Staffing{{From: 150, Operators: 0}, {From: 1000, Operators: 2}},
		Down:  [][]Stretch{{{From: 2000.5, To: 2100}}, nil},
	}
	g, err := NewGroupAtJobs(spec)
	require.NoError(t, err)
	work := [][]JobRun{
		{{Sets: 1000, Change: []sim.Seconds{100}}, {Sets: 1000, Replication: 1}},
		{{Sets: 10, Change: []sim.Seconds{100}}, {Sets: 10, Replication: 1, Change: []sim.Seconds{30, 20}}},
	}
	require.NoError(t, g.Run(1, work))
	type when struct{ begun, first, finished sim.Seconds }
	var got []when
	for _, j := range [...]JobRun{work[0][0], work[0][1], work[1][0], work[1][1]} {
		got = append(got, when{j.Begun, j.First, j.Finished})
	}
	// The one operator is at the first line first, and finishes what he has in hand at 150. Nobody is
	// there from then until 1000; then two work side by side.
	assert.Equal(t, when{0, 100, 1101}, got[0])
	assert.Equal(t, when{0, 200, 211}, got[2])
	assert.Equal(t, when{211, 1030, 1041}, got[3])
	assert.InDelta(t, 1101+1001+99+5, float64(got[1].finished), 1e-9, "down from the end of the cycle at 2001 until 2100, then 5 s to restart")
}

// Ledgers balance and every job is whole, whatever jobs, changeovers, people and downtimes there are.
func TestGroupAtJobsIsWhole(t *testing.T) {
	a, b := jobLine("p"), jobLine("q")
	a.Random, b.Random = "", ""
	g, err := NewGroupAtJobs(&GroupAtJobs{
		Names: []string{"north", "south"}, Setups: [][]*Line{{a, b}, {b}}, Crew: Crew{Operators: 1, Walk: sim.Constant(10)},
		Staff: []Staffing{{From: 500}, {From: 900, Operators: 2}, {From: 4000, Operators: 1}},
		Down:  [][]Stretch{{{10, 400}, {3000, 3100}}, {{950, 2000}}},
	})
	require.NoError(t, err)
	for seed := range uint64(20) {
		work := [][]JobRun{
			{{Sets: 3000, Change: []sim.Seconds{60, 60}}, {Setup: 1, Sets: 5000, Replication: 1, Change: []sim.Seconds{300}}, {Sets: 200, Replication: 2, NotBefore: 9000}},
			{{Sets: 8000, Change: []sim.Seconds{200}, Automatic: 100}, {Sets: 1, Replication: 1}},
		}
		require.NoError(t, g.Run(seed, work))
		for _, line := range work {
			now := sim.Seconds(0)
			for i := range line {
				j := &line[i]
				assert.GreaterOrEqual(t, j.Begun, max(now, j.NotBefore))
				assert.LessOrEqual(t, j.Begun+j.Automatic, j.First)
				assert.GreaterOrEqual(t, j.Finished-j.First, j.Outcome.Job.Finish-1e-6, "what it is held off by being down comes on top")
				require.NoError(t, j.Outcome.Balance())
				assert.GreaterOrEqual(t, j.Outcome.Sets.Started, j.Sets)
				now = j.Finished
			}
		}
	}
}

// The same work gives the same, whatever ran before, and a replication allocates nothing.
func TestGroupAtJobsRepeats(t *testing.T) {
	a := jobLine("p")
	a.Random = ""
	g, err := NewGroupAtJobs(&GroupAtJobs{Names: []string{"north", "south"}, Setups: [][]*Line{{a}, {a}}, Crew: Crew{Operators: 1, Walk: sim.Constant(10)}})
	require.NoError(t, err)
	work := [][]JobRun{{{Sets: 3000, Change: []sim.Seconds{60}}}, {{Sets: 4000}, {Sets: 500, Replication: 1}}}
	require.NoError(t, g.Run(1, work))
	ends := func() [2]sim.Seconds { return [2]sim.Seconds{work[0][0].Finished, work[1][1].Finished} }
	first := ends()
	require.NoError(t, g.Run(2, work))
	assert.NotEqual(t, first, ends())
	require.NoError(t, g.Run(1, work))
	assert.Equal(t, first, ends())
	assert.Zero(t, testing.AllocsPerRun(3, func() { _ = g.Run(1, work) }))
}

// Lines that stop for faults alone and share a crew, at jobs without end as it were, run as the
// table of the finite queue has it: see TestLineGroupSharesItsCrew.
func TestGroupAtJobsInterference(t *testing.T) {
	h := interferingLines(t, 5, 1)
	spec := &GroupAtJobs{Crew: h.Crew}
	var work [][]JobRun
	for _, l := range h.Lines {
		l.Shift, l.Job = 0, Job{Sets: 1}
		spec.Names, spec.Setups = append(spec.Names, l.Name), append(spec.Setups, []*Line{l})
		work = append(work, make([]JobRun, 60)) // some are done before others: none is looked at then
		for k := range work[len(work)-1] {
			work[len(work)-1][k] = JobRun{Sets: 30_000, Replication: k}
		}
	}
	g, err := NewGroupAtJobs(spec)
	require.NoError(t, err)
	share := make(sim.Sample, 12)
	for i := range share {
		require.NoError(t, g.Run(uint64(i), work))
		for _, line := range work {
			ran, took := sim.Seconds(0), sim.Seconds(0)
			for k := range line[:40] {
				ran, took = ran+line[k].Outcome.Time.Running, took+line[k].Finished-line[k].Begun
			}
			share[i] += float64(ran / took)
		}
	}
	tolerance := 3.29 * share.SD() / math.Sqrt(float64(len(share)))
	assert.InDelta(t, 4.360478, share.Mean(), tolerance)
	assert.Less(t, tolerance, 0.05, "a biased answer would not be seen")
}

func TestGroupAtJobsRefuses(t *testing.T) {
	l := jobLine("p")
	fine := GroupAtJobs{Names: []string{"x"}, Setups: [][]*Line{{l}}, Crew: l.Crew}
	require.Empty(t, fine.Check())
	for text, change := range map[string]func(g *GroupAtJobs){
		"one line at least": func(g *GroupAtJobs) { g.Names, g.Setups = nil, nil },
		"want from 1 to":    func(g *GroupAtJobs) { g.Crew.People = []Person{{Name: "a"}, {Name: "b", Operators: 1}} },
		"people are 1": func(g *GroupAtJobs) {
			g.Crew.Operators, g.Crew.People, g.Staff = 1, []Person{{Name: "a", Operators: 1}}, []Staffing{{From: 5, Operators: 2}}
		},
		"who there is": func(g *GroupAtJobs) { g.Staff = []Staffing{{From: 5, Operators: 1, Absent: []int{0}}} },
		"there in the end may clear": func(g *GroupAtJobs) {
			g.Crew.Operators, g.Crew.People = 2, []Person{{Name: "a", Operators: 1, Only: Filling}, {Name: "b", Operators: 1}}
			g.Staff = []Staffing{{From: 5, Operators: 2, Absent: []int{1}}}
		},
		"within a shift":     func(g *GroupAtJobs) { g.Crew.Later = []Presence{{After: 3600, Operators: 1}} },
		"when they are down": func(g *GroupAtJobs) { g.Down = [][]Stretch{nil, nil} },
		"in order of time":   func(g *GroupAtJobs) { g.Staff = []Staffing{{From: 5, Operators: 1}, {From: 4, Operators: 1}} },
		"from NaN s on":      func(g *GroupAtJobs) { g.Staff = []Staffing{{From: sim.Seconds(math.NaN()), Operators: 1}} },
		"nobody is there":    func(g *GroupAtJobs) { g.Staff = []Staffing{{From: 5}} },
		"one time after":     func(g *GroupAtJobs) { g.Down = [][]Stretch{{{5, 5}}} },
		"want a job":         func(g *GroupAtJobs) { g.Setups = [][]*Line{{referenceLine()}} },
		"operators":          func(g *GroupAtJobs) { g.Crew.Operators = 0 },
	} {
		g := fine
		change(&g)
		require.NotEmpty(t, g.Check(), text)
		assert.ErrorContains(t, g.Check()[0], text)
	}
}
