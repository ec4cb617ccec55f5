package study

import (
	"cmp"
	"slices"

	"netrate/model/runs"
)

// riskOfJobs returns how many of a million envelopes delivered are defective of a line at several
// jobs: the mean of theirs, each by its share of what is delivered. Its intervals hold with the
// confidence [Level] at least: those of the jobs are so wide that all of them hold at once
// (Bonferroni). The counts are those of the shifts of all jobs, of which each has as many.
func riskOfJobs(jobs []runs.MixedJob) Risk {
	level := 1 - (1-Level)/float64(len(jobs))
	var each []Risk
	var parts []float64
	all := 0.0
	for i := range jobs {
		r := riskAt(jobs[i].Study, level)
		delivered := jobs[i].Share / max(1e-9, 1-float64(r.PerMillion)/1e6) // for a good envelope of the mix
		each, parts, all = append(each, r), append(parts, delivered), all+delivered
	}
	sum := Risk{From: []RiskSource{}}
	for i := range each {
		sum.add(&each[i], Number(parts[i]/all))
	}
	sum.Below = sum.Below && !sum.FromCount
	if !sum.FromCount {
		sum.Low, sum.High = 0, 0
	}
	slices.SortStableFunc(sum.From, func(a, b RiskSource) int { return cmp.Compare(b.PerMillion, a.PerMillion) })
	return sum
}

// add adds the risk of a job that has a part of what is delivered.
func (r *Risk) add(x *Risk, part Number) {
	r.PerMillion += Number(part * x.PerMillion)
	r.Misread += Number(part * x.Misread)
	r.CountedLow += Number(part * x.CountedLow)
	r.CountedHigh += Number(part * x.CountedHigh)
	r.Counted, r.Delivered = r.Counted+x.Counted, r.Delivered+x.Delivered
	r.FromCount, r.Below = r.FromCount || x.FromCount, r.Below || x.Below
	low, high := x.PerMillion, x.PerMillion
	switch {
	case x.FromCount:
		low, high = x.Low, x.High
	case x.Below:
		high = x.CountedHigh
	}
	r.Low += Number(part * low)
	r.High += Number(part * high)
	for _, from := range x.From {
		from.PerMillion *= part
		k := slices.IndexFunc(r.From, func(y RiskSource) bool {
			return y.Station == from.Station && y.Fault == from.Fault && y.Shipped == from.Shipped && y.Unfound == from.Unfound
		})
		if k < 0 {
			r.From = append(r.From, from)
			continue
		}
		r.From[k].PerMillion += from.PerMillion
	}
}
