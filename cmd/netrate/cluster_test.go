package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
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
			out, e, status := said(t, nil, "cluster", "--tasks", "50", "--cores", "2", queue, "run", "line.yaml", "--reps", "1000", "--set", "crew.operators=2", "--json", "--report", "r.html")
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
	require.NoError(t, os.WriteFile("latin.yaml", []byte("name: caf\xe9\n"), 0o600))
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
		"no such key":    {[]string{"kubernetes", "run", "Straße.yaml"}, "letters without accents"},
		"not UTF-8":      {[]string{"kubernetes", "run", "latin.yaml"}, "latin.yaml is not UTF-8"},
		"workers":        {[]string{"slurm", "run", "line.yaml", "--workers", "3"}, "say --cores before the queue"},
		"a shard":        {[]string{"slurm", "run", "line.yaml", "--shard", "1/3"}, "leave it out"},
		"another volume": {[]string{"kubernetes", "run", "line.yaml", "--shards", "d"}, "leave it out"},
	} {
		t.Run(name, func(t *testing.T) {
			out, e, status := said(t, nil, append([]string{"cluster"}, c.args...)...)
			assert.Equal(t, 2, status)
			assert.Empty(t, out)
			assert.Contains(t, e, c.says)
		})
	}
}

// The directory of the shards, which several jobs may have of their own, is said to the shards and to the
// merge. Where one machine has several tasks, they have no more cores together than there are.
func TestClusterJobsOfOneDirectory(t *testing.T) {
	for _, queue := range []string{"slurm", "parallel"} {
		out, e, status := said(t, nil, "cluster", "--cores", "3", queue, "run", "line.yaml", "--shards", "of this", "--csv", "rows.csv")
		require.Zero(t, status, e)
		assert.Contains(t, out, "\tnetrate run line.yaml --shards 'of this' ")
		assert.Contains(t, out, "\tnetrate merge 'of this' --csv=rows.csv\n")
		assert.Equal(t, queue == "parallel", strings.Contains(out, "--jobs 33%"))
	}
}
