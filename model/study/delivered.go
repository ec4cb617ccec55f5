package study

import (
	"math"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
)

// What is read from the replications of a line, a line group or a line at several jobs.

// Length returns the mean length of a shift or, until it is finished, of a job, in seconds.
func Length(s *runs.Study) float64 {
	if s.Line.Job.Sets == 0 {
		return float64(s.Line.Shift)
	}
	return float64(s.Total.Job.Finish) / float64(len(s.Shifts))
}

// Total returns the sum of a figure of all replications.
func Total(s *runs.Study, figure func(*runs.Shift) float64) float64 {
	sum := 0.0
	for _, x := range s.Sample(figure) {
		sum += x
	}
	return sum
}

// CrewBusy returns the share of its time that a crew walks or works.
func CrewBusy(s *runs.Study) sim.Estimate {
	e := s.Interval(func(s *runs.Shift) float64 { return s.CrewBusy }, Level)
	time := s.Line.Crew.Attending(s.Line.Shift) * Length(s)
	e.Mean, e.Half = e.Mean/time, e.Half/time
	return e
}

// CrewParts returns the shares of its time in which a crew clears faults, and in which it sees
// to stocks.
func CrewParts(s *runs.Study) (faults, stocks float64) {
	time := s.Line.Crew.Attending(s.Line.Shift) * Length(s) * float64(len(s.Shifts))
	stocks = Total(s, func(s *runs.Shift) float64 { return s.StockBusy }) / time
	return Total(s, func(s *runs.Shift) float64 { return s.CrewBusy })/time - stocks, stocks
}

// DefectivePerMillion returns the defective envelopes in a million delivered, of all jobs in
// their shares.
func DefectivePerMillion(s *runs.Study) float64 {
	if s.Jobs() == nil {
		return PerMillion(&s.Total)
	}
	bad := Total(s, func(s *runs.Shift) float64 { return s.Defective })
	return 1e6 * bad / max(1, bad+Total(s, func(s *runs.Shift) float64 { return s.Good }))
}

// PerMillion returns the defective envelopes in a million delivered.
func PerMillion(o *model.Outcome) float64 {
	return 1e6 * float64(o.Sets.Defective) / max(1, float64(o.Sets.Good+o.Sets.Defective))
}

// Defects is what is known of the defective envelopes among those delivered, of all jobs in
// their shares.
type Defects struct {
	PerMillion float64
	Seen       bool    // there were some
	Half       float64 // about two standard errors of PerMillion, if some were seen; what is uncertain is in them
	Below      float64 // in a million, at 95 %, if none was seen; of several jobs as if all were of the one that is known least
	Possible   bool    // the line can deliver some at all
}

// DefectsOf returns what a study shows of them. Where none was seen among n envelopes, their
// share is below 3/n with a confidence of 95 %.
//
// Source: Hanley and Lippman-Hand, If nothing goes wrong, is everything all right?, JAMA 249
// (1983) 1743–1745 (from memory).
func DefectsOf(s *runs.Study) Defects {
	variance, least := 0.0, 0.0 // in shares of all that is delivered
	d := Defects{PerMillion: DefectivePerMillion(s), Possible: CanDeliverDefective(s)}
	varying := 0.0 // standard deviation of the long run; of jobs, whose inputs are the same, they add up
	for _, x := range lots(s) {
		each := x.share / max(1, float64(x.delivered.Good+x.delivered.Defective))
		variance += float64(each * each * float64(x.delivered.Defective))
		varying += float64(each * float64(x.delivered.Defective) * x.vary)
		least = max(least, float64(each*noneBelow(x.vary)))
		d.Seen = d.Seen || x.delivered.Defective > 0
	}
	d.Half, d.Below = 2e6*math.Sqrt(variance+float64(varying*varying)), 1e6*least
	return d
}

// Low returns the least that the share may be, in a million.
func (d Defects) Low() float64 { return max(0, d.PerMillion-d.Half) }

// High returns the most that it may be, in a million.
func (d Defects) High() float64 {
	switch {
	case d.Seen:
		return d.PerMillion + d.Half
	case d.Possible:
		return d.Below
	}
	return 0
}

// noneBelow returns how many of very many trials succeed at the most, at 95 %, if none was seen to;
// the true share has a coefficient of variation.
func noneBelow(cv float64) float64 {
	if cv == 0 {
		return 3
	}
	const many = 1 << 40
	_, high := output.VaryingInterval(0, many, cv, 0.9)
	return many * high
}

// lot is one kind of work: its share of the good envelopes, what was seen of it, and how far
// draws differ in the defective ones.
type lot struct {
	share     float64
	delivered model.Sets
	vary      float64
}

// lots returns the kinds of work of a study.
func lots(s *runs.Study) []lot {
	if s.Jobs() == nil {
		return []lot{{1, s.Total.Sets, s.DefectsVary().Rate}}
	}
	var all []lot
	for _, j := range s.Jobs() {
		all = append(all, lot{j.Share, j.Study.Total.Sets, j.Study.DefectsVary().Rate})
	}
	return all
}

// CanDeliverDefective reports whether a line could deliver what is not as it should be, at one of
// its jobs if it has several.
func CanDeliverDefective(s *runs.Study) bool {
	if s.Jobs() == nil {
		return s.Line.CanLeak()
	}
	return slices.ContainsFunc(s.Jobs(), func(j runs.MixedJob) bool { return j.Study.Line.CanLeak() })
}
