package desk

import (
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/scenarios"
	"netrate/sim"
)

// Flags win over the environment, and that wins over the file.
func TestPlan(t *testing.T) {
	file := scenarios.Settings{Seed: 5, Precision: 0.02, Min: 10, Max: 400}
	for name, c := range map[string]struct {
		args []string
		vars map[string]string
		want sim.Plan
	}{
		"file":                       {nil, nil, sim.Plan{Seed: 5, Precision: 0.02, Min: 10, Max: 400}},
		"seed by flag":               {[]string{"--seed", "7"}, nil, sim.Plan{Seed: 7, Precision: 0.02, Min: 10, Max: 400}},
		"seed by variable":           {nil, map[string]string{"NETRATE_SEED": "8"}, sim.Plan{Seed: 8, Precision: 0.02, Min: 10, Max: 400}},
		"seed by both":               {[]string{"--seed=0"}, map[string]string{"NETRATE_SEED": "8"}, sim.Plan{Seed: 0, Precision: 0.02, Min: 10, Max: 400}},
		"exact number":               {[]string{"--reps", "30"}, nil, sim.Plan{Seed: 5, Min: 30, Max: 30}},
		"exact number, variable":     {nil, map[string]string{"NETRATE_REPS": "30"}, sim.Plan{Seed: 5, Min: 30, Max: 30}},
		"precision in percent":       {[]string{"--precision", "0.5%"}, nil, sim.Plan{Seed: 5, Precision: 0.005, Min: 10, Max: 400}},
		"precision as a number":      {[]string{"--precision", "0.005"}, nil, sim.Plan{Seed: 5, Precision: 0.005, Min: 10, Max: 400}},
		"precision rules out a rep":  {[]string{"--precision", "1%"}, map[string]string{"NETRATE_REPS": "30"}, sim.Plan{Seed: 5, Precision: 0.01, Min: 10, Max: 400}},
		"rep rules out a precision":  {[]string{"--reps", "30"}, map[string]string{"NETRATE_PRECISION": "1%"}, sim.Plan{Seed: 5, Min: 30, Max: 30}},
		"workers by variable":        {nil, map[string]string{"NETRATE_WORKERS": "2"}, sim.Plan{Seed: 5, Precision: 0.02, Min: 10, Max: 400, Workers: 2}},
		"workers by flag, all cores": {[]string{"--workers", "0"}, map[string]string{"NETRATE_WORKERS": "2"}, sim.Plan{Seed: 5, Precision: 0.02, Min: 10, Max: 400}},
	} {
		t.Run(name, func(t *testing.T) {
			plan, err := planOf(t, c.args, c.vars, file)
			require.NoError(t, err)
			assert.Equal(t, c.want, plan)
		})
	}
}

func planOf(t *testing.T, args []string, vars map[string]string, file scenarios.Settings) (sim.Plan, error) {
	t.Helper()
	o := NewPlanFlags(NewFlags("run"))
	require.NoError(t, o.Parse(args))
	return o.Plan(Env{Getenv: func(name string) string { return vars[name] }}, file)
}

func TestPlanIsRefused(t *testing.T) {
	file := scenarios.Settings{Seed: 5, Precision: 0.02, Min: 10, Max: 400}
	for name, c := range map[string]struct {
		args []string
		vars map[string]string
		want string
	}{
		"both by flag":     {[]string{"--reps", "3", "--precision", "1%"}, nil, "choose one"},
		"both by variable": {nil, map[string]string{"NETRATE_REPS": "3", "NETRATE_PRECISION": "1%"}, "choose one"},
		"a bad variable":   {nil, map[string]string{"NETRATE_SEED": "x"}, `NETRATE_SEED is "x", want a whole number from 0 to 18446744073709551615`},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := planOf(t, c.args, c.vars, file)
			require.ErrorContains(t, err, c.want)
			assert.Equal(t, 2, Status(err))
		})
	}
}

// A choice that is right less often than not is none.
func TestConfidenceIsMoreThanACoin(t *testing.T) {
	var c Confidence
	require.ErrorContains(t, c.Set("5%"), "want 50% or more")
	require.ErrorContains(t, c.Set("100%"), "below 100%")
	require.NoError(t, c.Set("50%"))
	assert.Equal(t, "50%", c.String())
}

func TestFlagValuesAreRefused(t *testing.T) {
	for flag, values := range map[string][]string{
		"reps":      {"", "0", "-1", "1.5", "1e3", "0x10", "1_000", "10000001", "x"},
		"seed":      {"", "-1", "1.5", "18446744073709551616", "0x1"},
		"precision": {"", "-1%", "0", "0%", "100%", "1", "NaN", "Inf", "x", "%", "5 s"},
		"workers":   {"", "-1", "1001"},
	} {
		for _, value := range values {
			t.Run(flag+"="+value, func(t *testing.T) {
				o := NewPlanFlags(NewFlags("run"))
				err := o.Set(flag, value)
				var invalid *pflag.InvalidValueError
				require.ErrorAs(t, err, &invalid)
				assert.Contains(t, flagError("run", o.FlagSet, err).Error(), "want a ")
			})
		}
	}
}
