package trace

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/scenarios"
	"netrate/sim"
)

// lines returns the lines of all examples that work for a shift, and some more.
func lines(t *testing.T) map[string]*model.Line {
	t.Helper()
	all := map[string]*model.Line{"reference": modeltest.ReferenceLine(), "letters": modeltest.LettersLine(3), "people": peopled()}
	for _, x := range scenarios.Examples() {
		sc, err := scenarios.Load(x.Name+".yaml", x.Data)
		require.NoError(t, err)
		if sc.Line == nil || sc.LineGroup != nil || sc.NoWork || sc.Line.Job.Sets > 0 || len(sc.Line.Check()) > 0 {
			continue
		}
		l := sc.Line.Clone()
		l.Shift = min(l.Shift, 4*3600)
		all[x.Name] = l
	}
	require.Greater(t, len(all), 5)
	return all
}

// peopled returns a line with breakdowns, breaks and half an operator.
func peopled() *model.Line {
	l := modeltest.ReferenceLine()
	for _, s := range l.Stations {
		*s.Downtime() = model.Breakdowns{Every: 9000, Comes: modeltest.Lognormal(300, 0.5), Repair: modeltest.Lognormal(900, 0.8)}
	}
	l.Shift = 4 * 3600
	l.Crew.Part, l.Crew.Block = 0.5, 1200
	l.Crew.Later = []model.Presence{{After: 9000, Operators: 2}}
	l.Crew.Breaks = []model.Break{{After: 3600, Length: 600}, {After: 7200, Length: 900, Stands: true}}
	l.Crew.Operators, l.Crew.Help = 2, 1.5
	l.Crew.People = []model.Person{{Name: "first", Operators: 1}, {Name: "stays", Operators: 1, Stays: "inserter", Elsewhere: true}, {Name: "last", Operators: 1}}
	for _, f := range modeltest.StationsOf[*model.Feeder](l) {
		f.Jam *= 20
	}
	return l
}

// eachShift traces some shifts of each line.
func eachShift(t *testing.T, test func(t *testing.T, s *Shift)) {
	t.Helper()
	for name, l := range lines(t) {
		t.Run(name, func(t *testing.T) {
			for replication := range 3 {
				s, err := Of(l, 11, replication)
				require.NoError(t, err)
				test(t, s)
			}
		})
	}
}

// The audit trail adds up to the ledgers: sets by fate, what they were lost to, remakes, and
// the pieces in the sets that were lost.
func TestSetsAddUp(t *testing.T) {
	eachShift(t, func(t *testing.T, s *Shift) {
		t.Helper()
		o := &s.Outcome
		fates := map[model.Fate]int64{}
		pieces := make([]map[model.Fate]int64, len(s.Line.Stations))
		for i := range pieces {
			pieces[i] = map[model.Fate]int64{}
		}
		remakes, before := int64(0), sim.Cycles(0)
		lost := make([]int64, len(s.Line.Stations))
		for i := range s.Sets {
			x := &s.Sets[i]
			require.Greater(t, x.Number, before)
			before = x.Number
			if x.Good {
				require.NotEmpty(t, x.Happened)
				continue
			}
			fates[x.Fate]++
			remakes += x.Remakes
			if x.Blamed >= 0 {
				lost[x.Blamed]++
			}
			for _, p := range x.Pieces {
				pieces[p.Station][x.Fate] += p.N
			}
			for _, w := range x.Happened {
				if w.What == TakenOut {
					pieces[w.Station][x.Fate]++
				}
			}
		}
		require.Equal(t, model.Sets{
			Started: o.Sets.Started, Good: o.Sets.Started - fates[0] - fates[1] - fates[2] - fates[3] - fates[4],
			Defective: fates[model.Defective], Diverted: fates[model.Diverted], Outsorted: fates[model.Outsorted],
			Spoiled: fates[model.Spoiled], OnLine: fates[model.OnLine],
		}, o.Sets)
		require.Equal(t, o.Remakes(), remakes)
		for i := range o.Stations {
			blamed := int64(0)
			for _, n := range o.Stations[i].Lost {
				blamed += n
			}
			require.Equal(t, blamed, lost[i])
			p := o.Stations[i].Pieces
			require.Equal(t, p.Defective, pieces[i][model.Defective])
			require.Equal(t, p.Diverted, pieces[i][model.Diverted])
			require.Equal(t, p.Outsorted, pieces[i][model.Outsorted])
			require.Equal(t, p.OnLine, pieces[i][model.OnLine])
			require.GreaterOrEqual(t, p.Spoiled, pieces[i][model.Spoiled], "what was discarded by hand is in no set")
		}
	})
}

