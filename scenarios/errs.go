package scenarios

import (
	"netrate/model"
	"netrate/sim"
)

// crewErrors is how often operators err.
type crewErrors struct {
	WrongRepair  *uncertainProbability `yaml:"wrong_repair,omitempty" jsonschema_description:"probability that an operator leaves a set as it was that he is to put right after a misfeed or a double; 0 if not given"`
	WrongRealign *uncertainProbability `yaml:"wrong_realign,omitempty" jsonschema_description:"probability that an operator who puts a stream in step again is one piece short; 0 if not given"`
}

// wrongStock is how often the wrong pieces are brought to a hopper, and who finds them.
type wrongStock struct {
	PerRefill  *uncertainProbability `yaml:"per_refill" jsonschema_description:"probability that the pieces of a refill are the wrong ones"`
	FoundBy    *name                 `yaml:"found_by,omitempty" jsonschema_description:"the reader that sees it in a set; none if not given"`
	FoundAfter *duration             `yaml:"found_after,omitempty" jsonschema_description:"time from the refill until an operator sees it; never if not given"`
	Change     *duration             `yaml:"change,omitempty" jsonschema_description:"an operator's time for changing it, after the walk; that of a refill if not given"`
}

// mixup returns what may be wrong with a stock, and the time for changing it, nil for that of a refill.
func (x *wrongStock) mixup() (model.Mixup, sim.Duration) {
	if x == nil {
		return model.Mixup{}, nil
	}
	return model.Mixup{
		Chance: float64(or(x.PerRefill, 0)), FoundBy: string(or(x.FoundBy, "")), FoundAfter: x.FoundAfter.given(),
	}, x.Change.given()
}
