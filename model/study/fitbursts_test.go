package study

import (
	"math"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/fit"
)

// Pauses do not count as time for which the line ran; the ends get a usual gap.
func TestWithoutPauses(t *testing.T) {
	assert.Equal(t, []float64{200, 100, 300, 200}, withoutPauses([]float64{100, 300}))
	assert.Equal(t, []float64{200, 100, 200, 300, 200}, withoutPauses([]float64{100, 60_000, 300}))
	assert.Equal(t, []float64{1, 1}, withoutPauses(nil))
	rare := []float64{6000, 40_000, 6000} // a line that seldom stops had no pause
	assert.Equal(t, rare, withoutPauses(rare)[1:4])
}

// A break that is written down as it was planned, and through which the line ran, is no time in which it
// stood: the stops in it were once found to be a burst, in the minutes that the break left them.
func TestRanThroughABreak(t *testing.T) {
	at := func(clock string, cause LogCause, long sim.Seconds) LogStop {
		when, err := time.Parse("2006-01-02 15:04:05", "2026-03-02 "+clock)
		require.NoError(t, err)
		return LogStop{When: when, Station: "letter", Cause: cause, Seconds: long, Called: clock}
	}
	misfeed := LogCause(model.Misfeed)
	for name, c := range map[string]struct {
		stops []LogStop
		want  []float64
		n     int
	}{
		"it ran":          {[]LogStop{at("09:50:00", misfeed, 60), at("10:00:00", LogPlanned, 1800), at("10:10:00", misfeed, 60), at("10:20:00", misfeed, 60)}, []float64{540, 600, 540}, 1},
		"it stood":        {[]LogStop{at("09:50:00", misfeed, 60), at("10:00:00", LogPlanned, 1800), at("10:40:00", misfeed, 60)}, []float64{540, 600}, 0},
		"before and then": {[]LogStop{at("09:50:00", misfeed, 60), at("10:00:00", LogPlanned, 1800), at("10:00:40", misfeed, 60), at("10:29:30", misfeed, 60)}, []float64{540, 0, 0}, 0},
		"two breaks":      {[]LogStop{at("10:00:00", LogPlanned, 1800), at("10:10:00", LogPlanned, 600)}, []float64{0}, 0},
	} {
		t.Run(name, func(t *testing.T) {
			l := &Log{Kinds: LogKindsOf(&model.Feeder{})}
			for _, stop := range c.stops {
				l.AddStop(stop)
			}
			a := &FitAnswer{Log: l}
			assert.Equal(t, c.n, a.RanThrough())
			assert.Equal(t, c.want, ran(a.byTime(), 0))
		})
	}
}

// What ran between does not count for bursts: stops of one job that come every second day are
// as evenly spread as if the other job had never been.
func TestBurstsOfOneJob(t *testing.T) {
	l := &Log{Kinds: LogKindsOf(&model.Feeder{})}
	for _, at := range []struct{ clock, job string }{
		{"06:00", "a"}, {"06:30", "a"}, {"07:00", "b"}, {"07:30", "b"}, {"07:45", "b"}, {"08:15", "a"},
	} {
		when, err := time.Parse("2006-01-02 15:04", "2026-03-02 "+at.clock)
		require.NoError(t, err)
		l.AddStop(LogStop{When: when, Station: "letter", Cause: LogCause(model.Misfeed), Job: at.job})
	}
	l.AddCount(LogCount{Station: "letter", Job: "a", Feeds: 100})
	l.AddCount(LogCount{Station: "letter", Job: "b", Feeds: 100})
	require.NoError(t, l.Take("a", 0))
	// Gaps of 30, 30, 30, 15 and 30 min; of job a the first and the last, and a usual
	// one of 27 at both ends: 27 + 30 + 30 + 27 in all, for 100 feeds.
	d := (&FitAnswer{Log: l}).divide()[0]
	assert.Equal(t, []logWork{{job: "a"}}, d.of)
	assert.Equal(t, []fit.Stretch{{Gaps: []int64{23, 27, 26}, Rest: 24}}, d.gaps)
}

