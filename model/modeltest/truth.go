package modeltest

import (
	"netrate/model"
	"netrate/sim/output"
)

// The speed of TruthLine, in cycles an hour, and the length of its shift: a second a cycle.
const (
	TruthPerHour = 3600
	TruthCycles  = 20_000
)

// TruthLine returns a line of six stations that jam nothing: each stops the line for 20
// cycles with probability p, the first with p times a factor.
func TruthLine(factor float64) *model.Line {
	l := ZeroBufferLine(TruthPerHour, 1,
		ZeroBufferFaults{1, 0.002 * factor, 1, 20}, ZeroBufferFaults{5, 0.002, 1, 20})
	l.Shift = TruthCycles
	return l
}

// Truth returns the net rate of TruthLine: less the sets still on the line at the end.
func Truth(factor float64) float64 {
	efficiency := 1 / (1 + float64(20*0.002*(5+factor)))
	return TruthPerHour * (efficiency - 7.0/TruthCycles) // the delivery is 7 pitches on
}

// CountedLine is TruthLine, whose net rate is known in closed form, with what was seen of the
// faults of each station in a number of cycles.
func CountedLine(seen [6]int64, of int64) *model.Line {
	l := TruthLine(1)
	for i, n := range seen {
		f := l.Stations[i].(*model.Feeder)
		f.Double = float64(n) / float64(of)
		l.UncertainInputs = append(l.UncertainInputs, model.UncertainInput{Station: f.Name, Name: "double", Of: output.Counted{Seen: n, Of: of}})
	}
	return l
}

// OnPaper returns the net rate of TruthLine if its stations fail with these probabilities: as
// Truth does.
func OnPaper(p []float64) float64 {
	stops := 0.0
	for _, x := range p {
		stops += float64(20 * x)
	}
	return TruthPerHour * (1/(1+stops) - 7.0/TruthCycles)
}
