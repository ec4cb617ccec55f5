package scenarios

import "netrate/model"

// maxAttributes is how many attributes the sets of a line may have.
const maxAttributes = 20

// attribute is what some sets have and others do not, as it is written.
type attribute struct {
	Name  *name                 `yaml:"name" jsonschema_description:"unique; stations that are only for sets with it say this name"`
	Share *uncertainProbability `yaml:"share" jsonschema_description:"share of the sets that have it"`
}

func (x *attribute) decode(r *reader, n *node, _ string) { r.inside(n, "an attribute", x) }

// attribute returns it; what could not be read is zero.
func (x *attribute) attribute() model.Attribute {
	return model.Attribute{Name: string(or(x.Name, "")), Share: float64(or(x.Share, 0))}
}
