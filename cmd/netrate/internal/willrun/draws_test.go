package willrun

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/scenarios"
)

// What a run would refuse in one of its draws, check refuses; a growth whose standard error reaches
// beyond what a line can have is drawn within that.
func TestDrawsThatNoLineCanBe(t *testing.T) {
	text, err := os.ReadFile("../../testdata/small.yaml")
	require.NoError(t, err)
	with := func(rate string) *scenarios.Scenario {
		const own = "misfeed: 1/500\n      double: 1/900"
		require.Contains(t, string(text), own)
		sc, err := scenarios.Load("x.yaml", []byte(strings.Replace(string(text), own, rate, 1)))
		require.NoError(t, err)
		return sc
	}
	assert.NoError(t, wrongToRun(with("growth: {about: 4.59, se: 4.5}\n      misfeed: 1/500\n      double: 1/900")))

	err = wrongToRun(with("double: {seen: 2, of: 4}\n      misfeed: {seen: 1, of: 4}"))
	var impossible *model.ImpossibleDraw
	require.ErrorAs(t, err, &impossible)
	assert.Positive(t, impossible.Draw)
	assert.Contains(t, err.Error(), "x.yaml, the base: ")
}
