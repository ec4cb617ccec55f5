package sim

import (
	"context"
	"errors"
	"math"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// outcome is what the replications of these tests give.
type outcome struct {
	replication int
	figure      float64
}

// draws makes workers whose replications give 1 plus an exponential number.
func draws() (func(int, *outcome) error, error) {
	s := NewStream("replicate", "test")
	return func(replication int, r *outcome) error {
		s.Seed(1, replication)
		*r = outcome{replication, 1 + s.Exponential()}
		return nil
	}, nil
}

// only makes workers that give the figure that f says.
func only(f func(replication int) (float64, error)) func() (func(int, *outcome) error, error) {
	return func() (func(int, *outcome) error, error) {
		return func(replication int, r *outcome) error {
			figure, err := f(replication)
			*r = outcome{replication, figure}
			return err
		}, nil
	}
}

// keep returns a fold that keeps the figures, and checks that they come in order.
func keep(t *testing.T, s *Sample) func(int, *outcome) float64 {
	t.Helper()
	return func(replication int, r *outcome) float64 {
		require.Equal(t, len(*s), replication)
		require.Equal(t, replication, r.replication)
		*s = append(*s, r.figure)
		return r.figure
	}
}

func TestSameBitsForAnyWorkers(t *testing.T) {
	plan := Plan{Min: 10, Max: 100_000, Precision: 0.03, Workers: 1}
	var want Sample
	done, ending, err := Replicate(t.Context(), plan, draws, keep(t, &want))
	require.NoError(t, err)
	assert.Equal(t, Precise, ending)
	assert.Len(t, want, done)
	assert.Zero(t, done%64, "the precision is looked at after every 64")

	e := want.Interval(0.95)
	assert.LessOrEqual(t, e.Half, 0.03*e.Mean)
	for n := 64; n < done; n += 64 {
		e := want[:n].Interval(0.95)
		assert.Greater(t, e.Half, 0.03*e.Mean, "it could have stopped at %d", n)
	}
	for _, workers := range []int{0, 2, 7, 1000} {
		plan.Workers = workers
		var got Sample
		_, ending, err := Replicate(t.Context(), plan, draws, keep(t, &got))
		require.NoError(t, err)
		assert.Equal(t, Precise, ending)
		assert.Equal(t, want, got, "%d workers", workers)
	}
}

func TestReplicateEnds(t *testing.T) {
	random := func(i int) (float64, error) {
		s := NewStream("ends", "")
		s.Seed(1, i)
		return s.Exponential(), nil
	}
	same := func(x float64) func(int) (float64, error) {
		return func(int) (float64, error) { return x, nil }
	}
	for _, c := range []struct {
		name   string
		plan   Plan
		figure func(int) (float64, error)
		done   int
		ending Ending
	}{
		{"at the cap", Plan{Min: 1, Max: 100, Precision: 0.001}, random, 100, AtMost},
		{"at the cap, a whole batch", Plan{Min: 1, Max: 128, Precision: 0.001}, random, 128, AtMost},
		{"no precision wanted", Plan{Min: 1, Max: 70}, same(3), 70, AtMost},
		{"no spread at all", Plan{Min: 1, Max: 1000, Precision: 0.01}, same(-3), 64, Precise},
		{"not before the least", Plan{Min: 65, Max: 1000, Precision: 0.01}, same(3), 128, Precise},
		{"precise at the cap", Plan{Min: 1, Max: 10, Precision: 0.01}, same(3), 10, Precise},
		{"one shows no spread", Plan{Min: 1, Max: 1, Precision: 0.01}, same(3), 1, AtMost},
		{"a mean of zero", Plan{Min: 1, Max: 200, Precision: 0.01}, same(0), 200, AtMost},
		{"a figure that is NaN", Plan{Min: 1, Max: 200, Precision: 0.01}, same(math.NaN()), 200, AtMost},
		{"an infinite figure", Plan{Min: 1, Max: 200, Precision: 0.01}, same(math.Inf(1)), 200, AtMost},
	} {
		t.Run(c.name, func(t *testing.T) {
			var s Sample
			done, ending, err := Replicate(t.Context(), c.plan, only(c.figure), keep(t, &s))
			require.NoError(t, err)
			assert.Equal(t, c.done, done)
			assert.Len(t, s, done)
			assert.Equal(t, c.ending, ending)
		})
	}
}

func TestReplicateCancelled(t *testing.T) {
	for _, workers := range []int{1, 7} {
		ctx, cancel := context.WithCancel(t.Context())
		var s Sample
		done, ending, err := Replicate(ctx, Plan{Min: 1, Max: 1000, Precision: 0.5, Workers: workers},
			only(func(i int) (float64, error) {
				if i == 20 {
					cancel()
				}
				return 1, nil
			}), keep(t, &s))
		require.NoError(t, err)
		assert.Equal(t, Cancelled, ending)
		assert.GreaterOrEqual(t, done, 21, "those begun are finished")
		if workers == 1 {
			assert.Equal(t, 21, done)
		}
		assert.Len(t, s, done)
	}
	t.Run("by a fold", func(t *testing.T) {
		ctx, cancel := context.WithCancel(t.Context())
		done, ending, err := Replicate(ctx, Plan{Min: 1, Max: 1000, Workers: 2}, draws, func(int, *outcome) float64 {
			cancel()
			return 1
		})
		require.NoError(t, err)
		assert.Equal(t, Cancelled, ending)
		assert.LessOrEqual(t, done, 1+Batch, "no more than may be run ahead of it")
	})
	t.Run("by a fold apart", func(t *testing.T) {
		ctx, cancel := context.WithCancel(t.Context())
		done, ending, err := Resume(ctx, Plan{Min: 1, Max: 1000}, nil, draws, func(int, *outcome) float64 {
			cancel()
			return 1
		}, true)
		require.NoError(t, err)
		assert.Equal(t, Cancelled, ending)
		assert.Equal(t, 64, done)
	})
	t.Run("before the start", func(t *testing.T) {
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		done, ending, err := Replicate(ctx, Plan{Min: 1, Max: 1000}, draws, func(int, *outcome) float64 { return 1 })
		require.NoError(t, err)
		assert.Equal(t, Cancelled, ending)
		assert.Zero(t, done)
	})
}

// While a worker is at a long replication others run ahead of it, but not without end, and those that
// are there are folded. What is folded apart is folded after every 64, when nothing runs.
func TestRunsAhead(t *testing.T) {
	for _, apart := range []bool{false, true} {
		var running, begun atomic.Int32
		last := make(chan struct{})
		worker := only(func(i int) (float64, error) {
			running.Add(1)
			begun.Add(1)
			defer running.Add(-1)
			switch {
			case i == 3 && !apart: // until as many as may be are ahead of it
				<-last
			case i == 3+ahead-1 && !apart:
				close(last)
			}
			return float64(i), nil
		})
		folded := 0
		done, ending, err := Resume(t.Context(), Plan{Min: 1, Max: 640, Workers: 3}, nil, worker, func(i int, r *outcome) float64 {
			assert.Equal(t, folded, i)
			assert.Equal(t, i, r.replication, "no other has taken its place")
			if folded++; apart {
				assert.Zero(t, running.Load())
				assert.Equal(t, int32(i/Batch*Batch+Batch), begun.Load(), "a batch, and no more")
			}
			return r.figure
		}, apart)
		require.NoError(t, err)
		assert.Equal(t, AtMost, ending)
		assert.Equal(t, 640, done)
		assert.Equal(t, 640, folded)
	}
}

// However a fold ends, nobody is at work then.
func TestFoldPanics(t *testing.T) {
	var running atomic.Int32
	assert.PanicsWithValue(t, "boom", func() {
		_, _, _ = Replicate(t.Context(), Plan{Min: 1, Max: 100_000, Workers: 3}, only(func(int) (float64, error) {
			running.Add(1)
			defer running.Add(-1)
			return 1, nil
		}), func(i int, _ *outcome) float64 {
			if i == 20 {
				panic("boom")
			}
			return 1
		})
	})
	assert.Zero(t, running.Load())
}

func TestReplicateFails(t *testing.T) {
	broken := errors.New("broken")
	for _, workers := range []int{1, 2, 7} {
		var s Sample
		var ran atomic.Int32
		done, ending, err := Replicate(t.Context(), Plan{Min: 1, Max: 1000, Workers: workers},
			only(func(i int) (float64, error) {
				ran.Add(1)
				if i >= 70 {
					return 0, broken
				}
				return 1, nil
			}), keep(t, &s))
		require.ErrorIs(t, err, broken)
		require.EqualError(t, err, "replication 70: broken", "the first of them")
		assert.Equal(t, 70, done)
		assert.Len(t, s, 70, "nothing after it is folded")
		assert.LessOrEqual(t, int(ran.Load()), 70+workers, "nobody begins another")
		assert.Equal(t, "failed", ending.String())
	}
}

func TestReplicatePanics(t *testing.T) {
	for _, workers := range []int{1, 7} {
		var s Sample
		defer func() {
			told := recover()
			assert.Contains(t, told, "sim: replication 5 panicked: boom\n")
			assert.Contains(t, told, "replicate_test.go", "where it happened")
			assert.Len(t, s, 5)
		}()
		func() {
			_, _, _ = Replicate(t.Context(), Plan{Min: 1, Max: 1000, Workers: workers},
				only(func(i int) (float64, error) {
					if i >= 5 {
						panic("boom")
					}
					return 1, nil
				}), keep(t, &s))
			t.Error("the panic was swallowed")
		}()
	}
}

func TestWorkers(t *testing.T) {
	for _, c := range []struct{ workers, most, want int }{{1, 1000, 1}, {5, 1000, 5}, {5, 3, 3}, {500, 1000, 64}} {
		made := 0
		var atWork atomic.Int32
		_, _, err := Replicate(t.Context(), Plan{Min: 1, Max: c.most, Workers: c.workers},
			func() (func(int, *outcome) error, error) {
				made++
				var busy atomic.Bool
				return func(int, *outcome) error {
					if busy.Swap(true) {
						return errors.New("two goroutines share a worker")
					}
					atWork.Add(1)
					busy.Store(false)
					return nil
				}, nil
			}, func(int, *outcome) float64 { return 1 })
		require.NoError(t, err)
		assert.Equal(t, c.want, made)
		assert.Equal(t, c.most, int(atWork.Load()))
	}
	broken := errors.New("no worker")
	done, _, err := Replicate(t.Context(), Plan{Min: 1, Max: 10},
		func() (func(int, *outcome) error, error) { return nil, broken },
		func(int, *outcome) float64 { return 1 })
	require.ErrorIs(t, err, broken)
	assert.Zero(t, done)
}

func TestPlanCheck(t *testing.T) {
	require.NoError(t, Plan{Min: 1, Max: 1}.Check())
	require.NoError(t, Plan{Min: 10, Max: 1000, Precision: 0.005, Workers: 3}.Check())
	for want, plan := range map[string]Plan{
		"the least number of replications is 0, want at least 1":   {Max: 10},
		"the most replications are 9, want at least the least, 10": {Min: 10, Max: 9},
		"precision is -0.1, want from 0 to below 1":                {Min: 1, Max: 1, Precision: -0.1},
		"precision is 1, want from 0 to below 1":                   {Min: 1, Max: 1, Precision: 1},
		"precision is NaN, want from 0 to below 1":                 {Min: 1, Max: 1, Precision: math.NaN()},
		"there are -1 workers, want 0 or more":                     {Min: 1, Max: 1, Workers: -1},
	} {
		require.EqualError(t, plan.Check(), want)
		done, ending, err := Replicate(t.Context(), plan, draws, func(int, *outcome) float64 { return 1 })
		require.EqualError(t, err, want)
		assert.Zero(t, done)
		assert.Zero(t, ending)
	}
	err := Plan{Min: 0, Max: -1, Precision: 2, Workers: -1}.Check()
	require.ErrorContains(t, err, "most replications")
	require.ErrorContains(t, err, "precision")
	require.ErrorContains(t, err, "workers")
}

func TestEndingWords(t *testing.T) {
	assert.Equal(t, "precise enough", Precise.String())
	assert.Equal(t, "all replications allowed", AtMost.String())
	assert.Equal(t, "cancelled", Cancelled.String())
}

// BenchmarkReplicate shows what a replication costs beside its own work.
func BenchmarkReplicate(b *testing.B) {
	b.ReportAllocs()
	plan := Plan{Min: 6400, Max: 6400}
	for b.Loop() {
		_, _, _ = Replicate(b.Context(), plan, draws, func(_ int, r *outcome) float64 { return r.figure })
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*plan.Max), "ns/replication")
}

func TestPlanFirst(t *testing.T) {
	for _, c := range []struct{ least, most, first int }{{0, 500, 64}, {64, 500, 64}, {65, 500, 128}, {1000, 20_000, 1024}, {1000, 1010, 1010}} {
		assert.Equal(t, c.first, Plan{Min: c.least, Max: c.most}.First(), "at least %d, at most %d", c.least, c.most)
	}
}
