package worth

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
	"netrate/model/money"
	"netrate/model/runs"
)

// Why costs do not go together is data: the reason and the values that differ.
func TestComparable(t *testing.T) {
	assert.Nil(t, Comparable(nil))
	dear := prices()
	dear.Price, dear.LineHour, dear.Overtime = money.Fixed(1e6), money.Fixed(70), Overtime{}
	assert.Nil(t, Comparable([]*Costs{prices(), dear}))
	for _, c := range []struct {
		spoil func(*Costs)
		want  Aside
	}{
		{func(c *Costs) { c.Currency = "USD" }, Aside{Why: CurrenciesDiffer, Currencies: []string{"EUR", "USD"}}},
		{func(c *Costs) { c.Life = 6 }, Aside{Why: LivesDiffer, Lives: []int{5, 6}}},
		{func(c *Costs) { c.Rate = 0.08 }, Aside{Why: RatesDiffer, Rates: []float64{0.1, 0.08}}},
		{func(c *Costs) { c.Volume.High++ }, Aside{Why: VolumesDiffer}},
	} {
		other := prices()
		c.spoil(other)
		assert.Equal(t, &c.want, Comparable([]*Costs{prices(), other}))
	}
	other := pricesOfBoth()
	assert.Nil(t, Comparable([]*Costs{pricesOfBoth(), other}))
	other.Volumes["cards"] = money.Fixed(2)
	assert.Equal(t, &Aside{Why: VolumesDiffer}, Comparable([]*Costs{pricesOfBoth(), other}))
	assert.Equal(t, &Aside{Why: CostsOfSome, Lines: []int{1}}, Comparable([]*Costs{prices(), nil}))
	assert.Equal(t, &Aside{Why: CostsOfSome, Lines: []int{0}}, Comparable([]*Costs{nil, prices()}))
}

// Shifts that say nothing of a year are named by their lines, the fewest shifts first; and the error
// says as much.
func TestSampled(t *testing.T) {
	shifts := func(rates ...float64) *runs.Study {
		s := &runs.Study{}
		for _, r := range rates {
			s.Shifts = append(s.Shifts, runs.Shift{NetRate: r})
		}
		return s
	}
	for want, studies := range map[string][]*runs.Study{
		"": {shifts(1, 2), shifts(3, 4)},
		"costs are not evaluated: fewer than 2 shifts, lines [0 2]":          {shifts(1), shifts(1, 2), shifts(1), shifts(0, 1)},
		"costs are not evaluated: numbers of shifts differ, lines [2]":       {shifts(1, 2), shifts(1, 0), shifts(1, 2, 3)},
		"costs are not evaluated: a shift without good envelopes, lines [1]": {shifts(1, 2), shifts(1, 0)},
	} {
		var err error
		costs := make([]*Costs, len(studies))
		for i := range costs {
			costs[i] = prices()
		}
		if aside := sampled(studies, costs); aside != nil {
			err = aside
		}
		if want == "" {
			assert.NoError(t, err)
			continue
		}
		assert.EqualError(t, err, want)
		var aside *Aside
		assert.ErrorAs(t, err, &aside)
	}
}

// A shift in which one of two lines that share a crew delivers nothing is one as any other where one
// volume is of both together. Where each has its own, a thousand of its envelopes have no cost in it.
func TestSampledOfLinesThatShareACrew(t *testing.T) {
	line := func(name string, rates ...float64) *runs.Study {
		s := &runs.Study{Line: &model.Line{Name: name}}
		for _, r := range rates {
			s.Shifts = append(s.Shifts, runs.Shift{NetRate: r})
		}
		return s
	}
	both := []*runs.Study{runs.Gathered("both", []*runs.Study{line("north", 1, 0, 2), line("south", 1, 2, 3)})}
	together, each := prices(), prices()
	each.Volume, each.Volumes = money.Value{}, map[string]money.Value{"north": money.Fixed(1e6), "south": money.Fixed(1e6)}
	assert.Nil(t, sampled(both, []*Costs{together}))
	assert.Equal(t, &Aside{Why: ShiftWithoutGood, Lines: []int{0}}, sampled(both, []*Costs{each}))
	none := []*runs.Study{runs.Gathered("both", []*runs.Study{line("north", 1, 0, 2), line("south", 1, 0, 3)})}
	assert.Equal(t, &Aside{Why: ShiftWithoutGood, Lines: []int{0}}, sampled(none, []*Costs{together}))
}
