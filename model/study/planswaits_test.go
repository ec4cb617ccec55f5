package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/model/setup"
	"netrate/sim"
)

// By hand: from 08:00 to 12:00 on each day, a changeover of half an hour, and who alone may do it is sick on the first
// day. The line waits for those 4 h, and its changeover begins when he is there, on the second.
func TestPlansWait(t *testing.T) {
	const day, hour = 24 * 3600, 3600
	p := plansOf()
	p.Lines, p.Jobs = p.Lines[:1], p.Jobs[:1]
	p.Jobs[0].Sets = hour - 5
	p.Change = &setup.Changeover{}
	p.Change.Always.Time = sim.Constant(0.5 * hour)
	p.Crew = model.Crew{Operators: 2, Walk: sim.Constant(0), People: []model.Person{
		{Name: "Anna", Operators: 1}, {Name: "Ben", Operators: 1, Only: model.Clearing | model.Filling},
	}}
	p.Lines[0].Crew = p.Crew
	job := func() PlansJob {
		return askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}}).Plans[0].Lines[0].Jobs[0]
	}
	assert.Nil(t, job().Waits, "both are there")
	p.Staffed = []seasons.Staffed{{Name: "Anna is sick", Weeks: []int{1}, Days: []int{1}, Operators: seasons.AsElse, Absent: []string{"Anna"}}}
	j := job()
	require.NotNil(t, j.Waits)
	assert.Equal(t, PlansWait{PlansMoment{8 * hour}, 4, 1, 0}, *j.Waits)
	assert.Equal(t, [][2]float64{{0, 4}}, j.Waiting())
	assert.Equal(t, PlansMoment{day + 8*hour}, j.Begun.P50)
	assert.InDelta(t, day+8.5*hour, float64(j.First.At), 1e-6)
}

// By hand, in hours: somebody is at a piece when nobody may take one any more, from 4 to 8, and takes the next after
// it: the changeover began at 3. If it is finished before 8, who was at it finished it, and it did not wait.
func TestPlansWaitWithin(t *testing.T) {
	job := &seasons.TogetherJob{
		Begun: sim.Sample{3 * 3600, 3 * 3600, 5 * 3600}, First: sim.Sample{9 * 3600, 4.5 * 3600, 9 * 3600},
		Barred: seasons.Barred{All: []model.Stretch{{From: 4 * 3600, To: 8 * 3600}}},
	}
	assert.Equal(t, sim.Sample{3 * 3600, 3 * 3600, 8 * 3600}, changeStarts(job))
	w := plansWait(job, func(worked float64) PlansMoment { return PlansMoment{sim.Seconds(worked)} })
	assert.InDelta(t, 3.5, float64(w.Hours), 1e-12, "4 h and 3 h")
	assert.InDelta(t, 2.0/3, float64(w.Share), 1e-12)
	assert.InDelta(t, 2, float64(w.Within), 1e-12, "4 h and none")
	assert.Equal(t, [][2]float64{{4, 8}}, waitingTimes(job))
}
