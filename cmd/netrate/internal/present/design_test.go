package present

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/model/worth"
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

// What a step of the price does is said as what it is: an addition, a choice in the place of another, or
// something left out; and its price as the difference of all these.
func TestDesignStepsInWords(t *testing.T) {
	assert.Equal(t, "adds “gate” and “belt”", stepWords(&study.DesignStep{Added: []string{"gate", "belt"}}))
	assert.Equal(t, "adds “gate”, takes “rotary” instead of “friction”, leaves out “belt”",
		stepWords(&study.DesignStep{Added: []string{"gate"}, Replaced: []study.DesignReplaced{{By: "rotary", Was: "friction"}}, Away: []string{"belt"}}))
	d := Design{Origin: page.Origin{Scenario: &scenarios.Scenario{Shop: scenarios.Shop{Costs: &worth.Costs{Currency: "EUR"}}}}, DesignAnswer: &study.DesignAnswer{
		Goal: study.DesignValue, Finalists: []study.DesignOne{{Name: "base"}, {Name: "A"}},
		Steps: []study.DesignStep{{To: 1, Replaced: []study.DesignReplaced{{By: "fast", Was: "slow"}}, Price: 5000, Gain: 360_000, Between: study.Interval{Level: 0.95, Low: 330_000, High: 390_000}}},
	}}
	assert.Equal(t, "The last step of the price is from base to A: it takes “fast” instead of “slow”, for 5,000 EUR more in all, and its net present value is higher by 360,000 ± 30,000 EUR.", d.lastMoney())

	d.Options = []study.DesignOption{{Name: "belt", Optional: true, Choices: []study.DesignChoice{{Name: "without belt"}, {Name: "belt"}}}, {Name: "feeder"}}
	assert.Equal(t, "leaving “belt” out", d.insteadWords(&study.DesignTurn{Option: "belt", Taken: "belt", Instead: "without belt"}))
	assert.Equal(t, "adding “belt”", d.insteadWords(&study.DesignTurn{Option: "belt", Taken: "without belt", Instead: "belt"}))
	assert.Equal(t, "“b” instead of “a”", d.insteadWords(&study.DesignTurn{Option: "feeder", Taken: "a", Instead: "b"}))
}

// Designs that were simulated besides are of those that were left out, and said to be.
func TestDesignCountsAddUp(t *testing.T) {
	d := Design{DesignAnswer: &study.DesignAnswer{Counts: study.DesignCounts{Combinations: 16, Simulated: 16}}}
	assert.Empty(t, d.near(), "all were simulated, and none besides")
	d.Counts.Near = 4
	assert.Equal(t, ", and of those left out 4 besides, to find what is best for less money", d.near())
}
