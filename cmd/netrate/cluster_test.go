package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/golden"
)

// The jobs as they are written. That of Slurm and that of GNU parallel are run by tools/clusters, the manifest
// is decoded strictly by tools/manifest.
func TestClusterJobs(t *testing.T) {
	for queue, file := range map[string]string{"slurm": "slurm.sh", "parallel": "parallel.sh", "kubernetes": "kubernetes.yaml"} {
		t.Run(queue, func(t *testing.T) {
			expected, err := filepath.Abs(filepath.Join("testdata", "clusters", file))
			require.NoError(t, err)
			text, err := os.ReadFile(filepath.Join("testdata", "small.yaml"))
			require.NoError(t, err)
			t.Chdir(t.TempDir())
			require.NoError(t, os.WriteFile("line.yaml", text, 0o600))
			out, e, status := said(t, nil, "cluster", "--tasks", "50", "--cores", "2", queue, "run", "line.yaml", "--reps", "1000", "--set", "crew.operators=2", "--json", "--report", "r.html", "--workers", "3")
			require.Zero(t, status, e)
			golden.Check(t, expected, out)
			if queue != "kubernetes" {
				said, err := exec.Command("sh", "-n", expected).CombinedOutput()
				require.NoError(t, err, string(said))
			}
		})
	}
}

// What cannot be asked of a queue is refused before anything is written.
func TestClusterRefuses(t *testing.T) {
	t.Chdir(t.TempDir())
	for name, c := range map[string]struct {
		args []string
		says string
	}{
		"nothing":        {nil, "takes a queue and a question"},
		"another queue":  {[]string{"slurn", "run", "line.yaml"}, "want slurm, kubernetes or parallel"},
		"no such verb":   {[]string{"slurm", "rum", "line.yaml"}, "is not a verb"},
		"not simulated":  {[]string{"slurm", "check", "line.yaml"}, "check is not asked in shards"},
		"no such flag":   {[]string{"slurm", "run", "line.yaml", "--rep", "7"}, "run has no flag --rep"},
		"no tasks":       {[]string{"--tasks", "0", "slurm", "run", "line.yaml"}, "--tasks is 0"},
		"no number":      {[]string{"--tasks", "NaN", "slurm", "run", "line.yaml"}, "NaN"},
		"elsewhere":      {[]string{"kubernetes", "run", "a/line.yaml"}, "want a file in this directory"},
		"standard input": {[]string{"kubernetes", "run", "-"}, "want a file in this directory"},
		"no file":        {[]string{"kubernetes", "run", "line.yaml"}, "no such file"},
	} {
		t.Run(name, func(t *testing.T) {
			out, e, status := said(t, nil, append([]string{"cluster"}, c.args...)...)
			assert.Equal(t, 2, status)
			assert.Empty(t, out)
			assert.Contains(t, e, c.says)
		})
	}
}
