package scenarios

import "netrate/model"

// inserter is an inserter as it is written.
type inserter struct {
	stationHead
	Rated           *speed                `yaml:"rated" jsonschema_description:"rated speed, at which its faults were counted"`
	Hopper          *hopper               `yaml:"hopper,omitempty" jsonschema_description:"its envelopes; none with an envelope feeder, needed without one"`
	WrongStock      *wrongStock           `yaml:"wrong_stock,omitempty" jsonschema_description:"wrong envelopes brought to the hopper; never if not given"`
	Lots            *lots                 `yaml:"lots,omitempty" jsonschema_description:"what lots its envelopes come in, some worse than others; all alike if not given"`
	EnvelopeMisfeed *uncertainProbability `yaml:"envelope_misfeed,omitempty" jsonschema_description:"probability that no envelope comes; none with an envelope feeder, needed without one"`
	Flap            *uncertainProbability `yaml:"flap" jsonschema_description:"probability that the envelope's flap stays shut"`
	Jam             *uncertainProbability `yaml:"jam" jsonschema_description:"probability that set and envelope jam"`
	Growth          *uncertainFactor      `yaml:"growth,omitempty" jsonschema_description:"faults grow with (speed/rated) to this power; 0 if not given"`
	Clear           *insertingClear       `yaml:"clear" jsonschema_description:"an operator's time for clearing a fault, after the walk"`
	Takes           *setTakes             `yaml:"takes,omitempty" jsonschema_description:"what can go through it; anything if not given"`
	Groups          []sizeGroup           `yaml:"groups,omitempty" jsonschema_description:"limits of speed by the size of the envelope, the smallest first; envelopes larger than the last cannot be run; no such limits if not given" jsonschema:"maxItems=20"`
	Policy          *inserterPolicy       `yaml:"policy,omitempty" jsonschema_description:"responses to its faults, instead of those of the line"`
}

func (s *inserter) Build(policy Policy) model.Station {
	usual, times := s.Clear.times()
	mixup, change := s.WrongStock.mixup()
	times[model.WrongStock] = change
	n := &model.Inserter{
		Place:           s.place(s.Rated),
		Lots:            s.Lots.model(),
		WrongStock:      mixup,
		EnvelopeMisfeed: float64(or(s.EnvelopeMisfeed, 0)),
		Flap:            float64(or(s.Flap, 0)),
		Jam:             float64(or(s.Jam, 0)),
		Growth:          float64(or(s.Growth, 0)),
		OnFlap:          first(or(s.Policy, inserterPolicy{}).Flap, policy.Flap),
		Clear:           usual,
		Clearings:       times,
		Takes:           s.Takes.bounds(),
	}
	for i := range s.Groups {
		n.Groups = append(n.Groups, s.Groups[i].group())
	}
	if s.Hopper != nil {
		n.Hopper = s.Hopper.filled()
	}
	return n
}

func (s *inserter) decode(r *reader, n *node, key string) {
	r.inside(n, key, s)
	r.entries(n, "groups", maxGroups)
	r.groups(s.Groups, child(n, "groups"))
}

// among notes what an inserter lacks if no station feeds it envelopes.
func (s *inserter) among(r *reader, own, _ *node, l *model.Line) {
	if l.First(model.Envelopes) >= 0 {
		return
	}
	for _, key := range []string{"hopper", "envelope_misfeed"} {
		if !hinted(own, key) {
			r.note(own, "inserter has no %s, and no envelope feeder stands before it", key)
		}
	}
}

// hinted reports whether a mapping has a key, or one that is taken for it.
func hinted(n *node, key string) bool {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if Nearest(n.Content[i].Value, []string{key}) != "" {
			return true
		}
	}
	return false
}
