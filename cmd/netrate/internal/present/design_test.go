package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/study"
	"netrate/sim"
	"netrate/sim/output"
)

// What the choice did not drop, but other shifts show to be behind, is not said to be as good.
func TestUnsettledDesigns(t *testing.T) {
	gap := func(mean, half float64) output.Comparison {
		return output.Comparison{Difference: sim.Estimate{Mean: mean, Half: half, Level: 0.95, N: 100}}
	}
	d := Design{DesignAnswer: &study.DesignAnswer{
		Goal: study.DesignNetRate, Best: 2,
		Finalists:  []study.DesignOne{{Name: "base", Rival: true}, {Name: "A", Rival: true}, {Name: "B"}},
		Comparison: &study.ComparisonAnswer{Compared: [][]output.Comparison{{{}, {}, gap(900, 20)}, {{}, {}, gap(5, 20)}, {{}, {}, {}}}},
	}}
	assert.Equal(t, "That is not settled: after all the shifts that were allowed A still may be better by 48 or more.", d.unsettled("48"))
	d.Comparison.Compared[1][2] = gap(50, 20)
	assert.Equal(t, "The choice was not settled in the shifts that were allowed. In the others, of the table, all that was left of it is shown to be behind; of more than 48 nothing is promised.", d.unsettled("48"))
	d.Finalists[0].Rival, d.Finalists[1].Rival = false, false
	assert.Contains(t, d.unsettled("48"), "others still may be better by 48 or more")
}
