package affixer

import (
	"netrate/model"
	"netrate/scenarios"
)

func init() {
	scenarios.AddKind("stamp affixer", "puts a stamp onto each envelope that passes", func() scenarios.Machine { return new(written) })
}

// written is a stamp affixer as it is written.
type written struct {
	scenarios.Head
	Rated   *scenarios.Speed  `yaml:"rated,omitempty" jsonschema_description:"rated speed; no limit of its own if not given"`
	Misfeed *scenarios.Odds   `yaml:"misfeed" jsonschema_description:"probability that no stamp comes"`
	Jam     *scenarios.Odds   `yaml:"jam" jsonschema_description:"probability that an envelope jams"`
	Noticed *scenarios.Odds   `yaml:"noticed,omitempty" jsonschema_description:"share of the misfeeds that are noticed; 100% if not given"`
	Roll    *scenarios.Hopper `yaml:"roll" jsonschema_description:"its stamps"`
	Clear   *scenarios.Time   `yaml:"clear" jsonschema_description:"an operator's time for clearing a fault, after the walk"`
	Policy  *policy           `yaml:"policy,omitempty" jsonschema_description:"responses to its faults, instead of those of the line"`
}

type policy struct {
	Misfeed *scenarios.Answer `yaml:"misfeed,omitempty" jsonschema_description:"response to an envelope without a stamp"`
	Jam     *scenarios.Forced `yaml:"jam,omitempty" jsonschema_description:"always stop: a jam stops the line by itself"`
}

func (w *written) Build(line scenarios.Policy) model.Station {
	var own policy
	if w.Policy != nil {
		own = *w.Policy
	}
	return &affixer{
		Place:     w.Place(w.Rated),
		Roll:      w.Roll.Stock(),
		Misfeed:   scenarios.Number(w.Misfeed, 0),
		Jam:       scenarios.Number(w.Jam, 0),
		Noticed:   scenarios.Number(w.Noticed, 1),
		OnMisfeed: line.Response(model.Misfeed, own.Misfeed),
		Clear:     w.Clear.Duration(),
	}
}
