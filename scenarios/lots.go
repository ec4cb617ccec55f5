package scenarios

import (
	"github.com/invopop/jsonschema"

	"netrate/model"
)

// lots is how the pieces of a station come in lots, as it is written.
type lots struct {
	Of      *uncertainCount       `yaml:"of" jsonschema_description:"pieces of a lot, such as those of a pallet or of a box"`
	CV      *uncertainFactor      `yaml:"cv,omitempty" jsonschema_description:"coefficient of variation of the factors that lots have on the faults, from 0.001 to 10: gamma, with mean 1"`
	Bad     *uncertainProbability `yaml:"bad,omitempty" jsonschema_description:"share of the lots that are bad, instead of cv"`
	Times   *uncertainFactor      `yaml:"times,omitempty" jsonschema_description:"how many times as often pieces of a bad lot fail as those of a good one; the mean over all lots is the stated rate"`
	Factors []factor              `yaml:"factors,omitempty" jsonschema_description:"the factors themselves, each as likely as any other, instead of cv; taken in proportion to their mean" jsonschema:"minItems=1,maxItems=1000"`
}

// JSONSchemaExtend asks for one way to say what lots differ by.
func (lots) JSONSchemaExtend(s *jsonschema.Schema) {
	for _, keys := range [][]string{{"cv"}, {"bad", "times"}, {"factors"}} {
		s.OneOf = append(s.OneOf, &jsonschema.Schema{Required: keys})
	}
	s.DependentRequired = map[string][]string{"bad": {"times"}, "times": {"bad"}}
}

// model returns the lots of the model; none if none are given.
func (x *lots) model() model.Lots {
	if x == nil {
		return model.Lots{}
	}
	all := model.Lots{Of: float64(or(x.Of, 0)), CV: float64(or(x.CV, 0)), Bad: float64(or(x.Bad, 0)), Times: float64(or(x.Times, 0))}
	for _, f := range x.Factors {
		all.Factors = append(all.Factors, float64(f))
	}
	return all
}

// dayFactors is how the faults of a line change from day to day and within a day, as it is written.
type dayFactors struct {
	CV    *uncertainFactor `yaml:"cv,omitempty" jsonschema_description:"coefficient of variation of the factors that days have on the faults of all stations, from 0.001 to 10: gamma, with mean 1; 0 if not given: days are alike"`
	Every *seconds         `yaml:"every,omitempty" jsonschema_description:"running time after which a new day begins, such as 6 h; if not given a shift, or a pass of a job, is a day"`
	Level *uncertainFactor `yaml:"level,omitempty" jsonschema_description:"a factor on all days; 1 if not given"`
	Drift []driftStep      `yaml:"drift,omitempty" jsonschema_description:"how the faults change within a day, in steps; not at all if not given" jsonschema:"minItems=1,maxItems=100"`
}

type driftStep struct {
	From  *seconds `yaml:"from" jsonschema_description:"running time of the day from which on it holds, such as 0 min"`
	Times *factor  `yaml:"times" jsonschema_description:"how many times as often faults come then, above 0; 1 before the first step"`
}

func (x *driftStep) decode(r *reader, n *node, _ string) { r.inside(n, "a step of the drift", x) }

// model returns the days of the model; all alike if none are given.
func (x *dayFactors) model() model.Days {
	if x == nil {
		return model.Days{}
	}
	days := model.Days{CV: float64(or(x.CV, 0)), Hours: float64(or(x.Every, 0)) / 3600, Level: float64(or(x.Level, 0))}
	for _, step := range x.Drift {
		days.Drift = append(days.Drift, model.DriftStep{From: float64(or(step.From, 0)) / 3600, Times: float64(or(step.Times, 1))})
	}
	return days
}
