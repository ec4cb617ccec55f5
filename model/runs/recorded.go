package runs

import (
	"netrate/model"
	"netrate/sim/tape"
)

// What replications come to is recorded by tapes: see [tape.Recorded]. Figures that are worked out
// of an outcome alone are worked out again.

// Values names what is recorded of a replication.
func (r *replication) Values(v *tape.Values) {
	r.Outcome.Values(v)
	tape.Slice(v, &r.course, v.Int)
	r.figured = r.figured && !v.Reading()
}

// replications is one replication of several lines.
type replications []replication

// Values names what is recorded of them: nothing of a line that was not run.
func (r *replications) Values(v *tape.Values) {
	tape.Slice(v, (*[]replication)(r), func(one *replication) {
		ran := int64(0)
		if one.Time.Shift > 0 {
			ran = 1
		}
		if v.Int(&ran); ran != 0 {
			one.Values(v)
		} else {
			one.Time = model.Time{}
		}
	})
}

// workReplications is one replication of the lines of several works.
type workReplications [][]replication

// Values names what is recorded of them.
func (w *workReplications) Values(v *tape.Values) {
	tape.Slice(v, (*[][]replication)(w), func(lines *[]replication) { (*replications)(lines).Values(v) })
}

// Values names what is recorded of a trial.
func (r *TrialRun) Values(v *tape.Values) {
	r.Outcome.Values(v)
	tape.Slice(v, &r.Good, v.Int)
	tape.Slice(v, &r.Shifts, func(x *TrialSums) {
		for _, n := range []*int64{&x.Good, &x.Sets, &x.Stops, &x.Cleared, &x.Defective, &x.TakenOut} {
			v.Int(n)
		}
		v.Float((*float64)(&x.Clearing))
	})
}

// Values names what is recorded of a record.
func (r *Replica) Values(v *tape.Values) {
	if v.Reading() {
		*r = Replica{} // which is kept
	}
	stops := func(s *StopSum) {
		v.Int(&s.Stops)
		v.Float((*float64)(&s.Seconds))
	}
	tape.Slice(v, &r.Periods, stops)
	tape.Slice(v, &r.Causes, func(station *[model.Causes]StopSum) {
		for c := range station {
			stops(&station[c])
		}
	})
	tape.Slice(v, &r.Feeds, v.Int)
}

// uncertaintyDraws is one draw of several lines or line groups.
type uncertaintyDraws []uncertaintyDraw

// Values names what is recorded of it.
func (u *uncertaintyDraws) Values(v *tape.Values) {
	tape.Slice(v, (*[]uncertaintyDraw)(u), func(d *uncertaintyDraw) {
		if v.Reading() {
			d.values = nil // which are kept
		}
		tape.Slice(v, &d.values, v.Float)
		tape.Slice(v, &d.lines, func(s *Study) { s.Values(v) })
	})
}

// Values names what is recorded of a study: what its replications came to, but not of which line.
func (s *Study) Values(v *tape.Values) {
	if v.Reading() {
		s.Line = nil
	}
	tape.Slice(v, &s.Shifts, func(one *Shift) {
		for _, x := range one.figures() {
			v.Float(x)
		}
		v.Float(&one.Finish)
	})
	tape.Slice(v, &s.course, v.Int)
	s.Total.Values(v)
}

// Values names what is recorded of some replications of one line among others.
func (s *stretch) Values(v *tape.Values) {
	if v.Reading() {
		*s = stretch{} // which is kept
	}
	tape.Slice(v, &s.rates, v.Float)
	tape.Slice(v, &s.each, func(job *[]replication) {
		tape.Slice(v, job, func(one *replication) { one.Values(v) })
	})
}
