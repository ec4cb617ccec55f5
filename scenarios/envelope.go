package scenarios

import (
	"netrate/model/formats"
	"netrate/model/setup"
)

// envelope is the outer envelope of a job: a standard size alone, or a mapping with more.
type envelope struct {
	Size   *envelopeSize `yaml:"size,omitempty" jsonschema_description:"a standard size; or give height and length"`
	Name   *name         `yaml:"name,omitempty" jsonschema_description:"what an envelope of no standard size is called; its size if not given"`
	Height *side         `yaml:"height,omitempty" jsonschema_description:"such as 165 mm"`
	Length *side         `yaml:"length,omitempty" jsonschema_description:"the side parallel to the address, such as 240 mm"`
	Throat *side         `yaml:"throat,omitempty" jsonschema_description:"how deep its throat is cut, such as 25 mm; as that of any other if not given"`
	Stream *name         `yaml:"stream,omitempty" jsonschema_description:"what the envelopes carry if they are personalised"`
}

func (x *envelope) decode(r *reader, n *node, key string) {
	if n.Kind == scalarNode {
		x.Size = new(envelopeSize)
		x.Size.decode(r, n, key)
		return
	}
	r.inside(n, key, x)
	sized, measured := hinted(n, "size"), hinted(n, "height") && hinted(n, "length")
	switch {
	case n.Kind != mappingNode: // noted
	case sized && (hinted(n, "height") || hinted(n, "length") || hinted(n, "name")):
		r.note(n, "%s has a standard size as well as a name or measures: give one of them", key)
	case !sized && !measured:
		r.note(n, "%s has no size: give a standard one such as C5, or else height and length", key)
	}
}

// given returns the envelope of the model; what could not be read is zero.
func (x envelope) given() setup.Envelope {
	e := or(x.Size, envelopeSize{}).Envelope
	if x.Size == nil {
		e = formats.Envelope{Name: string(or(x.Name, "")), Height: float64(or(x.Height, 0)), Length: float64(or(x.Length, 0))}
	}
	if e.Name == "" {
		e.Name = e.String()
	}
	return setup.Envelope{Name: e.Name, Height: e.Height, Length: e.Length, Throat: float64(or(x.Throat, 0)), Stream: string(or(x.Stream, ""))}
}

// envelopeSize is a standard size by its name.
type envelopeSize struct{ formats.Envelope }

func (x *envelopeSize) decode(r *reader, n *node, key string) {
	var text string
	r.text(&text, n, key, maxName)
	if text == "" { // noted
		return
	}
	e, known := formats.Named(text)
	if !known {
		r.note(n, "%s is %s, which is not a standard size: %s; or give its height and length", key, shown(n), meant(text, envelopeNames()))
	}
	x.Envelope = e
}

func envelopeNames() []string {
	var names []string
	for _, e := range formats.Envelopes() {
		names = append(names, e.Name)
	}
	return names
}
