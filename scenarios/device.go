package scenarios

import (
	"github.com/invopop/jsonschema"

	"netrate/model"
	"netrate/sim"
)

// device is a device as it is written.
type device struct {
	stationHead
	Does    *name                 `yaml:"does" jsonschema_description:"what it does to each set, in a word or two, such as print, stamp, turn over, seal or weigh"`
	Only    *name                 `yaml:"only,omitempty" jsonschema_description:"the attribute, one of the line's, of the sets that it does this to; all sets if not given"`
	Rated   *speed                `yaml:"rated,omitempty" jsonschema_description:"rated speed, at which its faults were counted; no limit of its own if not given"`
	Misfeed *uncertainProbability `yaml:"misfeed" jsonschema_description:"probability that nothing is done to a set"`
	Jam     *uncertainProbability `yaml:"jam" jsonschema_description:"probability that a set jams"`
	Noticed *uncertainProbability `yaml:"noticed,omitempty" jsonschema_description:"share of the misfeeds that are noticed; 100% if not given"`
	Growth  *uncertainFactor      `yaml:"growth,omitempty" jsonschema_description:"faults grow with (speed/rated) to this power; 0 if not given"`
	Stock   *hopper               `yaml:"stock,omitempty" jsonschema_description:"what it uses up, a piece for each set, such as stamps, or the prints of a cartridge; nothing if not given"`
	Clear   *deviceClear          `yaml:"clear" jsonschema_description:"an operator's time for clearing a fault, after the walk"`
	Policy  *devicePolicy         `yaml:"policy,omitempty" jsonschema_description:"responses to its faults, instead of those of the line"`
}

// deviceClear is the clearing times of a device.
type deviceClear struct {
	Misfeed *duration `yaml:"misfeed,omitempty" jsonschema_description:"of a set to which nothing was done: the operator does it by hand"`
	Jam     *duration `yaml:"jam,omitempty" jsonschema_description:"of a jam"`
	otherClear
}

type devicePolicy struct {
	Misfeed *answer `yaml:"misfeed,omitempty" jsonschema_description:"response to a set to which nothing was done"`
	Jam     *forced `yaml:"jam,omitempty" jsonschema_description:"always stop: a jam stops the line by itself"`
}

var deviceFaults = []string{"misfeed", "jam"}

func (x *deviceClear) decode(r *reader, n *node, key string) {
	r.clearing(n, key, x, &x.otherClear, deviceFaults)
}

func (s *device) Build(policy Policy) model.Station {
	usual, times := s.Clear.times()
	d := &model.Device{
		Place:     s.place(s.Rated),
		Does:      string(or(s.Does, "")),
		Only:      string(or(s.Only, "")),
		Misfeed:   float64(or(s.Misfeed, 0)),
		Jam:       float64(or(s.Jam, 0)),
		Noticed:   float64(or(s.Noticed, 1)),
		Growth:    float64(or(s.Growth, 0)),
		OnMisfeed: policy.Response(model.Misfeed, or(s.Policy, devicePolicy{}).Misfeed),
		Clear:     usual,
		Clearings: times,
	}
	if s.Stock != nil {
		d.Stock = s.Stock.filled()
	}
	return d
}

func (x *deviceClear) times() (usual sim.Duration, own model.Clearings) {
	if x == nil {
		return sim.Constant(0), own
	}
	own[model.Misfeed], own[model.Jam] = x.Misfeed.given(), x.Jam.given()
	return x.usual(), own
}

func (deviceClear) JSONSchemaExtend(s *jsonschema.Schema) { orOneTime(s, deviceFaults) }
