package runs

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

func drawnAnew(t *testing.T, l *model.Line, draws, each int) *UncertaintyStudy {
	t.Helper()
	require.Empty(t, l.Check())
	studies, ending, err := RunUncertain(context.Background(), []*model.Line{l}, sim.Plan{Seed: 1, Max: draws}, each, nil)
	require.NoError(t, err)
	require.Equal(t, sim.AtMost, ending)
	require.Equal(t, draws, studies[0].Draws())
	return studies[0]
}

func netRate(s *Shift) float64 { return s.NetRate }

// Chance and uncertainty apart, against the closed form: the variance of the long run is that of
// the net rate on paper over the same draws, chance that of shifts of the line without uncertainty,
// and each station has its share of the uncertainty by the slope of the closed form.
func TestUncertaintyApartFromChance(t *testing.T) {
	const draws = 1500
	l := modeltest.CountedLine([6]int64{40, 10, 10, 10, 10, 0}, 10_000)
	s := drawnAnew(t, l, draws, 4)
	d := s.Of(netRate)
	var paper sim.Sample
	for _, values := range s.Values {
		paper = append(paper, modeltest.OnPaper(values))
	}
	// 3.29 standard errors of a mean and of a standard deviation, and what the closed form
	// leaves out: stops cut by the end of the shift, below one in a thousand.
	sd := paper.SD()
	assert.InDelta(t, paper.Mean(), d.LongRun.Mean(), modeltest.Z999*math.Sqrt(d.Parts.Within/(4*draws))+1)
	noise := d.Parts.Within / 4 // the variance that chance adds to the mean of a draw
	assert.InDelta(t, sd*sd, d.Parts.Between, modeltest.Z999*math.Sqrt((4*sd*sd*noise+2*noise*noise)/draws))
	assert.Less(t, d.Parts.Between, 1.2*sd*sd, "chance is counted as uncertainty")

	settled := *l
	settled.UncertainInputs = nil
	study, err := Run(context.Background(), &settled, sim.Plan{Seed: 9, Min: 2000, Max: 2000}, nil)
	require.NoError(t, err)
	chance := study.NetRates().SD()
	assert.InEpsilon(t, chance*chance, d.Parts.Within, 0.12) // the variance depends on the draw, which the line at the middle leaves out
	low, high := d.Parts.ShareInterval(0.999)
	share := sd * sd / (sd*sd + chance*chance)
	assert.True(t, low-0.02 <= share && share <= high+0.02, "%g to %g, want %g", low, high, share)
	assert.Greater(t, low, share/2, "half the share goes unseen")

	// A quantile of 1,500 draws has a standard error of 0.07 of their standard deviation.
	low, high = d.Interval(0.95)
	assert.InDelta(t, paper.Quantile(0.025), low, modeltest.Z999*0.07*sd)
	assert.InDelta(t, paper.Quantile(0.975), high, modeltest.Z999*0.07*sd)

	// The slope is the same for all stations, so that shares go as the variances of the rates.
	variance := func(n int64) float64 {
		return distuv.Beta{Alpha: float64(n) + 1.0/3, Beta: 10_000 + 1.0/3 - float64(n)}.Variance()
	}
	all := variance(40) + 4*variance(10) + variance(0)
	require.Len(t, d.Sources, 6)
	assert.Equal(t, "station 1", d.Sources[0].UncertainInput.Station)
	assert.Equal(t, "station 6", d.Sources[5].UncertainInput.Station)
	for _, source := range d.Sources {
		n := source.UncertainInput.Of.(output.Counted).Seen
		assert.InDelta(t, variance(n)/all, source.Share, 0.06, source.UncertainInput.Path())
		assert.Less(t, source.Slope, 0.0)
	}
	everything := func(model.UncertainInput) bool { return true }
	assert.InDelta(t, math.Sqrt(0.5), d.Narrowed(2, everything), 0.02)
	assert.InDelta(t, 1, d.Narrowed(1, everything), 1e-12)
	assert.InDelta(t, math.Sqrt(1-d.Sources[0].Share), d.Narrowed(math.Inf(1), func(x model.UncertainInput) bool { return x.Station == "station 1" }), 1e-12)
}

// Of the 95 % intervals of the long run of lines whose rates come from counts, 95 %
// hold the net rate of the line that was counted; intervals half as wide do not.
func TestKnownTruthOfUncertainty(t *testing.T) {
	modeltest.Briefly(t)
	rng := rand.New(rand.NewPCG(11, 12))
	hits, narrow := 0, 0
	for range *macro {
		var seen [6]int64
		for i := range seen {
			seen[i] = int64(distuv.Binomial{N: 5000, P: 0.002, Src: rng}.Rand())
		}
		low, high := drawnAnew(t, modeltest.CountedLine(seen, 5000), 300, 4).Of(netRate).Interval(0.95)
		want, middle := modeltest.Truth(1), (low+high)/2
		if low <= want && want <= high {
			hits++
		}
		if math.Abs(want-middle) <= (high-low)/4 {
			narrow++
		}
	}
	inBounds(t, "intervals of an uncertain net rate that hold it", hits, 0.95)
	assert.Less(t, float64(narrow)/float64(*macro), 0.85, "intervals half as wide go unseen: this test cannot fail")
}

