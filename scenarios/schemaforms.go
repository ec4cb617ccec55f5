package scenarios

import (
	"github.com/invopop/jsonschema"

	"netrate/model"
)

// Here are the schemas of values that can be written in more than one form. Patterns
// speak of texts only, minima of numbers, properties of mappings: one schema can hold
// all forms.

// oneKey asks for a mapping with a single key.
func oneKey(s *jsonschema.Schema) {
	one := uint64(1)
	s.MinProperties, s.MaxProperties = &one, &one
}

// forms lets a schema take several types.
func forms(s *jsonschema.Schema, types ...string) {
	s.Type = ""
	s.Extras = map[string]any{"type": types}
}

// JSONSchemaExtend adds the plain time to the distributions.
func (duration) JSONSchemaExtend(s *jsonschema.Schema) {
	oneKey(s)
	forms(s, "string", "object")
	s.Pattern = times.pattern()
	s.Description = "a plain time such as 45 s, or one distribution"
	s.Extras["patternErrorMessage"] = "want " + times.wanted + ", or one distribution"
}

// JSONSchemaExtend adds the plain number to the distributions.
func (pages) JSONSchemaExtend(s *jsonschema.Schema) {
	oneKey(s)
	forms(s, "integer", "object")
	s.Minimum, s.Maximum = integer(1, maxPages).Minimum, integer(1, maxPages).Maximum
	s.Description = "a number of sheets such as 3, or one distribution"
}

func (pageTable) JSONSchema() *jsonschema.Schema {
	least := uint64(1)
	return &jsonschema.Schema{
		Type: "object", MinProperties: &least, Description: "numbers of sheets with their weights, such as {1: 60%, 2: 40%}",
		PatternProperties:    map[string]*jsonschema.Schema{`^[1-9][0-9]*$`: weight(0).JSONSchema()},
		AdditionalProperties: jsonschema.FalseSchema,
	}
}

func (weight) JSONSchema() *jsonschema.Schema { return mixed(ratioPattern, wantWeight, maxCount) }

// JSONSchemaExtend adds the name alone.
func (stream) JSONSchemaExtend(s *jsonschema.Schema) {
	forms(s, "string", "object")
	text := name("").JSONSchema()
	s.MinLength, s.MaxLength = text.MinLength, text.MaxLength
	s.Description = "the stream's name, or a mapping with it"
}

func (truth) JSONSchema() *jsonschema.Schema { return &jsonschema.Schema{Type: "boolean"} }

// JSONSchema takes one word or a list of them.
func (verified) JSONSchema() *jsonschema.Schema {
	word, least := choice(verifiedWords...), uint64(1)
	return &jsonschema.Schema{OneOf: []*jsonschema.Schema{
		word, {Type: "array", Items: word, MinItems: &least, UniqueItems: true},
	}}
}

// JSONSchema takes one word, or a list of all but the first, which is all of them.
func (doing) JSONSchema() *jsonschema.Schema {
	names, least := model.DoingNames(), uint64(1)
	return &jsonschema.Schema{OneOf: []*jsonschema.Schema{
		choice(names...), {Type: "array", Items: choice(names[1:]...), MinItems: &least, UniqueItems: true},
	}}
}

// JSONSchemaExtend asks for how many are there, or who is not.
func (staffing) JSONSchemaExtend(s *jsonschema.Schema) { saysWho(s) }
func (manning) JSONSchemaExtend(s *jsonschema.Schema)  { saysWho(s) }

func saysWho(s *jsonschema.Schema) {
	for _, key := range []string{"operators", "absent"} {
		s.AnyOf = append(s.AnyOf, &jsonschema.Schema{Required: []string{key}})
	}
}

// JSONSchemaExtend asks for a shift or a job.
func (work) JSONSchemaExtend(s *jsonschema.Schema) {
	for _, key := range []string{"shift", "sets"} {
		s.OneOf = append(s.OneOf, &jsonschema.Schema{Required: []string{key}})
	}
	s.DependentRequired = map[string][]string{"remakes": {"sets"}}
}

func (remakes) JSONSchemaExtend(s *jsonschema.Schema) { oneKey(s) }