// Stops of two jobs are two stretches, each with the feeds of its own; of a station whose counts
// do not all say the job they are one.
func TestStretchesOfJobs(t *testing.T) {
	l := &Log{Kinds: LogKindsOf(&model.Feeder{})}
	begin := time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)
	for i := range 6 {
		job := []string{"a", "b"}[i/3]
		l.AddStop(LogStop{When: begin.Add(time.Duration(i) * time.Hour), Station: "letter", Cause: LogCause(model.Misfeed), Job: job})
	}
	l.AddCount(LogCount{Station: "letter", Job: "a", Feeds: 300})
	l.AddCount(LogCount{Station: "letter", Job: "b", Feeds: 40})
	d := (&FitAnswer{Log: l}).divide()[0]
	assert.Equal(t, []logWork{{job: "a"}, {job: "b"}}, d.of)
	assert.Equal(t, []fit.Stretch{{Gaps: []int64{100, 100, 100}}, {Gaps: []int64{10, 10, 10}, Rest: 10}}, d.gaps)
	l.AddCount(LogCount{Station: "letter", Feeds: 10})
	d = (&FitAnswer{Log: l}).divide()[0]
	assert.Equal(t, []logWork{{}}, d.of)
	assert.Len(t, d.gaps[0].Gaps, 6)
}

// Stops that all came at one moment say nothing of where they lie.
func TestNoBurstsWithoutTime(t *testing.T) {
	l := &Log{Kinds: LogKindsOf(&model.Feeder{})}
	for range 40 {
		l.AddStop(LogStop{When: time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC), Station: "letter", Cause: LogCause(model.Misfeed)})
	}
	l.AddCount(LogCount{Station: "letter", Feeds: 300})
	a, err := Fit{Log: l, Seed: 1}.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Nil(t, a.Stations[0].Bursts)
	assert.Equal(t, "too few stops: 0", a.Stations[0].NoBursts)
}

// By hand: of 30 faults 12 are in a burst where two were expected, so that the burst has ten more;
// (20 + 10²) / 30 = 4. The interval is that of 30/4 = 7.5, so eight, faults, with the same share.
func TestIntervalsAllowForBursts(t *testing.T) {
	rate, err := fit.NewRate(30, 30_000, 0.95)
	require.NoError(t, err)
	s := &FitStation{
		Bursts: &fit.Bursts{Stops: 30, Dispersion: 1.5},
		Found:  []FitBurst{{Stops: 12, Expected: 2, faults: map[LogCause]int{LogCause(model.Misfeed): 12}}},
	}
	f := &FitFault{Rate: rate}
	f.allow(s, LogCause(model.Misfeed), 0.95)
	assert.InDelta(t, 4, f.Varies, 1e-12)
	assert.Equal(t, fit.Group{Faults: 8, Feeds: 8000}, f.Like)
	assert.Equal(t, 30.0/30_000, f.Rate.P)
	assert.Less(t, f.Rate.Low, 0.65*rate.Low)
	assert.Greater(t, f.Rate.High, 1.3*rate.High)
}

// Gaps of a log in whole minutes are exponential again where they were: of 3000 stops a minute and a
// half apart, each of which stands for one, a fifth of the gaps are written as no time at all, which
// looked like bursts. A log that has seconds stays as it is.
func TestRoundedGapsAreSpread(t *testing.T) {
	const stops, mean = 3000, 90.0
	random := sim.NewStream("test", "rounded")
	random.Seed(7, 0)
	var exact, whole []placedStop
	now := time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)
	for range stops {
		now = now.Add(time.Duration(mean * random.Exponential() * 1e9))
		long := sim.Seconds(20 + 80*random.Uniform())
		stop := placedStop{LogStop: LogStop{When: now, Seconds: long, Job: "a", Speed: 9000}}
		exact = append(exact, stop)
		stop.When, stop.Seconds = now.Truncate(time.Minute), sim.Seconds(60*math.Round(float64(long)/60))
		whole = append(whole, stop)
		now = now.Add(time.Duration(float64(long) * 1e9))
	}
	assert.Equal(t, rounded{}, roundedIn(exact))
	same := withoutPauses(ran(exact, 0))
	assert.Equal(t, same, rounded{}.spread(exact, same, 1))
	r := roundedIn(whole)
	require.Equal(t, rounded{true, true}, r)
	least := func(gaps []float64) (off float64) { // the distance of Kolmogorov from the exponential distribution
		gaps = slices.Sorted(slices.Values(gaps[1:stops]))
		for i, g := range gaps {
			p := 1 - math.Exp(-g/mean)
			off = max(off, p-float64(i)/float64(len(gaps)), float64(i+1)/float64(len(gaps))-p)
		}
		return off
	}
	const most = 1.95 / 54.77 // with 99.9 %, of 3000: D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), table 4.2 (from memory)
	assert.Less(t, least(same), most)
	drawn := r.spread(whole, withoutPauses(ran(whole, r.reach())), 1)
	assert.Less(t, least(drawn), most)
	// Rounding takes nothing off the mean: that of 3000 errors of a minute's width is 0 ± 0.32 s.
	assert.InDelta(t, stat.Mean(same[1:stops], nil), stat.Mean(drawn[1:stops], nil), 3.29*0.32)
	assert.Greater(t, least(withoutPauses(ran(whole, 0))), most, "this test cannot fail")
}

