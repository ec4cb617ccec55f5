package model

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"

	"netrate/sim"
)

// fedIn returns the attempts of two feeders in each of many jobs of so many sets, in both models.
func fedIn(t *testing.T, l *Line, sets int64) map[string][2][]float64 {
	t.Helper()
	l.Job = Job{Sets: sets}
	all := map[string][2][]float64{}
	for name, run := range map[string]func(uint64, int) *Outcome{"engine": engineRun(t, l), "slow model": slowly(l)} {
		var fed [2][]float64
		for k := range 2000 {
			out := run(11, k)
			for i := range fed {
				fed[i] = append(fed[i], float64(out.Stations[i].Attempts))
			}
		}
		all[name] = fed
	}
	return all
}

// The sets of an attribute of a share p are binomial: of n sets n·p in the mean, with a variance
// of n·p·(1-p). Two feeders that are only for the same attribute feed the same sets, so that this
// is their covariance too; two for different attributes, or with shares of their own, have none
// (any textbook). What is allowed for is 4.5 standard errors; the shared ones are told from the
// others by far more.
func TestFeedersThatShareAnAttribute(t *testing.T) {
	const p, n = 0.2, 100
	variance := n * p * (1 - p)
	own := func(f *Feeder) { f.Only, f.Share = "", p }
	for name, c := range map[string]struct {
		change     func(a, b *Feeder)
		covariance float64
	}{
		"the same":  {func(_, _ *Feeder) {}, variance},
		"different": {func(_, b *Feeder) { b.Only = "new" }, 0},
		"a share":   {func(_, b *Feeder) { own(b) }, 0},
		"shares":    {func(a, b *Feeder) { own(a); own(b) }, 0},
	} {
		t.Run(name, func(t *testing.T) {
			l := shippingLine(0.01, 2)
			l.Attributes = []Attribute{{"gold", p}, {"new", p}}
			a, b := l.Stations[0].(*Feeder), l.Stations[1].(*Feeder)
			a.Only, b.Only = "gold", "gold"
			c.change(a, b)
			for model, fed := range fedIn(t, l, n) {
				jobs := float64(len(fed[0]))
				for i := range fed {
					mean, got := stat.MeanVariance(fed[i], nil)
					assert.InDelta(t, n*p, mean, 4.5*math.Sqrt(variance/jobs), "%s: mean", model)
					assert.InDelta(t, variance, got, 4.5*variance*math.Sqrt(2/jobs), "%s: variance", model)
				}
				got := stat.Covariance(fed[0], fed[1], nil)
				assert.InDelta(t, c.covariance, got, 4.5*variance*math.Sqrt(2/jobs), "%s: covariance", model)
			}
		})
	}
	assert.Greater(t, variance, 2*4.5*variance*math.Sqrt(2.0/2000), "a wrong covariance would not be seen")
}

// Where the first of two feeders that share an attribute jams each time, the second is left
// nothing to feed; a feeder with a share of its own feeds what the jams leave.
func TestAJamTakesTheSetsOfTheAttribute(t *testing.T) {
	l := shippingLine(0, 2)
	l.Attributes = []Attribute{{"gold", 0.3}}
	a, b := l.Stations[0].(*Feeder), l.Stations[1].(*Feeder)
	a.Only, b.Only, a.Jam = "gold", "gold", 1
	l.Job = Job{Sets: 1000}
	engine, slow := engineRun(t, l), slowly(l)
	for k := range 20 {
		for _, out := range []*Outcome{engine(3, k), slow(3, k)} {
			require.Equal(t, out.Sets.Spoiled, out.Stations[0].Attempts)
			require.InDelta(t, 300, out.Sets.Spoiled, 5*math.Sqrt(1000*0.3*0.7))
			require.Zero(t, out.Stations[1].Attempts)
			require.Equal(t, int64(1000), out.Sets.Spoiled+out.Sets.Good)
		}
	}
	b.Only, b.Share = "", 0.3
	assert.Positive(t, engineRun(t, l)(3, 0).Stations[1].Attempts)
}

