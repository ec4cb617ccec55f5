package lines

import (
	"context"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/small"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// Where a signal came before the first shift was done, there is nothing to print.
func TestInterruptedBeforeTheFirstShift(t *testing.T) {
	sc, _, _ := small.Scenario(t, 1)
	ctx, cancel := context.WithCancelCause(t.Context())
	cancel(desk.Interrupted{Signal: syscall.SIGTERM})
	ask := func(_ context.Context, told func(study.Sofar[study.RunAnswer])) (*study.RunAnswer, error) {
		return study.Run{Alternative: study.Alternative{Line: sc.Line}, Plan: sim.Plan{Min: 5, Max: 5}}.Ask(ctx, told)
	}
	a, err := ask(ctx, nil)
	require.NoError(t, err)
	assert.Nil(t, a)
	err = desk.Env{}.CutShort(ctx, 0, "shift")
	require.EqualError(t, err, "interrupted: not even one shift was done, so there is no answer")
	assert.Equal(t, 143, desk.Status(err))
}

// A run of gates that nothing uses says so below its answer.
func TestUnusedGates(t *testing.T) {
	x, err := scenarios.ExampleNamed("divert-or-stop")
	require.NoError(t, err)
	base, _, _ := strings.Cut(string(x.Data), "\nvariants:")
	for text, said := range map[string]bool{base: false, strings.Replace(base, "\npolicy:", "\n# policy:", 1): true} {
		sc, err := scenarios.Load("x.yaml", []byte(text))
		require.NoError(t, err)
		assert.Equal(t, said, strings.Contains(present.PolicyNote(slips(sc)), "the file states no policy"))
	}
}
