package scenarios

import (
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func designExample(t *testing.T) string {
	t.Helper()
	example, err := ExampleNamed("design-budget")
	require.NoError(t, err)
	return string(example.Data)
}

func TestDesignIsRead(t *testing.T) {
	s, err := Load("design.yaml", []byte(designExample(t)))
	require.NoError(t, err)
	d := s.Design
	require.NotNil(t, d)
	assert.Equal(t, DesignNetRate, d.Goal)
	assert.InDelta(t, 90_000, *d.Limits.Price, 0)
	assert.Equal(t, 16, *d.Limits.Pitches)
	assert.Nil(t, d.Limits.Defective)
	require.Len(t, d.Options, 6)
	gate := d.Options[0]
	assert.Equal(t, []string{"without track gate", "track gate"}, []string{gate.Choices[0].Name, gate.Choices[1].Name})
	assert.InDelta(t, 28_000, gate.Choices[1].Price, 0)
	assert.Equal(t, []string{"track gate"}, d.Options[1].Choices[1].Needs)

	// With nothing chosen it is the line as it is.
	v, err := d.Designed([]int{0, 0, 0, 0, 0, 0})
	require.NoError(t, err)
	assert.Equal(t, s.Line, v.Line)
	assert.Empty(t, v.Changes)

	v, err = d.Designed([]int{1, 1, 0, 0, 1, 1})
	require.NoError(t, err)
	assert.Len(t, v.Line.Stations, 8)
	assert.InDelta(t, 10_800, v.Line.Speed, 0)
	assert.Equal(t, 2, v.Line.Crew.Operators)
	assert.Contains(t, v.Changes, "crew.operators: 1 → 2")
	assert.InDelta(t, 44_000, d.Price([]int{1, 1, 0, 0, 1, 1}), 0)
	assert.Len(t, s.Line.Stations, 6, "the line as it is stays so")
}

// Combinations are made by many at once, and all from the line as it is.
func TestDesignedByMany(t *testing.T) {
	s, err := Load("design.yaml", []byte(designExample(t)))
	require.NoError(t, err)
	want, err := s.Design.Designed([]int{1, 0, 2, 1, 2, 1})
	require.NoError(t, err)
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for range 20 {
				v, err := s.Design.Designed([]int{1, 0, 2, 1, 2, 1})
				assert.NoError(t, err)
				assert.Equal(t, want.Line, v.Line)
				assert.Equal(t, want.Changes, v.Changes)
			}
		})
	}
	wait.Wait()
}

// What is chosen is paid for beside what the line costs anyway.
func TestDesignedCosts(t *testing.T) {
	text := strings.Replace(designExample(t), "\ndesign:", "\ncosts: {currency: EUR, life: 8, rate: 8%, price: {low: 10, likely: 20, high: 30}, line_hour: 40, volume: 9000000}\n\ndesign:", 1)
	s, err := Load("design.yaml", []byte(text))
	require.NoError(t, err)
	v, err := s.Design.Designed([]int{1, 0, 0, 1, 0, 0})
	require.NoError(t, err)
	assert.InDelta(t, 37_010, v.Costs.Price.Low, 0)
	assert.InDelta(t, 37_030, v.Costs.Price.High, 0)
	assert.InDelta(t, 20, s.Costs.Price.Likely, 0)

	// A line that is set, or a variant that is taken, is what is bought for.
	set, err := s.Set([]Setting{{"crew.walk", "20 s"}})
	require.NoError(t, err)
	v, err = set.Design.Designed([]int{0, 0, 0, 0, 0, 1})
	require.NoError(t, err)
	assert.InDelta(t, 20, float64(v.Line.Crew.Walk.Mean()), 0)
}

// Variants are made of the line with the choices too; of those that cannot be it is known why.
func TestVariantsOfADesignedLine(t *testing.T) {
	const variants = `
variants:
  - {name: walking, changes: [{set: crew.walk, to: 25 s}]}
  - {name: gated, changes: [{shift: inserter, by: 2}, {add: {kind: track gate, name: gate, at: 8, bin: {sets: 60, warn: 25, empty: 20 s}}, before: inserter}]}
  - {name: farther, builds_on: gated, changes: [{set: crew.walk, to: 30 s}]}
`
	s, err := Load("design.yaml", []byte(designExample(t)+variants))
	require.NoError(t, err)
	require.Len(t, s.Variants, 3)
	as, err := s.Designed([]string{"track gate", "second operator"})
	require.NoError(t, err)
	require.Len(t, as.Variants, 1)
	walking := as.Variants[0].Line
	assert.Equal(t, 2, walking.Crew.Operators)
	assert.InDelta(t, 25, float64(walking.Crew.Walk.Mean()), 0)
	assert.Len(t, walking.Stations, len(as.Line.Stations), "it has the gate too")
	assert.Contains(t, as.Unmade["gated"], `"gate"`)
	assert.Regexp(t, `\(line \d+\)$`, as.Unmade["gated"])
	assert.Equal(t, "the variant that it builds on cannot be", as.Unmade["farther"])
	as, err = s.Designed([]string{"second operator"})
	require.NoError(t, err)
	assert.Len(t, as.Variants, 3)
	assert.Empty(t, as.Unmade)
}

