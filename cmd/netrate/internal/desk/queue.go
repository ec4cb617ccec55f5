package desk

import (
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/say"
)

// A queue tells its tasks by variables of the environment which they are. Each of these is of one
// kind of queue.
//
// Sources: the manual of sbatch (job arrays), the Kubernetes documentation of indexed jobs, the AWS
// Batch user guide (array jobs), the manuals of qsub of PBS and Grid Engine, and of GNU parallel; those of
// PBS, Grid Engine and AWS Batch from memory.
var queues = []struct {
	name  string
	index string // which task this is
	least string // the lowest index, or the number of it; "" for from
	from  int
	step  string // of indices; "" for 1
	most  string // the highest index; or
	count string // how many tasks there are; "" if the queue does not say
}{
	{name: "Slurm", index: "SLURM_ARRAY_TASK_ID", least: "SLURM_ARRAY_TASK_MIN", step: "SLURM_ARRAY_TASK_STEP", most: "SLURM_ARRAY_TASK_MAX", count: "SLURM_ARRAY_TASK_COUNT"},
	{name: "Kubernetes", index: "JOB_COMPLETION_INDEX"},
	{name: "AWS Batch", index: "AWS_BATCH_JOB_ARRAY_INDEX", count: "AWS_BATCH_JOB_ARRAY_SIZE"},
	{name: "PBS", index: "PBS_ARRAY_INDEX", from: 1},
	{name: "PBS", index: "PBS_ARRAYID", from: 1},
	{name: "Grid Engine", index: "SGE_TASK_ID", from: 1, least: "SGE_TASK_FIRST", step: "SGE_TASK_STEPSIZE", most: "SGE_TASK_LAST"},
	{name: "GNU parallel", index: "PARALLEL_SEQ", from: 1},
}

// find takes the shard from the environment, if it is not given.
func (s *shardOf) find(getenv func(string) string) error {
	if !s.auto {
		return nil
	}
	number := func(name string, usual int) (int, error) {
		text := getenv(name)
		if name == "" || text == "" || text == "undefined" { // as Grid Engine has it
			return usual, nil
		}
		n, err := strconv.Atoi(text)
		if err != nil {
			return 0, Wrong("%s is %q, want a whole number", name, text)
		}
		return n, nil
	}
	for _, q := range queues {
		if text := getenv(q.index); text == "" || text == "undefined" {
			continue
		}
		var got [5]int
		for i, x := range []struct {
			name  string
			usual int
		}{{q.index, 0}, {q.least, q.from}, {q.step, 1}, {q.most, -1}, {q.count, 0}} {
			n, err := number(x.name, x.usual)
			if err != nil {
				return err
			}
			got[i] = n
		}
		return s.indexed(q.name+" task "+q.index, got[0], got[1], got[2], got[3], got[4])
	}
	var names []string
	for _, q := range queues {
		names = append(names, q.index)
	}
	return Wrong("--shard auto finds none of %s: it is for the tasks of a queue; else say --shard K/N", strings.Join(names, ", "))
}

// indexed takes the shard from the index of a task.
func (s *shardOf) indexed(task string, index, least, step, most, count int) error {
	if step < 1 {
		return Wrong("%s: the step of the indices is %d, want 1 or more", task, step)
	}
	n := count
	if most >= least {
		even := (most-least)/step + 1
		if n == 0 {
			n = even
		}
		if s.shards == 0 && even != n {
			return Wrong("%s: the indices from %d to %d in steps of %d are %d, and there are %d tasks: want indices in even steps, such as 1-50", task, least, most, step, even, n)
		}
	}
	switch {
	case n == 0:
		n = s.shards
	case s.shards > 0 && n != s.shards: // such as one task again: its index is then the lowest, too
		return Wrong("%s: the queue has %s and --shard says %d: say --shard K/%d", task, say.Plural(n, "task"), s.shards, s.shards)
	}
	switch {
	case n == 0:
		return Wrong("%s: the queue does not say how many tasks there are: want --shard auto/N", task)
	case n > mostShards:
		return Wrong("%d shards, want at most %d", n, mostShards)
	case (index-least)%step != 0 || index < least || (index-least)/step >= n:
		return Wrong("%s is %d, want %d to %d in steps of %d", task, index, least, least+(n-1)*step, step)
	}
	*s = shardOf{shard: (index-least)/step + 1, shards: n}
	return nil
}
