package model

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// What a fault of a stream costs, counted by hand from the rules of the package: in line the
// set of the fault and the catch-up set, by hand none and a stop of walk 15, realigning 90 and
// restart 5 s; a false call in line its set alone.
func TestHandLane(t *testing.T) {
	in := func(change func(a *Feeder)) AnalyticTerm {
		l := lanesLine(func(_ *Line, a, _ *Feeder, _ *Reader) {
			a.Stream.Realign = sim.Constant(90)
			change(a)
		})
		require.Empty(t, l.Check())
		return l.Analytic().Terms[0]
	}
	for _, c := range []struct {
		name        string
		change      func(a *Feeder)
		lost, stops float64
		down        sim.Seconds
	}{
		{"misfeed in line", func(a *Feeder) { a.Misfeed, a.OnMisfeed = 0.001, Divert }, 0.002, 1e-6, 110},
		{"misfeed by hand", func(a *Feeder) { a.Misfeed = 0.001 }, 0, 0.001, 110},
		{"double in line", func(a *Feeder) { a.Double, a.OnDouble = 0.001, Outsort }, 0.002, 0, 0},
		{"double by hand", func(a *Feeder) { a.Double = 0.001 }, 0, 0.001, 110},
		{"false call in line", func(a *Feeder) { a.FalseCalls, a.OnDouble = 0.001, Divert }, 0.001, 0, 0},
		{"jam", func(a *Feeder) { a.Jam = 0.001 }, 0.001, 0.001, 40},
		{"misfeed in line, likely again, two tries", func(a *Feeder) {
			a.Misfeed, a.OnMisfeed = 0.001, Divert
			a.Streak, a.Stream.Tries = Streak{Given: true, Again: 0.3}, 2
		}, 0.001 * (1 + 1 + 0.3), 0.001 * 0.09, 110},
		{"the third in a row stops the line before the tries are used up", func(a *Feeder) {
			a.Misfeed, a.OnMisfeed = 0.001, Divert
			a.Streak, a.Stream.Tries = Streak{Given: true, Again: 0.3, StopAfter: 2}, 9
		}, 0.002, 0.001 * 0.3, 110},
	} {
		t.Run(c.name, func(t *testing.T) {
			term := in(c.change)
			assert.InDelta(t, c.lost, term.Lost, 2e-6)
			assert.InDelta(t, c.stops, term.Stops, 1e-12)
			assert.InDelta(t, float64(c.down), float64(term.Down), 1e-9)
			assert.Zero(t, term.Flawed)
		})
	}
}

// Remakes for each thousand sets: with two streams every set that is not delivered good,
// where the only lane is a feeder its pieces in such sets, none for a misfeed and two for a
// double.
func TestHandRemakes(t *testing.T) {
	set := func(_ *Line, a, b *Feeder, _ *Reader) {
		a.Misfeed, a.OnMisfeed, a.Double, a.OnDouble = 0.002, Divert, 0.0005, Divert
		b.Jam = 0.001
	}
	two := lanesLine(set)
	// 1 − (1 − 2·(0.002 + 0.0005) − 2·10⁻⁶·2)(1 − 0.001), the small term from a misfeed that is
	// right after a misfeed in one of five hundred: it has one try.
	assert.InDelta(t, 1000*(1-0.995*0.999), 1000*two.Analytic().Remakes, 1e-9)
	assert.InDelta(t, 1-two.Analytic().Good, two.Analytic().Remakes, 1e-12)
	one := lanesLine(func(l *Line, a, b *Feeder, r *Reader) {
		set(l, a, b, r)
		b.Stream = Stream{}
		r.Sequence, r.Presence = false, true
	})
	require.Empty(t, one.Check())
	assert.InDelta(t, 1000*(1-(1-2*0.0005)*0.999), 1000*one.Analytic().Remakes, 1e-9)
	none := lanesLine(func(l *Line, a, b *Feeder, r *Reader) {
		set(l, a, b, r)
		a.Stream, b.Stream = Stream{}, Stream{}
		l.Stations = slices.Delete(l.Stations, 3, 4)
	})
	assert.Zero(t, none.Analytic().Remakes)
}

// withChannel returns a line of a document channel, an insert, an inserter and a delivery, at a
// cycle of 0.36 s.
func withChannel(sheets float64, change func(l *Line, h *Channel)) *Line {
	return lanesLine(func(l *Line, a, b *Feeder, _ *Reader) {
		h := &Channel{
			Place: a.Place, Sheets: sheets, Pages: sim.Always(2), Buffer: 4, Stream: a.Stream,
			Clear: sim.Constant(45),
		}
		b.Stream = Stream{}
		l.Speed = 10_000
		l.Stations = []Station{h, b, l.Stations[5], &Delivery{Place: Place{Name: "delivery", At: 9}}}
		change(l, h)
	})
}

// A channel of 18,000 sheets an hour makes 9,000 documents of two sheets, and a line of 10,000
// cycles then delivers no more. Stops of 60 s (walk 15, clearing 40, restart 5) in one cycle of
// a thousand let it gather the 4 documents of its buffer, 1.6 s; so an hour holds n sets with
// n·(0.4 + 0.001·(60 − 1.6)) s = 3600 s.
func TestHandStarves(t *testing.T) {
	slow := withChannel(18_000, func(*Line, *Channel) {})
	require.Empty(t, slow.Check())
	assert.InEpsilon(t, 9000, slow.Analytic().NetRate, 1e-12)
	assert.InEpsilon(t, 10_000, withChannel(20_001, func(*Line, *Channel) {}).Analytic().NetRate, 1e-12)
	stops := withChannel(18_000, func(l *Line, _ *Channel) {
		b := firstOf[*Feeder](l)
		b.Double, b.Clear = 0.001, sim.Constant(40)
	})
	h := stops.Analytic()
	assert.InEpsilon(t, 3600/(0.4+0.001*58.4), h.NetRate, 1e-12)
	assert.InDelta(t, 0.04-0.001*1.6, float64(h.Terms[0].Starved), 1e-12)
}

