// Package small is for tests: scenarios of cmd/netrate/testdata, read and run.
package small

import (
	"os"
	"strings"
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

// CostJobs returns the scenario with yearly volumes of jobs, and its text, after a change of it.
func CostJobs(t *testing.T, old, with string) (*scenarios.Scenario, []byte) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/costjobs.yaml")
	require.NoError(t, err)
	require.Contains(t, string(text), old)
	text = []byte(strings.Replace(string(text), old, with, 1))
	sc, err := scenarios.Load("costjobs.yaml", text)
	require.NoError(t, err)
	return sc, text
}

// Study returns a study of reps replications of a scenario.
func Study(t *testing.T, sc *scenarios.Scenario, reps int) *runs.Study {
	t.Helper()
	s, err := runs.Run(t.Context(), sc.Line, sim.Plan{Seed: sc.Run.Seed, Min: reps, Max: reps}, nil)
	require.NoError(t, err)
	return s
}
