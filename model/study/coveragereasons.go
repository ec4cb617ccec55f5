package study

import "slices"

// explain collects the reasons, in the order in which the table is read.
func (a *CoverageAnswer) explain() {
	for i := range a.Jobs {
		for k, fit := range a.Jobs[i].On {
			if fit == nil {
				continue
			}
			for _, text := range fit.Reasons {
				a.because(text, true, i, k)
			}
			for _, text := range fit.Notes {
				a.because(text, false, i, k)
			}
		}
	}
	slices.SortStableFunc(a.Reasons, func(x, y CoverageReason) int {
		switch {
		case x.Refuse == y.Refuse:
			return 0
		case x.Refuse:
			return -1
		}
		return 1
	})
}

func (a *CoverageAnswer) because(text string, refuse bool, job, column int) {
	at := slices.IndexFunc(a.Reasons, func(r CoverageReason) bool { return r.Text == text && r.Refuse == refuse })
	if at < 0 {
		at = len(a.Reasons)
		r := CoverageReason{Text: text, Refuse: refuse, Where: make([][]bool, len(a.Jobs))}
		for i := range r.Where {
			r.Where[i] = make([]bool, len(a.Columns))
		}
		a.Reasons = append(a.Reasons, r)
	}
	a.Reasons[at].Where[job][column] = true
}

// CoveragePlaces is jobs for which a reason is true of the same lines.
type CoveragePlaces struct {
	Jobs []string
	On   []string // lines; nil if it is true of all that have the jobs
}

// Places returns the jobs that a reason is true of, those together that have it on the same
// lines.
func (a *CoverageAnswer) Places(r *CoverageReason) []CoveragePlaces {
	var all []CoveragePlaces
	for i := range a.Jobs {
		if !slices.Contains(r.Where[i], true) {
			continue
		}
		on := a.linesWith(r, i)
		at := slices.IndexFunc(all, func(p CoveragePlaces) bool { return slices.Equal(p.On, on) })
		if at < 0 {
			at = len(all)
			all = append(all, CoveragePlaces{On: on})
		}
		all[at].Jobs = append(all[at].Jobs, a.Jobs[i].Name)
	}
	return all
}

// linesWith returns where a reason is true of a job; nil if everywhere.
func (a *CoverageAnswer) linesWith(r *CoverageReason, job int) []string {
	var on []string
	everywhere := true
	for k, x := range a.Columns {
		if r.Where[job][k] {
			on = append(on, x.Name)
		} else if a.Jobs[job].On[k] != nil {
			everywhere = false
		}
	}
	if everywhere {
		return nil
	}
	return on
}

// ReasonsOf returns the numbers of the reasons why a line cannot run a job.
func (a *CoverageAnswer) ReasonsOf(job, column int) []int {
	var numbers []int
	for n := range a.Reasons {
		if r := &a.Reasons[n]; r.Refuse && r.Where[job][column] {
			numbers = append(numbers, n)
		}
	}
	return numbers
}
