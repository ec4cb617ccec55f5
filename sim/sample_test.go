package sim

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// certified reads a data set of testdata: one number a line, after a comment.
func certified(t *testing.T, name string) Sample {
	t.Helper()
	text, err := os.ReadFile("testdata/nist_" + name + ".txt")
	require.NoError(t, err)
	var s Sample
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		x, err := strconv.ParseFloat(line, 64)
		require.NoError(t, err)
		s = append(s, x)
	}
	return s
}

// alternating is base, then 500 times (base − 0.1, base + 0.1).
func alternating(base float64) Sample {
	s := Sample{base}
	for range 500 {
		s = append(s, base-0.1, base+0.1)
	}
	return s
}

// Source: NIST Statistical Reference Datasets, univariate summary statistics, with
// their certified values. The tolerances of the last sets are wide because their data
// have no exact float64.
func TestCertified(t *testing.T) {
	for _, c := range []struct {
		name     string
		sample   Sample
		n        int
		mean, sd float64
		off      float64 // allowed of sd, relative
	}{
		{"PiDigits", certified(t, "pidigits"), 5000, 4.53480000000000, 2.86733906028871, 1e-13},
		{"Lottery", certified(t, "lottery"), 218, 518.958715596330, 291.699727470969, 1e-13},
		{"Lew", certified(t, "lew"), 200, -177.435000000000, 277.332168044316, 1e-13},
		{"Mavro", certified(t, "mavro"), 50, 2.00185600000000, 0.000429123454003053, 1e-11},
		{"Michelso", certified(t, "michelson"), 100, 299.852400000000, 0.0790105478190518, 1e-13},
		{"NumAcc1", Sample{10000001, 10000003, 10000002}, 3, 10000002, 1, 0},
		{"NumAcc2", alternating(1.2), 1001, 1.2, 0.1, 1e-10},
		{"NumAcc3", alternating(1000000.2), 1001, 1000000.2, 0.1, 1e-9},
		{"NumAcc4", alternating(10000000.2), 1001, 10000000.2, 0.1, 1e-7},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Len(t, c.sample, c.n)
			assert.True(t, near(c.sample.Mean(), c.mean, 1e-14), "mean %.17g", c.sample.Mean())
			assert.True(t, near(c.sample.SD(), c.sd, c.off), "sd %.17g", c.sample.SD())

			var r running
			for _, x := range c.sample {
				r.add(x)
			}
			assert.True(t, near(r.mean, c.mean, 1e-12), "running mean %.17g", r.mean)
			sd := math.Sqrt(r.squares / float64(r.n-1))
			assert.True(t, near(sd, c.sd, max(c.off, 1e-7)), "running sd %.17g", sd)
		})
	}
}

// Sources: the first, Law, Simulation Modeling and Analysis, example 4.27; the others
// the same, ch. 9, bank (from memory). The long digits are computed.
func TestIntervals(t *testing.T) {
	for _, c := range []struct {
		name           string
		sample         Sample
		mean, variance float64
		half           float64
	}{
		{
			"ten observations",
			Sample{1.20, 1.50, 1.68, 1.89, 0.95, 1.49, 1.58, 1.55, 0.50, 1.09},
			1.3430, 0.167512, 0.237253,
		},
		{
			"bank, delays",
			Sample{1.53, 1.66, 1.24, 2.34, 2.00, 1.69, 2.69, 2.86, 1.70, 2.60},
			2.0310, 0.309099, 0.322283,
		},
		{
			"bank, shares",
			Sample{.917, .916, .952, .822, .840, .866, .783, .782, .873, .779},
			0.8530, 0.003887, 0.036140,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			e := c.sample.Interval(0.90)
			assert.InDelta(t, c.mean, e.Mean, 1e-9)
			assert.InDelta(t, c.variance, c.sample.SD()*c.sample.SD(), 5e-7)
			assert.InDelta(t, c.half, e.Half, 5e-7)
			assert.InDelta(t, c.mean-c.half, e.Low(), 1e-6)
			assert.InDelta(t, c.mean+c.half, e.High(), 1e-6)
			assert.Equal(t, 10, e.N)
			assert.InDelta(t, 0.90, e.Level, 0)
		})
	}
}

