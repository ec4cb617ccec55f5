package seasons

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/setup"
	"netrate/sim"
)

// fortnight is two weeks of work on a line, of two products that differ in one insert.
func fortnight(l *model.Line) *Season {
	product := func(name string, inserts ...string) *setup.Product {
		p := &setup.Product{Name: name, Envelope: setup.Envelope{Name: "C5", Height: 162, Length: 229}}
		for _, i := range inserts {
			p.Inserts = append(p.Inserts, setup.Insert{Name: i, Material: 1, Share: 1})
		}
		return p
	}
	return &Season{
		Line:     l,
		Calendar: &Calendar{Days: 1, Shifts: []ShiftTime{{Start: 8 * hour, Length: 4 * hour}}},
		Products: []*setup.Product{product("bills", "bill", "form"), product("offers", "bill", "offer")},
		Weeks:    []Week{{"one", []int64{7195, 10795}}, {"two", []int64{3595, 0}}},
		Change:   &setup.Changeover{Insert: setup.Change{Time: sim.Constant(600)}},
	}
}

// By hand. A week has 4 h. The line does a set a second, and 5 seconds after the last one
// has started it is delivered, so that the three jobs take 2 h, 3 h and 1 h. Before the
// first both inserts are put in, 20 min by the one operator; before the second and the
// third one is changed, 10 min. So the first job is finished after 2 h 20, the second
// after 5 h 30: at the end of the first week it has had 1.5 h of its 3, and half of its
// sets are left. Its work takes 5.5 h, 1.5 more than there are. The second week's job is
// begun at 5 h 30 and finished at 6 h 40, in time.
func TestSeasonByHand(t *testing.T) {
	s := fortnight(modeltest.CalmLine())
	study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
	require.NoError(t, err)
	require.Len(t, study.Jobs, 3)
	assert.Equal(t, 4.0, study.Hours)
	for i, want := range []struct{ change, hours, begun, finished float64 }{
		{1.0 / 3, 2, 0, 2 + 1.0/3}, {1.0 / 6, 3, 2 + 1.0/3, 5.5}, {1.0 / 6, 1, 5.5, 5.5 + 7.0/6},
	} {
		j := study.Jobs[i]
		assert.InDelta(t, want.change, j.Change[1], 1e-9, "changeover of job %d", i)
		assert.InDelta(t, want.hours, j.Hours[1], 1e-9, "length of job %d", i)
		assert.InDelta(t, want.begun, j.Begun[1], 1e-9, "start of job %d", i)
		assert.InDelta(t, want.finished, j.Finished[1], 1e-9, "end of job %d", i)
	}
	one, two := study.Weeks[0], study.Weeks[1]
	assert.InDelta(t, 5.5, one.Work[0], 1e-9)
	assert.InDelta(t, 1.5, one.Overtime[0], 1e-9)
	assert.InDelta(t, 10795.0/2, one.Backlog[0], 1e-6)
	assert.Zero(t, one.InTime())
	assert.Zero(t, two.Backlog[0])
	assert.Equal(t, 1.0, two.InTime())
	assert.Zero(t, two.Overtime[0])
	assert.Equal(t, int64(2*(7195+10795+3595)), study.Total.Sets.Good)
}

// The best order saves what the order given wastes: by hand, after bills in week one,
// bills first in week two costs nothing.
func TestSeasonBestOrder(t *testing.T) {
	s := fortnight(modeltest.CalmLine())
	s.Weeks = []Week{{"one", []int64{0, 100}}, {"two", []int64{100, 100}}}
	for best, names := range map[bool][]int{false: {1, 0, 1}, true: {1, 1, 0}} {
		s.Best = best
		study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
		require.NoError(t, err)
		var order []int
		for _, j := range study.Jobs {
			order = append(order, j.Product)
		}
		assert.Equal(t, names, order)
	}
}

