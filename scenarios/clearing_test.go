package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// clearings are the good file with other clearing times of the inserter.
func clearings(t *testing.T, times string) string {
	t.Helper()
	return strings.Replace(goodFile(t), "clear: 90 s", "clear: "+times, 1)
}

func TestClearingByFault(t *testing.T) {
	jam, err := sim.NewLognormal(120, 0.8)
	require.NoError(t, err)
	for times, want := range map[string]model.Inserter{
		"90 s":                          {Clear: sim.Constant(90)},
		"{jam: 2 min, others: 20 s}":    {Clear: sim.Constant(20), Clearings: model.Clearings{model.InsertionJam: sim.Constant(120)}},
		"{others: {constant: 1.5 min}}": {Clear: sim.Constant(90)},
		"{envelope_misfeed: 15 s, flap: 25 s, jam: {lognormal: {mean: 2 min, cv: 0.8}}}": {
			Clearings: model.Clearings{model.EnvelopeMisfeed: sim.Constant(15), model.Flap: sim.Constant(25), model.InsertionJam: jam},
		},
		"{same as: stations.letter.clear.others}": {},
	} {
		s, err := Load("x.yaml", []byte(clearings(t, times)))
		if strings.Contains(times, "same as") {
			assert.ErrorContains(t, err, "letter", "there is one time for all faults of the letter")
			continue
		}
		require.NoError(t, err, times)
		require.NoError(t, compiled(t).Validate(asJSON(t, clearings(t, times))), times)
		in := s.Line.Stations[2].(*model.Inserter)
		assert.Equal(t, want.Clear, in.Clear, times)
		assert.Equal(t, want.Clearings, in.Clearings, times)
	}
}

func TestClearingByFaultRefused(t *testing.T) {
	for times, want := range map[string]string{
		"{jam: 2 min}":                                     "x:24:14: clear has no time of envelope_misfeed and flap: want each, or others: the time of all other faults",
		"{misfeed: 2 min, others: 1 min}":                  "x:24:15: unknown key misfeed in clear: did you mean envelope_misfeed?",
		"{jam: 2 min, constant: 1 min}":                    "x:24:27: unknown key constant in clear: want envelope_misfeed, flap, jam or others",
		"{jam: 2, others: 1 min}":                          "x:24:20: jam is 2, say the unit: 2 s, min or h",
		"{jam: {lognormal: {mean: 2 min}}, others: 1 min}": "x:24:32: lognormal has no cv",
		"{}": "x:24:14: clear has 0 distributions, want one, or a plain time such as 45 s",
	} {
		_, err := Load("x", []byte(clearings(t, times)))
		require.Error(t, err, times)
		assert.Contains(t, err.Error(), want, times)
		assert.Equal(t, 1, strings.Count(err.Error(), "x:24:"), "one message for one mistake: %v", err)
	}
}

// What is not known of the time of one fault is an unknown of its own, and of others that of the
// usual time.
func TestClearingByFaultUncertain(t *testing.T) {
	s, err := Load("x", []byte(clearings(t, "{jam: {gamma: {mean: {about: 2 min, se: 10 s}, cv: 0.5}}, others: {constant: {about: 20 s, se: 3 s}}}")))
	require.NoError(t, err)
	var paths []string
	for _, d := range s.Line.UncertainInputs {
		paths = append(paths, d.Path())
	}
	assert.Equal(t, []string{"stations.inserter.clear.jam.mean", "stations.inserter.clear.mean"}, paths)
}

// A sweep and a variant reach the time of one fault by its path.
func TestClearingByFaultSet(t *testing.T) {
	s, err := Load("x", []byte(clearings(t, "{jam: 2 min, others: 20 s}")))
	require.NoError(t, err)
	moved, err := s.With("stations.inserter.clear.jam", "3 min")
	require.NoError(t, err)
	assert.Equal(t, sim.Constant(180), moved.Stations[2].(*model.Inserter).Clearings[model.InsertionJam])
}