// Student's t, 0.975, computed with R; equal to every printed table.
func TestStudent(t *testing.T) {
	for df, want := range map[int]float64{
		1: 12.7062047362, 4: 2.7764451052, 9: 2.2621571628, 19: 2.0930240544, 29: 2.0452296421, 99: 1.9842169516,
	} {
		got := halfWidth(math.Sqrt(float64(df+1)), df+1, 0.95)
		assert.True(t, near(got, want, 1e-9), "df %d: got %.12g, want %.12g", df, got, want)
	}
}

// An interval of level 95 % must hold the true mean 95 times in 100.
func TestCoverage(t *testing.T) {
	s := seeded("coverage")
	holds := make(Sample, 20_000)
	for i := range holds {
		normal := make(Sample, 5)
		for j := range normal {
			normal[j] = s.Normal()
		}
		if e := normal.Interval(0.95); e.Low() <= 0 && 0 <= e.High() {
			holds[i] = 1
		}
	}
	sees(t, holds, 0.95, 0.01, 1)
}

// Quartiles of 1, 2, 3, 4 and of a longer set: PERCENTILE.INC of spreadsheets, R's
// default and numpy's give these.
func TestQuantile(t *testing.T) {
	four := Sample{3, 1, 4, 2}
	for p, want := range map[float64]float64{0: 1, .25: 1.75, .5: 2.5, .75: 3.25, .9: 3.7, 1: 4} {
		assert.InDelta(t, want, four.Quantile(p), 1e-12, "p = %v", p)
	}
	assert.Equal(t, Sample{3, 1, 4, 2}, four, "the sample is left as it is")
	assert.InDelta(t, 2.0, Sample{1, 2, 3}.Quantile(.5), 0)
	assert.InDelta(t, 7.0, Sample{7}.Quantile(.95), 0)
	assert.InDelta(t, 7.0, Sample{7, 7, 7}.Quantile(.123), 0)
	for _, p := range []float64{-.01, 1.01, math.NaN()} {
		assert.Panics(t, func() { four.Quantile(p) }, "p = %v", p)
	}
	assert.Panics(t, func() { Sample{1, math.NaN()}.Quantile(.5) })
}

func TestSamplesOfNothing(t *testing.T) {
	inf := math.Inf(1)
	assert.Equal(t, Estimate{Half: inf, Level: 0.95}, Sample(nil).Interval(0.95))
	assert.Equal(t, Estimate{Mean: 7, Half: inf, Level: 0.95, N: 1}, Sample{7}.Interval(0.95))
	assert.Equal(t, []float64{-inf, inf}, []float64{Sample{7}.Interval(0.95).Low(), Sample{7}.Interval(0.95).High()})
	assert.Equal(t, Estimate{Mean: 7, Level: 0.95, N: 2}, Sample{7, 7}.Interval(0.95))
	assert.InDelta(t, 7, Sample{7}.Mean(), 0)
	assert.PanicsWithValue(t, "sim: the mean of a sample of 0", func() { Sample{}.Mean() })
	assert.PanicsWithValue(t, "sim: the standard deviation of a sample of 1", func() { Sample{7}.SD() })
	assert.PanicsWithValue(t, "sim: quantile 0.5 of a sample of 0", func() { Sample{}.Quantile(.5) })
	for _, level := range []float64{0, 1, -1, 95, math.NaN()} {
		assert.Panics(t, func() { Sample{1, 2, 3}.Interval(level) }, "level %v", level)
		assert.Panics(t, func() { Sample{}.Interval(level) }, "level %v", level)
	}
}
