package lines

import (
	"strings"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/small"
	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
)

func TestRate(t *testing.T) {
	for text, want := range map[string]float64{"100/h": 100, "2/min": 120, "0.5 /h": 0.5} {
		var r rate
		require.NoError(t, r.Set(text))
		assert.Equal(t, want, float64(r))
	}
	for _, text := range []string{"", "100", "0/h", "-1/h", "x/h", "NaN/h", "Inf/h", "1e12/h", "100/s"} {
		var r rate
		assert.ErrorContains(t, r.Set(text), "with its unit", text)
	}
}

// A plan of a fixed number of shifts looks at no precision, wherever it is asked for.
func TestFixedPlan(t *testing.T) {
	file := scenarios.Settings{Seed: 5, Precision: 0.02, Min: 10, Max: 400}
	vars := map[string]string{"NETRATE_PRECISION": "1%"}
	o := desk.NewFixedPlanFlags(pflag.NewFlagSet("x", pflag.ContinueOnError), "")
	plan, err := o.Fixed(desk.Env{Getenv: func(name string) string { return vars[name] }}, file, 30)
	require.NoError(t, err)
	assert.Equal(t, sim.Plan{Seed: 5, Min: 30, Max: 30}, plan)
	require.NoError(t, o.Set("reps", "7"))
	plan, err = o.Fixed(desk.Env{Getenv: func(string) string { return "" }}, file, 30)
	require.NoError(t, err)
	assert.Equal(t, sim.Plan{Seed: 5, Min: 7, Max: 7}, plan)
}

func TestUncertaintyFlag(t *testing.T) {
	flags := pflag.NewFlagSet("run", pflag.ContinueOnError)
	n := newUncertaintyFlag(flags)
	assert.Empty(t, n.again())
	require.NoError(t, flags.Parse([]string{"--uncertainty", "0"}))
	assert.Equal(t, " --uncertainty 0", n.again())
	for _, bad := range []string{"39", "-1", "x", "100001"} {
		assert.Error(t, flags.Parse([]string{"--uncertainty", bad}))
	}
}

// Where inputs are uncertain, a number of shifts alone is that of all draws; where nothing is, or the
// draws are given too, it is left alone.
func TestRepsOfDraws(t *testing.T) {
	known, unknown := &model.Line{}, &model.Line{UncertainInputs: []model.UncertainInput{{Name: "misfeed"}}}
	for flags, want := range map[string]struct {
		of    *model.Line
		draws int
		again string
		wrong bool
	}{
		"":                             {unknown, 500, " --uncertainty 500", false},
		"--reps 160":                   {unknown, 40, " --uncertainty 40", false},
		"--reps 161":                   {unknown, 41, " --uncertainty 41", false},
		"--reps 1000":                  {unknown, 250, " --uncertainty 250", false},
		"--reps 159 --uncertainty 100": {unknown, 100, " --uncertainty 100", false},
		"--reps 24 --uncertainty 0":    {unknown, 0, " --uncertainty 0", false},
		"--reps 156":                   {unknown, 0, "", true},
		"--reps 1":                     {unknown, 0, "", true},
		"--reps 400001":                {unknown, 0, "", true},
		"--reps 24":                    {known, 500, "", false},
		"--uncertainty 60":             {known, 60, " --uncertainty 60", false},
	} {
		set := pflag.NewFlagSet("compare", pflag.ContinueOnError)
		o := desk.NewFixedPlanFlags(set, "")
		n := newUncertaintyFlag(set)
		require.NoError(t, set.Parse(strings.Fields(flags)))
		plan, err := o.Fixed(desk.Env{Getenv: func(string) string { return "" }}, scenarios.Settings{}, 1000)
		require.NoError(t, err)
		err = n.asked(o, plan.Max, known, want.of)
		if want.wrong {
			assert.ErrorContains(t, err, "want --reps from 160 to 400,000, or --uncertainty beside it", flags)
			assert.Equal(t, 2, desk.Status(err))
			continue
		}
		require.NoError(t, err, flags)
		assert.Equal(t, want.draws, int(*n), flags)
		assert.Equal(t, want.again, n.again(known, want.of), flags)
	}
}

// jobLines returns the lines of the file with yearly volumes of jobs, after a change of its text.
func jobLines(t *testing.T, old, with string) *alternatives {
	t.Helper()
	sc, text := small.CostJobs(t, old, with)
	a, err := variantsOf(page.Origin{Scenario: sc, Text: text}, "netrate compare costjobs.yaml", "costjobs.yaml")
	require.NoError(t, err)
	return a
}

func TestJobsThatCannotBeCompared(t *testing.T) {
	narrow := "      rated: 11000/h\n"
	for want, c := range map[string]struct{ old, with string }{
		"not every line can run all jobs that have a yearly volume:\n" +
			"the base: job adverts: ": {narrow, narrow + "      takes: {height: up to 150 mm}\n"},
		"the base: job statements: ": {narrow, narrow + "      takes: {height: up to 150 mm}\n"},
		"“with a track gate”: job adverts: ": {
			"      - {set: policy,", "      - {remove: card}\n      - {set: policy,",
		},
		"“with a track gate” has other yearly volumes of jobs than the base: lines are compared at the same work": {
			"      - {set: policy,", "      - {set: costs.volumes.statements, to: 9000000}\n      - {set: policy,",
		},
	} {
		f := jobLines(t, c.old, c.with)
		_, err := newCompareFlags(desk.NewFlags("compare")).question(desk.Env{}, f)
		require.Error(t, err)
		assert.Equal(t, 2, desk.Status(err))
		assert.Contains(t, err.Error(), want)
	}
	o := newCompareFlags(desk.NewFlags("compare"))
	require.NoError(t, o.Parse([]string{"--best"}))
	q, err := o.question(desk.Env{Getenv: func(string) string { return "" }}, jobLines(t, "", ""))
	require.NoError(t, err)
	assert.NotEmpty(t, q.Alternatives[0].Costs.Volumes, "the best at all jobs together")

	// Without volumes of jobs nothing is set up, whatever jobs there are.
	f := jobLines(t, "  volumes: {statements: 8000000, adverts: {low: 3000000, likely: 4000000, high: 6000000}}", "  volume: 12000000")
	o = newCompareFlags(desk.NewFlags("compare"))
	q, err = o.question(desk.Env{Getenv: func(string) string { return "" }}, f)
	require.NoError(t, err)
	assert.Empty(t, q.Alternatives[0].Costs.Volumes)
}
