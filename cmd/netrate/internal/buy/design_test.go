package buy

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// offersAsChoices returns an example, or a file, whose variants are the choices of one option, and the same
// without a design.
func offersAsChoices(t *testing.T, name, goal string) (design, plain *scenarios.Scenario) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		example, err := scenarios.ExampleNamed(name)
		require.NoError(t, err)
		data = example.Data
	}
	text := string(data)
	plain, err = scenarios.Load(name, data)
	require.NoError(t, err)
	_, variants, found := strings.Cut(text, "\nvariants:\n")
	require.True(t, found)
	var choices strings.Builder
	for line := range strings.Lines(variants) {
		if strings.HasPrefix(line, "run:") {
			break
		}
		choices.WriteString("      " + line)
	}
	text += "\ndesign:\n  goal: " + goal + "\n  options:\n    - name: offer\n      choices:\n        - {name: as it is}\n" + choices.String()
	design, err = scenarios.Load(name, []byte(text))
	require.NoError(t, err)
	return design, plain
}

// Offers that are choices of a design come to what compare makes of them as variants, to the last
// digit; and the best is the one that compare finds, or within what matters of it.
func TestDesignAgreesWithCompare(t *testing.T) {
	for _, c := range []struct{ example, goal string }{{"three-offers", "net rate"}, {"gate-worth", "cost per thousand"}, {"offersforjobs.yaml", "cost per thousand"}, {"offersforjobs.yaml", "net present value"}} {
		t.Run(c.example+", "+c.goal, func(t *testing.T) {
			searched, plain := offersAsChoices(t, c.example, c.goal)
			flags := desk.NewFlags("design")
			o := newDesignFlags(flags)
			q := o.question(sim.Plan{Seed: 1, Min: 100, Max: 100}, searched)
			d, err := q.Ask(t.Context(), nil)
			require.NoError(t, err)

			compared, err := study.Comparison{Alternatives: page.AlternativesOf(plain), Plan: q.Plan}.Ask(t.Context(), nil)
			require.NoError(t, err)
			rates, costs := map[string]study.NetRate{}, map[string]study.Spread{}
			for i, x := range compared.Lines {
				rates[x.Name] = x.NetRate
				if compared.Money != nil {
					costs[x.Name] = compared.Money.Lines[i].Annual
				}
			}
			for i, f := range d.Finalists {
				name := "base"
				if i > 0 {
					name = f.Choices[0]
				}
				assert.Equal(t, rates[name], d.Comparison.Lines[i].NetRate, name)
				if compared.Money != nil {
					assert.Equal(t, costs[name], d.Comparison.Money.Lines[i].Annual, name)
				}
			}
			best := "base"
			if d.Best > 0 {
				best = d.Finalists[d.Best].Choices[0]
			}
			wanted := compared.Leader
			if c.goal != "net rate" {
				wanted = compared.Money.Cheapest
			}
			assert.Equal(t, compared.Lines[wanted].Name, best)
			assert.True(t, d.Promised)
		})
	}
}

// The command that is printed asks the same again.
func TestDesignCommand(t *testing.T) {
	flags := desk.NewFlags("design")
	o := newDesignFlags(flags)
	require.NoError(t, flags.Parse([]string{"--indifference", "25", "--confidence", "90%"}))
	assert.Equal(t, "netrate design x.yaml --indifference 25 --confidence 90%", o.command("netrate design x.yaml"))
	for _, wrong := range []string{"0", "-3", "NaN", "1e10", "much", ""} {
		assert.Error(t, new(amount).Set(wrong), wrong)
	}
}

// BenchmarkDesignOfManyCombinations decides among 124,416 combinations, and says how many were left out
// where.
func BenchmarkDesignOfManyCombinations(b *testing.B) {
	text, err := os.ReadFile("testdata/manychoices.yaml")
	require.NoError(b, err)
	sc, err := scenarios.Load("manychoices.yaml", text)
	require.NoError(b, err)
	o := newDesignFlags(desk.NewFlags("design"))
	var c study.DesignCounts
	for b.Loop() {
		a, err := o.question(sim.Plan{Seed: 1, Min: designReps, Max: designReps}, sc).Ask(b.Context(), nil)
		require.NoError(b, err)
		require.True(b, a.Promised)
		c = a.Counts
	}
	b.ReportMetric(float64(c.Combinations), "combinations")
	b.ReportMetric(float64(c.Ruled), "ruled-out")
	b.ReportMetric(float64(c.Ceiling), "on-paper")
	b.ReportMetric(float64(c.Simulated+c.Near), "simulated")
	b.ReportMetric(float64(c.Shifts), "shifts")
}
