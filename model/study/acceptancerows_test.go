package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each row of the counts is looked at, and the one that cannot be is named: in the sum it would not be seen.
func TestAcceptanceRowsThatCannotBe(t *testing.T) {
	q := smallAcceptance() // in shifts of an hour, with one operator at one cycle after the other
	speed := q.Good.RunSpeed()
	crew := float64(q.Good.Crew.Most())
	row := func(change func(*AcceptanceResult)) AcceptanceResult {
		x := AcceptanceResult{Hours: 1, Good: 0.8 * speed, Sets: 0.82 * speed, Stops: 10, Clearing: 400, Defective: 1}
		if change != nil {
			change(&x)
		}
		return x
	}
	of := func(change func(*AcceptanceResult)) error {
		sum := AcceptanceResult{Parts: []AcceptanceResult{row(nil), row(change), row(nil), row(nil)}}
		all := sum.first(4)
		q.Result = &all
		return q.Check()
	}
	require.NoError(t, of(nil))
	for why, change := range map[string]func(*AcceptanceResult){
		"sets started: no more can be":    func(x *AcceptanceResult) { x.Good = x.Sets },
		"cycles an hour at most":          func(x *AcceptanceResult) { x.Good, x.Sets = 1.03*speed, 1.04*speed },
		"are more than the line":          func(x *AcceptanceResult) { x.Sets = 1.03 * speed },
		"no fault stopped the line":       func(x *AcceptanceResult) { x.Stops = 0 },
		"s were spent on clearing in 1 h": func(x *AcceptanceResult) { x.Clearing = 1.03 * 3600 * crew },
	} {
		err := of(change)
		require.ErrorContains(t, err, why)
		assert.ErrorContains(t, err, "row 2 of the counts: ")
	}
	for name, change := range map[string]func(*AcceptanceResult){
		"all of the sets":                     func(x *AcceptanceResult) { x.Good = x.Sets - 1 },
		"a clock that is off":                 func(x *AcceptanceResult) { x.Good, x.Sets, x.Defective = 1.01*speed, 1.015*speed, 0 },
		"no fault":                            func(x *AcceptanceResult) { x.Stops, x.Clearing = 0, 0 },
		"all of the time spent on clearing":   func(x *AcceptanceResult) { x.Clearing = 3600 * crew },
		"a part of a shift":                   func(x *AcceptanceResult) { x.Hours, x.Good, x.Sets, x.Defective = 0.4, 0.3*speed+3, 0.3*speed, 0 },
		"a shift after which it was too late": func(x *AcceptanceResult) { *x = AcceptanceResult{} },
	} {
		assert.NoError(t, of(change), name)
	}
	require.ErrorContains(t, of(func(x *AcceptanceResult) { x.Hours = 25 }), "row 2 of the counts is of 25 h, and another is of a shift of 1 h or less")
	q.Result.Parts = q.Result.Parts[1:2]
	assert.NoError(t, q.Check(), "one row for the whole test")
}
