package scenarios

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
)

// paths adds the path of every value below a node, with its text.
func paths(n *node, path string, all map[string]string) {
	if n.Kind != mappingNode {
		return
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		below := path + "." + n.Content[i].Value
		if below != "line.stations" {
			all[below] = written(n.Content[i+1])
			paths(n.Content[i+1], below, all)
		}
	}
}

// A value that is set to what it is changes nothing.
func TestWithItsOwnValue(t *testing.T) {
	files := append(Examples(), Example{Name: "everything", Data: []byte(everything)}, Example{Name: "good", Data: []byte(goodFile(t))})
	for _, x := range files {
		t.Run(x.Name, func(t *testing.T) {
			s, err := Load(x.Name, x.Data)
			require.NoError(t, err)
			all := map[string]string{}
			for _, root := range []string{"line", "crew", "work", "policy"} {
				paths(child(s.tree, root), root, all)
			}
			for _, station := range stationsOf(s.tree).Content {
				paths(station, "stations."+nameOf(station), all)
			}
			assert.Greater(t, len(all), 40)
			var settings []Setting
			for path, text := range all {
				line, err := s.With(path, text)
				require.NoError(t, err, path)
				require.Equal(t, s.Line, line, path)
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
		{[]Setting{{"crew.operators", "0"}}, "good.yaml: crew.operators: operators is 0, want a whole number from 1 to 1000"},
		{[]Setting{{"crew.operators", ""}}, `good.yaml: crew.operators: operators is "", want a whole number from 1 to 1000`},
		{[]Setting{{"crew.operator", "2"}}, "good.yaml: crew.operator: unknown key operator in crew: did you mean operators?"},
		{[]Setting{{"crew", "2"}}, "good.yaml: crew: crew is 2, want a mapping with operators, walk, attends"},
		{[]Setting{{"", "2"}}, `good.yaml: : no path begins with "": want line, stations, policy, crew or work`},
		{[]Setting{{"stations.leter.jam", "0"}}, `good.yaml: stations.leter.jam: no station is named "leter": did you mean letter?`},
		{[]Setting{{"stations.letter.clear.lognormal.mean", "4 s"}}, "good.yaml: stations.letter.clear.lognormal.mean: clear is 45 s, which has no lognormal: set clear as a whole"},
		{[]Setting{{"stations.letter.clear", "{gamma: {mean: 45 s}}"}}, "good.yaml: stations.letter.clear: gamma has no cv"},
		{[]Setting{{"stations.letter.clear", "{gamma: [}"}}, "good.yaml: stations.letter.clear: {gamma: [} is no value: a value is missing here"},
		{[]Setting{{"stations.letter.clear", "{gamma: &a 1}"}}, "good.yaml: stations.letter.clear: {gamma: &a 1} is no value: &a would let *a stand for this value: write values where they belong; stations that are alike may share a preset"},
		{[]Setting{{"stations.exit gate.at", "7"}}, "good.yaml: stations.exit gate.at: delivery stands at pitch 7, want more than 7, where exit gate stands before it (line 26)"},
		{
			[]Setting{{"crew.walk", "5 s"}, {"stations.letter.jam", "7"}, {"line.speed", "4"}, {"stations.inserter.jam", "7"}},
			"good.yaml: line.speed: speed is 4, say the unit: 4/h, /min or /s\n" +
				"good.yaml: stations.letter.jam: jam is 7, want a probability from 0 to 1, such as 1/2500, 0.04% or 0.0004: did you mean 7%?\n" +
				"good.yaml: stations.inserter.jam: jam is 7, want a probability from 0 to 1, such as 1/2500, 0.04% or 0.0004: did you mean 7%?\n3 problems",
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
		"crew.operators":                 {-1, []string{"crew", "operators"}},
		"policy":                         {-1, []string{"policy"}},
		"stations.letter.misfeed":        {0, []string{"misfeed"}},
		"stations.letter.at.at":          {1, []string{"at"}},
		"stations.exit gate.bin.warn":    {3, []string{"bin", "warn"}},
		"stations.letter.clear.gamma.cv": {0, []string{"clear", "gamma", "cv"}},
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