// A channel of 36,000 sheets an hour gathers a document in 0.2 s. When it stops, its 4
// documents feed 4 cycles of 0.36 s, the first of which began as the document was begun: an
// operator who is done after 60 s leaves the line without a document for 60 − (1.44 − 0.2) s.
// It then runs without a restart delay. Two sheets in a document: 1 − (1 − p)² are not good.
func TestHandChannelStops(t *testing.T) {
	l := withChannel(36_000, func(_ *Line, h *Channel) { h.Misfeed, h.Noticed, h.Jam = 0.0003, 1, 0.0001 })
	term := l.Analytic().Terms[0]
	bad := 1 - (1-0.0004)*(1-0.0004)
	assert.InEpsilon(t, bad, term.Stops, 1e-12)
	assert.InEpsilon(t, 60-1.44+0.2, float64(term.Down), 1e-12)
	assert.InEpsilon(t, bad/4, term.Lost, 1e-12, "a document spoiled by a jam costs its set")
	short := withChannel(36_000, func(_ *Line, h *Channel) { h.Jam, h.Buffer = 0.0001, 200 })
	assert.Zero(t, short.Analytic().Terms[0].Down, "the buffer outlasts the stop")
}

// What paper says of channels must be what comes of them when nothing else happens. A shift
// starts with an empty track, of 9 pitches, and a full buffer: hence 10 envelopes an hour.
func TestHandChannelAgrees(t *testing.T) {
	oneGoroutine(t)
	for _, c := range []struct {
		name    string
		line    *Line
		mistake float64 // net rate if the channel's buffer counted for nothing
	}{
		{"starving", withChannel(18_000, func(*Line, *Channel) {}), 10_000},
		{"starving, and stopping", withChannel(18_000, func(l *Line, _ *Channel) {
			b := firstOf[*Feeder](l)
			b.Double, b.Clear = 0.001, sim.Constant(1)
			l.Crew.Walk = sim.Constant(1)
		}), 3600 / (0.4 + 0.001*7)},
		{"stops of the channel", withChannel(36_000, func(l *Line, h *Channel) {
			h.Jam, h.Clear = 0.002, sim.Constant(2)
			l.Crew.Walk = sim.Constant(1)
		}), 0.996 * 3600 / (0.36 + 0.004*3)},
	} {
		t.Run(c.name, func(t *testing.T) {
			const shifts, start = 800, 10
			var rates sim.Sample
			for _, o := range outcomes(t, c.line, 9, shifts) {
				rates = append(rates, o.NetRate())
			}
			e, hand := rates.Interval(0.9997), c.line.Analytic().NetRate
			assert.LessOrEqual(t, math.Abs(e.Mean-hand), e.Half+start, "%.1f ± %.1f, on paper %.1f", e.Mean, e.Half, hand)
			assert.Greater(t, math.Abs(e.Mean-c.mistake), e.Half+start, "without the buffer %.1f goes unseen: this test cannot fail", c.mistake)
		})
	}
}

// Misfeeds in a row are a Markov chain on how many there have been; the shares are those that
// it comes to when it is stepped through, attempt after attempt.
func TestMisfeedsOfAStreak(t *testing.T) {
	for _, answer := range []Response{Stop, Divert, Ship} {
		for _, noticed := range []float64{1, 0.8, 0} {
			for _, limit := range []int{0, 1, 2, 4} {
				f := firstOf[*Feeder](referenceLine())
				f.Misfeed, f.Noticed, f.OnMisfeed = 0.02, noticed, answer
				f.Streak = Streak{Given: true, Again: 0.6, StopAfter: limit}
				l := referenceLine()
				l.Stations[0] = f
				all, tooMany := f.misfeeds(l)
				wantAll, wantTooMany := steppedMisfeeds(f)
				assert.InDelta(t, wantAll, all, 1e-9, "%v, noticed %v, limit %d", answer, noticed, limit)
				assert.InDelta(t, wantTooMany, tooMany, 1e-9, "%v, noticed %v, limit %d", answer, noticed, limit)
			}
		}
	}
}

func steppedMisfeeds(f *Feeder) (all, tooMany float64) {
	const longest, attempts = 120, 4000
	inRow := make([]float64, longest)
	inRow[0] = 1
	for range attempts {
		next := make([]float64, longest)
		all, tooMany = 0, 0
		for k, p := range inRow {
			misfeed := f.Streak.Again
			if k == 0 {
				misfeed = f.Misfeed
			}
			stops := 0.0
			limit := f.Streak.StopAfter > 0 && k+1 >= f.Streak.StopAfter
			if f.OnMisfeed == Stop || limit {
				stops = f.Noticed
			}
			all += p * misfeed
			if limit && f.OnMisfeed != Stop {
				tooMany += p * misfeed * stops
			}
			next[min(k+1, longest-1)] += p * misfeed * (1 - stops)
			next[0] += p * (1 - misfeed + misfeed*stops)
		}
		inRow = next
	}
	return all, tooMany
}
