package scenarios

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/money"
	"netrate/model/worth"
)

// costly returns a file with every key of the format that speaks of money.
func costly(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("testdata/good_costs.yaml")
	require.NoError(t, err)
	return string(data)
}

func TestCosts(t *testing.T) {
	s, err := Load("costs.yaml", []byte(costly(t)))
	require.NoError(t, err)
	base := worth.Costs{
		Currency: "EUR", Price: money.Fixed(120_000), Life: 8, Residual: money.Value{Low: 0, Likely: 2000, High: 5000}, Rate: 0.08,
		Upkeep: money.Fixed(1500), LineHour: money.Fixed(20), OperatorHour: money.Fixed(29.5), TechnicianCall: money.Fixed(150), TechnicianHour: money.Fixed(60),
		Overtime: worth.Overtime{Beyond: 1700, Factor: 1.5}, Insert: money.Fixed(0.01), Envelope: money.Fixed(0.02),
		Pieces: map[string]money.Value{"letter": {Low: 0.02, Likely: 0.03, High: 0.05}, "card": {}},
		Remake: money.Fixed(1.2), Spoiled: money.Fixed(0.5), Defective: money.Fixed(20), Volume: money.Fixed(8_000_000),
	}
	assert.Equal(t, base, *s.Costs)

	// A variant that takes a station out need not take its price out.
	require.Len(t, s.Variants, 2)
	want := base
	want.Price = money.Value{Low: 100_000, Likely: 110_000, High: 115_000}
	want.Residual.High = 4000
	want.Pieces = map[string]money.Value{"letter": money.Fixed(0.04), "card": {}}
	assert.Equal(t, want, *s.Variants[0].Costs)
	assert.Contains(t, s.Variants[0].Changes, "costs.residual.high: 5000 → 4000")
	assert.Equal(t, money.Fixed(0.07), s.Variants[1].Costs.Pieces["voucher"])
	assert.Equal(t, base, *s.Costs, "the base stays as it is")
}

func TestCostsAreNotNeeded(t *testing.T) {
	text, _, _ := strings.Cut(costly(t), "costs:")
	s, err := Load("costs.yaml", []byte(text))
	require.NoError(t, err)
	assert.Nil(t, s.Costs)

	least := text + "costs: {currency: pieces of eight, life: 1, rate: 0, volume: {low: 1, likely: 2, high: 3}}\n"
	s, err = Load("costs.yaml", []byte(least))
	require.NoError(t, err)
	assert.Equal(t, worth.Costs{Currency: "pieces of eight", Life: 1, Volume: money.Value{Low: 1, Likely: 2, High: 3}}, *s.Costs)
}

// Paths and sweeps reach the costs as they reach anything else.
func TestCostsWith(t *testing.T) {
	s, err := Load("costs.yaml", []byte(costly(t)))
	require.NoError(t, err)
	r, err := ParseRange("costs.operator_hour=20:40:3")
	require.NoError(t, err)
	for i, v := range r.Values {
		shop, err := s.ShopWith([]Setting{{r.Path, v.Text}, {"costs.pieces.inserter", "{low: 1, likely: 2, high: 3}"}, {"costs.overtime.beyond", "900"}, {"costs.technician_call", "{low: 100, likely: 150, high: 300}"}, {"costs.technician_hour", "60"}})
		require.NoError(t, err)
		assert.Equal(t, money.Fixed(20+10*float64(i)), shop.Costs.OperatorHour)
		assert.Equal(t, money.Value{Low: 1, Likely: 2, High: 3}, shop.Costs.Pieces["inserter"])
		assert.Equal(t, 900.0, shop.Costs.Overtime.Beyond)
		assert.Equal(t, [2]money.Value{{Low: 100, Likely: 150, High: 300}, money.Fixed(60)}, [2]money.Value{shop.Costs.TechnicianCall, shop.Costs.TechnicianHour})
	}
	_, err = s.ShopWith([]Setting{{"costs.rate", "9"}})
	assert.EqualError(t, err, "costs.yaml: costs.rate: rate is 9, want a rate of return a year, such as 8%: did you mean 9%?")
}

// voluminous returns a file with yearly volumes of two of its three jobs.
func voluminous(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("testdata/good_volumes.yaml")
	require.NoError(t, err)
	return string(data)
}

func TestVolumes(t *testing.T) {
	s, err := Load("volumes.yaml", []byte(voluminous(t)))
	require.NoError(t, err)
	adverts := money.Value{Low: 3_000_000, Likely: 4_000_000, High: 6_000_000}
	assert.Equal(t, map[string]money.Value{"statements": money.Fixed(8_000_000), "adverts": adverts}, s.Costs.Volumes)
	assert.Zero(t, s.Costs.Volume)

	wider := adverts
	wider.Low = 2_500_000
	want := map[string]money.Value{"statements": money.Fixed(8_000_000), "adverts": wider, "terms, new": money.Fixed(500_000)}
	assert.Equal(t, want, s.Variants[0].Costs.Volumes)
	assert.Contains(t, s.Variants[0].Changes, "costs.volumes.adverts.low: 3000000 → 2500000")

	shop, err := s.ShopWith([]Setting{{"costs.volumes.adverts", "70000"}})
	require.NoError(t, err)
	assert.Equal(t, money.Fixed(70_000), shop.Costs.Volumes["adverts"])
	_, err = s.ShopWith([]Setting{{"costs.volumes.advert", "70000"}})
	assert.ErrorContains(t, err, `no job is named "advert": did you mean adverts?`)
}

