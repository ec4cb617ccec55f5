package model

import (
	"fmt"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// agreeGroups are lines that share a crew, on which the engine is held against the slow model. Their
// speeds have no cycle in common.
func agreeGroups() map[string]func() *LineGroup {
	two := func(change func(a, b *Line), crew Crew) func() *LineGroup {
		return func() *LineGroup {
			a, b := referenceLine(), referenceLine()
			a.Name, b.Name, b.Speed = "north", "south", 11_317
			for _, l := range []*Line{a, b} {
				faulty(l, 0.004, 0.002, 0.001)
				low(l, 1)
				respond(l, Stop)
				l.Shift = 600.1
			}
			firstOf[*Inserter](b).Hopper.Warn = 40
			change(a, b)
			crew.Walk = lognormal(9, 0.3)
			return &LineGroup{Lines: []*Line{a, b}, Crew: crew}
		}
	}
	inserter := firstOf[*Inserter](referenceLine()).Name
	return map[string]func() *LineGroup{
		"two operators, the most urgent first": two(func(a, b *Line) {}, Crew{Operators: 2}),
		"first come, first served, and in turn": two(func(a, b *Line) {
			firstOf[*Inserter](b).Hopper.Warn = 200
			for _, f := range stationsOf[*Feeder](b) {
				f.Hopper.Warn = 180
			}
		}, Crew{Operators: 1, Order: FirstCome, Exhausted: InTurn}),
		"skills of some lines, one who stays, and help": two(func(a, b *Line) {
			respond(b, Divert)
		}, Crew{Operators: 4, Help: 1.7, People: []Person{
			{Name: "stays", Operators: 1, Lines: []string{"south", "north"}, Stays: inserter, Elsewhere: true},
			{Name: "north", Operators: 1, Lines: []string{"north"}},
			{Name: "loads", Operators: 1, Only: Filling},
			{Name: "clears", Operators: 1, Only: Clearing, Stations: []string{"1", "2", inserter}},
		}}),
		"skills, hours, breaks, one technician": two(func(a, b *Line) {
			for _, l := range []*Line{a, b} {
				breaksDown(l, 1)
			}
		}, Crew{
			Operators: 2, Part: 0.5, Block: 90.3, Technicians: 1, Order: AlongTheTrack,
			Later:  []Presence{{After: 200.7, Operators: 3}},
			Breaks: []Break{{After: 120.33, Length: 40.4, Remain: 1, Stands: true}, {After: 420.77, Length: 50.3, Remain: 2}},
			People: []Person{
				{Name: "all", Operators: 1},
				{Name: "stays", Operators: 1, Lines: []string{"north"}, Stays: inserter},
				{Name: "south", Operators: 1, Lines: []string{"south"}, Only: Filling},
			},
		}),
	}
}

// groupReplications of each group and model, each a third of a line's by itself.
const groupReplications = 250

// The lines of a group do, each, what the rules say: every figure has the same mean as in the slow
// model, and the good sets the same distribution. All together raise a false alarm with a probability
// of at most 0.1 %.
func TestGroupAgrees(t *testing.T) {
	oneGoroutine(t)
	groups := agreeGroups()
	checks := 0
	for _, group := range groups {
		for _, l := range group().Lines {
			checks += agreeChecks(l)
		}
	}
	for name, group := range groups {
		t.Run(name, func(t *testing.T) {
			slow, engine := poolGroup(slowGroup, group()), poolGroup(engineGroup(t, group()), group())
			for i, l := range group().Lines {
				assert.Empty(t, differences(&slow[i], &engine[i], 0.001/float64(checks)), l.Name)
			}
		})
	}
}

// With one who works on the other line, or the most urgent stock first, the engine is told from the slow
// model.
func TestGroupAgreesCanFail(t *testing.T) {
	oneGoroutine(t)
	skills := "skills of some lines, one who stays, and help"
	for name, c := range map[string]struct {
		group  string
		change func(h *LineGroup)
	}{
		"another line": {skills, func(h *LineGroup) { h.Crew.People[1].Lines = []string{"south"} }},
		"order":        {"first come, first served, and in turn", func(h *LineGroup) { h.Crew.Order = MostUrgent }},
	} {
		t.Run(name, func(t *testing.T) {
			h := agreeGroups()[c.group]()
			other := agreeGroups()[c.group]()
			c.change(other)
			slow, engine := poolGroup(slowGroup, h), poolGroup(engineGroup(t, other), other)
			var found []string
			for i, l := range h.Lines {
				found = append(found, differences(&slow[i], &engine[i], 0.001/float64(4*agreeChecks(l)))...)
			}
			assert.NotEmpty(t, found)
		})
	}
}

// engineGroup returns a run of the engine, whose outcomes balance.
func engineGroup(t *testing.T, h *LineGroup) func(h *LineGroup, seed uint64, replication int) []Outcome {
	t.Helper()
	s, err := NewLineGroup(h)
	require.NoError(t, err)
	return func(h *LineGroup, seed uint64, replication int) []Outcome {
		outs := make([]Outcome, len(h.Lines))
		require.NoError(t, s.Run(seed, replication, outs))
		for i := range outs {
			require.Empty(t, ledgerErrors(&outs[i]))
		}
		return outs
	}
}

// poolGroup returns the outcomes of replications of a run, line by line.
func poolGroup(run func(h *LineGroup, seed uint64, replication int) []Outcome, h *LineGroup) []pooled {
	all := make([]pooled, len(h.Lines))
	for replication := range groupReplications {
		for i, out := range run(h, 20, replication) {
			all[i].add(&out)
		}
	}
	return all
}

// Whatever lines share a crew, and whatever who may do where, all ledgers balance, in the slow model too,
// and the same seed gives the same outcomes.
func TestAnyGroupBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := anyGroup(t)
		s, err := NewLineGroup(h)
		if err != nil {
			t.Fatalf("the lines cannot run: %v", err)
		}
		seed := rapid.Uint64().Draw(t, "seed")
		first, again := make([]Outcome, len(h.Lines)), make([]Outcome, len(h.Lines))
		for _, outs := range [][]Outcome{first, again} {
			if err := s.Run(seed, 0, outs); err != nil {
				t.Fatal(err)
			}
		}
		if !reflect.DeepEqual(first, again) {
			t.Fatal("the same replication differs from itself")
		}
		if h.Lines[0].Begins.Before == 0 {
			first = append(first, slowGroup(h, seed, 0)...)
		}
		for i := range first {
			if wrong := ledgerErrors(&first[i]); wrong != nil {
				t.Fatalf("the ledgers of %v do not balance: %+v", wrong, first[i])
			}
		}
	})
}

