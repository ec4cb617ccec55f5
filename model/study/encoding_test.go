package study

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// unencoded are the fields of answers that JSON leaves out, and why. All else is encoded, so that
// whoever reads the JSON has the whole answer.
var unencoded = map[string]string{
	"AcceptanceAnswer.Crew":       "part of the question",
	"ComparisonAnswer.Compared":   "the pairs are encoded, each once",
	"CostSweepAnswer.Study":       "all replications",
	"CostSweepPoint.Drawn":        "all draws",
	"CoverageColumn.Fits":         "the jobs have them by their line",
	"CoverageJob.On":              "encoded as Fits",
	"CoverageJob.Product":         "part of the question",
	"Exposure.Vary":               "what the intervals are made of, which are encoded",
	"GroupRunAlone.Nominal":       "all replications",
	"GroupRunAlone.Study":         "all replications",
	"GroupRunAnswer.Draws":        "all draws",
	"GroupRunAnswer.Nominal":      "all replications; its net rate is encoded",
	"GroupRunAnswer.Of":           "part of the question",
	"GroupRunAnswer.Study":        "all replications",
	"LineAnswer.Draws":            "all draws",
	"LineAnswer.Mix":              "all replications; the jobs are encoded",
	"LineAnswer.Nominal":          "all replications",
	"LineAnswer.Of":               "part of the question",
	"LineAnswer.Study":            "all replications",
	"PlansJob.Index":              "its place in the plan; its name is encoded",
	"PlansPlan.Made":              "part of the question; its jobs are encoded",
	"PlansPlan.Study":             "all replications",
	"RunAnswer.Draws":             "all draws",
	"RunAnswer.Line":              "part of the question",
	"RunAnswer.Nominal":           "all replications; its net rate is encoded",
	"RunAnswer.Study":             "all replications",
	"SeasonsLine.Study":           "all replications",
	"SeasonsCosts.More":           "all seasons; what they show is encoded",
	"SeasonsCosts.Sums":           "all seasons; what they show is encoded",
	"SeasonsCosts.Thousands":      "all seasons; what they show is encoded",
	"SensitivityAnswer.Base":      "all replications",
	"StrategiesAnswer.Line":       "part of the question",
	"StrategiesAnswer.Pairs":      "each strategy has its differences from its own and from the best",
	"StrategiesOne.Work":          "part of the question",
	"StrategiesOne.Strategy":      "encoded as Responses",
	"StrategiesOne.Study":         "all replications",
	"StrategiesPrice.Study":       "all replications",
	"SweepPoint.Study":            "all replications",
	"Uncertainty.Job":             "the figure says so",
	"Uncertainty.Study":           "all draws",
	"Matter.Input":                "part of the question; its path and its range are encoded",
	"Uncertainty.UncertainFigure": "all draws; what they show is encoded",
	"UncertaintySource.Input":     "part of the question; its path is encoded",
	"WorthAnswer.Worth":           "all draws",
	"WorthLine.Of":                "part of the question",

	"StrategiesTogetherAnswer.Study": "all replications",
}

// Whoever adds a field to an answer gives it a name in JSON, or says here why it has none.
func TestAnswersEncodeAllOfThemselves(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	left := map[string]bool{}
	for _, path := range files {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		require.NoError(t, err)
		ast.Inspect(f, func(n ast.Node) bool {
			spec, is := n.(*ast.TypeSpec)
			if !is {
				return true
			}
			if s, is := spec.Type.(*ast.StructType); is {
				leftOut(t, path, spec.Name.Name, s, left)
			}
			return false
		})
	}
	for field := range left {
		assert.Contains(t, unencoded, field, "it has no name in JSON, and no reason for that")
	}
	for field := range unencoded {
		assert.True(t, left[field], "%s is encoded, or is no more: it needs no reason", field)
	}
}

// leftOut notes the fields of a struct that JSON leaves out. A struct with one tag must have one for
// every exported field that is not embedded; a struct without is no part of an answer, or is
// encoded by a method.
func leftOut(t *testing.T, file, name string, s *ast.StructType, left map[string]bool) {
	t.Helper()
	tags := map[string]string{}
	encoded := false
	for _, f := range s.Fields.List {
		tag := ""
		if f.Tag != nil {
			tag = reflect.StructTag(strings.Trim(f.Tag.Value, "`")).Get("json")
		}
		encoded = encoded || tag != ""
		for _, n := range f.Names {
			if n.IsExported() {
				tags[n.Name] = tag
			}
		}
	}
	for field, tag := range tags {
		switch {
		case tag == "-":
			left[name+"."+field] = true
		case encoded:
			assert.NotEmpty(t, tag, "%s: %s.%s has no name in JSON", file, name, field)
		}
	}
}

// What there is none of is null, not a number.
func TestNoIndexIsNull(t *testing.T) {
	text, err := json.Marshal([]Index{-1, 0, 12})
	require.NoError(t, err)
	assert.JSONEq(t, "[null, 0, 12]", string(text))
}
