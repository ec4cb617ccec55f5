package scenarios

import (
	"encoding/json"
	"maps"
	"path"
	"reflect"
	"strconv"
	"strings"
	"unicode"

	"github.com/invopop/jsonschema"

	"netrate/model"
)

// Schema returns the JSON schema of scenario files, for editors. It is made from the
// structs that the files are read into. What it cannot say (that pitches rise, that a
// response is possible) is left to [Load].
func Schema() []byte {
	text, err := json.MarshalIndent(fileSchema(), "", "  ")
	if err != nil {
		panic("scenarios: the schema cannot be written: " + err.Error())
	}
	return append(text, '\n')
}

// fileSchema returns the schema with the definitions of all its parts.
func fileSchema() *jsonschema.Schema {
	reflector := &jsonschema.Reflector{FieldNameTag: "yaml", Anonymous: true, ExpandedStruct: true, Namer: schemaName}
	s := reflector.Reflect(file{})
	s.Title = "netrate scenario"
	s.Description = "an inserting line, its crew and its work"
	for _, k := range kinds {
		machine := reflector.ReflectFromType(reflect.TypeOf(k.blank()).Elem())
		maps.Copy(s.Definitions, machine.Definitions)
		machine.Definitions, machine.Version = nil, ""
		machine.Description = "a station that " + k.about
		s.Definitions[word(k.name)] = machine
	}
	return s
}

// schemaName returns the name of a type in the schema: linePolicy is line_policy. A type of a kind of
// station in another package has the package before it, so that two kinds may both have a policy.
func schemaName(t reflect.Type) string {
	if at := t.PkgPath(); at != "" && at != reflect.TypeFor[file]().PkgPath() {
		return path.Base(at) + "_" + word(t.Name())
	}
	return word(t.Name())
}

func word(name string) string {
	var b strings.Builder
	for _, c := range name {
		switch {
		case unicode.IsUpper(c):
			b.WriteRune('_')
			c = unicode.ToLower(c)
		case c == ' ':
			c = '_'
		}
		b.WriteRune(c)
	}
	return b.String()
}

// JSONSchema chooses the schema by the kind. With oneOf an unfinished station would be
// told what other kinds lack.
func (station) JSONSchema() *jsonschema.Schema {
	properties := jsonschema.NewProperties()
	properties.Set("kind", kindName("").JSONSchema())
	s := &jsonschema.Schema{Type: "object", Properties: properties, Required: []string{"kind"}}
	for _, k := range kinds {
		only := jsonschema.NewProperties()
		only.Set("kind", &jsonschema.Schema{Const: k.name})
		s.AllOf = append(s.AllOf, &jsonschema.Schema{
			If:   &jsonschema.Schema{Properties: only, Required: []string{"kind"}},
			Then: &jsonschema.Schema{Ref: "#/$defs/" + word(k.name)},
		})
	}
	return s
}

// JSONSchemaExtend lets a feeder with a preset leave out what the preset gives.
func (feeder) JSONSchemaExtend(s *jsonschema.Schema) {
	var always, without []string
	for _, key := range s.Required {
		if givenByPreset(key) {
			without = append(without, key)
		} else {
			always = append(always, key)
		}
	}
	s.Required = always
	s.If = &jsonschema.Schema{Required: []string{"preset"}}
	s.Else = &jsonschema.Schema{Required: without}
}

// JSONSchemaExtend asks for the stream, which is optional for other feeders.
func (f envelopeFeeder) JSONSchemaExtend(s *jsonschema.Schema) {
	f.feeder.JSONSchemaExtend(s)
	s.Required = append(s.Required, "stream")
}

// schema returns the schema of texts with a unit.
func (m *measure) schema() *jsonschema.Schema {
	return &jsonschema.Schema{
		Type: "string", Pattern: m.pattern(), Description: m.wanted,
		Extras: map[string]any{"patternErrorMessage": "want " + m.wanted},
	}
}

