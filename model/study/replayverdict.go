package study

import "netrate/model/runs"

// Contradicted returns the tests in which the log is out of line, the other tests being
// allowed for.
func (a *ReplayAnswer) Contradicted() (out []runs.RecordTest) {
	for _, t := range a.Tests {
		if t.Out {
			out = append(out, t)
		}
	}
	return out
}

// LeastP returns the least P that there can be with a number of simulated records.
func (a *ReplayAnswer) LeastP() float64 { return 2 / float64(len(a.Drawn)+1) }

// TooFew reports whether so few records were simulated that no test can be out of line.
func (a *ReplayAnswer) TooFew() bool { return a.LeastP() > ShownP/float64(len(a.Tests)) }

// Enough returns the least number of records with which a test can be out of line.
func (a *ReplayAnswer) Enough() int { return int(2*float64(len(a.Tests))/ShownP) - 1 }

// Shows returns how large a difference must be to be seen, as a share, in stops and in
// seconds: half of what the middle of the simulated records lies between, over their mean.
// It is false where too little is simulated to say so.
func (a *ReplayAnswer) Shows() (stops, seconds float64, is bool) {
	var least [2]float64
	for i, t := range a.Tests[:runs.AllSeconds+1] {
		low, high := ReplayMiddle(t.Simulated)
		least[i] = (high - low) / 2 / t.Simulated.Mean()
		if !(least[i] > 0 && least[i] < 1) {
			return 0, 0, false
		}
	}
	return least[0], least[1], true
}

// TimeTwice reports whether simulated stops are shown to be longer than those of the log, and
// the line has walk or restart besides its clearing times, which may be in these already.
func (a *ReplayAnswer) TimeTwice() bool {
	stops, seconds := a.Tests[runs.AllStops], a.Tests[runs.AllSeconds]
	longer := seconds.Log*stops.Simulated.Mean() < seconds.Simulated.Mean()*stops.Log // a stop, in the simulation
	return seconds.Out && longer && (a.Line.Restart.Mean() > 0 || a.Line.Crew.Walk.Mean() > 0)
}

// Handled returns how much of the work the station that it is counted at handles in the
// simulation, as a share; 1 if the line does not have it.
func (a *ReplayAnswer) Handled() float64 {
	for i, s := range a.Line.Stations {
		if s.Where().Name != a.Work {
			continue
		}
		feeds := 0.0
		for _, r := range a.Drawn {
			feeds += float64(r.Feeds[i])
		}
		return feeds / float64(a.Sets()) / float64(len(a.Drawn))
	}
	return 1
}
