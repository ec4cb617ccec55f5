package desk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each queue says by its own variables which of how many a task is. Those of Slurm were seen there: of
// --array=3-7:2 the tasks are 3, 5 and 7. The others are those of the documentation; see queues.
func TestShardOfAQueue(t *testing.T) {
	for name, c := range map[string]struct {
		flag  string
		env   map[string]string
		want  string
		wrong string
	}{
		"Slurm":              {"auto", map[string]string{"SLURM_ARRAY_TASK_ID": "5", "SLURM_ARRAY_TASK_MIN": "3", "SLURM_ARRAY_TASK_MAX": "7", "SLURM_ARRAY_TASK_STEP": "2", "SLURM_ARRAY_TASK_COUNT": "3"}, "2/3", ""},
		"Slurm from 0":       {"auto", map[string]string{"SLURM_ARRAY_TASK_ID": "0", "SLURM_ARRAY_TASK_MIN": "0", "SLURM_ARRAY_TASK_MAX": "49", "SLURM_ARRAY_TASK_STEP": "1", "SLURM_ARRAY_TASK_COUNT": "50"}, "1/50", ""},
		"Slurm, a list":      {"auto", map[string]string{"SLURM_ARRAY_TASK_ID": "4", "SLURM_ARRAY_TASK_MIN": "1", "SLURM_ARRAY_TASK_MAX": "9", "SLURM_ARRAY_TASK_STEP": "1", "SLURM_ARRAY_TASK_COUNT": "3"}, "", "want indices in even steps"},
		"Slurm, one again":   {"auto/50", map[string]string{"SLURM_ARRAY_TASK_ID": "17", "SLURM_ARRAY_TASK_MIN": "17", "SLURM_ARRAY_TASK_MAX": "17", "SLURM_ARRAY_TASK_STEP": "1", "SLURM_ARRAY_TASK_COUNT": "1"}, "", "the queue has 1 task and --shard says 50: say --shard K/50"},
		"Slurm, as many":     {"auto/3", map[string]string{"SLURM_ARRAY_TASK_ID": "7", "SLURM_ARRAY_TASK_MIN": "3", "SLURM_ARRAY_TASK_MAX": "7", "SLURM_ARRAY_TASK_STEP": "2", "SLURM_ARRAY_TASK_COUNT": "3"}, "3/3", ""},
		"Kubernetes":         {"auto/10", map[string]string{"JOB_COMPLETION_INDEX": "0"}, "1/10", ""},
		"Kubernetes alone":   {"auto", map[string]string{"JOB_COMPLETION_INDEX": "0"}, "", "want --shard auto/N"},
		"Kubernetes, beyond": {"auto/10", map[string]string{"JOB_COMPLETION_INDEX": "10"}, "", "JOB_COMPLETION_INDEX is 10, want 0 to 9"},
		"AWS Batch":          {"auto", map[string]string{"AWS_BATCH_JOB_ARRAY_INDEX": "9", "AWS_BATCH_JOB_ARRAY_SIZE": "10"}, "10/10", ""},
		"PBS":                {"auto/4", map[string]string{"PBS_ARRAY_INDEX": "4"}, "4/4", ""},
		"Grid Engine":        {"auto", map[string]string{"SGE_TASK_ID": "11", "SGE_TASK_FIRST": "1", "SGE_TASK_LAST": "21", "SGE_TASK_STEPSIZE": "10"}, "2/3", ""},
		"Grid Engine, again": {"auto/50", map[string]string{"SGE_TASK_ID": "17", "SGE_TASK_FIRST": "17", "SGE_TASK_LAST": "17", "SGE_TASK_STEPSIZE": "1"}, "", "the queue has 1 task and --shard says 50"},
		"Grid Engine, none":  {"auto", map[string]string{"SGE_TASK_ID": "undefined"}, "", "finds none of"},
		"GNU parallel":       {"auto/7", map[string]string{"PARALLEL_SEQ": "7"}, "7/7", ""},
		"no number":          {"auto/7", map[string]string{"PARALLEL_SEQ": "NaN"}, "", `PARALLEL_SEQ is "NaN"`},
		"no step":            {"auto", map[string]string{"SGE_TASK_ID": "1", "SGE_TASK_LAST": "9", "SGE_TASK_STEPSIZE": "0"}, "", "step of the indices is 0"},
		"too many":           {"auto", map[string]string{"AWS_BATCH_JOB_ARRAY_INDEX": "0", "AWS_BATCH_JOB_ARRAY_SIZE": "1000000"}, "", "at most 100000"},
		"none":               {"auto", nil, "", "finds none of SLURM_ARRAY_TASK_ID"},
		"given":              {"3/7", map[string]string{"SLURM_ARRAY_TASK_ID": "5"}, "3/7", ""},
	} {
		t.Run(name, func(t *testing.T) {
			var s shardOf
			require.NoError(t, s.Set(c.flag))
			err := s.find(func(name string) string { return c.env[name] })
			if c.wrong != "" {
				require.ErrorContains(t, err, c.wrong)
				assert.Equal(t, 2, Status(err), "to try it again is of no use")
				assert.Equal(t, c.flag, s.String(), "what is refused changes nothing")
				return
			}
			require.NoError(t, err)
			assert.Equal(t, c.want, s.String())
		})
	}
}

// In a Slurm job the cores are those that it was given on the node.
func TestCoresOfATask(t *testing.T) {
	for text, want := range map[string]int{"": 0, "4": 4, "0": 0, "-1": 0, "x": 0, "1000000": mostWorkers} {
		assert.Equal(t, want, coresOfTask(func(string) string { return text }), text)
	}
}

func TestWithoutFlags(t *testing.T) {
	got := withoutFlags([]string{"a", "--shard", "1/3", "--json", "--shards=d", "--reps", "9", "--report", "r", "--", "--shard"}, "shard", "shards", "json", "report")
	assert.Equal(t, []string{"a", "--reps", "9", "--", "--shard"}, got)
}
