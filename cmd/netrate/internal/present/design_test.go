package present

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/scenarios"
)

// What the choice did not drop is said to be as good only if other shifts do not show it to be less
// than the zone ahead.
func TestUnsettledDesigns(t *testing.T) {
	ahead := func(low, high study.Number) *study.DesignAhead {
		return &study.DesignAhead{Mean: (low + high) / 2, Interval: study.Interval{Level: 0.95, Low: low, High: high}}
	}
	d := Design{DesignAnswer: &study.DesignAnswer{
		Goal: study.DesignNetRate, Best: 2, Left: 2, Indifference: 48,
		Finalists: []study.DesignOne{{Name: "base", Rival: true, Better: ahead(-900, -800)}, {Name: "A", Rival: true, Better: ahead(-5, 50)}, {Name: "B"}},
	}}
	assert.Equal(t, "That is not settled: after all the shifts that were allowed A may still be better by 48 or more.", d.unsettled("48"))
	d.Left = 4
	assert.Contains(t, d.unsettled("48"), "A and 2 designs not in the table may still be better by 48 or more")
	d.Finalists[1].Better, d.Left = ahead(-5, 40), 2
	assert.Equal(t, "The choice was not settled in the shifts that were allowed. In those of the table, which are others, nothing that was left of it is better by 48 or more (95 %).", d.unsettled("48"))
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
