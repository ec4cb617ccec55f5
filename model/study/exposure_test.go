package study

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// A stream that nothing watches goes out of step in one shift of ten or so, and stays so: some
// hundredth of all envelopes are wrong in the mean, which is most shifts clean and a few ruined.
// The chance of a shift with any is 1 - (1-p)^n for n attempts of probability p, which is
// arithmetic and not the engine's.
func TestExposureOfRuinedShifts(t *testing.T) {
	l := unwatchedLine(t, 1e-5)
	s, err := runs.Run(t.Context(), l, sim.Plan{Seed: 2, Min: 400, Max: 400}, nil)
	require.NoError(t, err)
	e := ExposureOf(s)
	attempts := float64(s.Total.Sets.Started) / 400
	want := -math.Expm1(attempts * math.Log1p(-1e-5))
	assert.Greater(t, want, float64(e.ShareLow))
	assert.Less(t, want, float64(e.ShareHigh))
	assert.Greater(t, DefectivePerMillion(s), 5000.0, "in the mean, of a million")
	assert.Less(t, float64(e.ShareHigh), 0.5, "most shifts are clean")
	assert.Greater(t, float64(e.Worst), 0.8, "the worst is ruined")
	assert.Greater(t, float64(e.Longest), 0.8*attempts)
	require.Len(t, e.From, 1)
	assert.Equal(t, ExposureSource{"letter", "misfeed", true, e.Incidents, e.Defective}, e.From[0])
	assert.Nil(t, e.Zero)
	assert.Nil(t, e.Year, "nobody said how much is made")

	// A year of as many good envelopes as were delivered has as many incidents as were counted.
	good := float64(s.Total.Sets.Good)
	year := e.at(good).Year
	assert.InEpsilon(t, float64(e.Incidents), float64(year.Incidents), 1e-12)
	assert.Less(t, float64(year.Low), float64(e.Incidents))
	assert.Greater(t, float64(year.High), float64(e.Incidents))
}

// Where none was delivered that is said with what it rests on, and how many there may be yet: no
// shift of n had any, so up to 1 - 0.025^(1/n) of all may (Clopper and Pearson, from memory).
func TestExposureOfNone(t *testing.T) {
	l := unwatchedLine(t, 0)
	s, err := runs.Run(t.Context(), l, sim.Plan{Seed: 2, Min: 40, Max: 40}, nil)
	require.NoError(t, err)
	e := ExposureOf(s)
	assert.Zero(t, e.Share)
	assert.InEpsilon(t, 1-math.Pow(0.025, 1.0/40), float64(e.ShareHigh), 1e-9)
	require.NotNil(t, e.Zero)
	assert.Contains(t, e.Zero.Doubles, "letter")
	assert.NotContains(t, e.Zero.Misfeeds, "letter", "it has none")
	assert.Empty(t, e.Zero.Shipped)
	year := e.at(1e6).Year
	assert.Zero(t, year.Incidents)
	assert.InEpsilon(t, 3.689, float64(year.High)*float64(s.Total.Sets.Good)/1e6, 1e-3, "-ln 0.025: of a Poisson count of none")
}

// Of several lines with one crew each is by itself, as if it were alone.
func TestExposuresOfAGroup(t *testing.T) {
	var lines []*runs.Study
	for _, p := range []float64{1e-5, 0} {
		s, err := runs.Run(t.Context(), unwatchedLine(t, p), sim.Plan{Seed: 2, Min: 40, Max: 40}, nil)
		require.NoError(t, err)
		lines = append(lines, s)
	}
	all := ExposuresOf(runs.Gathered("both", lines), &Alternative{Group: &model.LineGroup{}})
	require.Len(t, all, 2)
	assert.Positive(t, all[0].Hit)
	assert.Zero(t, all[1].Hit)
	assert.Equal(t, lines[0].Line.Name, all[0].Line)
	assert.Equal(t, ExposureOf(lines[0]).ShareHigh, all[0].ShareHigh)
}

// unwatchedLine returns a line of two streams with no reader, in which nothing goes wrong but
// misfeeds of the letter that are not noticed, and doubles that are.
func unwatchedLine(t *testing.T, misfeed float64) *model.Line {
	t.Helper()
	l := riskLine(t, "matched.yaml").Clone()
	l.Stations = slices.DeleteFunc(l.Stations, func(s model.Station) bool { return s.Kind().Role == model.Reads })
	for _, s := range l.Stations {
		switch s := s.(type) {
		case *model.Channel:
			s.Misfeed, s.Noticed, s.Caught = 0, 1, 1
		case *model.Feeder:
			s.Misfeed, s.Noticed, s.Caught, s.OnDouble = 0, 1, 1, model.Stop // in line, a double would put it in step again
			if s.Name == "letter" {
				s.Misfeed, s.Noticed, s.Unwatched = misfeed, 0, true
			}
		}
	}
	require.Empty(t, l.Check())
	return l
}