// Two lines with the same uncertain inputs differ by what they differ in, whatever these are.
func TestUncertaintySharedByTwoLines(t *testing.T) {
	seen := [6]int64{10, 10, 10, 10, 10, 10}
	base, better := modeltest.CountedLine(seen, 5000), modeltest.CountedLine(seen, 5000)
	first := better.Stations[0].(*model.Feeder)
	first.Double, better.UncertainInputs = first.Double/4, better.UncertainInputs[1:]
	var studies [][]*UncertaintyStudy
	for _, workers := range []int{1, 3} {
		both, _, err := RunUncertain(context.Background(), []*model.Line{base, better}, sim.Plan{Seed: 1, Max: 200, Workers: workers}, 2, nil)
		require.NoError(t, err)
		studies = append(studies, both)
	}
	assert.Equal(t, studies[0], studies[1], "more workers, other bits")
	a, b := studies[0][0], studies[0][1]
	for j := range a.Values {
		assert.Equal(t, a.Values[j][1:], b.Values[j])
	}
	ahead := a.Ahead(b, netRate)
	low, high := ahead.Interval(0.95)
	alone := math.Hypot(math.Sqrt(a.Of(netRate).Parts.Between), math.Sqrt(b.Of(netRate).Parts.Between))
	assert.Greater(t, low, 0.0)
	assert.Less(t, high-low, 3*alone, "shared uncertainty does not cancel")
	require.Len(t, ahead.Sources, 6)
	assert.Equal(t, "station 1", ahead.Sources[0].UncertainInput.Station)
	assert.Greater(t, ahead.Sources[0].Share, 0.7)
}

// A rate that was seen in half of the trials leaves no room for good sets in some draws: the
// study says which.
func TestDrawThatCannotBe(t *testing.T) {
	l := uncertainInputsLine(model.UncertainInput{Line: "", Station: "A", Name: "misfeed", Part: model.NoPart, Of: output.Between{Low: 0, Likely: 0.5, High: 1}})
	l.Stations[0].(*model.Feeder).Double = 0.4
	_, _, err := RunUncertain(context.Background(), []*model.Line{l}, sim.Plan{Seed: 1, Max: 50}, 2, nil)
	assert.ErrorContains(t, err, "an uncertain input reaches too far")
	var draw *model.ImpossibleDraw
	assert.ErrorAs(t, err, &draw)
	_, _, err = RunUncertain(context.Background(), []*model.Line{l}, sim.Plan{Seed: 1, Max: 50}, 1, nil)
	assert.ErrorContains(t, err, "want 2 or more")
}

// Each line of a line group has uncertain inputs of its own, by the same names or not, and the walk of their
// crew once; the study is that of all lines together.
func TestUncertaintyOfALineGroup(t *testing.T) {
	walk := model.UncertainInput{Line: "", Station: "", Name: model.CrewWalk, Part: model.MeanPart, Of: output.Between{Low: 5, Likely: 10, High: 40}}
	counted := model.UncertainInput{Line: "", Station: "A", Name: "misfeed", Part: model.NoPart, Of: output.Counted{Seen: 20, Of: 10_000}}
	north, south := uncertainInputsLine(walk, counted), uncertainInputsLine(walk, counted)
	north.Name, south.Name = "north", "south"
	h := &model.LineGroup{Lines: []*model.Line{north, south}, Crew: north.Crew}
	require.Empty(t, h.Check())
	var paths []string
	for _, d := range h.UncertainInputs() {
		paths = append(paths, d.Path())
	}
	assert.Equal(t, []string{"crew.walk.mean", "lines.north.stations.A.misfeed", "lines.south.stations.A.misfeed"}, paths)

	drawn, values := h.Drawn(1, 2)
	assert.InEpsilon(t, values[0], float64(drawn.Crew.Walk.Mean()), 1e-12)
	for i, l := range drawn.Lines {
		assert.InEpsilon(t, values[1+i], l.Stations[0].(*model.Feeder).Misfeed, 1e-12)
	}
	assert.NotEqual(t, values[1], values[2], "two lines share the random numbers of what they are")
	assert.Equal(t, sim.Constant(15.0), h.Crew.Walk, "the group itself stays as it is")

	var first []*UncertaintyStudy
	for _, workers := range []int{1, 3} {
		studies, _, err := RunUncertainLineGroups(context.Background(), []*model.LineGroup{h}, sim.Plan{Seed: 1, Max: 60, Workers: workers}, 2, nil)
		require.NoError(t, err)
		if first == nil {
			first = studies
		}
		assert.Equal(t, first, studies)
	}
	s, err := model.NewLineGroup(drawn)
	require.NoError(t, err)
	outs := make([]model.Outcome, 2)
	require.NoError(t, s.Run(1, 2*2+1, outs))
	assert.InDelta(t, outs[0].NetRate()+outs[1].NetRate(), first[0].Shifts[2*2+1].NetRate, 1e-9)
	d := first[0].Of(netRate)
	assert.Equal(t, model.CrewWalk, d.Sources[0].UncertainInput.Name)
}

// uncertainInputsLine is a line with a feeder A first, of which the given numbers are uncertain.
func uncertainInputsLine(uncertain ...model.UncertainInput) *model.Line {
	l := modeltest.ReferenceLine()
	a := l.Stations[0].(*model.Feeder)
	a.Name, l.UncertainInputs = "A", uncertain
	return l
}
