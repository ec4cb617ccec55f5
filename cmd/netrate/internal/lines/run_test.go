package lines

import (
	"context"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/golden"
	"netrate/sim"
)

// Where a signal came before the first shift was done, there is nothing to print.
func TestInterruptedBeforeTheFirstShift(t *testing.T) {
	sc, _, _ := golden.Small(t, 1)
	ctx, cancel := context.WithCancelCause(t.Context())
	cancel(desk.Interrupted{Signal: syscall.SIGTERM})
	study, err := simulate(ctx, desk.Env{}, sc.Line, sim.Plan{Min: 5, Max: 5})
	assert.Nil(t, study)
	require.EqualError(t, err, "interrupted: not even one shift was done, so there is no answer")
	assert.Equal(t, 143, desk.Status(err))
}
