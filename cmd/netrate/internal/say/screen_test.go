package say

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Answers fit the terminal within limits; what is none is of the usual width.
func TestFit(t *testing.T) {
	t.Cleanup(func() { Fit(0) })
	for given, want := range map[int][2]int{0: {80, 80}, 20: {60, 60}, 72: {72, 72}, 120: {120, 100}, 999: {200, 100}} {
		Fit(given)
		assert.Equal(t, want, [2]int{Screen(), Prose()}, given)
	}
}
