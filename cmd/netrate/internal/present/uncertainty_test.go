package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
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
