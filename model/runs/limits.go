package runs

import (
	"netrate/model"
	"netrate/sim"
)

// Every replication is kept, because answers are made of how lines differ in each. More than
// these, of all lines together, are refused before anything is run.
const (
	MostReplications = 10_000_000 // 1.4 GB
	mostDrawn        = 20_000_000 // values of uncertain inputs, 160 MB
	mostSums         = 50_000_000 // of the stops of a record: of each cause or period, 0.8 GB
)

// within returns an error if that many lines have more replications than can be kept.
func within(lines int, plan sim.Plan) error {
	return sim.AtMostKept(MostReplications, lines, "line", plan.Max, "replication")
}

// DrawsFit returns an error if a number of draws of some lines, and of replications of each draw,
// are more than can be kept.
func DrawsFit(draws, each int, lines ...*model.Line) error {
	inputs := 0
	for _, l := range lines {
		inputs += len(l.UncertainInputs)
	}
	if err := sim.AtMostKept(mostDrawn, inputs, "uncertain input", draws, "draw"); err != nil {
		return err
	}
	return sim.AtMostKept(MostReplications/each, len(lines), "line", draws, "draw")
}
