package seasons

import (
	"netrate/sim"
	"netrate/sim/tape"
)

// Values names what is recorded of a season: see [tape.Recorded].
func (r *seasonRun) Values(v *tape.Values) {
	tape.Slice(v, &r.change, func(x *sim.Seconds) { v.Float((*float64)(x)) })
	tape.Slice(v, &r.length, func(x *sim.Seconds) { v.Float((*float64)(x)) })
	r.total.Values(v)
}
