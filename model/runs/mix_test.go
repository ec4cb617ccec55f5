package runs

import (
	"context"
	"maps"
	"math"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/setup"
	"netrate/sim"
	"netrate/sim/output"
)

// mixOf returns the line at some of the two products, each with its volume.
func mixOf(l *model.Line, products []*setup.Product, volumes map[string]float64) (*Mix, error) {
	all := 0.0
	for _, v := range volumes {
		all += v
	}
	jobs := slices.Sorted(maps.Keys(volumes))
	var shares []float64
	for _, job := range jobs {
		shares = append(shares, volumes[job]/all)
	}
	return NewMix(l, products, jobs, shares)
}

// twoProducts have three inserts and six, for the reference line.
func twoProducts() []*setup.Product {
	c5 := setup.Envelope{Name: "C5", Height: 162, Length: 229}
	few, all := &setup.Product{Name: "few", Envelope: c5}, &setup.Product{Name: "all", Envelope: c5}
	for i, name := range []string{"a", "b", "c", "d", "e", "f"} {
		insert := setup.Insert{Name: name, Material: 1, Share: 1}
		if i < 3 {
			few.Inserts = append(few.Inserts, insert)
		}
		all.Inserts = append(all.Inserts, insert)
	}
	return []*setup.Product{few, all}
}

// mixedRun returns the studies of some lines at the two products, few having a third.
func mixedRun(t *testing.T, shifts int, lines ...*model.Line) []*Study {
	t.Helper()
	var mixes []*Mix
	for _, l := range lines {
		m, err := mixOf(l, twoProducts(), map[string]float64{"few": 1e6, "all": 2e6})
		require.NoError(t, err)
		mixes = append(mixes, m)
	}
	studies, err := TogetherMixed(context.Background(), mixes, sim.Plan{Seed: 3, Min: shifts, Max: shifts, Workers: 2}, nil)
	require.NoError(t, err)
	return studies
}

// Of 10 envelopes 8 are letters, at 10 000 an hour and in the second shift at 8000, and 2 are
// cards at 5000. Ten thousand of the mix take 0.8 h and 0.4 h in the first shift: two thirds
// of the time and one third, 8333.3 an hour. In the second they take 1 h and 0.4 h: 5/7 and
// 2/7, 7142.9 an hour.
func TestMixedByHand(t *testing.T) {
	study := func(shifts ...Shift) *Study { return &Study{Line: &model.Line{Shift: 8 * 3600}, Shifts: shifts} }
	letters := study(Shift{NetRate: 10_000, Good: 80_000, Stops: 30}, Shift{NetRate: 8000, Good: 64_000, Stops: 35})
	cards := study(Shift{NetRate: 5000, Good: 40_000, Stops: 60}, Shift{NetRate: 5000, Good: 40_000, Stops: 70})
	s := Mixed(&model.Line{Name: "both"}, []*Study{letters, cards}, []float64{0.8, 0.2})
	assert.InDeltaSlice(t, []float64{25_000.0 / 3, 50_000.0 / 7}, []float64(s.NetRates()), 1e-9)
	assert.InDelta(t, 80_000*2/3.0+40_000/3.0, s.Shifts[0].Good, 1e-9)
	assert.InDelta(t, 40.0, s.Shifts[0].Stops, 1e-9)
	assert.InDelta(t, 45.0, s.Shifts[1].Stops, 1e-9)
	jobs := s.Jobs()
	require.Len(t, jobs, 2)
	assert.InDeltaSlice(t, []float64{2.0 / 3, 5.0 / 7}, []float64(jobs[0].Time), 1e-12)
	assert.InDeltaSlice(t, []float64{1.0 / 3, 2.0 / 7}, []float64(jobs[1].Time), 1e-12)

	alike := 0.8*10_000 + 0.2*5000 // shares taken for parts of the time
	assert.Greater(t, math.Abs(alike-s.Shifts[0].NetRate), 600.0, "which would be seen")
}

// A job that delivers nothing never makes its share.
func TestMixedOfNothing(t *testing.T) {
	study := func(rates ...float64) *Study {
		s := &Study{Line: &model.Line{Shift: 3600}}
		for _, r := range rates {
			s.Shifts = append(s.Shifts, Shift{NetRate: r})
		}
		return s
	}
	s := Mixed(&model.Line{}, []*Study{study(100, 100, 0), study(50, 0, 0)}, []float64{0.5, 0.5})
	assert.InDeltaSlice(t, []float64{200.0 / 3, 0, 0}, []float64(s.NetRates()), 1e-9)
	assert.InDeltaSlice(t, []float64{1.0 / 3, 0, 0.5}, []float64(s.Jobs()[0].Time), 1e-12)
	assert.InDeltaSlice(t, []float64{2.0 / 3, 1, 0.5}, []float64(s.Jobs()[1].Time), 1e-12)
}

// No figure of a shift is forgotten, but for when a job is finished.
func TestEveryFigureIsMixed(t *testing.T) {
	var s Shift
	for _, v := range reflect.ValueOf(&s).Elem().Fields() {
		v.SetFloat(1)
	}
	var sum Shift
	part := s.times(0.25)
	sum.add(&part)
	for f, x := range reflect.ValueOf(sum).Fields() {
		want := 0.25
		if f.Name == "Finish" {
			want = 0
		}
		assert.Equal(t, want, x.Float(), f.Name)
	}
}

