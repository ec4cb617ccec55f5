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

// guessedPlan returns a plan of three jobs on two lines of which all that stops them is guessed, and
// the lines as they are in truth: see guessed. One job has a date, about when it may be done.
func guessedPlan(rng *rand.Rand) (p *seasons.Plan, truth []*model.Line, dated int) {
	p = &seasons.Plan{
		Crew:     model.Crew{Operators: 1, Walk: sim.Constant(0)},
		Calendar: &seasons.Calendar{Days: 5, Shifts: []seasons.ShiftTime{{Start: 8 * 3600, Length: 1800}}},
	}
	for _, name := range []string{"a", "b"} {
		guess, _ := guessed(rng, name)
		guess.Line.Name, p.Crew = name, guess.Line.Crew
		p.Lines, truth = append(p.Lines, guess.Line), append(truth, inTruth(rng, guess.Line))
	}
	p.Products = []*setup.Product{lettersOf(p.Lines[0])}
	for i := range 3 {
		p.Jobs = append(p.Jobs, seasons.PlanJob{Name: string(rune('x' + i)), Sets: 3000 + rng.Int64N(3000), Due: 1e9, Priority: 1, InHand: -1})
	}
	return p, truth, rng.IntN(3)
}

// inTruth returns a line that is guessed as it is: each number is anywhere within its guess.
func inTruth(rng *rand.Rand, guess *model.Line) *model.Line {
	truth := guess.Clone()
	truth.UncertainInputs = nil
	for _, d := range guess.UncertainInputs {
		truth.Set(d, d.Of.Quantile(rng.Float64()))
	}
	return truth
}

// lettersOf returns letters with an insert of each feeder of a line.
func lettersOf(l *model.Line) *setup.Product {
	p := &setup.Product{Name: "letters", Envelope: setup.Envelope{Name: "C5", Height: 162, Length: 229}}
	for _, x := range l.Stations {
		if model.TakesInserts(x) {
			p.Inserts = append(p.Inserts, setup.Insert{Name: string(rune('p' + len(p.Inserts))), Material: 1, Share: 1})
		}
	}
	return p
}

// A date that is said to be kept with a probability is kept as often as that: over plans of lines
// whose numbers are guessed, each season that then comes being one of the lines as they are. Taken at
// the means of what is guessed, the statements are too bold.
func TestKnownTruthOfDates(t *testing.T) {
	rng := rand.New(rand.NewPCG(20, 26))
	var drawn, settled []stated
	each := 60 // replications of a plan
	if *macro >= 300 {
		each = 200
	}
	for round := range *macro {
		p, truth, dated := guessedPlan(rng)
		made, err := p.Make(context.Background(), sim.Plan{Seed: 1}, nil)
		require.NoError(t, err)
		work := made.Together()
		run := func(w *seasons.Together, seed uint64, n int) sim.Sample {
			study, err := seasons.RunTogether(context.Background(), w, sim.Plan{Seed: seed, Min: n, Max: n}, nil)
			require.NoError(t, err)
			return study.Jobs[dated].Finished
		}
		ahead := run(work, uint64(2*round+1), each)
		due := ahead.Quantile(rng.Float64()) // any probability is as likely to be stated
		asIs, atMeans := *work, *work
		asIs.Lines, asIs.Draws, atMeans.Draws = truth, false, false
		came := run(&asIs, uint64(2*round+2), 1)[0] <= due
		drawn = append(drawn, stated{shareWithin(ahead, due), came})
		settled = append(settled, stated{shareWithin(run(&atMeans, uint64(2*round+1), each), due), came})
	}
	off, bold := calibration(drawn)
	t.Logf("%d plans: %+.2f standard errors off, %+.2f bold; %d bins out", *macro, off, bold, outOfBins(drawn))
	assert.InDelta(t, 0, off, 3.29)
	assert.InDelta(t, 0, bold, 3.29)
	assert.Zero(t, outOfBins(drawn))
	_, bold = calibration(settled)
	assert.Less(t, bold, -3.0, "statements at means are too bold: a test that does not see it cannot fail")
}

// shareWithin returns in what share of a sample a job was done by a time.
func shareWithin(s sim.Sample, due float64) float64 {
	n := 0.0
	for _, x := range s {
		if x <= due {
			n++
		}
	}
	return n / float64(len(s))
}
