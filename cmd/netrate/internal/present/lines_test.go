package present

import (
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// lineOfFile returns the line of a scenario of the tests.
func lineOfFile(t *testing.T, file string) *model.Line {
	t.Helper()
	sc, _, err := desk.Load(desk.Env{Err: t.Output()}, file)
	require.NoError(t, err)
	return sc.Line
}

func byHand(l *model.Line) {
	for _, s := range l.Stations {
		switch s := s.(type) {
		case *model.Feeder:
			s.OnMisfeed, s.OnDouble = model.Stop, model.Stop
		case *model.Channel:
			s.OnMisfeed, s.OnDouble = model.Stop, model.Stop
		}
	}
}

// alternatives is what is compared in a test, and where it was read.
type alternatives struct {
	all     []study.Alternative
	origins []page.Origin
	command string
}

func variantsOf(from page.Origin, command string) alternatives {
	return alternatives{page.AlternativesOf(from.Scenario), []page.Origin{from}, command}
}

// basesOf returns the lines of several runs.
func basesOf(of ...Run) alternatives {
	a := alternatives{command: "netrate compare"}
	for _, x := range of {
		a.all = append(a.all, page.AlternativeOf(x.Origin.Scenario, x.Origin.Scenario.Name))
		a.origins = append(a.origins, x.Origin)
	}
	return a
}

// ask says how lines are compared, where that is not as the base has it.
type ask func(*study.Comparison, *scenarios.Scenario)

func reps(n int) ask {
	return func(q *study.Comparison, _ *scenarios.Scenario) { q.Plan.Min, q.Plan.Max = n, n }
}

// pictured asks for all that pictures show.
func pictured(q *study.Comparison, _ *scenarios.Scenario) { q.Scenes = true }

func workers(n int) ask {
	return func(q *study.Comparison, _ *scenarios.Scenario) { q.Plan.Workers = n }
}

// best asks for the best alternative only.
func best(indifference, confidence float64) ask {
	return func(q *study.Comparison, base *scenarios.Scenario) {
		q.Plan.Max = base.Run.Max
		q.Selection = &study.ComparisonSelection{Indifference: indifference, Confidence: confidence}
	}
}

// compared compares alternatives, and draws nothing.
func compared(t *testing.T, of alternatives, how ...ask) Comparison {
	t.Helper()
	base := of.origins[0].Scenario
	q := study.Comparison{Alternatives: of.all, Plan: sim.Plan{Seed: base.Run.Seed, Min: base.Run.Min, Max: base.Run.Min}}
	for _, set := range how {
		set(&q, base)
	}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	return Comparison{ComparisonAnswer: a, Origins: of.origins, Command: of.command}
}

// seen returns an answer with its scenes.
func seen(t *testing.T, a *study.RunAnswer) *study.RunAnswer {
	t.Helper()
	all, err := study.ScenesOf(a.Study)
	require.NoError(t, err)
	a.Scenes = &all[0]
	return a
}