func TestSchemaTakesCosts(t *testing.T) {
	assert.NoError(t, compiled(t).Validate(asJSON(t, costly(t))))
	assert.NoError(t, compiled(t).Validate(asJSON(t, voluminous(t))))
}

func TestSchemaRefusesWithVolumes(t *testing.T) {
	refuses(t, voluminous(t), []spoiling{
		{"volume too", "  volumes:", "  volume: 8000000\n  volumes:"},
		{"no job", "volumes: {statements: 8000000, adverts: {low: 3000000, likely: 4000000, high: 6000000}}", "volumes: {}"},
		{"no mapping", "volumes: {statements: 8000000, adverts: {low: 3000000, likely: 4000000, high: 6000000}}", "volumes: 8000000"},
		{"a word", "statements: 8000000", "statements: many"},
		{"range without its middle", "likely: 4000000, ", ""},
	})
}

func TestSchemaRefusesWithCosts(t *testing.T) {
	refuses(t, costly(t), []spoiling{
		{"no currency", "  currency: EUR\n", ""},
		{"currency as a number", "currency: EUR", "currency: 978"},
		{"no life", "  life: 8\n", ""},
		{"life", "life: 8", "life: 0"},
		{"life in parts", "life: 8", "life: 7.5"},
		{"no rate", "  rate: 8%\n", ""},
		{"rate", "rate: 8%", "rate: 8"},
		{"no volume", "  volume: 8000000\n", ""},
		{"price with its currency", "price: 120000", "price: 120000 EUR"},
		{"price below 0", "price: 120000", "price: -1"},
		{"price too large", "price: 120000", "price: 1000000001"},
		{"range without its middle", "{low: 0, likely: 2000, high: 5000}", "{low: 0, high: 5000}"},
		{"range of something else", "{low: 0, likely: 2000, high: 5000}", "{low: 0, likely: 2000, high: 5000, mean: 1}"},
		{"overtime without its hours", "{beyond: 1700, factor: 1.5}", "{factor: 1.5}"},
		{"overtime as a number", "{beyond: 1700, factor: 1.5}", "1.5"},
		{"pieces", "card: 0}", "card: cheap}"},
		{"unknown key", "line_hour: 20", "line_hours: 20"},
	})
}

// A plan or a season says what is made: their costs need no volume, and then no life and no rate. Of a year none
// are known. Other files need one still.
func TestCostsOfWeeksNeedNoVolume(t *testing.T) {
	var plan string
	for _, x := range Examples() {
		if x.Name == "nine-jobs" {
			plan = string(x.Data)
		}
	}
	s, err := Load("plan.yaml", []byte(plan+"costs: {currency: EUR, operator_hour: 30}\n"))
	require.NoError(t, err)
	assert.Nil(t, s.Costs)
	require.NotNil(t, s.Prices)
	assert.Equal(t, money.Fixed(30), s.Prices.OperatorHour)
	s, err = Load("plan.yaml", []byte(plan+"costs: {currency: EUR, life: 3, rate: 5%, volume: 5}\n"))
	require.NoError(t, err)
	assert.Same(t, s.Prices, s.Costs)
	_, err = Load("plan.yaml", []byte(plan+"costs: {currency: EUR, volume: 5}\n"))
	require.ErrorContains(t, err, "costs has no life")
	require.ErrorContains(t, err, "costs has no rate")
	s, err = Load("plan.yaml", []byte(plan+"costs: {currency: EUR, overtime: {factor: 1.5}}\n"))
	require.NoError(t, err)
	assert.InDelta(t, 1.5, s.Prices.Overtime.Factor, 0)
	_, err = Load("plan.yaml", []byte(plan+"costs: {currency: EUR, life: 3, rate: 5%, volume: 5, overtime: {factor: 1.5}}\n"))
	require.ErrorContains(t, err, "overtime has no beyond")
	_, err = Load("plan.yaml", []byte(plan+"costs: {currency: EUR, overtime: {beyond: 5}}\n"))
	require.ErrorContains(t, err, "factor")
	_, err = Load("plan.yaml", []byte(plan+"costs: {currency: EUR, operator_hour: -3}\n"))
	require.ErrorContains(t, err, "operator_hour")
	text, _, _ := strings.Cut(costly(t), "costs:")
	_, err = Load("line.yaml", []byte(text+"costs: {currency: EUR, life: 3, rate: 5%}\n"))
	require.ErrorContains(t, err, "costs has no volume and no volumes")
}
