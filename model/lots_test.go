package model

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"netrate/sim"
)

// shippingLine is a line whose stations misfeed and nobody minds: nothing stops, so that every
// set is an attempt of every station.
func shippingLine(p float64, stations int) *Line {
	l := &Line{Name: "shipping", Speed: 20_000, Restart: sim.Constant(0), Crew: Crew{Operators: 1, Walk: sim.Constant(0)}}
	for i := range stations {
		l.Stations = append(l.Stations, &Feeder{
			Place: Place{Name: string(rune('a' + i)), At: i}, Hopper: Stock{Capacity: 1e9, Work: sim.Constant(0)},
			Misfeed: p, OnMisfeed: Ship, Noticed: 1, Caught: 1, Material: 1, Share: 1, Clear: sim.Constant(0),
		})
	}
	return withEnd(l, stations)
}

// misfeeds returns the misfeeds of some stations in each of many jobs of so many sets.
func misfeeds(t *testing.T, l *Line, sets int64, jobs int) [][]float64 {
	t.Helper()
	l.Job = Job{Sets: sets}
	s, err := New(l)
	require.NoError(t, err)
	found := make([][]float64, len(stationsOf[*Feeder](l)))
	var out Outcome
	for k := range jobs {
		require.NoError(t, s.Run(7, k, &out))
		for i := range found {
			found[i] = append(found[i], float64(out.Stations[i].Faults[Misfeed]))
		}
	}
	return found
}

// within asserts that a mean of observations is what is wanted, to 3.89 standard errors
// (99.99 %), and that a deviation of a sixth would be seen.
func within(t *testing.T, x []float64, want float64, what string) {
	t.Helper()
	mean, sd := stat.MeanStdDev(x, nil)
	se := sd / math.Sqrt(float64(len(x)))
	assert.InDelta(t, want, mean, 3.89*se, what)
	assert.Greater(t, math.Abs(want)/6, 3.89*se, "%s: a deviation of a sixth would not be seen", what)
}

// squares returns the squared deviations from a mean that is known.
func squares(x []float64, mean float64) (all []float64) {
	for _, v := range x {
		all = append(all, (v-mean)*(v-mean))
	}
	return all
}

// The index of dispersion of the faults of one lot is 1 + λ·cv², with λ faults expected, and with
// gamma factors their number is negative binomial of shape 1/cv² (../shared: any textbook of
// counts; Johnson, Kemp and Kotz, Univariate Discrete Distributions, chapter 5, from memory). An
// attempt is a Bernoulli trial, so that the index is lower by p·(1 + cv²). Lots so large that a
// job seldom sees the end of one.
func TestDispersionOfALot(t *testing.T) {
	const p, sets = 0.001, 12_000
	for name, lots := range map[string]Lots{
		"gamma":     {Of: 1e9, CV: 0.6},
		"two kinds": {Of: 1e9, Bad: 0.2, Times: 5},
		"a list":    {Of: 1e9, Factors: []float64{1, 2, 3, 6}},
		"none":      {},
	} {
		t.Run(name, func(t *testing.T) {
			l := shippingLine(p, 1)
			firstOf[*Feeder](l).Lots = lots
			n := misfeeds(t, l, sets, 6000)[0]
			lambda, cv := p*sets, lots.Spread()
			within(t, n, lambda, "mean")
			within(t, squares(n, lambda), lambda*(1-p*(1+cv*cv)+lambda*cv*cv), "variance")
			if lots.CV == 0 {
				return
			}
			assert.Greater(t, chiSquareP(n, negativeBinomial(lambda, 1/(cv*cv))), 0.001)
			assert.Less(t, chiSquareP(n, negativeBinomial(lambda, 1.2/(cv*cv))), 0.001, "another shape is seen")
		})
	}
}