func TestDesignMistakes(t *testing.T) {
	for name, c := range map[string]struct{ old, now, wrong string }{
		"goal":            {"goal: net rate", "goal: net rat", "goal is \"net rat\", did you mean net rate?"},
		"no goal":         {"  goal: net rate\n", "", "design has no goal"},
		"no costs":        {"goal: net rate", "goal: cost per thousand", "the goal is cost per thousand, and the file has no costs"},
		"no target":       {"goal: net rate", "goal: operators", "give a target, such as 12500/h"},
		"target":          {"goal: net rate", "goal: net rate\n  target: 9000/h", "target goes with the goal operators"},
		"share":           {"goal: net rate", "goal: operators\n  target: 9000/h\n  share: 100%", "share is 100%, want more than 0% and less than 100%"},
		"needs":           {"needs: [track gate]", "needs: [trak gate]", `no choice is named "trak gate": did you mean track gate?`},
		"itself":          {"needs: [track gate]", "needs: [exit gate]", `"exit gate" needs itself`},
		"twice":           {"- name: exit gate\n      price", "- name: track gate\n      price", `two choices are named "track gate", the first in line`},
		"no changes":      {"      changes:\n        - {set: crew.operators, to: 2}\n", "      price: 3\n", `option "second operator" has no changes and no choices`},
		"price of option": {"    - name: speed\n", "    - name: speed\n      price: 3\n", `option "speed" has choices: give each of them its price`},
		"no such station": {"stations.brochure.preset", "stations.brochur.preset", "brochure"},
		"no such key":     {"{set: crew.operators, to: 2}", "{set: crew.operator, to: 2}", "operator"},
		"negative":        {"price: 28000", "price: -1", "price is -1"},
		"one choice":      {"        - {name: as fast as now}\n        - {name: a tenth slower, changes: [{set: line.speed, to: 10800/h}]}\n", "", `option "speed" has 1, want from 2 to 20 choices`},
	} {
		t.Run(name, func(t *testing.T) {
			text := designExample(t)
			require.Contains(t, text, c.old)
			_, err := Load("design.yaml", []byte(strings.Replace(text, c.old, c.now, 1)))
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.wrong)
		})
	}
}

// searched is a file with every key of a design. It is invented.
const searched = `name: Searched
line:
  speed: 9000/h
  restart: 4 s
  stations:
    - {kind: feeder, name: letter, at: 0, preset: friction, hopper: {pieces: 1000, warn: 25%, refill: 25 s}}
    - {kind: inserter, name: inserter, at: 3, rated: 12000/h, hopper: {pieces: 1500, warn: 500, refill: 20 s}, envelope_misfeed: 1/4000, flap: 1/1500, jam: 1/5000, clear: 60 s}
    - {kind: delivery, name: delivery, at: 6}
crew: {operators: 2, walk: 10 s}
work: {shift: 8 h}
design:
  goal: operators
  target: 7000/h
  share: 80%
  limits: {price: 50000, defective: 1/10000, pitches: 12, operators: 3}
  options:
    - name: feeder
      note: what feeds the letter
      choices:
        - {name: friction}
        - {name: rotary, note: dearer, price: 20000, changes: [{set: stations.letter.preset, to: rotary}], needs: [rack], excludes: [few]}
    - {name: rack, note: nearer stock, price: 2000, changes: [{set: crew.walk, to: 5 s}], needs: [rotary], excludes: [few]}
    - name: crew
      choices: [{name: as now}, {name: few, changes: [{set: crew.operators, to: 1}]}]
`

func TestDesignOfEveryKey(t *testing.T) {
	s, err := Load("searched.yaml", []byte(searched))
	require.NoError(t, err)
	d := s.Design
	assert.Equal(t, DesignOperators, d.Goal)
	assert.InDelta(t, 7000, d.Target, 0)
	assert.InDelta(t, 0.8, d.Share, 1e-12)
	assert.InDelta(t, 1e-4, *d.Limits.Defective, 1e-12)
	assert.Equal(t, 3, *d.Limits.Operators)
	rotary := d.Options[0].Choices[1]
	assert.Equal(t, []string{"rack"}, rotary.Needs)
	assert.Equal(t, []string{"few"}, rotary.Excludes)
	assert.Equal(t, "dearer", rotary.Note)
}
