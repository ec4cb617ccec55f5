package scenarios

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"github.com/invopop/jsonschema"

	"netrate/model/worth"
)

// Here are the schemas of jobs, of the time for them, and of the file as a whole.

// JSONSchemaExtend asks for one line or several, for something to do, and for what a
// season needs.
func (file) JSONSchemaExtend(s *jsonschema.Schema) {
	s.OneOf = []*jsonschema.Schema{{Required: []string{"line"}}, {Required: []string{"lines"}}}
	s.AnyOf = []*jsonschema.Schema{{Required: []string{"work"}}, {Required: []string{"jobs"}}}
	s.DependentRequired = map[string][]string{"season": {"line", "jobs", "calendar"}, "plan": {"jobs", "calendar"}}
	s.If = &jsonschema.Schema{Not: &jsonschema.Schema{AnyOf: []*jsonschema.Schema{{Required: []string{"season"}}, {Required: []string{"plan"}}}}}
	s.Then = &jsonschema.Schema{Properties: jsonschema.NewProperties()}
	s.Then.Properties.Set("costs", &jsonschema.Schema{AnyOf: []*jsonschema.Schema{{Required: []string{"volume"}}, {Required: []string{"volumes"}}}})
}

// JSONSchemaExtend adds the standard size alone.
func (envelope) JSONSchemaExtend(s *jsonschema.Schema) {
	forms(s, "string", "object")
	text := name("").JSONSchema()
	s.MinLength, s.MaxLength = text.MinLength, text.MaxLength
	s.Description = "a standard size (" + strings.Join(envelopeNames(), ", ") + "), or a mapping with it or with measures"
	s.If = &jsonschema.Schema{Type: "object"}
	s.Then = &jsonschema.Schema{OneOf: []*jsonschema.Schema{{Required: []string{"size"}}, {Required: []string{"height", "length"}}}}
	refused := &jsonschema.Schema{Not: &jsonschema.Schema{AnyOf: []*jsonschema.Schema{{Required: []string{"height"}}, {Required: []string{"length"}}, {Required: []string{"name"}}}}}
	s.DependentSchemas = map[string]*jsonschema.Schema{"size": refused}
}

func (envelopeSize) JSONSchema() *jsonschema.Schema {
	s := name("").JSONSchema()
	s.Description = "one of " + strings.Join(envelopeNames(), ", ")
	return s
}

// JSONSchemaExtend adds the standard size.
func (sheetSize) JSONSchemaExtend(s *jsonschema.Schema) {
	forms(s, "string", "object")
	text := name("").JSONSchema()
	s.MinLength, s.MaxLength = text.MinLength, text.MaxLength
	s.Description = "a standard size (" + strings.Join(sheetNames(), ", ") + "), or a mapping with height and length"
}

// JSONSchemaExtend keeps the thickness of the whole apart from what it is made of.
func (insert) JSONSchemaExtend(s *jsonschema.Schema) {
	made := &jsonschema.Schema{AnyOf: []*jsonschema.Schema{{Required: []string{"paper"}}, {Required: []string{"sheets"}}}}
	s.DependentSchemas = map[string]*jsonschema.Schema{"thickness": {Not: made}}
}

// JSONSchema takes one bound or both.
func (bounds) JSONSchema() *jsonschema.Schema {
	one := strings.Trim(lengths.pattern(), "^$")
	return &jsonschema.Schema{
		Type: "string", Pattern: `^((up to|from) ` + one + `|` + one + ` to ` + one + `)$`, Description: wantBounds,
		Extras: map[string]any{"patternErrorMessage": "want " + wantBounds},
	}
}

// JSONSchemaExtend lets a time be given in any of the ways of a duration, or in a mapping
// that says more.
func (adjustment) JSONSchemaExtend(s *jsonschema.Schema) {
	one, two := uint64(1), uint64(2)
	forms(s, "string", "object")
	s.Pattern = times.pattern()
	s.MinProperties, s.MaxProperties = &one, &two
	s.Description = "a time such as 3 min or one distribution, for an operator; or {time: 20 s, automatic: true}"
	s.DependentRequired = map[string][]string{"automatic": {"time"}}
	s.DependentSchemas = map[string]*jsonschema.Schema{}
	for pair := s.Properties.Oldest(); pair != nil; pair = pair.Next() {
		if !slices.Contains([]string{"time", "automatic"}, pair.Key) {
			s.DependentSchemas[pair.Key] = &jsonschema.Schema{MaxProperties: &one}
		}
	}
}

