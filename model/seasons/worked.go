package seasons

import (
	"netrate/model"
	"netrate/sim"
)

// worked returns for how long the line that is so longest is at its jobs, replication by replication: without the time
// in which it stands on paper. A changeover in which nobody is there for some part counts as it does on paper.
func (m *Made) worked(study *TogetherStudy) sim.Sample {
	stands := m.Plan.stands(m.Horizon, m.Times, m.Plan.down(m.Horizon))
	longest := make(sim.Sample, study.Done)
	for i, jobs := range m.Order {
		all, before := make(sim.Sample, study.Done), len(m.Plan.Jobs)
		for _, j := range jobs {
			x := &study.Jobs[j]
			for r := range all {
				first := min(x.First[r], x.Free[r])
				change := first - x.Begun[r]
				if within(x.Begun[r], first, x.Barred.Some) > 0 {
					change = float64(m.Times.change[i][before][j])
				}
				all[r] += change + x.Free[r] - first
				if stands != nil {
					all[r] -= within(first, x.Free[r], stands[i][j])
				}
			}
			before = j
		}
		for r := range all {
			longest[r] = max(longest[r], all[r])
		}
	}
	return longest
}

// within returns how much of a time is in some stretches.
func within(from, to float64, stretches []model.Stretch) (sum float64) {
	for _, s := range stretches {
		sum += max(0, min(to, float64(s.To))-max(from, float64(s.From)))
	}
	return sum
}
