package scenarios

import "github.com/invopop/jsonschema"

// Here are the schemas of numbers that may be written with their uncertainty.

// orUncertain returns the schema of a plain value, of one of some ways to write it with its
// uncertainty, or of a number that is the same as another.
func orUncertain(plain *jsonschema.Schema, ways ...*jsonschema.Schema) *jsonschema.Schema {
	reference := &jsonschema.Schema{
		Type: "object", Description: "the number at a path, with its uncertainty", Required: []string{sameAs},
		Properties: jsonschema.NewProperties(), AdditionalProperties: jsonschema.FalseSchema,
	}
	reference.Properties.Set(sameAs, setPath("").JSONSchema())
	return &jsonschema.Schema{OneOf: append(append([]*jsonschema.Schema{plain}, ways...), reference)}
}

// keyed returns the schema of a mapping with all keys of a way, and no others.
func keyed(w way, description string, values ...*jsonschema.Schema) *jsonschema.Schema {
	s := &jsonschema.Schema{
		Type: "object", Description: description, Required: w.keys(),
		Properties: jsonschema.NewProperties(), AdditionalProperties: jsonschema.FalseSchema,
	}
	for i, key := range w.keys() {
		value := *values[i]
		value.Description = unsureKeys[key]
		s.Properties.Set(key, &value)
	}
	same := setPath("").JSONSchema()
	same.Description = "the path of the number, in what it is compared with, that is the same unknown"
	s.Properties.Set(sameAs, same)
	return s
}

// unsureKeys says what the keys of all ways mean.
var unsureKeys = map[string]string{
	"seen": "how many times it was seen", "of": "in this many feeds, sets or readings",
	"counted": "how many feeds, sets or readings were counted, where faults come in bursts and so many tell no more than the fewer that stand in of",
	"about":   "the estimate", "se": "its standard error, in the same unit",
	"low": "the least it may be", "likely": "the likeliest", "high": "the most it may be",
}

func seenOf() *jsonschema.Schema {
	s := keyed(&trials{}, "a count of the fault among feeds, sets or readings", count(0).JSONSchema(), capacity(0).JSONSchema())
	counted := capacity(0).JSONSchema()
	counted.Description = unsureKeys["counted"]
	s.Properties.Set("counted", counted)
	return s
}

func aboutError(one func() *jsonschema.Schema) *jsonschema.Schema {
	return keyed(&estimated[float64]{}, "an estimate with its standard error, in the same unit", one(), one())
}

func lowToHigh(one func() *jsonschema.Schema) *jsonschema.Schema {
	return keyed(&between[float64]{}, "a guess: the least, the likeliest and the most it may be", one(), one(), one())
}

func (uncertainProbability) JSONSchema() *jsonschema.Schema {
	one := probability(0).JSONSchema
	return orUncertain(one(), seenOf(), lowToHigh(one))
}

func (uncertainFactor) JSONSchema() *jsonschema.Schema {
	one := factor(0).JSONSchema
	return orUncertain(one(), aboutError(one), lowToHigh(one))
}

func (uncertainCount) JSONSchema() *jsonschema.Schema {
	one := factor(0).JSONSchema
	return orUncertain(capacity(0).JSONSchema(), aboutError(one), lowToHigh(one))
}

func (uncertainTime) JSONSchema() *jsonschema.Schema {
	one := seconds(0).JSONSchema
	return orUncertain(one(), aboutError(one), lowToHigh(one))
}