// Over a whole season every set is accounted for: with remakes closed, all that were asked
// for are delivered good or closed by hand. The same for any number of workers.
func TestSeasonLedger(t *testing.T) {
	for _, closing := range []model.Job{{Closing: model.SecondPass, Setup: sim.Constant(300)}, {Closing: model.ByHand, PerHour: 30}} {
		t.Run(closing.Closing.String(), func(t *testing.T) {
			s := fortnight(modeltest.LettersLine(3))
			s.Closing = closing
			for _, lane := range modeltest.StationsOf[*model.Feeder](s.Line) {
				lane.Misfeed, lane.Double, lane.Jam = 0.002, 0.001, 0.0005
			}
			for _, p := range s.Products {
				p.Inserts = []setup.Insert{{Name: "document", Material: 1, Share: 1, Stream: "documents"}, {Name: "letter", Material: 1, Share: 1, Stream: "letters"}}
			}
			modeltest.FirstOf[*model.Reader](s.Line).Match = "documents"
			var first *SeasonStudy
			for _, workers := range []int{1, 3} {
				study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 6, Max: 6, Workers: workers}, nil)
				require.NoError(t, err)
				assert.Equal(t, int64(6*(7195+10795+3595)), study.Total.Sets.Good+study.Total.Job.ByHand)
				if first == nil {
					first = study
				}
				assert.Equal(t, first, study)
			}
			assert.Positive(t, first.Total.Sets.Diverted, "nothing was lost, so nothing was shown")
		})
	}
}

func TestSeasonRefuses(t *testing.T) {
	s := fortnight(modeltest.CalmLine())
	s.Products[1].Inserts = append(s.Products[1].Inserts, setup.Insert{Name: "third", Material: 1, Share: 1})
	s.Weeks = append(s.Weeks, Week{"three", []int64{1}})
	s.Calendar.Days = 9
	_, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
	for _, want := range []string{"offers: ", "week 3 has sets of 1 products, want 2", "working days"} {
		require.ErrorContains(t, err, want)
	}
}

// A season of six weeks on the reference line, ten shifts a week.
func BenchmarkSeason(b *testing.B) {
	s := fortnight(modeltest.ReferenceLine())
	s.Calendar = twoShifts()
	s.Weeks = nil
	for _, name := range []string{"1", "2", "3", "4", "5", "6"} {
		s.Weeks = append(s.Weeks, Week{name, []int64{500_000, 500_000}})
	}
	plan := sim.Plan{Seed: 1, Min: 100, Max: 100}
	for range b.N {
		if _, err := RunSeason(context.Background(), s, plan, nil); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N)/100, "ms/season")
}

// By hand, as in TestSeasonByHand: 20 minutes before the first job, and 10 before each of
// the others. In the best order the second week begins with what the first ended with.
func TestSeasonChangeTime(t *testing.T) {
	s := fortnight(modeltest.CalmLine())
	s.Weeks[1].Sets = []int64{3595, 3595}
	for best, want := range map[bool]float64{false: 3000, true: 2400} {
		s.Best = best
		sum, err := s.ChangeTime()
		require.NoError(t, err)
		assert.InDelta(t, want, float64(sum), 1e-9, "best order: %v", best)
	}
	s.Calendar.Days = 0
	_, err := s.ChangeTime()
	assert.ErrorContains(t, err, "working days")
}

// A week that ends early leaves the line standing until the next begins: no job begins before
// its week. By hand, with 4 h in a week: 1,795 sets take half an hour, after 20 min for two
// inserts; the first week has nothing else, and the second begins after 4 h.
func TestSeasonWaitsForItsWeek(t *testing.T) {
	s := fortnight(modeltest.CalmLine())
	s.Weeks = []Week{{"one", []int64{1795, 0}}, {"two", []int64{3595, 0}}}
	study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
	require.NoError(t, err)
	require.Len(t, study.Jobs, 2)
	assert.InDelta(t, 1.0/3+0.5, study.Jobs[0].Finished[0], 1e-9)
	assert.InDelta(t, 4, study.Jobs[1].Begun[0], 1e-9)
	assert.InDelta(t, 5, study.Jobs[1].Finished[0], 1e-9)
}

