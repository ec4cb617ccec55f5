package runs

import (
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/model/modeltest"
)

// The shifts behind one fan figure.
func BenchmarkCourse(b *testing.B) {
	for b.Loop() {
		_, err := CourseOf(modeltest.ReferenceLine(), 1, 200, 16)
		require.NoError(b, err)
	}
}