// Both ledgers of every shift balance, and the losses lead to the mean net rate.
func TestMixedBalances(t *testing.T) {
	l := modeltest.ReferenceLine()
	s := mixedRun(t, 40, l)[0]
	assert.Same(t, l, s.Line)
	for k := range s.Shifts {
		x := &s.Shifts[k]
		assert.InDelta(t, float64(l.Shift), x.Running+x.Waiting+x.Working+x.Restarting+x.Starved, 1e-6)
		assert.InDelta(t, x.NetRate*8, x.Good, 1e-6)
		few, all := s.jobs[1], s.jobs[0] // in the order of their names
		made := few.Time[k] * few.Study.Shifts[k].Good
		assert.InEpsilon(t, 1.0/3, made/(made+all.Time[k]*all.Study.Shifts[k].Good), 1e-9, "its share is made")
	}
	rated, losses, net := s.Losses()
	assert.InEpsilon(t, s.NetRates().Mean(), net, 1e-9)
	left := rated
	for _, loss := range losses {
		left -= loss.PerHour
	}
	assert.InEpsilon(t, net, left, 1e-9)

	// Parts of the time that are the same in all shifts do not lead there.
	other := 0.0
	for _, j := range s.jobs {
		other += j.Time.Mean() * j.Study.NetRates().Mean()
	}
	assert.Greater(t, math.Abs(other-net)/net, 1e-6, "such a mistake is seen")
}

// A station has common random numbers in the same job of two lines, and other random numbers in two jobs of a
// line.
func TestMixRandom(t *testing.T) {
	const n = 200
	again := modeltest.ReferenceLine()
	again.Name = "again"
	studies := mixedRun(t, n, modeltest.ReferenceLine(), again)
	assert.Equal(t, studies[0].Shifts, studies[1].Shifts)

	correlation := func(a, b sim.Sample) float64 {
		sum := 0.0
		for i := range a {
			sum += (a[i] - a.Mean()) * (b[i] - b.Mean())
		}
		return sum / float64(len(a)-1) / a.SD() / b.SD()
	}
	jobs := studies[0].Jobs()
	all, few := jobs[0].Study.NetRates(), jobs[1].Study.NetRates()
	bound := 3.29 / math.Sqrt(n)
	assert.Less(t, math.Abs(correlation(all, few)), bound, "random numbers of two jobs")

	// On common random numbers the two go together, which would be seen.
	var same []*model.Line
	for _, j := range jobs {
		line := j.Study.Line.Clone()
		line.Random = ""
		same = append(same, line)
	}
	together, err := Together(context.Background(), same, sim.Plan{Seed: 3, Min: n, Max: n, Workers: 2}, nil, nil)
	require.NoError(t, err)
	assert.Greater(t, correlation(together[0].NetRates(), together[1].NetRates()), bound)
}

// A single job that the line does anyway changes nothing, not even the random numbers.
func TestMixOfOneJob(t *testing.T) {
	l := modeltest.ReferenceLine()
	m, err := mixOf(l, twoProducts(), map[string]float64{"all": 5e6})
	require.NoError(t, err)
	plan := sim.Plan{Seed: 3, Min: 20, Max: 20}
	mixed, err := TogetherMixed(context.Background(), []*Mix{m}, plan, nil)
	require.NoError(t, err)
	alone, err := Run(context.Background(), l, plan, nil)
	require.NoError(t, err)
	assert.InEpsilonSlice(t, []float64(alone.NetRates()), []float64(mixed[0].NetRates()), 1e-12)
}

func TestNewMixRefuses(t *testing.T) {
	products := twoProducts()
	products[1].Inserts = append(products[1].Inserts, setup.Insert{Name: "g", Material: 1, Share: 1})
	_, err := mixOf(modeltest.ReferenceLine(), products, map[string]float64{"few": 1, "all": 1, "none": 1})
	assert.ErrorContains(t, err, "job all: ")
	assert.ErrorContains(t, err, "job none: there is none")
	assert.NotContains(t, err.Error(), "job few")

	job := modeltest.ReferenceLine()
	job.Shift, job.Job.Sets = 0, 5000
	_, err = mixOf(job, twoProducts(), map[string]float64{"few": 1})
	assert.EqualError(t, err, "yearly volumes of jobs are made in shifts, and the work is a job of a number of sets")
}

// What is uncertain at a feeder that a job has no use for is not uncertain in it.
func TestMixLeavesUncertaintyOut(t *testing.T) {
	l := modeltest.ReferenceLine()
	l.UncertainInputs = []model.UncertainInput{{Station: "1", Name: "jam", Of: output.Counted{Seen: 5, Of: 1000}}, {Station: "6", Name: "jam", Of: output.Counted{Seen: 5, Of: 1000}}}
	require.Empty(t, l.Check())
	m, err := mixOf(l, twoProducts(), map[string]float64{"few": 1, "all": 1})
	require.NoError(t, err)
	assert.Equal(t, l.UncertainInputs, m.Setups[0].Line.UncertainInputs)
	assert.Equal(t, l.UncertainInputs[:1], m.Setups[1].Line.UncertainInputs)
	assert.Len(t, l.UncertainInputs, 2, "the line stays as it is")
}