// Every changeover and every week has random numbers of its own: two that could be alike take
// times that do not move together.
func TestSeasonDrawsApart(t *testing.T) {
	clear, err := sim.NewExponential(60)
	require.NoError(t, err)
	l := modeltest.CalmLine()
	l.Stations[0].(*model.Feeder).Jam, l.Stations[0].(*model.Feeder).Clear = 1.0/200, clear
	s := fortnight(l)
	s.Weeks = []Week{{"one", []int64{1800, 900}}, {"two", []int64{1800, 900}}, {"three", []int64{1800, 900}}}
	s.Change = &setup.Changeover{Insert: setup.Change{Time: clear}}
	study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 300, Max: 300}, nil)
	require.NoError(t, err)
	require.Len(t, study.Jobs, 6)
	// Of 300 pairs that have nothing in common the correlation lies within 3.29/√300 = 0.19
	// (99.9 %); of equal ones it is 1.
	apart := func(a, b sim.Sample, what string) {
		t.Helper()
		var cov float64
		for i := range a {
			cov += (a[i] - a.Mean()) * (b[i] - b.Mean())
		}
		assert.InDelta(t, 0, cov/float64(len(a)-1)/(a.SD()*b.SD()), 0.19, what)
	}
	apart(study.Jobs[1].Change, study.Jobs[2].Change, "changeovers")
	apart(study.Jobs[3].Change, study.Jobs[5].Change, "changeovers of one kind")
	apart(study.Jobs[0].Hours, study.Jobs[2].Hours, "the same job in two weeks")
	apart(study.Jobs[2].Hours, study.Jobs[4].Hours, "the same job in two weeks")
}

// The jobs of one product go on with the lots of the one before, in the same replication: a lot that
// outlasts the season makes both jobs of the bills slow, or neither.
func TestSeasonKeepsLots(t *testing.T) {
	l := modeltest.CalmLine()
	f := modeltest.FirstOf[*model.Feeder](l)
	f.Misfeed, f.Lots = 0.01, model.Lots{Of: 1e9, Factors: []float64{0, 2}}
	study, err := RunSeason(context.Background(), fortnight(l), sim.Plan{Seed: 1, Min: 30, Max: 30}, nil)
	require.NoError(t, err)
	bad := 0
	for k := range study.Done {
		first, second := study.Jobs[0].Hours[k] > 2.2, study.Jobs[2].Hours[k] > 1.1
		assert.Equal(t, first, second, "replication %d", k)
		if first {
			bad++
		}
	}
	assert.Greater(t, bad, 5)
	assert.Less(t, bad, 25)
}

// A job begins with what the one before left of the same pieces. By hand, on the jobs of
// TestSeasonByHand: their bills come in a hopper of 10,000 and are filled up in 100 s, without a call before
// they are used up; forms and offers never end. Bills: 7,195 are used, so that the next job stands when
// it has used 2,805, and then when it has used 10,000 more; of 10,795 that is once. What is left, 2,010, does
// not do for the last job, 3,595. From full hoppers the second job stands once, and no other.
func TestSeasonKeepsHoppers(t *testing.T) {
	calm := func() *model.Line {
		l := modeltest.CalmLine()
		l.Crew.Walk, l.Restart = sim.Constant(0), sim.Constant(0)
		for i, s := range l.Stations {
			switch s := s.(type) {
			case *model.Feeder:
				s.Hopper = model.Stock{Capacity: 1e9, Work: sim.Constant(1)}
				if i == 0 {
					s.Hopper = model.Stock{Capacity: 10_000, Work: sim.Constant(100)}
				}
			case *model.Inserter:
				s.Hopper = model.Stock{Capacity: 1e9, Work: sim.Constant(1)}
			}
		}
		return l
	}
	for kept, stands := range map[bool][]float64{false: {0, 1, 0}, true: {0, 1, 1}} {
		s := fortnight(calm())
		s.Begins.Kept = kept
		study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
		require.NoError(t, err)
		work := together([]int{0, 1, 2})
		work.Lines = []*model.Line{s.Line}
		work.Lines[0].Name, work.Crew, work.Begins = "a", s.Line.Crew, s.Begins
		together := runTogether(t, work, 2)
		for k, hours := range []float64{2, 3, 1} {
			want := hours + stands[k]*100/3600
			assert.InDelta(t, want, study.Jobs[k].Hours[1], 1e-9, "job %d, %v", k, kept)
			assert.InDelta(t, want, (together.Jobs[k].Finished[1]-together.Jobs[k].First[1])/3600, 1e-9, "job %d, %v", k, kept)
		}
	}
}
