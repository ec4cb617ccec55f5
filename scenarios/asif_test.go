package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stacked has variants that build on each other, in no order.
const stacked = `name: Stacked
line:
  restart: 2 s
  stations:
    - {kind: feeder, name: letter, at: 0, rated: 9000/h, hopper: {pieces: 1000, warn: 0, refill: 1 s}, misfeed: 1/500, double: 0, jam: 0, clear: 20 s}
    - {kind: inserter, name: inserter, at: 2, rated: 9000/h, hopper: {pieces: 1000, warn: 0, refill: 1 s}, envelope_misfeed: 0, flap: 0, jam: 0, clear: 1 s}
    - {kind: delivery, name: belt, at: 3}
crew: {operators: 1, walk: 5 s}
work: {shift: 1 h}
variants:
  - {name: both, builds_on: two people, changes: [{set: stations.letter.misfeed, times: 0.5}]}
  - {name: two people, changes: [{set: crew.operators, to: 2}]}
  - {name: slow, builds_on: both, changes: [{set: line.speed, to: 6000/h}]}
`

func TestVariantsBuildOnEachOther(t *testing.T) {
	s, err := Load("x.yaml", []byte(stacked))
	require.NoError(t, err)
	require.Len(t, s.Variants, 3)
	for i, want := range []struct {
		name      string
		operators int
		speed     float64
		changes   []string
	}{
		{"both", 2, 0, []string{"crew.operators: 1 → 2", "stations.letter.misfeed: 1/500 → 1/1000"}},
		{"two people", 2, 0, []string{"crew.operators: 1 → 2"}},
		{"slow", 2, 6000, []string{"crew.operators: 1 → 2", "stations.letter.misfeed: 1/500 → 1/1000", "line.speed: not given → 6000/h"}},
	} {
		v := s.Variants[i]
		assert.Equal(t, want.name, v.Name)
		assert.Equal(t, want.operators, v.Line.Crew.Operators)
		assert.Equal(t, want.speed, v.Line.Speed)
		assert.Equal(t, want.changes, v.Changes)
	}
}

func TestVariantsThatCannotBuild(t *testing.T) {
	for name, c := range map[string]struct{ from, to, want string }{
		"itself":   {"{name: two people, ", "{name: two people, builds_on: two people, ", `x.yaml:12:35: variant "two people" builds on itself`},
		"a circle": {"{name: two people, ", "{name: two people, builds_on: slow, ", "x.yaml:11:29: variants build on each other in a circle: “both” → “two people” → “slow” → “both”"},
		"nothing":  {"builds_on: both", "builds_on: bth", `x.yaml:13:29: no variant is named "bth": did you mean both?`},
		"the base": {"builds_on: both", "builds_on: base", "builds_on is base, which every variant builds on"},
		"a change": {"{set: crew.operators, to: 2}", "{set: crew.operators, to: 0}", `variant "two people": operators is 0`},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Load("x.yaml", []byte(strings.Replace(stacked, c.from, c.to, 1)))
			require.ErrorContains(t, err, c.want)
			assert.NotContains(t, err.Error(), "problems", "one cause is noted once")
		})
	}
}

// A scenario as a variant is what the variant is, and a setting is what the file would be with
// the value in it.
func TestAsAndSet(t *testing.T) {
	s, err := Load("x.yaml", []byte(stacked))
	require.NoError(t, err)
	as, err := s.As("slow")
	require.NoError(t, err)
	assert.Equal(t, s.Variants[2].Line, as.Line)
	assert.Empty(t, as.Variants)
	_, err = s.As("slwo")
	require.ErrorContains(t, err, `no variant is named "slwo": did you mean slow?`)

	s.Base = "Offer Alder" // which names the line of the file as it stands
	as, err = s.As("Offer Alder")
	require.NoError(t, err)
	assert.Equal(t, s.Line, as.Line)
	assert.Empty(t, as.Variants)
	only, err := s.Only([]string{"Offer Alder", "slow"})
	require.NoError(t, err)
	require.Len(t, only.Variants, 1)
	assert.Equal(t, "slow", only.Variants[0].Name)

	set, err := s.Set([]Setting{{"crew.walk", "9 s"}, {"stations.letter.misfeed", "1/900"}, {"crew.operators", "3"}})
	require.NoError(t, err)
	text := strings.NewReplacer("walk: 5 s", "walk: 9 s", "1/500", "1/900", "operators: 1", "operators: 3").Replace(stacked)
	want, err := Load("x.yaml", []byte(text))
	require.NoError(t, err)
	assert.Equal(t, want.Line, set.Line)
	for i := range want.Variants {
		assert.Equal(t, want.Variants[i].Line, set.Variants[i].Line, want.Variants[i].Name)
	}
	assert.Equal(t, []Made{{Setting{"crew.walk", "9 s"}, "5 s"}, {Setting{"stations.letter.misfeed", "1/900"}, "1/500"}, {Setting{"crew.operators", "3"}, "1"}}, set.Made)
	assert.Equal(t, []string{"both", "two people", "slow"}, set.Keeps("crew.operators"))
	assert.Empty(t, set.Keeps("crew.walk"))
	assert.Equal(t, 1, s.Line.Crew.Operators, "the scenario stays as it is")
}

func TestSetSaysWhatIsWrong(t *testing.T) {
	s, err := Load("x.yaml", []byte(stacked))
	require.NoError(t, err)
	for value, want := range map[string]string{
		"crew.operator=3":         "crew.operator: ",
		"crew.operators=many":     "crew.operators: ",
		"stations.leter.rated=1":  `no station is named "leter": did you mean letter?`,
		"line.stations.x=1":       "want stations.NAME.KEY, without line",
		"stations.letter.clear=x": "stations.letter.clear: ",
	} {
		set, err := ParseSetting(value)
		require.NoError(t, err)
		_, err = s.Set([]Setting{set})
		assert.ErrorContains(t, err, want)
	}
	for _, text := range []string{"crew.operators", "=3", "crew.operators="} {
		_, err := ParseSetting(text)
		assert.ErrorContains(t, err, "want PATH=VALUE")
	}
}
