package scenarios

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
)

// paths adds the path of every value below a node, with its text. The path of a line or of
// stations as a whole is none.
func paths(n *node, path string, all map[string]string) {
	keys, whole := keysOf(n), false
	if n.Kind == sequenceNode {
		keys, whole = namesIn(n), true
	}
	for _, key := range keys {
		below, at := strings.TrimPrefix(path+"."+key, "."), step(n, key)
		below = strings.Replace(below, "line.stations", "stations", 1)
		if !whole && !slices.Contains([]string{"line", "lines", "stations"}, key) {
			all[below] = written(at)
		}
		if at.Kind != sequenceNode || at.Content != nil && at.Content[0].Kind == mappingNode {
			paths(at, below, all)
		}
	}
}

// A value that is set to what it is changes nothing.
func TestWithItsOwnValue(t *testing.T) {
	files := append(Examples(), Example{Name: "everything", Data: []byte(everything)}, Example{Name: "personal", Data: []byte(personal)},
		Example{Name: "good", Data: []byte(goodFile(t))}, Example{Name: "seasonal", Data: []byte(seasonal)}, Example{Name: "hall", Data: []byte(groupFile)}, Example{Name: "unsure", Data: []byte(unsureFile)})
	for _, x := range files {
		t.Run(x.Name, func(t *testing.T) {
			s, err := Load(x.Name, x.Data)
			require.NoError(t, err)
			all := map[string]string{}
			tree := s.tree
			for _, key := range []string{"name", "question", "run"} {
				tree = without(tree, key)
			}
			paths(tree, "", all)
			assert.Greater(t, len(all), 40)
			var settings []Setting
			for path, text := range all {
				shop, err := s.ShopWith([]Setting{{path, text}})
				require.NoError(t, err, path)
				require.Equal(t, &s.Shop, shop, path)
				settings = append(settings, Setting{path, text})
			}
			line, err := s.WithAll(settings)
			require.NoError(t, err)
			assert.Equal(t, s.Line, line)
		})
	}
}

func TestWith(t *testing.T) {
	s, err := Load("good.yaml", []byte(goodFile(t)))
	require.NoError(t, err)
	before := *s.Line

	line, err := s.With("crew.operators", "3")
	require.NoError(t, err)
	assert.Equal(t, 3, line.Crew.Operators)

	line, err = s.WithAll([]Setting{
		{"stations.letter.clear", "{gamma: {mean: 45 s, cv: 0.8}}"},
		{"stations.letter.clear.gamma.mean", "1 min"},
		{"stations.exit gate.name", "way: out"},
		{"stations.way: out.bin", "{envelopes: 40, warn: 25%, empty: 20 s}"},
	})
	require.NoError(t, err)
	assert.InDelta(t, 60, float64(line.Stations[0].(*model.Feeder).Clear.Mean()), 0)
	assert.Equal(t, "way: out", line.Stations[3].Where().Name)
	assert.Equal(t, int64(10), line.Stations[3].(*model.ExitGate).Bin.Warn)

	line, err = s.WithAll(nil)
	require.NoError(t, err)
	assert.Equal(t, s.Line, line)
	assert.Equal(t, before, *s.Line, "the scenario stays as it is")
}

