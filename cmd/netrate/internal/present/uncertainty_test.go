package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
)

// An uncertain input is called by its path in words, and its values have their unit.
func TestUncertaintyValues(t *testing.T) {
	for _, c := range []struct {
		model.Doubt
		x            float64
		called, text string
	}{
		{model.Doubt{Station: "letter", Name: "misfeed"}, 1.0 / 2431, "letter, misfeed", "1/2,431"},
		{model.Doubt{Station: "letter", Name: "false_calls"}, 0, "letter, false calls", "0"},
		{model.Doubt{Station: "letter", Name: "caught"}, 0.975, "letter, caught", "97.5 %"},
		{model.Doubt{Station: "letter", Name: "growth"}, 1.5, "letter, growth", "1.5"},
		{model.Doubt{Station: "letter", Name: "hopper.refill", Part: model.MeanPart}, 20, "letter, hopper refill, mean", "20 s"},
		{model.Doubt{Name: "crew.walk", Part: model.MeanPart}, 1234, "crew walk, mean", "1,230 s"},
		{model.Doubt{Station: "letter", Name: "clear", Part: model.CVPart}, 0.8123, "letter, clear, cv", "0.812"},
	} {
		assert.Equal(t, c.called, uncertainCalled(c.Doubt))
		assert.Equal(t, c.text, uncertainValue(c.Doubt, c.x))
	}
}
