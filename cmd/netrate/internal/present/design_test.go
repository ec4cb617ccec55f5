package present

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/scenarios"
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

// Where the goal is money, what is best for a price may deliver less than what costs less: it is no step of
// what money buys.
func TestDesignFrontierRises(t *testing.T) {
	d := Design{Origin: page.Origin{Scenario: &scenarios.Scenario{}}, DesignAnswer: &study.DesignAnswer{Goal: study.DesignCost, Best: 2, Comparison: &study.ComparisonAnswer{}}}
	for i, x := range []struct{ price, rate float64 }{{0, 5000}, {100, 6000}, {200, 5500}, {300, 6500}, {300, 6600}} {
		d.Finalists = append(d.Finalists, study.DesignOne{Name: string(rune('A' + i)), Price: study.Number(x.price), Frontier: true})
		d.Comparison.Lines = append(d.Comparison.Lines, study.LineAnswer{NetRate: study.NetRate{Mean: study.Number(x.rate), Half: 10, Level: 0.95, N: 100}})
	}
	assert.Equal(t, []int{0, 1, 4}, d.delivering())
	f, err := DesignFrontier(d)
	require.NoError(t, err)
	assert.Contains(t, f.Subtitle, "Not among them: C, with the least cost of a thousand")
}
