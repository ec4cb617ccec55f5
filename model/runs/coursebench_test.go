package runs

import (
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/model/modeltest"
	"netrate/sim"
)

// The shifts behind one fan figure.
func BenchmarkCourse(b *testing.B) {
	for b.Loop() {
		_, err := CourseOf(&Study{Line: modeltest.ReferenceLine(), Plan: sim.Plan{Seed: 1}}, 200, 16)
		require.NoError(b, err)
	}
}