func (seconds) JSONSchema() *jsonschema.Schema { return times.schema() }
func (speed) JSONSchema() *jsonschema.Schema   { return speeds.schema() }
func (rate) JSONSchema() *jsonschema.Schema    { return rates.schema() }
func (length) JSONSchema() *jsonschema.Schema  { return lengths.schema() }
func (side) JSONSchema() *jsonschema.Schema    { return lengths.schema() }
func (paper) JSONSchema() *jsonschema.Schema   { return papers.schema() }

// mixed returns the schema of a number or of a text of a pattern.
func mixed(pattern, wanted string, most int) *jsonschema.Schema {
	return &jsonschema.Schema{
		Pattern: pattern, Description: wanted, Minimum: "0", Maximum: json.Number(strconv.Itoa(most)),
		Extras: map[string]any{"type": []string{"number", "string"}, "patternErrorMessage": "want " + wanted},
	}
}

const (
	percentPattern = numberPattern + ` *%`
	ratioPattern   = `^(` + percentPattern + `|` + numberPattern + `(( */ *| +in +)` + numberPattern + `)?)$`
)

func (probability) JSONSchema() *jsonschema.Schema {
	return mixed(ratioPattern, wantProbability, 1)
}

func (level) JSONSchema() *jsonschema.Schema {
	return mixed(`^`+percentPattern+`$`, wantLevel, maxCount)
}

func (stackLevel) JSONSchema() *jsonschema.Schema {
	height := strings.Trim(lengths.pattern(), "^$")
	return mixed(`^(`+percentPattern+`|`+height+`)$`, wantLevel+", or a height of stack such as 80 mm", maxCount)
}

func (factor) JSONSchema() *jsonschema.Schema {
	return &jsonschema.Schema{Type: "number", Minimum: "0"}
}

func integer(least, most int) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "integer", Minimum: json.Number(strconv.Itoa(least)), Maximum: json.Number(strconv.Itoa(most))}
}

func (count) JSONSchema() *jsonschema.Schema       { return integer(0, maxCount) }
func (capacity) JSONSchema() *jsonschema.Schema    { return integer(1, maxCount) }
func (pitch) JSONSchema() *jsonschema.Schema       { return integer(0, maxPitch) }
func (buffer) JSONSchema() *jsonschema.Schema      { return integer(1, maxPlaces) }
func (tries) JSONSchema() *jsonschema.Schema       { return integer(1, maxTries) }
func (sets) JSONSchema() *jsonschema.Schema        { return integer(1, maxCount) }
func (people) JSONSchema() *jsonschema.Schema      { return integer(1, maxOperators) }
func (remain) JSONSchema() *jsonschema.Schema      { return integer(0, maxOperators) }
func (present) JSONSchema() *jsonschema.Schema     { return decimal(0, maxOperators) }
func (operators) JSONSchema() *jsonschema.Schema   { return decimal(leastOperators, maxOperators) }
func (sheetCount) JSONSchema() *jsonschema.Schema  { return integer(1, maxPages) }
func (days) JSONSchema() *jsonschema.Schema        { return integer(1, 7) }
func (weekNumber) JSONSchema() *jsonschema.Schema  { return integer(1, maxWeekNo) }
func (shiftNumber) JSONSchema() *jsonschema.Schema { return integer(1, maxOfDay) }
func (planPeople) JSONSchema() *jsonschema.Schema  { return integer(0, 100) }
func (alike) JSONSchema() *jsonschema.Schema       { return integer(1, maxAlike) }
func (replications) JSONSchema() *jsonschema.Schema {
	return integer(minReplications, maxReplications)
}

func decimal(least float64, most int) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "number", Minimum: json.Number(strconv.FormatFloat(least, 'g', -1, 64)), Maximum: json.Number(strconv.Itoa(most))}
}

func (seed) JSONSchema() *jsonschema.Schema {
	return &jsonschema.Schema{Type: "integer", Minimum: "0", Maximum: "18446744073709551615"}
}