func (clock) JSONSchema() *jsonschema.Schema {
	return &jsonschema.Schema{
		Type: "string", Pattern: clockPattern.String(), Description: wantClock,
		Extras: map[string]any{"patternErrorMessage": "want " + wantClock},
	}
}

func (date) JSONSchema() *jsonschema.Schema {
	return &jsonschema.Schema{
		Type: "string", Pattern: `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`, Description: wantDate,
		Extras: map[string]any{"patternErrorMessage": "want " + wantDate},
	}
}

// JSONSchemaExtend adds the date.
func (moment) JSONSchemaExtend(s *jsonschema.Schema) {
	forms(s, "string", "object")
	s.Pattern = datedPattern.String()
	s.Description = `a date and a time of day such as "2026-03-25 14:00", with its weekday or without, or week, day and time`
	s.Extras["patternErrorMessage"] = "want " + wantDated
}

func (planPer) JSONSchema() *jsonschema.Schema { return choice(planPers...) }

func (zone) JSONSchema() *jsonschema.Schema {
	s := chars(80)
	s.Description = wantZone
	return s
}

func (planGoal) JSONSchema() *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "string"}
	for _, goal := range planGoals {
		s.Enum = append(s.Enum, goal)
	}
	return s
}

func (planShare) JSONSchema() *jsonschema.Schema {
	return &jsonschema.Schema{Type: "number", Minimum: "0", Maximum: json.Number(strconv.Itoa(mostPriority))}
}

// JSONSchemaExtend adds the plain number.
func (sum) JSONSchemaExtend(s *jsonschema.Schema) {
	forms(s, "number", "object")
	s.Minimum, s.Maximum = amount(0).JSONSchema().Minimum, amount(0).JSONSchema().Maximum
	s.Description = "a plain number, or {low: 1, likely: 2, high: 3} for what is uncertain"
}

func (outlay) JSONSchema() *jsonschema.Schema { return amount(0).JSONSchema() }

func (amount) JSONSchema() *jsonschema.Schema {
	return &jsonschema.Schema{Type: "number", Minimum: "0", Maximum: json.Number(strconv.Itoa(worth.MostMoney))}
}

func (interest) JSONSchema() *jsonschema.Schema { return mixed(ratioPattern, wantInterest, 1) }

func (years) JSONSchema() *jsonschema.Schema { return integer(1, worth.MostLife) }

func (piecePrices) JSONSchema() *jsonschema.Schema {
	return &jsonschema.Schema{
		Type: "object", Description: "prices of pieces by their stations, such as {letter: 0.02}",
		AdditionalProperties: &jsonschema.Schema{Ref: "#/$defs/sum"},
	}
}

func (jobRates) JSONSchema() *jsonschema.Schema {
	return &jsonschema.Schema{
		Type: "object", Description: "rates of faults by the names of stations, such as {letter: {misfeed: 1/2500}}",
		AdditionalProperties: &jsonschema.Schema{Type: "object", AdditionalProperties: &jsonschema.Schema{Ref: "#/$defs/uncertain_probability"}},
	}
}

// JSONSchemaExtend refuses two kinds of volumes, and asks for what a year needs. That there is a volume where there
// are no weeks is asked for of the file.
func (costs) JSONSchemaExtend(s *jsonschema.Schema) {
	s.Not = &jsonschema.Schema{Required: []string{"volume", "volumes"}}
	s.DependentRequired = map[string][]string{"volume": {"life", "rate"}, "volumes": {"life", "rate"}}
	year := &jsonschema.Schema{Properties: jsonschema.NewProperties()}
	year.Properties.Set("overtime", &jsonschema.Schema{Required: []string{"beyond"}})
	s.DependentSchemas = map[string]*jsonschema.Schema{"volume": year, "volumes": year}
}

func (jobVolumes) JSONSchema() *jsonschema.Schema {
	least := uint64(1)
	return &jsonschema.Schema{
		Type: "object", Description: "good envelopes a year of jobs by their names, such as {Letters: 4000000}",
		MinProperties: &least, AdditionalProperties: &jsonschema.Schema{Ref: "#/$defs/sum"},
	}
}

func (demand) JSONSchema() *jsonschema.Schema {
	return &jsonschema.Schema{
		Type: "object", Description: "sets of jobs by their names, such as {Letters: 40000}",
		AdditionalProperties: integer(0, maxCount),
	}
}
