package runs

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// Of two lines whose numbers were counted apart, the 95 % intervals of both net rates and of their
// difference hold the true ones: for few draws and many, of one shift and several. A net rate of a
// shift is chance for the most part, so that what is left when chance is subtracted is near nothing
// again and again, and intervals of that hold far less often. The truths are those that the priors
// hold possible, as likely as that says, by the closed form.
func TestKnownTruthOfFewDraws(t *testing.T) {
	modeltest.Briefly(t)
	problems, most := 8, 100
	if *macro >= 200 {
		problems, most = *macro/2, 500
	}
	lines, truths := countedApart()
	held, subtracted := map[[2]int]sim.Sample{}, map[[2]int]sim.Sample{}
	for seed := range problems {
		drawn, _, err := RunUncertain(t.Context(), lines, sim.Plan{Seed: uint64(seed), Max: most}, mostEach, nil)
		require.NoError(t, err)
		for i, figures := range []sim.Sample{drawn[0].NetRates(), drawn[1].NetRates(), drawn[0].Ahead(drawn[1], netRate).All} {
			for _, at := range [][2]int{{20, 1}, {20, 4}, {20, 16}, {50, 1}, {50, 4}, {50, 16}, {100, 1}, {100, 4}, {100, 16}, {500, 1}, {500, 4}, {500, 16}} {
				if at[0] > most {
					break
				}
				some := firstOf(figures, at[0], at[1])
				held[at] = append(held[at], shareWithin(truths[i], settledOf(some, at[1])))
				if i < 2 {
					subtracted[at] = append(subtracted[at], shareWithin(truths[i], subtractedOnly(some, at[1])))
				}
			}
		}
	}
	for at, shares := range held {
		t.Logf("%3d draws of %2d shifts: intervals of 95 %% hold %.1f ± %.1f %%; of a net rate with chance subtracted %.1f %%",
			at[0], at[1], 100*shares.Mean(), 100*shares.Interval(0.95).Half, 100*subtracted[at].Mean())
		least := shares.Mean()
		if *macro < 200 {
			least = shares.Interval(0.999).High()
		}
		assert.GreaterOrEqual(t, least, 0.93, "%d draws of %d shifts", at[0], at[1])
	}
	assert.Less(t, subtracted[[2]int{50, 4}].Mean(), 0.92, "subtracting would do: this test cannot fail")
}

// mostEach is how many shifts of each draw are simulated, of which fewer are taken.
const mostEach = 16

// countedApart returns two lines whose numbers were counted apart, and what each net rate and the
// difference may truly be.
func countedApart() (lines []*model.Line, truths [3]sim.Sample) {
	for _, owner := range []string{"", "b"} {
		l := modeltest.CountedLine([6]int64{400, 400, 400, 400, 400, 400}, 200_000)
		for i := range l.UncertainInputs {
			l.UncertainInputs[i].Owner = owner
		}
		lines = append(lines, l)
	}
	for number := range 4000 {
		var rates [2]float64
		for i, l := range lines {
			_, values := l.Drawn(99, number)
			rates[i] = modeltest.OnPaper(values)
			truths[i] = append(truths[i], rates[i])
		}
		truths[2] = append(truths[2], rates[1]-rates[0])
	}
	return lines, truths
}

// firstOf returns the figures of the first replications of the first draws.
func firstOf(figures sim.Sample, draws, each int) (some sim.Sample) {
	for draw := range draws {
		some = append(some, figures[draw*mostEach:][:each]...)
	}
	return some
}

// shareWithin returns how many of the truths the interval of 95 % holds.
func shareWithin(truths, longRun sim.Sample) float64 {
	low, high := output.Another(longRun, 0.95)
	n := 0
	for _, x := range truths {
		if low <= x && x <= high {
			n++
		}
	}
	return float64(n) / float64(len(truths))
}

// settledOf returns the long run of each draw.
func settledOf(figures sim.Sample, each int) sim.Sample {
	groups := slices.Collect(slices.Chunk(figures, each))
	return output.ANOVA(groups).LongRun(groups)
}

// subtractedOnly returns the means of draws, drawn together until they vary by what is left when the
// variance of chance is subtracted from theirs, and by what chance leaves open of the mean of all.
func subtractedOnly(figures sim.Sample, each int) sim.Sample {
	c := output.ANOVA(slices.Collect(slices.Chunk(figures, each)))
	means, open := settledOf(figures, each), c.Within/float64(len(figures))
	towards := math.Sqrt((c.Between + open) / (c.Lasting + open))
	for i, x := range means {
		means[i] = c.Mean + towards*(x-c.Mean)
	}
	return means
}