func chars(most uint64) *jsonschema.Schema {
	one := uint64(1)
	return &jsonschema.Schema{Type: "string", MinLength: &one, MaxLength: &most}
}

func (name) JSONSchema() *jsonschema.Schema     { return chars(maxName) }
func (sentence) JSONSchema() *jsonschema.Schema { return chars(maxSentence) }

// choice returns the schema of one of several names.
func choice(names ...string) *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "string"}
	for _, name := range names {
		s.Enum = append(s.Enum, name)
	}
	return s
}

func (answer) JSONSchema() *jsonschema.Schema    { return choice(model.Responses()...) }
func (recovery) JSONSchema() *jsonschema.Schema  { return choice(recoveryNames()...) }
func (attention) JSONSchema() *jsonschema.Schema { return choice(model.Orders()...) }
func (exhausted) JSONSchema() *jsonschema.Schema { return choice(model.ExhaustedNames()...) }
func (forbidden) JSONSchema() *jsonschema.Schema {
	var all []string
	for _, x := range model.AllForbidden() {
		all = append(all, x.String())
	}
	return choice(all...)
}
func (resting) JSONSchema() *jsonschema.Schema    { return choice(restingNames...) }
func (designGoal) JSONSchema() *jsonschema.Schema { return choice(designGoals...) }
func (forced) JSONSchema() *jsonschema.Schema     { return choice(model.Stop.String()) }
func (kindName) JSONSchema() *jsonschema.Schema   { return choice(kindNames()...) }
func (fold) JSONSchema() *jsonschema.Schema       { return choice(foldNames()...) }
func (order) JSONSchema() *jsonschema.Schema      { return choice(orderNames...) }

// JSONSchema lists the presets with their values, for the editor's hover text.
func (presetName) JSONSchema() *jsonschema.Schema {
	s := choice(presetNames()...)
	lines := []string{"values illustrative, from memory"}
	for _, p := range Presets() {
		var line strings.Builder
		line.WriteString(p.Name + ": " + p.About)
		for _, v := range p.Values {
			line.WriteString("; " + v.Key + " " + v.Text)
		}
		lines = append(lines, line.String())
	}
	s.Description = strings.Join(lines, "\n")
	return s
}

// JSONSchemaExtend says which keys of a change go together.
func (change) JSONSchemaExtend(s *jsonschema.Schema) {
	needs := func(keys ...string) *jsonschema.Schema { return &jsonschema.Schema{Required: keys} }
	s.DependentRequired, s.DependentSchemas = map[string][]string{}, map[string]*jsonschema.Schema{}
	for _, a := range actions {
		s.OneOf = append(s.OneOf, needs(a.key))
		for _, key := range a.with {
			s.DependentRequired[key] = []string{a.key}
		}
		switch {
		case a.one:
			one := &jsonschema.Schema{}
			for _, key := range a.with {
				one.OneOf = append(one.OneOf, needs(key))
			}
			s.DependentSchemas[a.key] = one
		case len(a.with) > 0:
			s.DependentRequired[a.key] = a.with
		}
	}
}

func (setPath) JSONSchema() *jsonschema.Schema {
	s := chars(maxPath)
	s.Pattern = `^(line\.|(stations|lines)\..+\.|(policy|crew|work|jobs|changeover|calendar|season|plan|costs)(\.|$))`
	s.Extras = map[string]any{"patternErrorMessage": "want a path such as line.speed, crew.operators, policy.misfeed or stations.NAME.misfeed"}
	return s
}

func (anyNode) JSONSchema() *jsonschema.Schema {
	return &jsonschema.Schema{Extras: map[string]any{"type": []string{"string", "number", "object", "array"}}}
}

func (added) JSONSchema() *jsonschema.Schema { return &jsonschema.Schema{Ref: "#/$defs/station"} }

func (pitches) JSONSchema() *jsonschema.Schema {
	s := integer(-maxPitch, maxPitch)
	s.Not = &jsonschema.Schema{Const: 0}
	return s
}
