package main

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
	"netrate/plots"
	"netrate/sim"
)

func TestMeanAndHalf(t *testing.T) {
	for name, c := range map[string]struct {
		mean, half float64
		want       [2]string
	}{
		"as the headline": {13_687.6, 60.3, [2]string{"13,690", "60"}},
		"below zero":      {-312.4, 41, [2]string{"−310", "40"}},
		"nothing":         {-0.3, 20, [2]string{"0", "20"}},
		"no doubt":        {9000, 0, [2]string{"9,000", "0"}},
	} {
		t.Run(name, func(t *testing.T) {
			e := meanAndHalf(sim.Estimate{Mean: c.mean, Half: c.half})
			assert.Equal(t, c.want, [2]string{e[0].Shown, e[1].Shown})
			assert.InDelta(t, c.mean, e[0].Number, 0, "the workbook keeps all")
		})
	}
}

// One defective envelope in 50 shifts of 1,000: the exact interval of 1 in 50,000 is 0.0253 to
// 5.572 in 50,000 (Garwood 1936, table of the Poisson mean, from memory), in a shift a fiftieth.
func TestDefectiveStaysAboveZero(t *testing.T) {
	_, _, s := small(t, 50)
	for i := range s.Shifts {
		s.Shifts[i].Defective = 0
	}
	s.Shifts[7].Defective = 1
	s.Total.Sets.Good, s.Total.Sets.Defective = 49_999, 1
	var got []plots.Entry
	for _, f := range model.Figures() {
		if f.Name == "defective" {
			got = figureEntries(s, f)
		}
	}
	assert.Equal(t, "0.02", got[0].Shown)
	assert.Equal(t, "0.00051 to 0.11", got[1].Text)
	assert.Contains(t, answer("netrate run x.yaml", entrant{line: s.Line, study: s}), "defective      0.02 (0.00051 to 0.11)\n")
}
