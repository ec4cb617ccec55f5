package scenarios

import (
	"slices"

	"github.com/invopop/jsonschema"

	"netrate/model"
	"netrate/sim"
)

// feedingClear is the clearing times of a feeder or a document channel: one for all faults, or a
// mapping of the faults, and of all others.
type feedingClear struct {
	Misfeed *duration `yaml:"misfeed,omitempty" jsonschema_description:"of a misfeed, or of too many in a row"`
	Double  *duration `yaml:"double,omitempty" jsonschema_description:"of a double, or of what is taken for one"`
	Jam     *duration `yaml:"jam,omitempty" jsonschema_description:"of a jam"`
	otherClear
}

// insertingClear is those of an inserter.
type insertingClear struct {
	EnvelopeMisfeed *duration `yaml:"envelope_misfeed,omitempty" jsonschema_description:"of a missing envelope"`
	Flap            *duration `yaml:"flap,omitempty" jsonschema_description:"of a flap that stays shut"`
	Jam             *duration `yaml:"jam,omitempty" jsonschema_description:"of a jam"`
	otherClear
}

// readingClear is those of a reader.
type readingClear struct {
	NoRead     *duration `yaml:"no_read,omitempty" jsonschema_description:"of a set that cannot be read"`
	FalseAlarm *duration `yaml:"false_alarm,omitempty" jsonschema_description:"of a set that is taken for a mismatch"`
	Mismatch   *duration `yaml:"mismatch,omitempty" jsonschema_description:"of an alarm; the time to realign the stream if not given"`
	otherClear
}

// otherClear is the clearing time of faults without a time of their own.
type otherClear struct {
	Others *duration `yaml:"others,omitempty" jsonschema_description:"of all other faults; needed unless each has its own"`

	none bool // every fault has a time of its own
}

// The faults whose times are needed where there is none for all others.
var (
	feedingFaults   = []string{"misfeed", "double", "jam"}
	insertingFaults = []string{"envelope_misfeed", "flap", "jam"}
	readingFaults   = []string{"no_read", "false_alarm"}
)

// otherFaults is the key of the time of all other faults.
const otherFaults = "others"

// clearKeys are the keys of times by fault.
var clearKeys = slices.Concat(feedingFaults, insertingFaults, readingFaults, []string{"mismatch", otherFaults})

func (x *feedingClear) decode(r *reader, n *node, key string) {
	r.clearing(n, key, x, &x.otherClear, feedingFaults)
}

func (x *insertingClear) decode(r *reader, n *node, key string) {
	r.clearing(n, key, x, &x.otherClear, insertingFaults)
}

func (x *readingClear) decode(r *reader, n *node, key string) {
	r.clearing(n, key, x, &x.otherClear, readingFaults)
}

// clearing reads clearing times, of which those of some faults are needed or the time of all others.
func (r *reader) clearing(n *node, key string, all value, others *otherClear, needed []string) {
	switch {
	case isReference(n):
		if c := r.standing(n, key); c != nil {
			all.decode(r, c, key)
			r.bad[n] = r.spoilt(c)
		}
		return
	case !byFault(n):
		others.Others = new(duration)
		others.Others.decode(r, n, key)
		return
	}
	r.inside(n, key, all)
	var lacks []string
	for _, fault := range needed {
		if child(n, fault) == nil {
			lacks = append(lacks, fault)
		}
	}
	if others.none = len(lacks) == 0 && others.Others == nil; others.none || others.Others != nil || r.spoilt(n) {
		return
	}
	r.note(n, "%s has no time of %s: want each, or others: the time of all other faults", key, model.Listed(lacks))
}

// byFault reports whether a value is a mapping of times by fault.
func byFault(n *node) bool {
	return slices.ContainsFunc(clearKeys, func(key string) bool { return child(n, key) != nil })
}

// ByFault reports whether a clearing time, as YAML has it, is a mapping of times by fault.
func ByFault(clear any) bool {
	times, _ := clear.(map[string]any)
	return slices.ContainsFunc(clearKeys, func(key string) bool { return times[key] != nil })
}

// times returns the usual time, nil if there is no fault that takes it, and those of single faults.
func (x *feedingClear) times() (usual sim.Duration, own model.Clearings) {
	if x == nil {
		return sim.Constant(0), own
	}
	own[model.Misfeed], own[model.Double], own[model.Jam] = x.Misfeed.given(), x.Double.given(), x.Jam.given()
	return x.usual(), own
}

func (x *insertingClear) times() (usual sim.Duration, own model.Clearings) {
	if x == nil {
		return sim.Constant(0), own
	}
	own[model.EnvelopeMisfeed], own[model.Flap], own[model.InsertionJam] = x.EnvelopeMisfeed.given(), x.Flap.given(), x.Jam.given()
	return x.usual(), own
}

func (x *readingClear) times() (usual sim.Duration, own model.Clearings) {
	if x == nil {
		return sim.Constant(0), own
	}
	own[model.NoRead], own[model.FalseAlarm], own[model.Mismatch] = x.NoRead.given(), x.FalseAlarm.given(), x.Mismatch.given()
	return x.usual(), own
}

func (x *otherClear) usual() sim.Duration {
	if x.none {
		return nil
	}
	return x.Others.time()
}

// given returns the time, or nil where there is none.
func (x *duration) given() sim.Duration {
	if x == nil {
		return nil
	}
	return x.time()
}

func (feedingClear) JSONSchemaExtend(s *jsonschema.Schema) { orOneTime(s, feedingFaults) }
func (insertingClear) JSONSchemaExtend(s *jsonschema.Schema) {
	orOneTime(s, insertingFaults)
}
func (readingClear) JSONSchemaExtend(s *jsonschema.Schema) { orOneTime(s, readingFaults) }

// orOneTime makes the schema of times by fault, of which some are needed or that of all others, one
// that may also be one time of all faults.
func orOneTime(s *jsonschema.Schema, needed []string) {
	split := *s
	split.Description = "times of single faults"
	split.AnyOf = []*jsonschema.Schema{{Required: needed}, {Required: []string{otherFaults}}}
	*s = jsonschema.Schema{OneOf: []*jsonschema.Schema{{Ref: "#/$defs/duration"}, &split}, Description: "one time for all faults, or times by fault"}
}
