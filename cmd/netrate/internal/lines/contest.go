package lines

import (
	"netrate/model/runs"
	"netrate/model/study"
)

// contest is a comparison as it is told: its answer, and what was compared.
type contest struct {
	*field
	*study.ComparisonAnswer
	worth *study.WorthAnswer // nil if there are no costs, or they are left aside
	aside string             // why costs are left aside
}

// decide compares the entrants once they are simulated.
func decide(f *field) *contest {
	var alternatives []study.Alternative
	var studies []*runs.Study
	var draws []*runs.DoubtStudy
	for i := range f.entrants {
		x := &f.entrants[i]
		alternatives, studies, draws = append(alternatives, x.alternative()), append(studies, x.study), append(draws, x.doubt)
	}
	return &contest{field: f, ComparisonAnswer: study.ComparedStudies(alternatives, studies, draws)}
}

// certain reports whether the leader is shown to be the best, or chosen with the promise
// that was asked for.
func (c *contest) certain() bool { return c.Best.Shown }
