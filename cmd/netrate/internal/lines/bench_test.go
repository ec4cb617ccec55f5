package lines

import (
	"context"
	"testing"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/output"
)

// BenchmarkCommonRandomNumbers reports how many times more shifts independent random numbers would take to
// compare the seventh feeder with the base: the variance of the difference without shared
// random numbers over that with it.
func BenchmarkCommonRandomNumbers(b *testing.B) {
	x, err := scenarios.ExampleNamed("seventh-feeder")
	if err != nil {
		b.Fatal(err)
	}
	sc, err := scenarios.Load("seventh-feeder.yaml", x.Data)
	if err != nil {
		b.Fatal(err)
	}
	lines := []*model.Line{sc.Line, sc.Variants[0].Line}
	var c output.Comparison
	for b.Loop() {
		studies, err := runs.Together(context.Background(), lines, sim.Plan{Seed: 1, Min: 1000, Max: 1000}, nil, nil)
		if err != nil {
			b.Fatal(err)
		}
		c = output.Paired(studies[0].NetRates(), studies[1].NetRates(), say.Level)
	}
	b.ReportMetric(c.VarianceRatio, "variance-ratio")
}
