package model

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"reflect"
	"runtime/debug"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/internal/golden"
	"netrate/sim"
)

// Whatever the line, both ledgers balance in every replication (Run says so), what was
// delivered is on the belt, and the same seed gives the same outcome.
func TestAnyLineBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLineWithAll(t)
		s, err := New(l)
		if err != nil {
			t.Fatalf("the line cannot run: %v", err)
		}
		seed := rapid.Uint64().Draw(t, "seed")
		var a, b Outcome
		for replication := range 3 {
			if err := s.Run(seed, replication, &a); err != nil {
				t.Fatal(err)
			}
			delivered := a.Stations[len(a.Stations)-1].Removed
			if delivered != a.Sets.Good+a.Sets.Defective {
				t.Fatalf("%d sets delivered, %d good and %d defective", delivered, a.Sets.Good, a.Sets.Defective)
			}
			if wrong := ledgerErrors(&a); wrong != nil {
				t.Fatalf("the ledgers of %v do not balance: %+v", wrong, a)
			}
			for _, st := range a.Stations {
				if st.Pieces.Good > a.Sets.Good {
					t.Fatalf("%s has %d pieces in %d good sets", st.Name, st.Pieces.Good, a.Sets.Good)
				}
			}
		}
		fresh, err := New(l)
		if err != nil {
			t.Fatal(err)
		}
		if err := fresh.Run(seed, 2, &b); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("the third replication differs from the same one run first:\n%+v\n%+v", a, b)
		}
	})
}

// The same of the slow model; and as it knows the pieces of every set by their numbers, no
// set that is delivered may hold pieces for two persons unless it is counted as defective.
func TestSlowModelOnAnyLine(t *testing.T) {
	mixed := 0
	rapid.Check(t, func(t *rapid.T) {
		l := anyLineWithAll(t)
		matched := slices.ContainsFunc(l.Lanes(), l.Matched)
		out := slowWatched(l, rapid.Uint64().Draw(t, "seed"), 0, func(s *slowSet) {
			persons := map[int64]bool{}
			for _, lane := range s.held {
				for _, piece := range lane {
					persons[piece.number] = true
				}
			}
			if matched && len(persons) > 1 {
				mixed++
				if s.fate != slowDefective {
					t.Fatalf("set %d was delivered as good with pieces for %v", s.number, persons)
				}
			}
		})
		if wrong := ledgerErrors(&out); wrong != nil {
			t.Fatalf("the ledgers of %v do not balance: %+v", wrong, out)
		}
	})
	require.Positive(t, mixed, "no set was ever mixed: this test cannot fail")
}

// Where feeders and channels see all their faults and none is shipped, nothing is delivered
// defective, whatever else happens.
func TestWhatIsSeenIsNotDelivered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLine(t)
		allSeen(l)
		s, err := New(l)
		if err != nil {
			t.Fatalf("the line cannot run: %v", err)
		}
		var engine Outcome
		seed := rapid.Uint64().Draw(t, "seed")
		if err := s.Run(seed, 0, &engine); err != nil {
			t.Fatal(err)
		}
		slow := slowRun(l, seed, 0)
		if slow.Sets.Defective > 0 || engine.Sets.Defective > 0 {
			t.Fatalf("delivered defective: %d, and %d by the slow model", engine.Sets.Defective, slow.Sets.Defective)
		}
	})
}

// oneGoroutine skips a long test that has nothing to show to the race detector.
func oneGoroutine(t *testing.T) {
	t.Helper()
	if golden.Raced {
		t.Skip("it runs in one goroutine: there is no race to be seen")
	}
}

// TestMain fixes the seed and the number of the property tests; the flags -rapid.seed and
// -rapid.checks still go before it.
func TestMain(m *testing.M) {
	if err := errors.Join(flag.Set("rapid.seed", "1"), flag.Set("rapid.checks", "400")); err != nil {
		panic(err)
	}
	debug.SetGCPercent(400) // the slow model makes much that lives shortly: two fifths of its time were the collector's
	os.Exit(m.Run())
}

// anyLine returns a line that can run, with faults from rare to all but certain, stocks
// from tiny to ample and every response that it can have.
func anyLine(t *rapid.T) *Line {
	l := &Line{
		Name:    "any",
		Speed:   rapid.Float64Range(600, 20_000).Draw(t, "speed"),
		Shift:   sim.Seconds(rapid.Float64Range(1, 900).Draw(t, "shift")),
		Restart: anyDuration(t, "restart"),
		Crew: Crew{
			Operators: rapid.IntRange(1, 4).Draw(t, "operators"),
			Walk:      anyDuration(t, "walk"),
			Order:     Order(rapid.IntRange(0, len(Orders())-1).Draw(t, "order")),
		},
	}
	at := rapid.IntRange(0, 3).Draw(t, "first pitch")
	place := func(name string) Place {
		p := Place{Name: name, At: at}
		at += rapid.IntRange(1, 4).Draw(t, "pitch")
		return p
	}
	for i := range rapid.IntRange(1, 5).Draw(t, "feeders") {
		l.Stations = append(l.Stations, anyFeeder(t, place(fmt.Sprint("feeder ", i+1))))
		if rapid.IntRange(0, 3).Draw(t, "gate here") == 0 {
			l.Stations = append(l.Stations, &TrackGate{Place: place(fmt.Sprint("track gate after ", i+1)), Bin: anyStock(t, 0)})
		}
	}
	l.Stations = append(l.Stations, &Inserter{
		Place: place("inserter"), Hopper: anyStock(t, 1), Clear: anyDuration(t, "clear"),
		EnvelopeMisfeed: anyRate(t), Flap: anyRate(t), Jam: anyRate(t),
	})
	if rapid.Bool().Draw(t, "exit gate") {
		l.Stations = append(l.Stations, &ExitGate{Place: place("exit gate"), Bin: anyStock(t, 0)})
	}
	l.Stations = append(l.Stations, &Delivery{Place: place("delivery"), Belt: anyStock(t, 0)})
	if rapid.Bool().Draw(t, "personalised") {
		personalise(t, l)
	}
	chooseResponses(t, l)
	if rapid.IntRange(0, 3).Draw(t, "job") == 0 {
		anyJob(t, l)
	}
	return l
}