func TestWithWhatCannotBe(t *testing.T) {
	s, err := Load("good.yaml", []byte(goodFile(t)))
	require.NoError(t, err)
	for _, c := range []struct {
		settings []Setting
		want     string
	}{
		{[]Setting{{"crew.operators", "0"}}, "good.yaml: crew.operators: operators is 0, want a number of people from 0.01 to 1000, such as 2 or 1.5"},
		{[]Setting{{"crew.operators", ""}}, `good.yaml: crew.operators: operators is "", want a number of people from 0.01 to 1000, such as 2 or 1.5`},
		{[]Setting{{"crew.operator", "2"}}, "good.yaml: crew.operator: unknown key operator in crew: did you mean operators?"},
		{[]Setting{{"crew", "2"}}, "good.yaml: crew: crew is 2, want a mapping with operators, walk, attends, exhausted, blocks, later, breaks, people, help, technicians, wrong_repair, wrong_realign, source"},
		{[]Setting{{"", "2"}}, `good.yaml: : no path begins with "": want line, lines, stations, policy, crew, work, jobs, changeover, calendar, season, plan, costs or target`},
		{[]Setting{{"stations.leter.jam", "0"}}, `good.yaml: stations.leter.jam: no station is named "leter": did you mean letter?`},
		{[]Setting{{"stations.letter.clear.lognormal.mean", "4 s"}}, "good.yaml: stations.letter.clear.lognormal.mean: clear is 45 s, which has no lognormal: set clear as a whole"},
		{[]Setting{{"stations.letter.clear", "{gamma: {mean: 45 s}}"}}, "good.yaml: stations.letter.clear: gamma has no cv"},
		{[]Setting{{"stations.letter.clear", "{gamma: [}"}}, "good.yaml: stations.letter.clear: {gamma: [} is not a value: a value is missing here"},
		{[]Setting{{"stations.letter.clear", "{gamma: &a 1}"}}, "good.yaml: stations.letter.clear: {gamma: &a 1} is not a value: &a would let *a stand for this value: write values where they belong; stations that are alike may share a preset"},
		{[]Setting{{"stations.exit gate.at", "7"}}, "good.yaml: stations.exit gate.at: delivery stands at pitch 7, want more than 7, where exit gate stands before it (line 26)"},
		{
			[]Setting{{"crew.walk", "5 s"}, {"stations.letter.jam", "7"}, {"line.speed", "4"}, {"stations.inserter.jam", "7"}},
			"good.yaml: line.speed: speed is 4, say the unit: 4/h, /min or /s\n" +
				"good.yaml: stations.letter.jam: jam is 7, want a probability from 0 to 1, such as 1/2500, 1 in 2500, 0.04% or 0.0004: did you mean 7%?\n" +
				"good.yaml: stations.inserter.jam: jam is 7, want a probability from 0 to 1, such as 1/2500, 1 in 2500, 0.04% or 0.0004: did you mean 7%?\n3 problems",
		},
		{
			[]Setting{{"crew.walk", "5 s"}, {"stations.exit gate.at", "8"}, {"crew.operators", "2"}},
			"good.yaml: stations.exit gate.at: delivery stands at pitch 7, want more than 8, where exit gate stands before it (line 26)",
		},
		{[]Setting{{"crew.walk" + strings.Repeat(".a", 400), "5 s"}}, "good.yaml: crew.walk" + strings.Repeat(".a", 400) + ": a path cannot be longer than 400 characters"},
	} {
		t.Run(c.settings[0].Path+"="+c.settings[0].Value, func(t *testing.T) {
			line, err := s.WithAll(c.settings)
			require.EqualError(t, err, c.want)
			assert.Nil(t, line)
			_, ok := errors.AsType[Problems](err)
			assert.True(t, ok)
		})
	}
}

// The longest name that fits is meant.
func TestLocate(t *testing.T) {
	text := strings.Replace(goodFile(t), "name: track gate", "name: letter.at", 1)
	s, err := Load("x", []byte(text))
	require.NoError(t, err)
	for path, want := range map[string]spot{
		"crew.operators":                 {"crew", "operators"},
		"policy":                         {"policy"},
		"stations.letter.misfeed":        {"line", "stations", "letter", "misfeed"},
		"stations.letter.at.at":          {"line", "stations", "letter.at", "at"},
		"stations.exit gate.bin.warn":    {"line", "stations", "exit gate", "bin", "warn"},
		"stations.letter.clear.gamma.cv": {"line", "stations", "letter", "clear", "gamma", "cv"},
	} {
		got, err := locate(s.tree, path)
		require.NoError(t, err, path)
		assert.Equal(t, want, got, path)
	}
	_, err = locate(s.tree, "stations.letter.at")
	require.EqualError(t, err, "letter.at is a whole station: say which key of it, such as stations.letter.at.at")
	_, err = locate(s.tree, "stations.leter.at.jam")
	require.EqualError(t, err, `no station is named "leter": did you mean letter?`)
}
