package workbench

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A change ends what was asked before it, whatever that is at: of what is not asked any more nothing is
// told, and the next thing that is told is the first answer to the change. How soon that comes is measured
// by BenchmarkChange.
func TestChangeEndsWhatWasAsked(t *testing.T) {
	before, after := manyStations(t, 1), manyStations(t, 2)
	for _, at := range []string{"rate", "gain", "details", "versus"} {
		t.Run(at, func(t *testing.T) {
			heard := make(chan toldRegions, 1000)
			a := asker{}
			a.show = func(rev int, regions map[string]string) {
				heard <- toldRegions{rev, regions}
				if rev == 1 && regions[at] != "" {
					a.start(after)
				}
			}
			a.start(before)
			for x := range heard {
				if x.rev == 1 && x.regions[at] != "" {
					break
				}
			}
			next := <-heard
			assert.Equal(t, 2, next.rev)
			assert.Contains(t, next.regions["status"], `data-rough="true"`)
			for x := range heard {
				require.Equal(t, 2, x.rev)
				if x.regions["details"] != "" {
					break
				}
			}
			a.stop()
		})
	}
}

// The first answer does not wait until what was asked before has come to its end; what follows does.
func TestFirstAnswerWaitsForNothing(t *testing.T) {
	heard := make(chan toldRegions, 1000)
	a := asker{show: func(rev int, regions map[string]string) { heard <- toldRegions{rev, regions} }}
	before, ended := make(chan struct{}), make(chan struct{})
	asked := task{rev: 3, text: textNamed(t, "direct-mail"), from: place{Title: "x"}}
	go func() {
		defer close(ended)
		a.answer(t.Context(), asked, before)
	}()
	x := <-heard
	assert.NotEmpty(t, x.regions["rate"])
	select {
	case x := <-heard:
		assert.Fail(t, "told before what was asked before had ended", "%v", x.regions)
	case <-time.After(2 * settling):
	}
	close(before)
	assert.Equal(t, 3, (<-heard).rev)
	<-ended
}

type toldRegions struct {
	rev     int
	regions map[string]string
}

// manyStations is a line of 64 stations beside twelve pins.
func manyStations(tb testing.TB, rev int) task {
	tb.Helper()
	text := strings.Replace(textNamed(tb, "64 stations"), "min: 1000, max: 20000", "min: 20, max: 20", 1)
	t := task{rev: rev, text: fmt.Sprintf("%s# %d\n", text, rev), from: place{Title: "x"}}
	for i := range 12 {
		t.pins = append(t.pins, pin{Name: fmt.Sprint(i), Text: strings.Replace(text, "pieces: 2500", fmt.Sprint("pieces: ", 2400+i), 1)})
	}
	return t
}

// BenchmarkChange is how long the first answer takes after a change that comes while a line of 64 stations
// is set against twelve pins, of which all shifts are known: the comparison is being written.
func BenchmarkChange(b *testing.B) {
	heard := make(chan toldRegions, 1000)
	a := asker{show: func(rev int, regions map[string]string) { heard <- toldRegions{rev, regions} }}
	defer a.stop()
	until := func(rev int, region string) {
		for x := range heard {
			if x.rev == rev && x.regions[region] != "" {
				return
			}
		}
	}
	t := manyStations(b, 0)
	change := func(rev int) {
		now := t
		now.rev, now.text = rev, fmt.Sprintf("%s# %d\n", t.text, rev)
		a.start(now)
	}
	change(0)
	until(0, "versus")
	rev := 0
	for b.Loop() {
		b.StopTimer()
		rev++
		change(rev)
		until(rev, "details")
		b.StartTimer()
		rev++
		change(rev)
		until(rev, "status")
	}
}