// anyLineWithLots returns any line, or one with lots, days and drift as well.
func anyLineWithLots(t *rapid.T) *Line {
	l := anyLine(t)
	if rapid.Bool().Draw(t, "lots and days") {
		anyLots(t, l)
	}
	return l
}

// anyLineWithAll returns any line, with any of all that a line can have.
func anyLineWithAll(t *rapid.T) *Line {
	l := anyLineWithLots(t)
	if rapid.Bool().Draw(t, "clearing by fault") {
		ownTimes(l)
	}
	if rapid.Bool().Draw(t, "people") {
		anyPeople(t, l)
	}
	if rapid.Bool().Draw(t, "errors") {
		moreChannels(t, l)
		erring(t, l)
	}
	if rapid.Bool().Draw(t, "slow cycles") {
		anyPace(t, l)
	}
	if rapid.Bool().Draw(t, "devices") {
		anyDevices(t, l)
	}
	if rapid.Bool().Draw(t, "attributes") {
		anyAttributes(t, l)
	}
	if rapid.Bool().Draw(t, "begins otherwise") {
		anyBeginning(t, l)
	}
	return l
}

func anyFeeder(t *rapid.T, p Place) *Feeder {
	f := &Feeder{
		Unwatched: true,
		Place:     p, Hopper: anyStock(t, 1), Clear: anyDuration(t, "clear"),
		Misfeed: anyRate(t), Double: anyRate(t), Jam: anyRate(t), Material: 1, Noticed: anySight(t),
		Caught: rapid.Float64Range(0, 1).Draw(t, "caught"), FalseCalls: anyRate(t), Share: 1,
	}
	if rapid.Bool().Draw(t, "selective") {
		f.Share = rapid.Float64Range(0.01, 1).Draw(t, "share")
	}
	if rapid.Bool().Draw(t, "streaks") {
		f.Streak = Streak{Given: true, Again: rapid.Float64Range(0, 0.4).Draw(t, "again"), StopAfter: rapid.IntRange(0, 4).Draw(t, "stop after")}
	}
	return f
}

// anyRate returns a probability, small more often than not, of which three leave room for
// a good set.
func anyRate(t *rapid.T) float64 {
	return rapid.SampledFrom([]float64{0, 1e-4, 1e-3, 0.01, 0.1, 0.3}).Draw(t, "rate")
}

func anyDuration(t *rapid.T, name string) sim.Duration {
	mean := sim.Seconds(rapid.Float64Range(0, 60).Draw(t, name))
	if mean > 1 && rapid.Bool().Draw(t, name+" varies") {
		return lognormal(mean, 0.8)
	}
	return sim.Constant(mean)
}

func anyStock(t *rapid.T, least int64) Stock {
	s := Stock{Capacity: rapid.SampledFrom([]int64{0, 1, 2, 5, 30, 1000}).Draw(t, "capacity"), Work: anyDuration(t, "work")}
	s.Capacity = max(s.Capacity, least)
	if s.Capacity == 0 {
		return Stock{}
	}
	s.Warn = rapid.Int64Range(0, s.Capacity-1).Draw(t, "warn")
	return s
}

// chooseResponses gives each fault one of the responses it can have.
func chooseResponses(t *rapid.T, l *Line) {
	choose := func(i int, f Fault) Response {
		var can []Response
		for r := Stop; r <= Ship; r++ {
			if l.Refusal(i, f, r) == "" {
				can = append(can, r)
			}
		}
		return rapid.SampledFrom(can).Draw(t, "response")
	}
	for i, s := range l.Stations {
		switch s := s.(type) {
		case *Feeder:
			s.OnMisfeed, s.OnDouble = choose(i, Misfeed), choose(i, Double)
		case *Channel:
			s.OnMisfeed, s.OnDouble = choose(i, Misfeed), choose(i, Double)
		case *Reader:
			s.OnNoRead, s.OnMismatch = choose(i, NoRead), choose(i, Mismatch)
		case *Inserter:
			s.OnFlap = choose(i, Flap)
		}
	}
}
