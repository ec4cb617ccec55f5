package scenarios

import (
	"errors"

	"github.com/invopop/jsonschema"

	"netrate/model"
	"netrate/sim"
)

// slow is when a line runs slower than its speed, as it is written.
type slow struct {
	Starting *slowly   `yaml:"starting,omitempty" jsonschema_description:"the first cycles after each start"`
	AfterJam *slowly   `yaml:"after_jam,omitempty" jsonschema_description:"the first cycles after a standstill in which a jam was cleared"`
	Stopping *slowly   `yaml:"stopping,omitempty" jsonschema_description:"the last cycles before a stop: the line is at rest, and a fault can be cleared, after the time that these take beyond others"`
	Repeated *repeated `yaml:"repeated,omitempty" jsonschema_description:"what the crew does where stops for faults come one after the other: it lets the line run slower for a while"`
}

// slowly is some cycles at a share of the speed.
type slowly struct {
	Cycles *uncertainCount       `yaml:"cycles" jsonschema_description:"how many"`
	At     *uncertainProbability `yaml:"at" jsonschema_description:"share of the speed of the line at which they are run"`
}

// repeated is what is done about stops that come one after the other.
type repeated struct {
	Stops  *capacity             `yaml:"stops" jsonschema_description:"the line runs slower after this many stops for faults"`
	Within *uncertainTime        `yaml:"within" jsonschema_description:"in this time"`
	At     *uncertainProbability `yaml:"at" jsonschema_description:"share of the speed of the line at which it then runs"`
	For    *uncertainTime        `yaml:"for" jsonschema_description:"until it has run for this long without standing still"`
	Until  *eased                `yaml:"until,omitempty" jsonschema_description:"refill: or until the hopper is filled of the station at which it stopped, if that is sooner"`
}

func (s *slow) slow() (m model.Slow) {
	if s == nil {
		return m
	}
	m.Starting, m.AfterJam, m.Stopping = s.Starting.slowly(), s.AfterJam.slowly(), s.Stopping.slowly()
	if r := s.Repeated; r != nil {
		m.Repeated = model.Repeated{
			Stops: int(or(r.Stops, 0)), Within: sim.Seconds(or(r.Within, 0)), Share: float64(or(r.At, 0)), For: sim.Seconds(or(r.For, 0)), Refill: bool(or(r.Until, false)),
		}
	}
	return m
}

func (s *slowly) slowly() model.Slowly {
	if s == nil {
		return model.Slowly{}
	}
	return model.Slowly{Cycles: float64(or(s.Cycles, 0)), Share: float64(or(s.At, 0))}
}

// eased is whether a crew lets the line run at its speed again once the hopper is filled.
type eased bool

const untilRefill = "refill"

func (x *eased) read(text string) error {
	if *x = text == untilRefill; *x {
		return nil
	}
	return errors.New(meant(text, []string{untilRefill}))
}

func (eased) JSONSchema() *jsonschema.Schema { return choice(untilRefill) }
