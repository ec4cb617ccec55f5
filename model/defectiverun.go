package model

import "netrate/sim"

// defectiveRun follows the sets delivered defective one right after another: a good one ends
// the run, one that does not come to the delivery leaves it as it is.
type defectiveRun struct {
	length  int64      // of the one under way; 0 for none
	next    sim.Cycles // the set that would go on with it: all before it are seen to
	longest int64
	begun   [][faults]int64 // runs, by the station and the fault of their first set
}

func (r *defectiveRun) begin() {
	r.length, r.next, r.longest = 0, 0, 0
	clear(r.begun)
}

// follow looks at the odd sets up to the last that have not been seen to, in their order. All
// of these have left the line; between them are good ones.
func (r *defectiveRun) follow(odds []odd, last sim.Cycles) {
	for {
		var o *odd
		for k := range odds {
			if x := &odds[k]; x.set >= r.next && x.set <= last && (o == nil || x.set < o.set) {
				o = x
			}
		}
		if o == nil {
			break
		}
		if o.set != r.next || o.fate == fine {
			r.length = 0
		}
		if r.next = o.set + 1; o.fate == Defective {
			if r.length++; r.length == 1 {
				r.begun[o.blame][o.fault]++
			}
			r.longest = max(r.longest, r.length)
		}
	}
}
