package study

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/model/setup"
	"netrate/sim"
)

// guessedSeason returns two weeks of work on a line of which all that stops it is guessed, and the line
// as it is in truth: see guessed. Weeks have far more working time than their work takes.
func guessedSeason(rng *rand.Rand) (s *seasons.Season, truth *model.Line) {
	guess, _ := guessed(rng, "a")
	truth = inTruth(rng, guess.Line)
	s = &seasons.Season{Line: guess.Line, Products: []*setup.Product{lettersOf(guess.Line)}}
	for _, name := range []string{"one", "two"} {
		s.Weeks = append(s.Weeks, seasons.Week{Name: name, Sets: []int64{10_000 + rng.Int64N(10_000)}})
	}
	working(s, 100)
	return s, truth
}

// working gives the weeks of a season so many hours.
func working(s *seasons.Season, hours float64) {
	s.Calendar = &seasons.Calendar{Days: 5, Shifts: []seasons.ShiftTime{{Length: sim.Seconds(3600 * hours / 5)}}}
}

// inTime returns how often all weeks of a season are done in time.
func inTime(t *testing.T, s *seasons.Season, seed uint64, n int) float64 {
	t.Helper()
	return float64(askedSeason(t, s, seed, n).InTime.Share)
}

func askedSeason(t *testing.T, s *seasons.Season, seed uint64, n int) *SeasonsLine {
	t.Helper()
	own := *s
	q := Seasons{Plan: sim.Plan{Seed: seed, Min: n, Max: n}, Configurations: []SeasonsConfiguration{{Name: "base", Season: &own}}}
	a, err := q.Ask(context.Background(), nil)
	require.NoError(t, err)
	return &a.Lines[0]
}

// Weeks that are said to be done in time with a probability are so as often as that: over seasons of
// lines whose numbers are guessed, each season that then comes being one of the line as it is. Taken at
// the means of what is guessed, the statements are too bold.
func TestKnownTruthOfSeasons(t *testing.T) {
	rng := rand.New(rand.NewPCG(20, 27))
	var drawn, settled []stated
	each := 60 // seasons of a statement
	if *macro >= 300 {
		each = 200
	}
	for round := range *macro {
		s, truth := guessedSeason(rng)
		// The working time is such that any probability is about as likely to be stated. It is found with other
		// random numbers than those of the statement, which need not be what was aimed at.
		ahead := askedSeason(t, s, uint64(3*round+1), each)
		need := make(sim.Sample, each)
		for r := range need {
			one, two := ahead.Study.Weeks[0].Work[r], ahead.Study.Weeks[1].Work[r]
			need[r] = max(one, two)
		}
		working(s, need.Quantile(rng.Float64()))
		asIs, atMeans := *s, *s
		asIs.Line, atMeans.Line = truth, s.Line.AtMeans()
		came := inTime(t, &asIs, uint64(3*round+2), 1) == 1
		drawn = append(drawn, stated{inTime(t, s, uint64(3*round+3), each), came})
		settled = append(settled, stated{inTime(t, &atMeans, uint64(3*round+3), each), came})
	}
	off, bold := calibration(drawn)
	t.Logf("%d seasons: %+.2f standard errors off, %+.2f bold; %d bins out", *macro, off, bold, outOfBins(drawn))
	assert.InDelta(t, 0, off, 3.29)
	assert.InDelta(t, 0, bold, 3.29)
	assert.Zero(t, outOfBins(drawn))
	_, bold = calibration(settled)
	t.Logf("at the means: %+.2f bold; %d bins out", bold, outOfBins(settled))
	assert.Less(t, bold, -3.29, "statements at means are too bold: a test that does not see it cannot fail")
}
