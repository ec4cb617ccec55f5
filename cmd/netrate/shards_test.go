package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
)

// said runs the command in this process, and returns what it prints, what it says and its status.
func said(t *testing.T, env map[string]string, args ...string) (out, err string, status int) {
	t.Helper()
	var o, e bytes.Buffer
	failed := run(args, desk.Env{In: strings.NewReader(""), Out: &o, Err: &e, Getenv: func(name string) string { return env[name] }})
	for _, one := range desk.Each(failed) {
		fmt.Fprintln(&e, one)
	}
	return o.String(), e.String(), desk.Status(failed)
}

// merged runs a question in shards, round by round, and returns what merge prints.
func merged(t *testing.T, shards int, dir string, form []string, args ...string) string {
	t.Helper()
	for range 20 {
		for k := 1; k <= shards; k++ {
			_, e, status := said(t, nil, append(args, "--shard", fmt.Sprintf("%d/%d", k, shards), "--shards", dir)...)
			require.Zero(t, status, e)
		}
		out, e, status := said(t, nil, append([]string{"merge", dir}, form...)...)
		if status != 3 {
			require.Zero(t, status, e)
			return out
		}
		require.Contains(t, e, "run round")
	}
	require.Fail(t, "no end of rounds")
	return ""
}

// In any number of shards the answer is that of one machine, byte for byte, in every form; also where
// what was simulated decides how much more is.
func TestShardsMerge(t *testing.T) {
	jobs, err := os.ReadFile(filepath.Join("internal", "buy", "testdata", "designforjobs.yaml"))
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("jobs.yaml", jobs, 0o600))
	for name, c := range map[string]struct {
		shards []int
		args   []string
	}{
		"run":         {[]int{1, 2, 3, 7}, []string{"run", "--example", "log-rates", "--precision", "0.8%", "--uncertainty", "40"}},
		"best":        {[]int{1, 2, 3, 7}, []string{"compare", "--example", "seventh-feeder", "--best", "--reps", "300"}},
		"sensitivity": {[]int{3}, []string{"sensitivity", "--example", "small-shop", "--reps", "12"}},
		"season":      {[]int{3}, []string{"season", "--example", "flats-season", "--reps", "2"}},
		"group":       {[]int{3}, []string{"run", "--example", "two-lines", "--reps", "10"}},
		"design":      {[]int{3}, []string{"design", "--example", "design-budget", "--reps", "24"}},
		"designs":     {[]int{2}, []string{"design", "jobs.yaml", "--reps", "24"}},
	} {
		t.Run(name, func(t *testing.T) {
			one, e, status := said(t, nil, append(c.args, "--json", "--csv", "one.csv")...)
			require.Zero(t, status, e)
			want, err := os.ReadFile("one.csv")
			require.NoError(t, err)
			for _, shards := range c.shards {
				dir := fmt.Sprintf("%s-%d", name, shards)
				assert.Equal(t, one, merged(t, shards, dir, []string{"--json", "--csv", "merged.csv"}, c.args...), "%d shards", shards)
				got, err := os.ReadFile("merged.csv")
				require.NoError(t, err)
				assert.Equal(t, string(want), string(got), "rows of %d shards", shards)
			}
		})
	}
}

// recordedShards records a run of the small scenario in three shards.
func recordedShards(t *testing.T, dir string, more ...string) {
	t.Helper()
	for k := 1; k <= 3; k++ {
		args := append([]string{"run", "line.yaml", "--reps", "9", "--shard", fmt.Sprintf("%d/3", k), "--shards", dir}, more...)
		_, e, status := said(t, nil, args...)
		require.Zero(t, status, e)
	}
}

func shardOfThree(t *testing.T, dir string, k int) string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(dir, fmt.Sprintf("*-%05d-of-*.shard", k)))
	require.NoError(t, err)
	require.Len(t, found, 1)
	return found[0]
}

