package desk

import (
	"io"
	"testing"

	"github.com/vbauerster/mpb/v8"
)

// A bar that is not full must not keep the run from ending, nor one that is.
func TestProgressStops(t *testing.T) {
	for name, shifts := range map[string]int{"early": 3, "full": 10, "nothing done": 0} {
		t.Run(name, func(*testing.T) {
			p := NewProgress(io.Discard, 10, "shift", mpb.WithAutoRefresh())
			if shifts > 0 {
				p.Done(shifts)
			}
			p.Stop()
		})
	}
}
