// Package small is for tests: the small scenario of cmd/netrate/testdata, read and run.
package small

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/model/runs"
	"netrate/scenarios"
	"netrate/sim"
)

// Scenario returns the small scenario, its text and a study of reps shifts.
func Scenario(t *testing.T, reps int) (*scenarios.Scenario, []byte, *runs.Study) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/small.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("small.yaml", text)
	require.NoError(t, err)
	return sc, text, Study(t, sc, reps)
}

// Study returns a study of reps replications of a scenario.
func Study(t *testing.T, sc *scenarios.Scenario, reps int) *runs.Study {
	t.Helper()
	s, err := runs.Run(t.Context(), sc.Line, sim.Plan{Seed: sc.Run.Seed, Min: reps, Max: reps}, nil)
	require.NoError(t, err)
	return s
}
