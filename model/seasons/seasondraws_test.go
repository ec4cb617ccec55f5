package seasons

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// guessed is a fortnight of a line of which it is not known how often its first feeder misfeeds.
func guessed() *Season {
	l := modeltest.CalmLine()
	f := modeltest.FirstOf[*model.Feeder](l)
	f.Misfeed, f.Clear = 0.01, sim.Constant(20)
	l.UncertainInputs = []model.UncertainInput{{Station: f.Name, Name: "misfeed", Of: output.Between{Low: 0, Likely: 0.01, High: 0.05}}}
	s := fortnight(l)
	s.Draws = true
	return s
}

// Each season is one of the line as a draw has it, in all its weeks, also where it depends on the shift
// who is there; at the means it is another one.
func TestSeasonDraws(t *testing.T) {
	for name, staff := range map[string][]Staffed{"the crew": nil, "by shift": {{Name: "two", Weeks: []int{1}, Operators: 2}}} {
		t.Run(name, func(t *testing.T) {
			run := func(s *Season) *SeasonStudy {
				s.Staff = staff
				study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 7, Min: 4, Max: 4, Workers: 2}, nil)
				require.NoError(t, err)
				return study
			}
			drawn := run(guessed())
			for r := range drawn.Done {
				asIs := guessed()
				asIs.Line, _ = asIs.Line.Drawn(7, r)
				want := run(asIs)
				for k := range want.Jobs {
					assert.Equal(t, want.Jobs[k].Finished[r], drawn.Jobs[k].Finished[r], "job %d of season %d", k, r)
				}
			}
			settled := guessed()
			settled.Draws = false
			assert.NotEqual(t, run(settled).Jobs[2].Finished, drawn.Jobs[2].Finished)
		})
	}
}

// Where nothing is uncertain nothing is drawn.
func TestSeasonDrawsNothing(t *testing.T) {
	run := func(draws bool) []SeasonJob {
		s := fortnight(modeltest.ReferenceLine())
		s.Draws = draws
		study, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 3, Max: 3}, nil)
		require.NoError(t, err)
		return study.Jobs
	}
	assert.Equal(t, run(false), run(true))
	assert.Empty(t, fortnight(modeltest.ReferenceLine()).Uncertain())
	assert.Len(t, guessed().Uncertain(), 2, "one for each product")
}

// A draw that no line can have is said by its number.
func TestSeasonDrawIsImpossible(t *testing.T) {
	s := guessed()
	s.Line.UncertainInputs[0].Of = output.Between{Low: 0, Likely: 0.5, High: 1}
	modeltest.FirstOf[*model.Feeder](s.Line).Misfeed = 0.5
	modeltest.FirstOf[*model.Feeder](s.Line).Double = 0.49
	_, err := RunSeason(context.Background(), s, sim.Plan{Seed: 1, Min: 40, Max: 40}, nil)
	var wrong *model.ImpossibleDraw
	require.ErrorAs(t, err, &wrong)
	assert.Positive(t, wrong.Draw)
}
