package study

import (
	"math"

	"netrate/sim/accept"
)

// AcceptanceEnded is what became of a test that may end after each shift, by its good envelopes.
type AcceptanceEnded struct {
	Over   bool       `json:"over"`  // else it goes on, and nothing is decided
	Parts  int        `json:"parts"` // of the result that it took, or all
	Later  int        `json:"later"` // parts after its end, which decide nothing
	Hours  Number     `json:"hours"` // that it took
	Good   Number     `json:"good"`  // envelopes in these
	Passes bool       `json:"passes"`
	AsBad  Proportion `json:"good_line_failed_by_then"` // the chance that a good line fails in as many shifts
	AsGood Proportion `json:"bad_line_passed_by_then"`

	Looks []AcceptanceLook `json:"after_each_part"`
}

// AcceptanceLook is what was seen when the counts of a part were added up, and at what a line would have passed and failed.
type AcceptanceLook struct {
	Hours  Number `json:"hours"`
	Good   Number `json:"good"`
	Passes Number `json:"passes_at"`
	Fails  Number `json:"fails_below"`
}

// AcceptanceEndedAlone is what became of the sequential test of one clause, looked at after each part.
// It has a limit of its own, and may end when that of the net rate goes on.
type AcceptanceEndedAlone struct {
	Over     bool   `json:"over"`
	Accepted bool   `json:"accepted"`
	Parts    int    `json:"parts"`
	Length   Number `json:"length"`      // sets or envelopes
	Seen     Number `json:"seen"`        // stops or defective envelopes in these
	Accept   Number `json:"accepted_at"` // by then, at most; below 0 where nothing is as yet
	Reject   Number `json:"rejected_at"` // at least

	Risk *Number `json:"risk,omitempty"` // that a bad line was accepted by then or, of one rejected, a good one; of looks at these moments alone. nil where it is not known
}

// partsRight returns what is wrong with the parts of a test that may end after each shift.
func (q *Acceptance) partsRight() error {
	if len(q.Result.Parts) == 0 {
		return impossible("a test that may end after each shift is judged by the counts of each")
	}
	shift := float64(shiftwork(q.Good).Shift) / 3600
	for i, x := range q.Result.Parts {
		if !(x.Hours > 0 && x.Hours <= fasterByClock*shift) {
			return impossible("row %d is of %g h, and the test may end after each shift of %g h: want a row for each shift", i+1, x.Hours, shift)
		}
	}
	return nil
}

// partLeast is the least part of a shift after which is looked whether the test is over: who looks more
// often has other risks.
const partLeast = 0.5

// first returns the sums of the first parts.
func (r *AcceptanceResult) first(parts int) AcceptanceResult {
	x := *r
	x.Hours, x.Good, x.Parts = 0, 0, r.Parts[:parts]
	for _, f := range []func(*AcceptanceResult) *float64{
		func(r *AcceptanceResult) *float64 { return &r.Sets }, func(r *AcceptanceResult) *float64 { return &r.Stops },
		func(r *AcceptanceResult) *float64 { return &r.Clearing }, func(r *AcceptanceResult) *float64 { return &r.Defective },
		func(r *AcceptanceResult) *float64 { return &r.TakenOut },
	} {
		*f(&x) = 0
		for i := range x.Parts {
			part := *f(&x.Parts[i])
			if part < 0 { // it was not counted
				*f(&x) = -1
				break
			}
			*f(&x) += part
		}
	}
	for _, part := range x.Parts {
		x.Hours, x.Good = x.Hours+part.Hours, x.Good+part.Good
	}
	return x
}

// decided says what became of the test, as its shifts went.
func (t *acceptanceTest) decided() *AcceptanceEnded {
	shift := float64(t.sides[0].line.Shift) / 3600
	d := &AcceptanceEnded{Parts: len(t.Result.Parts)}
	since := 0.0
	for i, part := range t.Result.Parts {
		d.Hours, d.Good, since = d.Hours+Number(part.Hours), d.Good+Number(part.Good), since+part.Hours
		if since < partLeast*shift {
			continue
		}
		since = 0
		pass, fail := t.staged.At(float64(d.Hours) / shift)
		d.Looks = append(d.Looks, AcceptanceLook{d.Hours, d.Good, Number(pass), Number(fail)})
		if d.Passes = float64(d.Good) >= pass; d.Passes || float64(d.Good) < fail {
			d.Over, d.Parts, d.Later = true, i+1, len(t.Result.Parts)-i-1
			break
		}
	}
	stage := min(len(t.staged.Pass), max(1, int(math.Round(float64(d.Hours)/shift)))) - 1
	d.AsBad = wrongly(accept.Wrong{Times: t.tried.Failed[stage], Of: t.tried.Seller.Of})
	d.AsGood = wrongly(accept.Wrong{Times: t.tried.Passed[stage], Of: t.tried.Buyer.Of})
	return d
}

// decidedAlone says what became of the sequential test of a clause; nil if it has none that counts decide.
func (t *acceptanceTest) decidedAlone(c *AcceptanceClause, a *AcceptanceAnswer) *AcceptanceEndedAlone {
	if c.Alone == nil || c.Of == AcceptanceClearing || math.IsNaN(t.Result.figure(c.Of)) {
		return nil
	}
	x := c.Alone
	test := accept.Truncated{Sequential: accept.Sequential{Slope: float64(x.Slope), Accept: float64(x.Accept), Reject: float64(x.Reject)}, End: float64(x.End)}
	if test.End == 0 {
		test.End = math.Inf(1)
	}
	d := &AcceptanceEndedAlone{}
	var looks []float64
	for i := range t.Result.Parts {
		so := t.Result.first(i + 1)
		length, seen := so.Sets, so.Stops
		if c.Of == AcceptanceDefective {
			length, seen = so.Good+so.Defective, so.Defective
		}
		looks = append(looks, length)
		d.Parts, d.Length, d.Seen = i+1, Number(length), Number(seen)
		d.Accept, d.Reject = Number(x.Slope*d.Length)-x.Accept, Number(x.Slope*d.Length)+x.Reject
		if d.Over, d.Accepted = test.After(length, int64(seen)); d.Over {
			break
		}
	}
	if d.Over && x.Exact != nil {
		_, unit := t.size(c.Of, a)
		wrong, _ := test.Looked(float64(c.Bad)/unit, looks)
		if !d.Accepted {
			_, wrong = test.Looked(float64(c.Good)/unit, looks)
		}
		d.Risk = new(Number(wrong))
	}
	return d
}
