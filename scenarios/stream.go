package scenarios

import (
	"slices"

	"netrate/model"
)

// stream is what a station carries whose pieces are personalised: its name alone, or a
// mapping with more.
type stream struct {
	Name    *name     `yaml:"name" jsonschema_description:"what readers know it by"`
	Half    *truth    `yaml:"half,omitempty" jsonschema_description:"true if another station carries the other half of this stream; false if not given"`
	Tries   *tries    `yaml:"tries,omitempty" jsonschema_description:"noticed misfeeds of catch-up sets in one recovery that stop the line; 1 if not given"`
	Realign *duration `yaml:"realign,omitempty" jsonschema_description:"an operator's time for putting the stream in step, after the walk; that for clearing a fault if not given"`
}

// decode reads the short form or the long one.
func (x *stream) decode(r *reader, n *node, key string) {
	if n.Kind == scalarNode {
		x.Name = new(name)
		x.Name.decode(r, n, key)
		return
	}
	if n.Kind == sequenceNode {
		r.note(n, "%s is a list, want a name, or a mapping with name, half, tries, realign", key)
		return
	}
	r.inside(n, key, x)
}

// carried returns the stream of the model; the zero one if none is given.
func (x *stream) carried() model.Stream {
	if x == nil {
		return model.Stream{}
	}
	s := model.Stream{Name: string(or(x.Name, "")), Half: bool(or(x.Half, false)), Tries: int(or(x.Tries, 1))}
	if x.Realign != nil {
		s.Realign = x.Realign.time()
	}
	return s
}

// shortForms are the keys whose value may be a text that stands for a mapping, each with
// the key in it that has the text.
var shortForms = map[string]string{"stream": "name", "envelope": "size"}

// longForm returns the value of a key as a mapping, if it is one or stands for one. Any
// other value is returned as it is.
func longForm(key string, n *node) *node {
	inner, short := shortForms[key]
	if !short || n.Kind != scalarNode {
		return n
	}
	return &node{Kind: mappingNode, Content: []*node{scalar(inner, n), n}, Line: n.Line, Column: n.Column}
}

// streamsKnown reports whether all that was said of streams could be read. If not, what
// the model says of their names only follows from that.
func (r *reader) streamsKnown(stations *node) bool {
	return !slices.ContainsFunc(stations.Content, func(own *node) bool {
		carried := child(own, "stream")
		return r.bad[own] || carried != nil && r.spoilt(carried)
	})
}

// namesStreams reports whether a problem of the model is about the names of streams.
func namesStreams(p *model.Problem) bool {
	return slices.Contains([]string{"stream", "stream.half", "reads", "match", "verifies"}, p.Field)
}

// truth is true or false.
type truth bool

func (x *truth) decode(r *reader, n *node, key string) {
	if n.Kind != scalarNode || n.Style&(quoted|block) != 0 || n.Value != "true" && n.Value != "false" {
		r.note(n, "%s is %s, want true or false", key, shown(n))
		return
	}
	*x = n.Value == "true"
}
