package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
