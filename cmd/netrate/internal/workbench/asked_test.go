package workbench

import (
	"errors"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/scenarios"
)

// A question is of the text that was read for it, also if that is another one a moment later.
func TestAskedOfTheTextThatWasRead(t *testing.T) {
	var b *bench
	done := make(chan struct{})
	b = newBench(onFile(t, t.TempDir(), exampleFile(t, "direct-mail")), func(string) (desk.Verb, error) {
		require.Empty(t, b.do(Op{Kind: "set", Path: "crew.operators", Value: "3"}).Wrong)
		return desk.Verb{Prepare: func(flags *pflag.FlagSet) desk.Action {
			flags.String("report", "", "")
			return func(desk.Env, []string) error { close(done); return errors.New("never mind") }
		}}, nil
	})
	defer b.close()
	require.NoError(t, b.askVerb("sensitivity", ""))
	<-done
	b.mu.Lock()
	rev := b.rev
	b.mu.Unlock()
	assert.Equal(t, 1, rev)
	b.hub.mu.Lock()
	defer b.hub.mu.Unlock()
	assert.Contains(t, b.hub.now["asked"], `data-rev="0"`)
}

// What of the optional is worth choosing is asked of a plan that has something optional; nobody with a plan is told to
// write a season.
func TestAsksOfAPlan(t *testing.T) {
	ex, err := scenarios.ExampleNamed("nine-jobs")
	require.NoError(t, err)
	sc, err := scenarios.Load("nine-jobs.yaml", ex.Data)
	require.NoError(t, err)
	assert.Equal(t, asksShown{Plan: true, Optional: true}, asksOf(sc))
	shown := region("asks", asksOf(sc))
	assert.Contains(t, shown, `data-ask="plan"`)
	assert.NotContains(t, shown, "a file with a season")
	for i := range sc.Plan.Staffed {
		sc.Plan.Staffed[i].Optional = false
	}
	assert.NotContains(t, region("asks", asksOf(sc)), `data-ask="plan"`)
	sc.Plan = nil
	assert.Contains(t, region("asks", asksOf(sc)), "a file with a season")
}