// What does not go together is refused, each file by its name, with what to run again.
func TestMergeRefuses(t *testing.T) {
	small, err := os.ReadFile(filepath.Join("testdata", "small.yaml"))
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	write := func(text []byte) { require.NoError(t, os.WriteFile("line.yaml", text, 0o600)) }
	write(small)
	recordedShards(t, "a")
	recordedShards(t, "seed", "--seed", "2")
	write(append(small, "\n# changed\n"...))
	recordedShards(t, "text")
	write(small)
	first, third := shardOfThree(t, "a", 1), shardOfThree(t, "a", 3)
	whole, err := os.ReadFile(first)
	require.NoError(t, err)
	damaged := bytes.Clone(whole)
	damaged[len(damaged)/2] ^= 1
	for name, data := range map[string][]byte{
		"cut.shard": whole[:len(whole)-9], "damaged.shard": damaged, "empty.shard": nil, "again.shard": whole, "foreign.shard": []byte("net_rate,good\n"),
	} {
		require.NoError(t, os.WriteFile(name, data, 0o600))
	}
	second := shardOfThree(t, "a", 2)
	for name, c := range map[string]struct {
		args []string
		says []string
	}{
		"nothing":      {nil, []string{"found none"}},
		"no file":      {[]string{"no.shard"}, []string{"no.shard", "no such file"}},
		"gap":          {[]string{first, third}, []string{"1 shard is missing of the 3 of round 1", "netrate run line.yaml --reps 9 --shard 2/3 --shards a"}},
		"cut":          {[]string{second, third, "cut.shard"}, []string{"cut.shard is cut", "--shard 1/3"}},
		"empty":        {[]string{second, third, "empty.shard"}, []string{"empty.shard is cut", "--shard 1/3"}},
		"damaged":      {[]string{second, third, "damaged.shard"}, []string{"damaged.shard", "damaged at byte"}},
		"foreign":      {[]string{first, second, third, "foreign.shard"}, []string{"foreign.shard is not the file of a shard"}},
		"twice":        {[]string{first, second, third, "again.shard"}, []string{"again.shard are both shard 1/3"}},
		"other seed":   {[]string{first, second, shardOfThree(t, "seed", 3)}, []string{"--seed 2", "not of netrate run line.yaml --reps 9"}},
		"other text":   {[]string{first, second, shardOfThree(t, "text", 3)}, []string{"is of another text of line.yaml"}},
		"stale":        {[]string{"text"}, []string{"line.yaml is no longer what the shards were run with"}},
		"not its form": {[]string{"a", "--seed", "3"}, []string{"--seed is a part of what was asked"}},
	} {
		t.Run(name, func(t *testing.T) {
			out, e, status := said(t, nil, append([]string{"merge"}, c.args...)...)
			assert.Equal(t, 2, status, e)
			assert.Empty(t, out)
			for _, says := range c.says {
				assert.Contains(t, e, says)
			}
		})
	}
	_, e, status := said(t, nil, "merge", "a")
	require.Zero(t, status, e)
}

// Shards of several questions may be in one directory: a merge of it says of each in what it differs, and
// how to merge one of them; and who runs a shard is told of those that a changed scenario leaves there.
func TestShardsOfSeveralQuestions(t *testing.T) {
	small, err := os.ReadFile(filepath.Join("testdata", "small.yaml"))
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("line.yaml", small, 0o600))
	recordedShards(t, "shards")
	first := shardOfThree(t, "shards", 1)
	recordedShards(t, "shards", "--seed", "2")
	require.NoError(t, os.WriteFile("line.yaml", append(small, "\n# changed\n"...), 0o600))
	_, e, status := said(t, nil, "run", "line.yaml", "--reps", "9", "--shard", "1/3")
	require.Zero(t, status, e)
	begins := filepath.Base(first)[:len("run-12345678")]
	assert.Equal(t, fmt.Sprintf("netrate: %s is of another text of line.yaml; what begins with %s is left aside\n", first, begins), e)

	_, e, status = said(t, nil, "merge", "shards")
	assert.Equal(t, 2, status)
	assert.Equal(t, 2, strings.Count(e, "merge one question at a time"), e)
	assert.Contains(t, e, "(and 2 more files of it)")
	require.NoError(t, os.WriteFile("line.yaml", small, 0o600))
	own, err := filepath.Glob(filepath.Join("shards", begins+"-*"))
	require.NoError(t, err)
	_, e, status = said(t, nil, append([]string{"merge"}, own...)...)
	require.Zero(t, status, e)
}