// Stops, faults and time add up to the outcome.
func TestStopsAddUp(t *testing.T) {
	eachShift(t, func(t *testing.T, s *Shift) {
		t.Helper()
		o := &s.Outcome
		stops := make([][model.Causes]int64, len(o.Stations))
		for i := range s.Stops {
			x := &s.Stops[i]
			stops[x.Station][x.Cause]++
			require.GreaterOrEqual(t, x.To, x.From)
			if x.Attended {
				require.GreaterOrEqual(t, x.Arrives, x.From)
				require.LessOrEqual(t, x.Arrives, x.To)
			} else {
				require.True(t, !x.Over || x.Cause == model.CauseStarved)
			}
		}
		faults := make([]int64, len(o.Stations))
		for _, f := range s.Faults {
			if !f.FalseCall {
				faults[f.Station]++
			}
			if s.Line.Stations[f.Station].Kind().Role == model.Gathers { // it works by the shop clock
				require.GreaterOrEqual(t, f.At, s.Moment(f.Cycle))
				continue
			}
			require.Equal(t, s.Moment(f.Cycle), f.At, "by the engine's own formula")
		}
		for i := range o.Stations {
			counted := int64(0)
			for _, n := range o.Stations[i].Faults {
				counted += n
			}
			require.Equal(t, counted, faults[i])
			for c := range stops[i] {
				require.Equal(t, o.Stations[i].Stops[c].Count, stops[i][c])
			}
		}
		ran := sim.Seconds(0)
		for _, r := range s.Runs {
			ran += r.To - r.From
		}
		require.InDelta(t, float64(o.Time.Running), float64(ran), 1e-6)
		stood := sim.Seconds(0)
		for _, x := range s.Stood {
			stood += x.To - x.From
		}
		for _, x := range s.Breaks {
			stood += x.To - x.From
		}
		require.InDelta(t, float64(o.Time.Shift-o.Time.Running), float64(stood), 1e-6)
	})
}

// What the crew did adds up to its accounts, and nobody does two things at once.
func TestTasksAddUp(t *testing.T) {
	eachShift(t, func(t *testing.T, s *Shift) {
		t.Helper()
		var sum sim.Account
		until := make([]sim.Seconds, s.Line.Crew.Most()+s.Technicians())
		for i := range s.Tasks {
			x := &s.Tasks[i]
			sum.Calls++
			end := s.Line.Shift
			if !x.Taken {
				sum.Waiting += end - x.Called
				continue
			}
			sum.Waiting += x.From - x.Called
			sum.Walking += x.Arrives - x.From
			sum.Working += x.To - x.Arrives
			if x.Helped {
				sum.Walking += x.HelpArrives - x.HelpFrom
				sum.Working += x.To - x.HelpArrives
			}
			if x.Done {
				sum.Done++
			}
		}
		byStart := append([]Task(nil), s.Tasks...)
		for range byStart { // in the order in which they were taken up
			first := -1
			for k := range byStart {
				if byStart[k].Taken && (first < 0 || byStart[k].From < byStart[first].From) {
					first = k
				}
			}
			if first < 0 {
				break
			}
			x := &byStart[first]
			who := x.Operator
			if x.Work == model.Repair {
				who += s.Line.Crew.Most()
			}
			require.GreaterOrEqual(t, x.From, until[who], "operator %d", who)
			until[who], x.Taken = x.To, false
		}
		crew := s.Outcome.Crew()
		want := crew.Clearing
		want.Add(crew.Stock)
		for _, o := range s.Outcome.Stations {
			want.Add(o.Repair)
		}
		require.Equal(t, want.Calls, sum.Calls)
		require.Equal(t, want.Done, sum.Done)
		require.InDelta(t, float64(want.Waiting), float64(sum.Waiting), 1e-6)
		require.InDelta(t, float64(want.Walking), float64(sum.Walking), 1e-6)
		require.InDelta(t, float64(want.Working), float64(sum.Working), 1e-6)
	})
}

// At any moment the good sets that the trace counts are those that the engine has counted.
func TestGoodAtAnyMoment(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	eachShift(t, func(t *testing.T, s *Shift) {
		t.Helper()
		times := make([]sim.Seconds, 60)
		for i := range times {
			low := s.Line.Shift * sim.Seconds(i) / 60
			times[i] = low + sim.Seconds(random.Float64())*s.Line.Shift/60
		}
		running, err := model.New(s.Line)
		require.NoError(t, err)
		good := make([]int64, len(times))
		var o model.Outcome
		require.NoError(t, running.Course(s.Seed, s.Replication, times, good, &o))
		for i, at := range times {
			require.Equal(t, good[i], s.Good(at), "at %v", at)
		}
		require.Equal(t, o.Sets.Good, s.Good(s.Line.Shift))
	})
}

// Levels never leave the stock, and the last is what the ledger has.
func TestLevels(t *testing.T) {
	eachShift(t, func(t *testing.T, s *Shift) {
		t.Helper()
		last := map[int]int64{}
		for _, x := range s.Levels {
			require.LessOrEqual(t, x.Left, s.Line.Stations[x.Station].Stocked().Capacity)
			last[x.Station] = x.Left
		}
		for i := range s.Outcome.Stations {
			if own := s.Line.Stations[i].Stocked(); own.Pieces && own.Stock != nil && own.Capacity > 0 {
				require.Equal(t, s.Outcome.Stations[i].Pieces.Left, last[i])
			}
		}
	})
}

