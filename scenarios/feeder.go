package scenarios

import "netrate/model"

// feeder is a feeder as it is written.
type feeder struct {
	stationHead
	Preset *presetName `yaml:"preset,omitempty" jsonschema_description:"a usual feeder to begin with; what the station itself says wins"`
	feederRates
	Hopper     *hopper               `yaml:"hopper" jsonschema_description:"its pieces"`
	Lots       *lots                 `yaml:"lots,omitempty" jsonschema_description:"what lots its pieces come in, some worse than others; all alike if not given"`
	Material   *uncertainFactor      `yaml:"material,omitempty" jsonschema_description:"factor of the insert on misfeed, double and jam; 1 if not given"`
	Noticed    *uncertainProbability `yaml:"noticed,omitempty" jsonschema_description:"share of the misfeeds that are noticed; 100% if not given"`
	Caught     *uncertainProbability `yaml:"caught,omitempty" jsonschema_description:"share of the doubles that are noticed; 100% if not given"`
	FalseCalls *uncertainProbability `yaml:"false_calls,omitempty" jsonschema_description:"share of the good feeds that are taken for doubles; 0 if not given"`
	Streak     *streak               `yaml:"streak,omitempty" jsonschema_description:"misfeeds in a row"`
	Share      *probability          `yaml:"share,omitempty" jsonschema_description:"share of the sets that it feeds; 100% if not given"`
	Only       *name                 `yaml:"only,omitempty" jsonschema_description:"the attribute, one of the line's, of the sets that it feeds; all sets if not given"`
	WrongStock *wrongStock           `yaml:"wrong_stock,omitempty" jsonschema_description:"wrong pieces brought to the hopper; never if not given"`
	Stream     *stream               `yaml:"stream,omitempty" jsonschema_description:"what it carries if its pieces are personalised"`
	Takes      *takes                `yaml:"takes,omitempty" jsonschema_description:"what can be put into it; anything if not given"`
	Policy     *feederPolicy         `yaml:"policy,omitempty" jsonschema_description:"responses to its faults, instead of those of the line"`
}

// feederRates is what a preset gives.
type feederRates struct {
	Rated   *speed                `yaml:"rated" jsonschema_description:"rated speed, at which its faults were counted"`
	Misfeed *uncertainProbability `yaml:"misfeed" jsonschema_description:"probability that a feed brings nothing"`
	Double  *uncertainProbability `yaml:"double" jsonschema_description:"probability that a feed brings two pieces"`
	Jam     *uncertainProbability `yaml:"jam" jsonschema_description:"probability that a feed jams"`
	Growth  *uncertainFactor      `yaml:"growth,omitempty" jsonschema_description:"faults grow with (speed/rated) to this power; 0 if not given"`
	Clear   *feedingClear         `yaml:"clear" jsonschema_description:"an operator's time for clearing a fault, after the walk"`
}

type streak struct {
	Again     *uncertainProbability `yaml:"again,omitempty" jsonschema_description:"probability of a misfeed right after a misfeed; as always if not given"`
	StopAfter *count                `yaml:"stop_after,omitempty" jsonschema_description:"this many misfeeds in a row stop the line; 0 or not given: never"`
}

// decode reads a feeder over its preset.
func (f *feeder) decode(r *reader, n *node, key string) {
	if preset := child(n, "preset"); preset != nil {
		f.feederRates = ratesOf(preset.Value)
	}
	r.inside(n, key, f)
}

func (f *feeder) Build(policy Policy) model.Station { return f.fed(policy) }

func (f *feeder) fed(policy linePolicy) *model.Feeder {
	streak := or(f.Streak, streak{})
	onMisfeed, onDouble := policy.feeding(f.Policy, f.Stream)
	usual, times := f.Clear.times()
	mixup, change := f.WrongStock.mixup()
	times[model.WrongStock] = change
	return &model.Feeder{
		Place:      f.place(f.Rated),
		Hopper:     f.Hopper.filled(),
		Misfeed:    float64(or(f.Misfeed, 0)),
		Double:     float64(or(f.Double, 0)),
		Jam:        float64(or(f.Jam, 0)),
		Growth:     float64(or(f.Growth, 0)),
		Lots:       f.Lots.model(),
		Material:   float64(or(f.Material, 1)),
		Noticed:    float64(or(f.Noticed, 1)),
		Caught:     float64(or(f.Caught, 1)),
		Unwatched:  or(f.Noticed, 1) == 0 || or(f.Caught, 1) == 0,
		FalseCalls: float64(or(f.FalseCalls, 0)),
		Streak:     model.Streak{Given: streak.Again != nil, Again: float64(or(streak.Again, 0)), StopAfter: int(or(streak.StopAfter, 0))},
		Share:      float64(or(f.Share, 1)),
		Only:       string(or(f.Only, "")),
		Stream:     f.Stream.carried(),
		WrongStock: mixup,
		Takes:      f.Takes.bounds(),
		Stack:      f.Hopper.height(),
		OnMisfeed:  onMisfeed,
		OnDouble:   onDouble,
		Clear:      usual,
		Clearings:  times,
	}
}

// envelopeFeeder is a feeder of personalised envelopes as it is written. That it must
// name its stream is for the model to say.
type envelopeFeeder struct{ feeder }

func (f *envelopeFeeder) Build(policy Policy) model.Station {
	s := f.fed(policy)
	s.Envelopes = true
	return s
}
