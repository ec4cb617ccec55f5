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
// asked before it. The limit is generous, since other tests run meanwhile; BenchmarkFirstAnswer measures.
func TestManyStationsAndPinsAreAnsweredInTime(t *testing.T) {
	text := textNamed(t, "64 stations")
	var pins []pin
	for i := range 12 {
		pins = append(pins, pin{Name: fmt.Sprint(i), Text: text})
	}
	answered := make(chan int, 1000)
	a := asker{show: func(rev int, regions map[string]string) {
		if regions["rate"] != "" {
			answered <- rev
		}
	}}
	defer a.stop()
	var took []time.Duration
	for n := range 5 {
		changed := strings.Replace(text, "pieces: 2500", fmt.Sprint("pieces: ", 2500+n), 1)
		begin := time.Now()
		a.start(task{rev: n, text: changed, from: place{Title: "x"}, pins: pins})
		for rev := range answered {
			if rev == n {
				break
			}
		}
		took = append(took, time.Since(begin))
		time.Sleep(400 * time.Millisecond) // it goes on meanwhile
	}
	slices.Sort(took)
	assert.Less(t, took[len(took)/2], time.Second, "%v", took)
}
