package runs

import (
	"runtime"
	"testing"
	"unsafe"

	"github.com/stretchr/testify/assert"

	"netrate/internal/golden"
	"netrate/model"
	"netrate/sim"
)

// What is kept of a long study is kept once: while it grows it is not copied to where there is
// more room.
func TestLongStudiesAreKeptOnce(t *testing.T) {
	if golden.Raced {
		t.Skip("what is allocated is not what the race detector looks at, and it allocates too")
	}
	const shifts = 16 * long
	s := &Study{Line: &model.Line{}, Plan: sim.Plan{Max: shifts}}
	o := model.Outcome{Time: model.Time{Shift: 1}}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	for range shifts {
		s.Fold(&o)
	}
	runtime.ReadMemStats(&after)
	size := uint64(shifts * unsafe.Sizeof(Shift{}))
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, size+size/2, "bytes")
}