// Shards of another build are refused, though its version is the same: this executable with a byte after
// its end does as it does, and is another.
func TestMergeRefusesAnotherBuild(t *testing.T) {
	t.Chdir(t.TempDir())
	this, err := os.Executable()
	require.NoError(t, err)
	other, err := os.ReadFile(this)
	require.NoError(t, err)
	require.NoError(t, os.Mkdir("other", 0o700))
	require.NoError(t, os.WriteFile("other/netrate", append(other, 0), 0o700))
	shard := func(command string, k int) {
		t.Helper()
		said, err := exec.Command(command, "run", "--example", "small-shop", "--reps", "9", "--shard", fmt.Sprintf("%d/2", k)).CombinedOutput()
		require.NoError(t, err, string(said))
	}
	shard("netrate", 1)
	shard("other/netrate", 2)
	_, e, status := said(t, nil, "merge", "shards")
	assert.Equal(t, 2, status)
	assert.Contains(t, e, "of version")
	shard("other/netrate", 1)
	others, err := filepath.Glob(shardOfThree(t, "shards", 2)[:len("shards/run-12345678")] + "*")
	require.NoError(t, err)
	require.Len(t, others, 2)
	_, e, status = said(t, nil, append([]string{"merge"}, others...)...)
	assert.Equal(t, 2, status)
	assert.Contains(t, e, "the shards are of version")
}

// A shard that is run twice records once, whoever else is at it; a round that is whole is not begun again.
func TestShardIsRecordedOnce(t *testing.T) {
	t.Chdir(t.TempDir())
	args := []string{"run", "--example", "small-shop", "--reps", "9", "--shard"}
	for _, step := range []struct{ shard, says string }{
		{"1/2", "Shard 1/2 of round 1 is recorded in"},
		{"1/2", "Shard 1/2 of round 1 is recorded already"},
		{"2/2", "Shard 2/2 of round 1 is recorded in"},
		{"1/2", "Nothing is left to simulate"},
	} {
		out, e, status := said(t, nil, append(args, step.shard)...)
		require.Zero(t, status, e)
		assert.Contains(t, out, step.says)
	}
	for shard, says := range map[string]string{"3/2": "want K/N", "0/2": "want K/N", "1": "want K/N", "1/x": "want K/N", "1/1000000": "to 100000", "auto": "finds none of SLURM_ARRAY_TASK_ID"} {
		_, e, status := said(t, nil, append(args, shard)...)
		assert.Equal(t, 2, status)
		assert.Contains(t, e, says)
	}
	_, e, status := said(t, nil, append(args, "1/2", "--json")...)
	assert.Equal(t, 2, status)
	assert.Contains(t, e, "--json goes with netrate merge")
	_, e, status = said(t, nil, "run", "--example", "small-shop", "--reps", "9", "--shards", "shards")
	assert.Equal(t, 2, status)
	assert.Contains(t, e, "there is no --shard")
	_, e, status = said(t, nil, "run", "--example", "small-shop", "--reps", "7", "--shard", "1/3")
	require.Zero(t, status, e)
	_, e, status = said(t, nil, "run", "--example", "small-shop", "--reps", "7", "--shard", "1/2")
	assert.Equal(t, 2, status)
	assert.Contains(t, e, "was begun in 3 shards")
}