// Whatever is asked of it and when, an attribute is had by the same sets.
func TestHoldersDoNotDependOnWhatIsAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom([]float64{1e-6, 0.01, 0.3, 0.9, 1}).Draw(t, "share")
		fresh := func() *holders {
			h := &holders{random: sim.NewStream("gold", "attribute"), gap: sim.NewGap(p), drawn: make([]sim.Cycles, 64), mask: 63}
			h.random.Seed(1, 0)
			return h
		}
		const last = 2000
		var ranks [last + 1]int64
		var has [last + 1]bool
		for set, h := sim.Cycles(1), fresh(); set <= last; set++ {
			has[set] = h.has(set)
			if ranks[set] = ranks[set-1]; has[set] {
				ranks[set]++
			}
		}
		h := fresh()
		for now := sim.Cycles(1); now <= last; now += sim.Cycles(rapid.IntRange(1, 300).Draw(t, "cycles")) {
			set := max(1, now-sim.Cycles(rapid.IntRange(0, 50).Draw(t, "back")))
			if h.rank(set) != ranks[set] || h.has(set) != has[set] {
				t.Fatalf("set %d: rank %d, has %v; asked one by one it is %d, %v", set, h.rank(set), h.has(set), ranks[set], has[set])
			}
		}
	})
}

// For whom a piece is, and whether the pieces of two lanes are for the same person, is what is found by
// counting the sets that have what the lanes are for, one by one.
func TestPersonsAreCounted(t *testing.T) {
	met := 0
	rapid.Check(t, func(t *rapid.T) {
		l := personal(3, Stop, func(*Line, []*Feeder) {})()
		l.Attributes = []Attribute{{"gold", rapid.SampledFrom([]float64{0.1, 0.5, 0.9}).Draw(t, "share")}, {"new", 0.6}}
		feeders := stationsOf[*Feeder](l)
		feeders[1].Only, feeders[2].Only = "gold", "new"
		s, err := New(l)
		if err != nil {
			t.Fatal(err)
		}
		s.begin(1, rapid.IntRange(0, 5).Draw(t, "replication"), &Outcome{})
		all := &s.track.lanes
		set := sim.Cycles(rapid.IntRange(200, 400).Draw(t, "set"))
		o := s.track.odd(set, 0)
		person := func(n int) sim.Cycles { // of the piece of a lane
			d, at := int(o.off[n]), set
			for d != 0 {
				step := sim.Cycles(1)
				if d < 0 {
					step = -1
				}
				if at += step; all.only[n] == nil || all.only[n].has(at) {
					d -= int(step)
				}
			}
			return at
		}
		for n := range 3 {
			o.off[n] = int32(rapid.IntRange(-4, 4).Draw(t, "off"))
		}
		for a := range 3 {
			for b := range 3 {
				if all.only[a] != nil && !all.only[a].has(set) || all.only[b] != nil && !all.only[b].has(set) {
					continue // it is not to have both
				}
				if same := person(a) == person(b); same == all.apart(o, a, b) {
					t.Fatalf("lanes %d and %d of set %d, off by %v: for %d and %d", a, b, set, o.off, person(a), person(b))
				} else if same && o.off[a] != o.off[b] {
					met++
				}
			}
		}
	})
	assert.Positive(t, met, "no two pieces met out of step by different numbers: this test shows nothing")
}

// The events of lines with attributes tell the ledgers; and neither they nor attributes allocate.
func TestEventsTellTheLedgersOfAttributes(t *testing.T) {
	lines := rapid.Custom(func(t *rapid.T) *Line {
		l := anyLineWithLots(t)
		anyAttributes(t, l)
		return l
	})
	for n := range 150 {
		l := lines.Example(n)
		events, out := observed(t, l, uint64(n), 1)
		require.Empty(t, unequal(out, rebuilt(l, events, out)), "line %d", n)
		require.Equal(t, engineRun(t, l)(uint64(n), 1), out, "line %d: an observer changes something", n)
	}
}

// A comparison that sees nothing would agree with everything: a share a tenth larger is told from
// the share.
func TestEngineAgreesOnAttributesCanFail(t *testing.T) {
	oneGoroutine(t)
	line := agreeAttributes()[0].line
	other := line()
	other.Attributes[0].Share = 0.22
	level := 0.001 / float64(agreeChecks(other)*len(agreeCases()))
	assert.NotEmpty(t, differences(pool(slowly(line())), pool(engineRun(t, other)), level))
}
