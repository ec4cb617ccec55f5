package study

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
	"netrate/sim/output"
)

// The means of what may be can be impossible where the values that are written are not: then every
// question that takes them says so, before anything is run.
func TestMeansThatCannotBe(t *testing.T) {
	line := sweepLine(1, 0)
	feeder := line.Stations[0].(*model.Feeder)
	feeder.Misfeed, feeder.Double, feeder.Jam = 0.55, 0.4, 0
	line.UncertainInputs = []model.UncertainInput{{Station: feeder.Name, Name: "misfeed", Of: output.Between{Low: 0.5, Likely: 0.55, High: 1}}}
	assert.Empty(t, line.Check())
	var wrong *model.ImpossibleDraw
	assert.ErrorAs(t, meansFit(line), &wrong)
	assert.ErrorContains(t, wrong, "at the means feeder "+feeder.Name+": misfeed, double and jam come to 1.08")

	line.UncertainInputs[0].Of = output.Between{Low: 0.5, Likely: 0.55, High: 0.6}
	assert.NoError(t, meansFit(line))
}