// negativeBinomial returns the probabilities of 0, 1, 2 … with a mean and a shape.
func negativeBinomial(mean, k float64) func(n int) float64 {
	return func(n int) float64 {
		x := float64(n)
		a, _ := math.Lgamma(x + k)
		b, _ := math.Lgamma(k)
		c, _ := math.Lgamma(x + 1)
		return math.Exp(a - b - c + k*math.Log(k/(k+mean)) + x*math.Log(mean/(k+mean)))
	}
}

// chiSquareP returns the P of counts against probabilities, in cells of 20 or more.
func chiSquareP(counts []float64, of func(n int) float64) float64 {
	seen := map[int]float64{}
	for _, c := range counts {
		seen[int(c)]++
	}
	total, x, cells := float64(len(counts)), 0.0, 0
	o, e, rest, left := 0.0, 0.0, total, total
	for n := 0; ; n++ {
		o += seen[n]
		e += total * of(n)
		if rest-e < 20 {
			break
		}
		if e >= 20 {
			x += (o - e) * (o - e) / e
			cells++
			rest, left = rest-e, left-o
			o, e = 0, 0
		}
	}
	x += (left - rest) * (left - rest) / rest
	return distuv.ChiSquared{K: float64(cells)}.Survival(x)
}

// In a job as long as k lots there are k-1 whole ones and, on average, two that are shared with the
// jobs before and after, whose squares come to 2/3: of the variance of k lots that begin with the job
// there is 1 - 1/(3k).
func TestDispersionOfLotsInARow(t *testing.T) {
	const p, of = 0.005, 2000
	for _, k := range []int64{1, 4} {
		l := shippingLine(p, 1)
		firstOf[*Feeder](l).Lots = Lots{Of: of, CV: 1}
		n := misfeeds(t, l, k*of, 6000)[0]
		lambda, each := float64(k*of)*p, float64(of)*p
		within(t, n, lambda, "mean")
		within(t, squares(n, lambda), lambda*(1-2*p+each*(1-1/(3*float64(k)))), "variance")
	}
}

// What days share, all stations share: the covariance of the faults of two stations is
// λ²·cv². Several days in a pass divide it by their number, and lots leave it as it is.
func TestDaysAreShared(t *testing.T) {
	const p, sets = 0.001, 12_000
	for _, days := range []float64{1, 3} {
		l := shippingLine(p, 2)
		l.Days = Days{CV: 0.5}
		if days > 1 {
			l.Days.Hours = sets / days / l.Speed
		}
		firstOf[*Feeder](l).Lots = Lots{Of: 3000, CV: 0.5}
		n := misfeeds(t, l, sets, 6000)
		lambda := p * float64(sets)
		var product []float64
		for k := range n[0] {
			product = append(product, (n[0][k]-lambda)*(n[1][k]-lambda))
		}
		within(t, n[1], lambda, "mean")
		within(t, product, lambda*lambda*0.25/days, "covariance")
	}
}

// A drift multiplies the faults of its hours of running, and begins anew with each day; a level
// multiplies all.
func TestDrift(t *testing.T) {
	const p, sets = 0.001, 20_000 // an hour
	l := shippingLine(p, 1)
	l.Days = Days{Level: 0.5, Drift: []DriftStep{{0.1, 4}, {0.25, 0.2}}}
	want := 0.5 * (0.1 + 0.15*4 + 0.75*0.2)
	require.InDelta(t, want, l.Days.MeanDrift(1), 1e-12)
	within(t, misfeeds(t, l, sets, 3000)[0], want*p*sets, "one day")
	l.Days.Hours = 0.5
	want = 0.5 * (0.1 + 0.15*4 + 0.25*0.2) / 0.5
	require.InDelta(t, want, l.Days.MeanDrift(8), 1e-12)
	within(t, misfeeds(t, l, sets, 3000)[0], want*p*sets, "two days")
}

