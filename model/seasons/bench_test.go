package seasons

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
)

// sixWeeks is twenty jobs on three lines of which each stops some 40 times an hour, six weeks of 75
// hours in all; all that stops them is uncertain.
func sixWeeks() *Plan {
	p := planned()
	p.Lines, p.Jobs = nil, nil
	p.Calendar = &Calendar{Days: 5, Shifts: []ShiftTime{{Start: 6 * hour, Length: 7.5 * hour}, {Start: 14 * hour, Length: 7.5 * hour}}}
	p.Crew = model.Crew{Operators: 2, Walk: sim.Constant(5)}
	for i := range 3 {
		l := modeltest.CalmLine()
		l.Name, l.Speed = fmt.Sprint("line ", i+1), 12_000
		for _, s := range l.Stations {
			f, is := s.(*model.Feeder)
			if !is {
				continue
			}
			f.Rated, f.Misfeed, f.Jam = 0, 0.001, 0.001
			f.Clear = sim.Constant(30)
			l.UncertainInputs = append(l.UncertainInputs, model.UncertainInput{Station: f.Name, Name: "jam", Of: evenly{0.0005, 0.0015}})
		}
		p.Lines = append(p.Lines, l)
	}
	for i := range 20 {
		p.Jobs = append(p.Jobs, PlanJob{Name: fmt.Sprint("job ", i+1), Product: i % 2, Sets: 150_000 + int64(i)*37_500, Due: sim.Seconds(2*i+8) * day, Priority: 1, InHand: -1})
	}
	return p
}

// What it takes to find the plan, and to simulate it 1,000 times.
func BenchmarkPlan(b *testing.B) {
	p := sixWeeks()
	b.Run("search", func(b *testing.B) {
		for b.Loop() {
			_, err := p.Make(context.Background(), sim.Plan{Seed: 1}, nil)
			require.NoError(b, err)
		}
	})
	b.Run("thousand draws", func(b *testing.B) {
		m, err := p.Make(context.Background(), sim.Plan{Seed: 1}, nil)
		require.NoError(b, err)
		for b.Loop() {
			study, err := RunTogether(context.Background(), m.Together(), sim.Plan{Seed: 1, Min: 1000, Max: 1000}, nil)
			require.NoError(b, err)
			b.ReportMetric(study.Finished.Mean()/3600, "h/plan")
		}
	})
}
