package workbench

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// A line of 64 stations is answered in time while it is set against twelve pins: a change ends what was
// asked before it, also while a comparison that is whole is being written. The limit is generous, since
// other tests run meanwhile; BenchmarkFirstAnswer measures.
func TestManyStationsAndPinsAreAnsweredInTime(t *testing.T) {
	text := strings.Replace(textNamed(t, "64 stations"), "min: 1000, max: 20000", "min: 20, max: 20", 1)
	withPieces := func(n int) string { return strings.Replace(text, "pieces: 2500", fmt.Sprint("pieces: ", n), 1) }
	var pins []pin
	for i := range 12 {
		pins = append(pins, pin{Name: fmt.Sprint(i), Text: withPieces(2400 + i)})
	}
	type told struct {
		rev     int
		regions map[string]string
	}
	heard := make(chan told, 1000)
	a := asker{show: func(rev int, regions map[string]string) { heard <- told{rev, regions} }}
	defer a.stop()
	until := func(rev int, region string) {
		for x := range heard {
			if x.rev == rev && x.regions[region] != "" {
				return
			}
		}
	}
	change := func(n int) {
		a.start(task{rev: n, text: fmt.Sprintf("%s# %d\n", text, n), from: place{Title: "x"}, pins: pins})
	}
	change(0)
	until(0, "versus")
	var took []time.Duration
	for n := 1; n < 6; n++ { // all shifts are known: the comparison is whole, and written, right after the answer
		change(n)
		until(n, "details")
		time.Sleep(time.Duration(40*n) * time.Millisecond)
		begin := time.Now()
		change(-n)
		until(-n, "status")
		took = append(took, time.Since(begin))
	}
	assert.Less(t, slices.Max(took), 2*time.Second, "%v", took)
}
