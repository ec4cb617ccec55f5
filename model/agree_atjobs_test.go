package model

import (
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// agreeLine returns a line of agreeStreams by its name, with a name of its own.
func agreeLine(of, name string) *Line {
	all := agreeStreams()
	l := all[slices.IndexFunc(all, func(a agreeCase) bool { return a.name == of })].line()
	l.Name = name
	return l
}

// agreeAtJobs are lines with one crew at lists of jobs, on which the engine is held against the slow
// model.
func agreeAtJobs() map[string]func() (*GroupAtJobs, [][]JobRun) {
	two := func(crew Crew, change func(g *GroupAtJobs)) func() (*GroupAtJobs, [][]JobRun) {
		return func() (*GroupAtJobs, [][]JobRun) {
			a, b := agreeLine("a job closed beside the line", "p"), agreeLine("a job closed beside the line, one lane", "q")
			b.Speed = 9_317
			g := &GroupAtJobs{Names: []string{"north", "south"}, Setups: [][]*Line{{a, b}, {b}}, Crew: crew}
			g.Crew.Walk = lognormal(5, 0.3)
			change(g)
			return g, [][]JobRun{
				{{Sets: 400, Change: []sim.Seconds{30.3, 20.7}}, {Setup: 1, Sets: 300, Replication: 1, Automatic: 40.1}},
				{{Sets: 500, Change: []sim.Seconds{25.1}, NotBefore: 10.7}, {Sets: 200, Replication: 1, Change: []sim.Seconds{15.9, 9.3}, ChangeAt: []string{"", b.Stations[0].Where().Name}}},
			}
		}
	}
	return map[string]func() (*GroupAtJobs, [][]JobRun){
		"one bench for all": two(Crew{Operators: 2}, func(g *GroupAtJobs) {
			for _, l := range slices.Concat(g.Setups...) {
				l.Job.PerHour = 400
			}
		}),
		"one bench, hours and a technician": two(Crew{Operators: 1, Technicians: 1, Help: 1.5}, func(g *GroupAtJobs) {
			g.Staff = []Staffing{{From: 60.3, Operators: 2}, {From: 200.9, Operators: 1}}
			breaksDown(g.Setups[0][1], 1)
		}),
		"skills, hours, and one who is absent": two(Crew{Operators: 3, Technicians: 1, Help: 1.5}, func(g *GroupAtJobs) {
			inserter := firstOf[*Inserter](g.Setups[0][0]).Name
			g.Crew.People = []Person{
				{Name: "sets up and clears", Operators: 1, Only: Clearing | Changing, Stays: inserter, Lines: []string{"south", "north"}, Elsewhere: true},
				{Name: "clears one", Operators: 1, Only: Clearing, Lines: []string{"north"}},
				{Name: "loads and sets up", Operators: 1, Only: Filling | Changing},
				{Name: "all", Operators: 1},
			}
			g.Staff = []Staffing{{From: 40.3, Operators: 3, Absent: []int{0}}, {From: 100.7, Operators: 4, Absent: []int{2}}, {From: 300.9, Operators: 4, Absent: []int{1}}}
		}),
		"the one who clears comes and goes": two(Crew{Operators: 2}, func(g *GroupAtJobs) {
			g.Crew.People = []Person{{Name: "clears", Operators: 1, Only: Clearing}, {Name: "all else", Operators: 1, Only: Filling | Changing}}
			for k := range 40 {
				from := sim.Seconds(60.3 + 90.7*float64(k))
				g.Staff = append(g.Staff, Staffing{From: from, Operators: 2, Absent: []int{0}}, Staffing{From: from + 30.1, Operators: 2})
			}
		}),
		"further passes, and by hand": two(Crew{Operators: 1}, func(g *GroupAtJobs) {
			g.Setups[0][0].Job = Job{Sets: 1, Closing: SecondPass, Setup: lognormal(20, 0.5)}
			g.Setups[0][1].Job = Job{Sets: 1, Closing: ByHand, PerHour: 200}
		}),
	}
}

// jobFigures returns every number of what came of a job.
func jobFigures(j *JobRun) []figure {
	return append(figures(&j.Outcome), flatten(nil, nil, reflect.ValueOf(struct{ Begun, First, Free, Finished sim.Seconds }{j.Begun, j.First, j.Free, j.Finished}))...)
}

// Lines at jobs with one crew do what the rules say, job by job: every figure has the same mean as in the
// slow model, and so has when each job was begun, done and finished. All together raise a false alarm with
// a probability of at most 0.1 %.
func TestAtJobsAgrees(t *testing.T) {
	oneGoroutine(t)
	for name, group := range agreeAtJobs() {
		t.Run(name, func(t *testing.T) {
			assert.Empty(t, atJobsDiffer(t, group, func(*GroupAtJobs) {}))
		})
	}
}

// With a bench that is a quarter faster, or a second operator who comes sooner, the engine is told from the
// slow model.
func TestAtJobsAgreesCanFail(t *testing.T) {
	oneGoroutine(t)
	for name, c := range map[string]struct {
		group  string
		change func(g *GroupAtJobs)
	}{
		"bench": {"one bench for all", func(g *GroupAtJobs) {
			for _, l := range g.Setups[1] {
				l.Job.PerHour *= 1.25
			}
		}},
		"hours":    {"one bench, hours and a technician", func(g *GroupAtJobs) { g.Staff[0].From = 5.3 }},
		"changing": {"skills, hours, and one who is absent", func(g *GroupAtJobs) { g.Crew.People[0].Only = Clearing }},
		"absent":   {"the one who clears comes and goes", func(g *GroupAtJobs) { g.Staff = nil }},
	} {
		t.Run(name, func(t *testing.T) {
			assert.NotEmpty(t, atJobsDiffer(t, agreeAtJobs()[c.group], c.change))
		})
	}
}

// atJobsDiffer returns the figures in which the engine, of a group that was changed, differs from the slow
// model.
func atJobsDiffer(t *testing.T, group func() (*GroupAtJobs, [][]JobRun), change func(g *GroupAtJobs)) (found []string) {
	t.Helper()
	g, work := group()
	other, otherWork := group()
	change(other)
	s, err := NewGroupAtJobs(other)
	require.NoError(t, err)
	var slow, engine []*pooled
	for replication := range replications {
		slowJobs(g, work, 20, replication)
		for _, line := range otherWork {
			for i := range line {
				line[i].Replication = 2*replication + i
			}
		}
		require.NoError(t, s.Run(20, otherWork))
		slow, engine = addJobs(slow, work), addJobs(engine, otherWork)
	}
	for i := range slow {
		level := 0.001 / float64(len(agreeAtJobs())*len(slow)*(len(slow[i].names)+1))
		found = append(found, differences(slow[i], engine[i], level)...)
	}
	return found
}

// addJobs adds what came of each job to what there is of it.
func addJobs(all []*pooled, work [][]JobRun) []*pooled {
	jobs := slices.Concat(work...)
	for len(all) < len(jobs) {
		all = append(all, &pooled{})
	}
	for i := range jobs {
		all[i].addFigures(jobFigures(&jobs[i]), jobs[i].Outcome.Sets.Good)
	}
	return all
}

// A job whose bench is still at what came before does what the rules say.
func TestBenchThatIsBusyAgrees(t *testing.T) {
	oneGoroutine(t)
	const busy = 641.7
	l := agreeLine("a job closed beside the line", "p")
	engine, err := New(l)
	require.NoError(t, err)
	var slow, fast, free pooled
	for replication := range replications {
		job := slowJob{line: l, random: newSlowRandom(20, replication), busy: busy}
		a := job.run()
		slow.add(&a)
		for _, x := range []struct {
			until sim.Seconds
			into  *pooled
		}{{busy, &fast}, {0, &free}} {
			var b Outcome
			engine.BenchBusy(x.until)
			require.NoError(t, engine.Run(20, replication, &b))
			x.into.add(&b)
		}
	}
	level := 0.001 / float64(agreeChecks(l))
	assert.Empty(t, differences(&slow, &fast, level))
	assert.NotEmpty(t, differences(&slow, &free, level), "a bench that is free goes unseen: this test cannot fail")
}