// A job that goes on with the lots of the one before it shares them; one that does not shares
// nothing.
func TestLotsAreKept(t *testing.T) {
	const p, sets = 0.001, 12_000
	for _, keep := range []bool{true, false} {
		l := shippingLine(p, 1)
		l.Job = Job{Sets: sets}
		firstOf[*Feeder](l).Lots = Lots{Of: 1e9, CV: 0.6}
		s, err := New(l)
		require.NoError(t, err)
		var out Outcome
		var product []float64
		for k := range 6000 {
			s.KeepLots(false)
			require.NoError(t, s.RunJob(7, 2*k, sets, &out))
			first := float64(out.Stations[0].Faults[Misfeed])
			s.KeepLots(keep)
			require.NoError(t, s.RunJob(7, 2*k+1, sets, &out))
			product = append(product, (first-p*sets)*(float64(out.Stations[0].Faults[Misfeed])-p*sets))
		}
		if keep {
			within(t, product, p*sets*p*sets*0.36, "covariance")
			continue
		}
		mean, sd := stat.MeanStdDev(product, nil)
		assert.Less(t, math.Abs(mean), 3.29*sd/math.Sqrt(float64(len(product))))
	}
}

// The comparison of the engine with the slow model sees lots and days: where they are left out of
// one of the two, or are other ones, it fails.
func TestEngineAgreesOnLotsCanFail(t *testing.T) {
	oneGoroutine(t)
	for name, change := range map[string]func(l *Line){
		"tiny lots, streaks, a cap that binds":   func(l *Line) { firstOf[*Feeder](l).Lots = Lots{} },
		lotsAsLeft:                               withoutLots,
		"days and drift in a shift":              func(l *Line) { l.Days.Drift = l.Days.Drift[:2] },
		"sheets of documents in lots":            func(l *Line) { firstOf[*Channel](l).Lots.CV = 3 },
		"a job of several passes, days and lots": func(l *Line) { l.Days.Drift = []DriftStep{{0, 2}} },
	} {
		t.Run(name, func(t *testing.T) {
			all := slices.Concat(agreeLots(), agreeBeginnings())
			line := all[slices.IndexFunc(all, func(a agreeCase) bool { return a.name == name })].line
			other := line()
			change(other)
			level := 0.001 / float64(agreeChecks(other)*len(agreeCases()))
			assert.NotEmpty(t, differences(pool(slowly(line())), pool(engineRun(t, other)), level))
		})
	}
}

// withoutLots takes the lots of all stations away.
func withoutLots(l *Line) {
	for _, s := range l.Stations {
		if lots := LotsOf(s); lots != nil {
			*lots = Lots{}
		}
	}
}

// anyLots gives a line lots and days of any kind.
func anyLots(t *rapid.T, l *Line) {
	for _, s := range l.Stations {
		if lots := LotsOf(s); lots != nil && rapid.Bool().Draw(t, "lots") && !Is[*Inserter](s) {
			*lots = someLots(t)
		}
	}
	if in := firstOf[*Inserter](l); l.envelopeFeeder() < 0 {
		in.Lots = someLots(t)
	}
	if rapid.Bool().Draw(t, "days") {
		l.Days = Days{CV: rapid.SampledFrom([]float64{0.3, 1, 10}).Draw(t, "cv"), Hours: rapid.SampledFrom([]float64{0, 0.01, 0.1}).Draw(t, "hours")}
	}
	if rapid.Bool().Draw(t, "drift") {
		l.Days.Drift = []DriftStep{{0, 2}, {rapid.Float64Range(1e-6, 0.1).Draw(t, "from"), rapid.Float64Range(0.01, 50).Draw(t, "times")}}
	}
}

func someLots(t *rapid.T) Lots {
	x := rapid.SampledFrom([]Lots{{CV: 0.5}, {CV: 8}, {Bad: 0.1, Times: 100}, {Bad: 0.5, Times: 0.1}, {Factors: []float64{0, 1, 5}}}).Draw(t, "kind")
	x.Of = rapid.SampledFrom([]float64{1, 2, 10, 300, 1e9}).Draw(t, "pieces")
	return x
}

// Is reports whether a station is of a kind.
func Is[T Station](s Station) bool { _, is := s.(T); return is }