// The passes of a job add up to its outcome, one after the other on the clock.
func TestPassesAddUp(t *testing.T) {
	l := lines(t)["statements"].Clone()
	l.Shift, l.Job = 0, model.Job{Sets: 20_000, Closing: model.SecondPass, Setup: sim.Constant(300)}
	several := 0
	for replication := range 3 {
		j, err := OfJob(l, 4, replication)
		require.NoError(t, err)
		s, err := model.New(l)
		require.NoError(t, err)
		var alone model.Outcome
		require.NoError(t, s.Run(4, replication, &alone))
		require.Equal(t, alone, j.Outcome, "the same to the last bit as without a trace")
		sum := model.Outcome{Stations: make([]model.StationOutcome, len(l.Stations))}
		at := sim.Seconds(0)
		for i, p := range j.Passes {
			require.Equal(t, i+1, p.Pass)
			require.InDelta(t, float64(at), float64(p.Begins), 1e-9)
			sum.Add(&p.Outcome)
			at += p.Lasts() + 300
			require.Equal(t, p.Outcome.Sets.Good, p.Good(p.Lasts()))
			for k := range p.Sets {
				require.LessOrEqual(t, int64(p.Sets[k].Number), p.Outcome.Sets.Started)
			}
		}
		require.Equal(t, j.Outcome.Sets, sum.Sets)
		require.Equal(t, j.Outcome.Time, sum.Time)
		require.Len(t, j.Passes, int(j.Outcome.Job.Passes))
		require.InDelta(t, float64(j.Outcome.Job.Finish), float64(at-300), 1e-6)
		if len(j.Passes) > 1 {
			several++
		}
	}
	assert.Positive(t, several)
}

// Of lines that share a crew each is traced by itself, and nobody works on two at a time.
func TestLinesOfAGroup(t *testing.T) {
	a, b := modeltest.ReferenceLine(), modeltest.ReferenceLine()
	a.Name, b.Name, b.Speed = "first", "second", 12_000
	g := &model.LineGroup{Lines: []*model.Line{a, b}, Crew: model.Crew{Operators: 2, Walk: sim.Constant(15), Order: model.MostUrgent}}
	s, err := model.NewLineGroup(g)
	require.NoError(t, err)
	alone := make([]model.Outcome, 2)
	require.NoError(t, s.Run(1, 3, alone))
	all, err := OfGroup(g, 1, 3)
	require.NoError(t, err)
	var tasks []Task
	for i, x := range all {
		require.Equal(t, alone[i], x.Outcome)
		require.Equal(t, x.Outcome.Sets.Good, x.Good(x.Lasts()))
		for _, task := range x.Tasks {
			if task.Taken {
				tasks = append(tasks, task)
			}
		}
	}
	slices.SortFunc(tasks, func(a, b Task) int { return cmp.Compare(a.From, b.From) })
	until := [2]sim.Seconds{}
	for i := range tasks {
		x := &tasks[i]
		require.GreaterOrEqual(t, x.From, until[x.Operator])
		until[x.Operator] = x.To
	}
	assert.Positive(t, until[1], "both work")
}

func TestRefusals(t *testing.T) {
	l := modeltest.ReferenceLine()
	_, err := OfJob(l, 1, 0)
	assert.ErrorContains(t, err, "works for a shift")
	l.Shift, l.Job = 0, model.Job{Sets: 100}
	_, err = Of(l, 1, 0)
	assert.ErrorContains(t, err, "works for a job")
	_, err = OfGroup(&model.LineGroup{}, 1, 0)
	assert.Error(t, err)
}

// At any moment the counts of the trace are those of a shift that ends then.
func TestCountsAtAnyMoment(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for name, l := range lines(t) {
		t.Run(name, func(t *testing.T) {
			s, err := Of(l, 11, 0)
			require.NoError(t, err)
			for range 25 {
				short := l.Clone()
				short.Shift = sim.Seconds(random.Float64()) * l.Shift
				cut, err := model.New(short)
				require.NoError(t, err)
				var o model.Outcome
				require.NoError(t, cut.Run(11, 0, &o))
				c := s.Counts(short.Shift)
				require.Equal(t, model.Sets{
					Started: c.Begun, Good: c.Good, Defective: c.Ended[model.Defective], Diverted: c.Ended[model.Diverted],
					Outsorted: c.Ended[model.Outsorted], Spoiled: c.Ended[model.Spoiled],
					OnLine: c.Begun - c.Good - c.Ended[model.Defective] - c.Ended[model.Diverted] - c.Ended[model.Outsorted] - c.Ended[model.Spoiled],
				}, o.Sets, "at %v", short.Shift)
			}
		})
	}
}
