package study

import (
	"context"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// sweepLine is a line that often stops, so that few shifts tell much. Its rates are invented.
func sweepLine(operators int, speed float64) *model.Line {
	return &model.Line{
		Name: "swept", Speed: speed, Shift: 2 * 3600, Restart: sim.Constant(5), Crew: model.Crew{Operators: operators, Walk: sim.Constant(10)},
		Stations: []model.Station{
			&model.Feeder{
				Place: model.Place{Name: "letter", Rated: 9000}, Hopper: model.Stock{Capacity: 300, Warn: 100, Work: sim.Constant(60)},
				Misfeed: 0.002, Noticed: 1, Caught: 0.9, Double: 0.001, Share: 1, Material: 1, Clear: sim.Constant(40),
			},
			&model.Inserter{
				Place: model.Place{Name: "inserter", At: 2, Rated: 10_000}, Hopper: model.Stock{Capacity: 300, Warn: 100, Work: sim.Constant(60)},
				Jam: 0.001, Clear: sim.Constant(60),
			},
			&model.Delivery{Place: model.Place{Name: "belt", At: 3}},
		},
	}
}

func operatorsTo(most, reps int) *Sweep {
	q := &Sweep{Vary: []SweepParameter{{Path: "crew.operators"}}, Plan: sim.Plan{Seed: 3, Min: reps, Max: reps}}
	for n := 1; n <= most; n++ {
		q.Vary[0].Values = append(q.Vary[0].Values, SweepValue{string(rune('0' + n)), Number(n)})
		q.Lines = append(q.Lines, sweepLine(n, 0))
	}
	return q
}

func encoded(t *testing.T, answer any) string {
	t.Helper()
	text, err := json.Marshal(answer)
	require.NoError(t, err)
	return string(text)
}

// The answer so far is that of a sweep that ends there, and stays what it is.
func TestSweepSoFar(t *testing.T) {
	var kept *SweepAnswer
	all, err := operatorsTo(3, 12).Ask(t.Context(), func(so Sofar[SweepAnswer]) {
		assert.Equal(t, 12, so.Most)
		if so.Done == 5 {
			kept = so.Answer()
		}
	})
	require.NoError(t, err)
	short, err := operatorsTo(3, 5).Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.True(t, kept.Settings.Partial)
	kept.Settings = short.Settings // one was cancelled
	assert.Equal(t, encoded(t, short), encoded(t, kept))
	assert.NotEqual(t, encoded(t, all), encoded(t, kept))
	assert.False(t, all.Settings.Partial)
	assert.Equal(t, 12, all.Settings.Reps)
}

// A sweep that is cancelled before its first shift has no points, one that is cancelled later
// has those of the shifts up to there.
func TestSweepCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	q := operatorsTo(2, 1000)
	q.Plan.Workers = 1
	a, err := q.Ask(ctx, func(Sofar[SweepAnswer]) { cancel() })
	require.NoError(t, err)
	assert.True(t, a.Settings.Partial)
	assert.Less(t, a.Settings.Reps, 1000)
	assert.Len(t, a.Points, 2)
	a, err = q.Ask(ctx, nil)
	require.NoError(t, err)
	assert.Empty(t, a.Points)
	assert.Equal(t, 0, a.Settings.Reps)
}

func TestSweepCheck(t *testing.T) {
	for want, spoil := range map[string]func(*Sweep){
		"a sweep varies one parameter or two, found 0":                   func(q *Sweep) { q.Vary = nil },
		"crew.operators: a parameter takes two values at least, found 1": func(q *Sweep) { q.Vary[0].Values = q.Vary[0].Values[:1] },
		"crew.operators: 2 comes after 3, want rising values":            func(q *Sweep) { v := q.Vary[0].Values; v[1], v[2] = v[2], v[1] },
		"a sweep of 3 points has 2 lines, want one for each":             func(q *Sweep) { q.Lines = q.Lines[:2] },
		"a sweep of 403 points, want at most 400": func(q *Sweep) {
			for n := range 400 {
				q.Vary[0].Values = append(q.Vary[0].Values, SweepValue{"9", Number(9 + n)})
			}
		},
	} {
		t.Run(want, func(t *testing.T) {
			q := operatorsTo(3, 1)
			spoil(q)
			_, err := q.Ask(t.Context(), nil)
			assert.EqualError(t, err, want)
		})
	}
}

// The stations of the line allow 9,000 cycles an hour, whatever is asked for.
func TestSweepCap(t *testing.T) {
	q := &Sweep{Vary: []SweepParameter{{Path: "line.speed", Unit: "/h", Speed: true}}, Plan: sim.Plan{Seed: 3, Min: 20, Max: 20}}
	for _, speed := range []float64{6000, 7500, 9000, 10_500} {
		q.Vary[0].Values = append(q.Vary[0].Values, SweepValue{"", Number(speed)})
		q.Lines = append(q.Lines, sweepLine(1, speed))
	}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, &SweepCap{Speed: 9000, Stations: []string{"letter"}, Exceeded: true}, a.Cap)
	assert.Equal(t, 2, a.Last, "at 10,500 the line does what it does at 9,000")
	assert.True(t, a.Points[3].Capped)
	assert.False(t, a.Points[2].Capped)
	assert.Nil(t, operatorsAnswer(t).Cap)
}

func operatorsAnswer(t *testing.T) *SweepAnswer {
	t.Helper()
	a, err := operatorsTo(3, 20).Ask(t.Context(), nil)
	require.NoError(t, err)
	return a
}
