package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
	"netrate/model/study"
)

// An uncertain input is called by its path in words, and its values have their unit.
func TestUncertaintyValues(t *testing.T) {
	for _, c := range []struct {
		model.UncertainInput
		x            float64
		called, text string
	}{
		{model.UncertainInput{Station: "letter", Name: "misfeed"}, 1.0 / 2431, "letter, misfeed", "1/2,431"},
		{model.UncertainInput{Station: "letter", Name: "false_calls"}, 0, "letter, false calls", "0"},
		{model.UncertainInput{Station: "letter", Name: "caught"}, 0.975, "letter, caught", "97.5 %"},
		{model.UncertainInput{Station: "letter", Name: "growth"}, 1.5, "letter, growth", "1.5"},
		{model.UncertainInput{Station: "letter", Name: "hopper.refill", Part: model.MeanPart}, 20, "letter, hopper refill, mean", "20 s"},
		{model.UncertainInput{Name: "crew.walk", Part: model.MeanPart}, 1234, "crew walk, mean", "1,230 s"},
		{model.UncertainInput{Station: "letter", Name: "clear", Part: model.CVPart}, 0.8123, "letter, clear, cv", "0.812"},
	} {
		assert.Equal(t, c.called, uncertainCalled(c.UncertainInput))
		assert.Equal(t, c.text, uncertainValue(c.UncertainInput, c.x))
	}
}

// What would not narrow the interval is not to be measured first: a job at two speeds is, where a growth
// adds most, and nothing where no input by itself adds much.
func TestMeasureFirst(t *testing.T) {
	jam := func(half float64) study.UncertaintySource {
		return study.UncertaintySource{
			Share: 0.1, Input: model.UncertainInput{Station: "card", Name: "jam"},
			Measure: &study.Measurement{What: "feeds", Half: study.MeasuredTo{Observations: 400_000, LongRun: study.Number(half)}, Tenth: study.MeasuredTo{LongRun: 320}},
		}
	}
	growth := study.UncertaintySource{Share: 0.37, Input: model.UncertainInput{Station: "letter", Name: "growth"}}
	of := func(sources ...study.UncertaintySource) string {
		return UncertaintyIn(&study.Uncertainty{LongRun: study.Interval{Low: 0, High: 680}, Sources: sources}).MoreData()
	}
	assert.Contains(t, of(growth, jam(338)), "Run one job at two speeds first, and log both: 37 % of the uncertainty comes from letter, growth.")
	assert.Contains(t, of(jam(338)), "Nothing is worth measuring by itself: with the uncertainty of card, jam halved the interval would still be ± 340.")
	assert.Contains(t, of(jam(250)), "Measure first card, jam: 400,000 feeds")
}
