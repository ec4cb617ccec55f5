package scenarios

import "netrate/model/setup"

// changeover is what it takes to set a line up for the next job, as it is written.
type changeover struct {
	Always    *adjustment `yaml:"always,omitempty" jsonschema_description:"at every change of job, whatever differs"`
	Height    *adjustment `yaml:"height,omitempty" jsonschema_description:"where the height of the envelope differs"`
	Length    *adjustment `yaml:"length,omitempty" jsonschema_description:"where the length of the envelope differs"`
	Thickness *adjustment `yaml:"thickness,omitempty" jsonschema_description:"where the thickness of the set differs: the inserter's throat"`
	Throat    *adjustment `yaml:"throat,omitempty" jsonschema_description:"where the throat of the envelope differs, of two of which it is known: what opens them"`
	Insert    *adjustment `yaml:"insert,omitempty" jsonschema_description:"for each feeder that gets another insert"`
	Stream    *adjustment `yaml:"stream,omitempty" jsonschema_description:"for each stream that comes, goes or is carried elsewhere"`
	Reader    *adjustment `yaml:"reader,omitempty" jsonschema_description:"for each reader that is to verify something else"`
}

func (c *changeover) changeover() *setup.Changeover {
	if c == nil {
		return nil
	}
	return &setup.Changeover{
		Always: c.Always.change(), Height: c.Height.change(), Length: c.Length.change(), Thickness: c.Thickness.change(),
		Throat: c.Throat.change(), Insert: c.Insert.change(), Stream: c.Stream.change(), Reader: c.Reader.change(),
	}
}

// adjustment is one piece of the work: a time that it takes an operator, or a mapping with a
// time that the line may need by itself.
type adjustment struct {
	duration
	Time      *duration `yaml:"time,omitempty" jsonschema_description:"how long it takes, such as 20 s"`
	Automatic *truth    `yaml:"automatic,omitempty" jsonschema_description:"true if the line does it by itself; false, an operator does it, if not given"`
}

func (x *adjustment) decode(r *reader, n *node, key string) {
	if child(n, "time") == nil && child(n, "automatic") == nil {
		x.duration.decode(r, n, key)
		return
	}
	r.inside(n, key, x)
	switch {
	case r.spoilt(n):
	case x.Time == nil:
		r.note(n, "%s has no time: write {time: 20 s, automatic: true}", key)
	case len(n.Content) > 2 && x.Automatic == nil || len(n.Content) > 4:
		r.note(n, "%s has a distribution beside its time: put it into time", key)
	}
}

func (x *adjustment) change() setup.Change {
	if x == nil {
		return setup.Change{}
	}
	if x.Time == nil {
		return setup.Change{Time: x.time()}
	}
	return setup.Change{Time: x.Time.time(), Automatic: bool(or(x.Automatic, false))}
}
