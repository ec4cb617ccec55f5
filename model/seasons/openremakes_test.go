package seasons

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
)

// By hand, the jobs of TestNextJobOfASeasonBeginsBesideTheBench behind a minute of remakes that lie at the bench
// from the start, the first job's own among them: what it loses at 33 and 65 s is made by 120 and 180 s, what
// the second loses by 240 and 300.
func TestTogetherBeginsWithABusyBench(t *testing.T) {
	s := lossySeason(model.Job{Closing: model.Beside, PerHour: 60})
	work := &Together{
		Lines: []*model.Line{s.Line}, Crew: s.Line.Crew, Products: s.Products, Closing: s.Closing, Bench: 60,
		Jobs: []Job{{Product: 0, Sets: 3, AtBench: 60}, {Product: 1, Sets: 3}}, Order: [][]int{{0, 1}},
	}
	study := runTogether(t, work, 2)
	assert.InDelta(t, 180, study.Jobs[0].Finished[1], 1e-6)
	assert.InDelta(t, 300, study.Jobs[1].Finished[1], 1e-6)
	assert.InDelta(t, 300, study.ByHand[1], 1e-6)

	work.Jobs = []Job{{Product: 0, Sets: 1, AtBench: 60}, {Product: 1, Sets: 1}}
	study = runTogether(t, work, 2)
	assert.InDelta(t, 60, study.Jobs[0].Finished[1], 1e-6, "it loses nothing more, and waits for what lies there")
	assert.Less(t, study.Jobs[0].Free[1], 60.0)
}
