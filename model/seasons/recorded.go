package seasons

import (
	"netrate/model"
	"netrate/sim"
	"netrate/sim/tape"
)

// Values names what is recorded of a season: see [tape.Recorded].
func (r *seasonRun) Values(v *tape.Values) {
	tape.Slice(v, &r.change, func(x *sim.Seconds) { v.Float((*float64)(x)) })
	tape.Slice(v, &r.length, func(x *sim.Seconds) { v.Float((*float64)(x)) })
	tape.Slice(v, &r.bench, func(x *sim.Seconds) { v.Float((*float64)(x)) })
	tape.Slice(v, &r.stood, func(x *sim.Seconds) { v.Float((*float64)(x)) })
	tape.Slice(v, &r.lacks, func(x *float64) { v.Float(x) })
	tape.Slice(v, &r.used, func(u *Used) { u.Values(v) })
	r.total.Values(v)
}

// togetherWork is what the jobs of several lines came to in one replication.
type togetherWork struct {
	lines [][]model.JobRun
	used  Used // nothing if it is not kept
}

// Values names what is recorded of it: what the study of the work is made of.
func (w *togetherWork) Values(v *tape.Values) {
	tape.Slice(v, &w.lines, func(line *[]model.JobRun) {
		tape.Slice(v, line, func(j *model.JobRun) {
			for _, x := range [...]*sim.Seconds{&j.Begun, &j.First, &j.Free, &j.Finished} {
				v.Float((*float64)(x))
			}
			for _, n := range [...]*int64{&j.Outcome.Job.ByHand, &j.Outcome.Sets.Good, &j.Outcome.Sets.Defective} {
				v.Int(n)
			}
		})
	})
	w.used.Values(v)
}