// What cannot be of lots and days is said, with the place.
func TestLotsAreChecked(t *testing.T) {
	nan := math.NaN()
	for field, change := range map[string]func(l *Line, f *Feeder){
		"lots.of":         func(_ *Line, f *Feeder) { f.Lots.Of = nan },
		"lots.cv":         func(_ *Line, f *Feeder) { f.Lots = Lots{Of: 10, CV: nan} },
		"lots":            func(_ *Line, f *Feeder) { f.Lots = Lots{Of: 10} },
		"lots.bad":        func(_ *Line, f *Feeder) { f.Lots = Lots{Of: 10, Bad: 1, Times: 3} },
		"lots.times":      func(_ *Line, f *Feeder) { f.Lots = Lots{Of: 10, Bad: 0.1} },
		"lots.factors":    func(_ *Line, f *Feeder) { f.Lots = Lots{Of: 10, Factors: []float64{0}} },
		"line.days.cv":    func(l *Line, _ *Feeder) { l.Days.CV = 11 },
		"line.days.every": func(l *Line, _ *Feeder) { l.Days = Days{CV: 1, Hours: nan} },
		"line.days":       func(l *Line, _ *Feeder) { l.Days.Hours = 8 },
		"line.days.level": func(l *Line, _ *Feeder) { l.Days.Level = math.Inf(1) },
		"line.days.drift": func(l *Line, _ *Feeder) { l.Days.Drift = []DriftStep{{1, 2}, {1, 3}} },
	} {
		t.Run(field, func(t *testing.T) {
			l := referenceLine()
			change(l, firstOf[*Feeder](l))
			found := l.Check()
			require.NotEmpty(t, found)
			var p *Problem
			require.ErrorAs(t, found[0], &p)
			assert.Equal(t, field, p.Field)
		})
	}
}

// Jobs that are of one day fail as often, on whatever line; of days of their own, as their own days have it.
func TestJobsOfOneDay(t *testing.T) {
	fast, slow := shippingLine(0.01, 1), shippingLine(0.01, 1)
	slow.Speed = 5000
	apart := map[int]int{}
	for _, day := range []int{7, -1} {
		var faults [2][]float64
		for k, l := range []*Line{fast, slow} {
			l.Days.CV, l.Job = 0.8, Job{Sets: 20_000}
			s, err := New(l)
			require.NoError(t, err)
			var out Outcome
			for number := range 20 {
				if s.OnDay(-1); day >= 0 {
					s.OnDay(day + number)
				}
				require.NoError(t, s.Run(5, 1000*k+number, &out))
				faults[k] = append(faults[k], float64(out.Stations[0].Faults[Misfeed]))
			}
		}
		for i, x := range faults[0] {
			if y := faults[1][i]; math.Abs(x-y) > 4*math.Sqrt(x+y) {
				apart[day]++
			}
		}
	}
	assert.Zero(t, apart[7])
	assert.Greater(t, apart[-1], 10, "this test cannot fail")
}

// The passes of a job that is of a day are of it too; else each has a day of its own.
func TestPassesOfOneDay(t *testing.T) {
	l := shippingLine(0.01, 1)
	l.Days.CV, l.Job = 0.8, Job{Sets: 20_000}
	s, err := New(l)
	require.NoError(t, err)
	var out Outcome
	pass := func() float64 {
		s.jobs.begins()
		s.clocks.Run(math.MaxFloat64)
		_, _, err := s.jobs.ends()
		require.NoError(t, err)
		s.jobs.sets = l.Job.Sets // as if all were remakes
		return float64(s.jobs.pass.Stations[0].Faults[Misfeed])
	}
	apart := map[int]int{}
	for _, day := range []int{7, -1} {
		for number := range 20 {
			if s.OnDay(-1); day >= 0 {
				s.OnDay(day + number)
			}
			s.jobs.opens(5, number, l.Job.Sets, &out)
			if x, y := pass(), pass(); math.Abs(x-y) > 4*math.Sqrt(x+y) {
				apart[day]++
			}
		}
	}
	assert.Zero(t, apart[7])
	assert.Greater(t, apart[-1], 10, "this test cannot fail")
}
