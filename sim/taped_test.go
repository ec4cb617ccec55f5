package sim

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim/tape"
)

// drawn is a result that can be recorded.
type drawn struct{ x float64 }

func (d *drawn) Values(v *tape.Values) { v.Float(&d.x) }

// asked is a question of two stages, of which the second depends on the first: its answer is
// every figure in order, and how each stage ended.
func asked(ctx context.Context, plan Plan, apart bool) (answer []string, err error) {
	for range 2 {
		worker := func() (func(int, *drawn) error, error) {
			s := NewStream("tape", "test")
			return func(k int, d *drawn) error {
				s.Seed(plan.Seed, k)
				d.x = 100 + s.Normal()
				return nil
			}, nil
		}
		last := 0.0
		fold := func(k int, d *drawn) float64 {
			answer, last = append(answer, fmt.Sprint(k, d.x)), d.x
			return d.x
		}
		done, ending, err := Resume(ctx, plan, nil, worker, fold, apart)
		if err != nil {
			return nil, err
		}
		answer = append(answer, fmt.Sprint(done, ending))
		plan.Seed = uint64(last * 1e6)
	}
	return answer, nil
}

// sharded answers the question in shards, round by round, and returns the number of rounds.
func sharded(t *testing.T, shards int, ask func(context.Context) ([]string, error)) (answer []string, rounds int) {
	t.Helper()
	var files []*tape.File
	for ; ; rounds++ {
		require.Less(t, rounds, 20)
		merge := tape.Player(files)
		answer, err := ask(merge.With(t.Context()))
		if err == nil {
			return answer, rounds
		}
		require.ErrorIs(t, err, tape.ErrElsewhere)
		require.NotEmpty(t, merge.Missing)
		before := files
		for k := 1; k <= shards; k++ {
			var file bytes.Buffer
			w := tape.NewWriter(&file, nil)
			of := tape.Shard(func(tp *tape.Tape) error {
				tp.Plays(before)
				tp.RecordsPart(k, shards, w)
				return nil
			})
			_, err := ask(of.With(t.Context()))
			require.ErrorIs(t, err, tape.ErrElsewhere)
			require.NoError(t, w.Close())
			f, err := tape.Open("x", bytes.NewReader(file.Bytes()), int64(file.Len()))
			require.NoError(t, err)
			files = append(files, f)
		}
	}
}

// In any number of shards a question has the answer of one process, whatever ends its stages.
func TestShardsAnswerAsOne(t *testing.T) {
	for name, c := range map[string]struct {
		plan   Plan
		apart  bool
		rounds int // at most: one a stage, more where the precision is estimated
	}{
		"fixed":           {Plan{Seed: 1, Min: 300, Max: 300}, false, 2},
		"fewer than some": {Plan{Seed: 1, Min: 2, Max: 2}, false, 2},
		"precision":       {Plan{Seed: 2, Min: 10, Max: 100_000, Precision: 5e-4}, false, 6},
		"cap":             {Plan{Seed: 3, Min: 10, Max: 500, Precision: 1e-6}, false, 4},
		"apart":           {Plan{Seed: 4, Min: 1000, Max: 1000}, true, 6},
	} {
		t.Run(name, func(t *testing.T) {
			ask := func(ctx context.Context) ([]string, error) { return asked(ctx, c.plan, c.apart) }
			want, err := ask(t.Context())
			require.NoError(t, err)
			for _, shards := range []int{1, 2, 3, 7} {
				got, rounds := sharded(t, shards, ask)
				assert.Equal(t, want, got)
				assert.LessOrEqual(t, rounds, c.rounds)
			}
		})
	}
}

// Stages that do not depend on one another are recorded in one round.
func TestElsewhereIsKept(t *testing.T) {
	ask := func(ctx context.Context) (all []string, err error) {
		var elsewhere tape.Elsewhere
		for seed := range uint64(5) {
			one, err := asked(elsewhere.Next(ctx), Plan{Seed: seed, Min: 10, Max: 10}, false)
			if err := elsewhere.Keep(err); err != nil {
				return nil, err
			}
			all = append(all, one...)
		}
		return all, elsewhere.Err()
	}
	want, err := ask(t.Context())
	require.NoError(t, err)
	got, rounds := sharded(t, 3, ask)
	assert.Equal(t, want, got)
	assert.Equal(t, 2, rounds, "not one for each of ten stages")
}

// A shard that is interrupted, or in which a replication fails, says so and records no end.
func TestShardThatEndsEarly(t *testing.T) {
	var file bytes.Buffer
	w := tape.NewWriter(&file, nil)
	of := tape.Shard(func(tp *tape.Tape) error { tp.RecordsPart(1, 1, w); return nil })
	why := errors.New("interrupted")
	ctx, cancel := context.WithCancelCause(of.With(t.Context()))
	cancel(why)
	_, ending, err := Replicate(ctx, Plan{Min: 9, Max: 9}, func() (func(int, *drawn) error, error) {
		return func(int, *drawn) error { return nil }, nil
	}, func(int, *drawn) float64 { return 0 })
	require.NoError(t, err)
	assert.Equal(t, Cancelled, ending)

	_, _, err = Replicate(of.With(t.Context()), Plan{Min: 9, Max: 9}, func() (func(int, *drawn) error, error) {
		return func(k int, _ *drawn) error {
			if k == 5 {
				return why
			}
			return nil
		}, nil
	}, func(int, *drawn) float64 { return 0 })
	require.ErrorIs(t, err, why)
	_, err = tape.Open("x", bytes.NewReader(file.Bytes()), int64(file.Len()))
	assert.ErrorContains(t, err, "is cut")
}

// A fold may end the stage, as a selection does that has chosen: then the batch is the last, also where
// more of them were read at once.
func TestFoldEndsAStage(t *testing.T) {
	plan := Plan{Seed: 5, Min: 1000, Max: 1000}
	ask := func(ctx context.Context) ([]string, error) {
		ctx, stop := context.WithCancel(ctx)
		defer stop()
		worker := func() (func(int, *drawn) error, error) {
			return func(k int, d *drawn) error { d.x = float64(k); return nil }, nil
		}
		done, ending, err := Resume(ctx, plan, nil, worker, func(_ int, d *drawn) float64 {
			if d.x == 100 {
				stop()
			}
			return d.x
		}, true)
		return []string{fmt.Sprint(done, ending)}, err
	}
	want, err := ask(t.Context())
	require.NoError(t, err)
	assert.Equal(t, []string{fmt.Sprint(2*Batch, Cancelled)}, want)
	got, _ := sharded(t, 3, ask)
	assert.Equal(t, want, got)
}
