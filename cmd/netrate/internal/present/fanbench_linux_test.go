package present

import (
	"io"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"netrate/internal/cputime"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// BenchmarkFan times what the fan figure of 1,024 shifts costs once they have been run, and the
// picture of it, in which the shifts no longer matter.
func BenchmarkFan(b *testing.B) {
	for _, name := range []string{"statements", "flats", "direct-mail"} {
		b.Run("name="+name, func(b *testing.B) {
			x, err := scenarios.ExampleNamed(name)
			require.NoError(b, err)
			sc, err := scenarios.Load(name, x.Data)
			require.NoError(b, err)
			s, err := runs.Run(b.Context(), sc.Line, sim.Plan{Seed: 1, Min: 1024, Max: 1024}, nil)
			require.NoError(b, err)
			runtime.LockOSThread()
			defer runtime.UnlockOSThread()
			var drawn, painted time.Duration
			for b.Loop() {
				begun := cputime.OfThread(b)
				course, err := study.Course{Study: s}.Ask()
				require.NoError(b, err)
				figure, err := CourseFigure(course, "The line")
				require.NoError(b, err)
				made := cputime.OfThread(b)
				require.NoError(b, figure.PNG(io.Discard, 192))
				drawn, painted = drawn+made-begun, painted+cputime.OfThread(b)-made
			}
			b.ReportMetric(float64(drawn.Nanoseconds())/1e6/float64(b.N), "cpu-ms/figure")
			b.ReportMetric(float64(painted.Nanoseconds())/1e6/float64(b.N), "cpu-ms/picture")
		})
	}
}
