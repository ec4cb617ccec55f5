package page

import (
	"testing"

	"github.com/stretchr/testify/assert"

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
		"no uncertainty":  {9000, 0, [2]string{"9,000", "0"}},
	} {
		t.Run(name, func(t *testing.T) {
			e := MeanAndHalf(sim.Estimate{Mean: c.mean, Half: c.half})
			assert.Equal(t, c.want, [2]string{e[0].Shown, e[1].Shown})
			assert.InDelta(t, c.mean, e[0].Number, 0, "the workbook keeps all")
		})
	}
}