// anyGroup returns two or three of any lines with one crew, of whom one may do all.
func anyGroup(t *rapid.T) *LineGroup {
	h := &LineGroup{}
	for i := range rapid.IntRange(2, 3).Draw(t, "lines") {
		l := anyLineWithAll(t)
		if l.Name = fmt.Sprint("line ", i+1); l.Job.Sets > 0 {
			l.Job, l.Shift, l.Begins = Job{}, 100, Begins{}
		}
		if i > 0 {
			l.Shift, l.Begins = h.Lines[0].Shift, h.Lines[0].Begins
		}
		if l.Shift = min(l.Shift, 100); l.Begins.Track {
			l.Days = Days{} // a drift would go on
		}
		h.Lines = append(h.Lines, l)
	}
	h.Crew = h.Lines[0].Crew
	if h.Crew.People == nil {
		return h
	}
	h.Crew.People = []Person{{Name: "all", Operators: 1}}
	for range h.Crew.Most() - 1 {
		p := Person{Name: "p", Operators: 1, Only: Doing(rapid.IntRange(0, 2).Draw(t, "only"))}
		if first := rapid.IntRange(0, len(h.Lines)).Draw(t, "line"); first > 0 {
			p.Lines = []string{h.Lines[first-1].Name}
			if rapid.Bool().Draw(t, "stays") {
				p.Stays, p.Elsewhere = "inserter", rapid.Bool().Draw(t, "elsewhere")
			}
			if second := rapid.IntRange(0, len(h.Lines)).Draw(t, "another line"); second > 0 {
				p.Lines = append(p.Lines, h.Lines[second-1].Name)
			}
		}
		h.Crew.People = append(h.Crew.People, p)
	}
	return h
}