// One bad pallet at one of two speeds is no growth with the speed, and no difference between the two: of
// eight logs of 200 stops, with 60 more in 8000 feeds at the higher speed, none says so but by chance.
// With 2.5 times as many at the higher speed the growth is seen, pallet or none.
func TestBurstIsNoGrowth(t *testing.T) {
	log := func(seed uint64, faster float64) *Log {
		l := &Log{Kinds: LogKindsOf(&model.Feeder{})}
		random := sim.NewStream("test", "pallet")
		random.Seed(seed, 0)
		now := time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)
		for _, w := range []struct{ speed, rate float64 }{{8000, 1. / 4000}, {12000, faster / 4000}} {
			const feeds = 400_000
			pallet := w.speed == 12000
			for fed := 0.0; ; {
				rate := w.rate
				if pallet && fed >= 200_000 && fed < 208_000 {
					rate = 1. / 130
				}
				gap := random.Exponential() / rate
				if pallet && fed < 200_000 && fed+gap > 200_000 { // the pallet begins: what comes next is drawn anew
					gap = 200_000 - fed
					fed = 200_000
					now = now.Add(time.Duration(gap / w.speed * float64(time.Hour)))
					continue
				}
				if fed += gap; fed > feeds {
					break
				}
				now = now.Add(time.Duration(gap / w.speed * float64(time.Hour)))
				l.AddStop(LogStop{When: now, Station: "letter", Cause: LogCause(model.Misfeed), Speed: w.speed, Seconds: 40})
				now = now.Add(40 * time.Second)
			}
			l.AddCount(LogCount{Station: "letter", Speed: w.speed, Feeds: feeds})
		}
		return l
	}
	const logs = 8
	of := func(faster float64) (grow, differ int) {
		for seed := range uint64(logs) {
			a, err := Fit{Log: log(seed+1, faster), Seed: 1}.Ask(t.Context(), nil)
			require.NoError(t, err)
			s := &a.Stations[0]
			require.True(t, s.InBursts())
			if s.Growth != nil {
				grow++
			}
			if d := s.Faults[0].Speeds; d != nil && d.Differs() {
				differ++
			}
		}
		return grow, differ
	}
	grow, differ := of(1)
	assert.LessOrEqual(t, grow, 1)
	assert.LessOrEqual(t, differ, 1)
	grow, differ = of(2.5)
	assert.Equal(t, logs, grow)
	assert.Equal(t, logs, differ)
}

// A count that is reduced for bursts says how many feeds of the log it stands for, at whatever speed its
// feeds are; one that is as it was counted says nothing more.
func TestReducedCountsSayWhatWasCounted(t *testing.T) {
	s := FitStation{Faults: []FitFault{{Varies: 10}, {}}}
	assert.Equal(t, FitCount{15, 20_000, 332_442}, s.allowed(0, FitCount{150, 0, 332_442}, 200_000))
	assert.Equal(t, FitCount{15, 20_000, 0}, s.allowed(0, FitCount{150, 0, 20_000}, 200_000), "no fewer than those that they tell as much as")
	assert.Equal(t, FitCount{150, 200_000, 0}, s.allowed(1, FitCount{150, 0, 332_442}, 200_000))

	f := FitFault{Varies: 10}
	f.Rate.Faults, f.Rate.Feeds, f.Like.Faults, f.Like.Feeds = 150, 332_442, 15, 33_244
	assert.Equal(t, FitCount{15, 33_244, 332_442}, f.Counts())
	f.Varies = 0
	assert.Equal(t, FitCount{150, 332_442, 0}, f.Counts())
}
