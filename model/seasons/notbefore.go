package seasons

import (
	"slices"

	"netrate/model"
	"netrate/sim"
)

// NotBefore returns the work until a job is done that does not begin before a time: all else as it is, the random
// numbers too. Of what is simulated of it only that job counts: what its line does after it is left out, and the others
// end with it. Only where remakes are made beside the lines they go on, as what they bring to the bench by then is known
// when their jobs end.
func (t *Together) NotBefore(job int, at sim.Seconds) *Together {
	own := *t
	own.Jobs, own.Order, own.Priced, own.cut = slices.Clone(t.Jobs), slices.Clone(t.Order), nil, true
	own.Jobs[job].NotBefore = max(at, t.Jobs[job].NotBefore)
	for i, jobs := range t.Order {
		if k := slices.Index(jobs, job); k >= 0 {
			own.Order[i] = jobs[:k+1]
			if t.Closing.Closing != model.Beside {
				own.endsWith = i + 1
			}
		}
	}
	return &own
}
