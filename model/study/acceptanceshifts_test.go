package study

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim/output"
)

// rowsOf is a result of rows of some hours, with envelopes at a rate.
func rowsOf(rate float64, hours ...float64) *AcceptanceResult {
	r := &AcceptanceResult{}
	for _, h := range hours {
		r.Parts = append(r.Parts, AcceptanceResult{Hours: h, Good: rate * h, Sets: -1, Stops: -1, Clearing: -1, Defective: -1})
	}
	*r = r.first(len(r.Parts))
	return r
}

// Rows are compared with the shifts of the plan, whatever their order; a plan of 2.5 h is of two shifts of an hour and
// a half of one.
func TestAcceptanceShiftsOfRows(t *testing.T) {
	many := slices.Repeat([]float64{0.005}, rowsMost+1)
	for _, x := range []struct {
		name string
		rows []float64
		want *AcceptanceShifts
	}{
		{"as planned", []float64{1, 1, 0.5}, nil},
		{"the short one first, and a row of nothing", []float64{0.5, 0, 1, 1}, nil},
		{"within what ends of shifts are off", []float64{1.04, 0.97, 0.49}, nil},
		{"one is longer", []float64{1.06, 1, 0.44}, &AcceptanceShifts{Planned: 3, Rows: 3, Shortest: 0.44, Longest: 1.06}},
		{"more", []float64{0.5, 0.5, 0.5, 0.5, 0.5}, &AcceptanceShifts{Planned: 3, Rows: 5, Shortest: 0.5, Longest: 0.5}},
		{"fewer", []float64{1.5, 1}, &AcceptanceShifts{Planned: 3, Rows: 2, Shortest: 1, Longest: 1.5}},
		{"one row of all", []float64{2.5}, &AcceptanceShifts{Planned: 3, Rows: 1, Shortest: 2.5, Longest: 2.5, Unknown: true}},
		{"too many for shifts", many, &AcceptanceShifts{Planned: 3, Rows: len(many), Shortest: 0.005, Longest: 0.005, Unknown: true}},
		{"no rows", nil, nil},
	} {
		q := smallAcceptance()
		q.Result = rowsOf(5000, x.rows...)
		test := newAcceptanceTest(q, nil)
		test.sides[0], test.length = &side{line: q.Good}, 9000
		assert.Equal(t, x.want, test.shiftsOfRows(), x.name)
	}
	q := smallAcceptance()
	q.Sequential, q.Result = true, rowsOf(5000, 1, 1)
	test := newAcceptanceTest(q, nil)
	test.sides[0], test.length = &side{line: q.Good}, 9000
	assert.Nil(t, test.shiftsOfRows(), "a test that ended early")
	q.Result = rowsOf(5000, 1, 0.6)
	assert.NotNil(t, test.shiftsOfRows())
}

// In many short shifts, each of which begins with full hoppers, lines deliver more: by the demand of the plan bad ones
// pass as often as independent runs of such shifts do, which is more often than agreed, so that nothing passes by it.
// What fails even so is judged.
func TestAcceptanceOfOtherShifts(t *testing.T) {
	q := smallAcceptance()
	q.Clauses, q.Hours = nil, 4
	q.Result = rowsOf(13_000, slices.Repeat([]float64{0.05}, 80)...)
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	x, c := a.Result.Shifts, &a.Clauses[0]
	require.NotNil(t, x)
	require.NotNil(t, x.Risks)
	short := *q.Bad
	short.Shift = 180
	one, err := model.New(&short)
	require.NoError(t, err)
	const tests = 200
	passed := int64(0)
	for k := range tests {
		good := 0.0
		for shift := range 80 {
			var o model.Outcome
			require.NoError(t, one.Run(77, 80*k+shift, &o))
			good += float64(o.Sets.Good)
		}
		if good >= float64(c.Limit) {
			passed++
		}
	}
	low, high := output.ExactInterval(passed, tests, 0.999)
	assert.Less(t, low, float64(x.Risks.Buyer.High))
	assert.Greater(t, high, float64(x.Risks.Buyer.Low))
	assert.Greater(t, float64(x.Risks.Buyer.Low), float64(c.Buyer.High), "in shifts of the plan it is another risk: this test would see them")

	assert.False(t, x.Risks.Bears(true, a))
	assert.True(t, a.Result.NotJudged)
	assert.False(t, a.Result.Passes)
	assert.Equal(t, 4, x.Planned)
	fails := AcceptanceShiftRisks{Seller: c.Seller, Buyer: x.Risks.Buyer}
	assert.True(t, fails.Bears(false, a), "it fails though it was easier")
	fails.Seller = x.Risks.Buyer
	assert.False(t, fails.Bears(false, a), "it fails since it was harder")
	assert.True(t, (&AcceptanceShiftRisks{Buyer: c.Buyer}).Bears(true, a))
}
