package stoplog

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestYAMLEstimate(t *testing.T) {
	for want, c := range map[string]struct {
		x, se    float64
		decimals int
		unit     string
	}{
		"{about: 46.71 s, se: 3.6 s}":      {46.714, 3.612, 2, " s"},
		"{about: 0.903, se: 0.075}":        {0.9029, 0.0749, 3, ""},
		"{about: 8123.4 s, se: 240 s}":     {8123.42, 240.3, 1, " s"},
		"{about: 0.05012 s, se: 0.0042 s}": {0.050117, 0.004184, 5, " s"},
		"1.7":                              {1.7, 0, 2, ""},
		"0.9 s":                            {0.9, 1.3, 2, " s"},
		"2":                                {2, math.NaN(), 2, ""},
	} {
		assert.Equal(t, want, yamlEstimate(c.x, c.se, c.decimals, c.unit))
	}
}

func TestFigures(t *testing.T) {
	assert.Equal(t, []string{"0", "999", "1,000", "12,345", "1,234,567"}, []string{thousands(0), thousands(999), thousands(1000), thousands(12345), thousands(1234567)})
	assert.Equal(t, []string{"–", "1,032", "100", "33.3", "2.50"}, []string{oneIn(0), oneIn(1 / 1032.4), oneIn(0.01), oneIn(0.03), oneIn(0.4)})
	assert.Equal(t, []string{"95 %", "97.5 %"}, []string{percent(0.95), percent(0.975)})
	assert.Equal(t, []string{"12,000/h", "12.5/h"}, []string{perHour(12000), perHour(12.5)})
}
