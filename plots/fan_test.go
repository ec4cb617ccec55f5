package plots

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A backlog stands on its zero line, which has a word; weeks have their names.
func TestBacklog(t *testing.T) {
	d := backlogOf(head, 3, plainName)
	for i := range d.Points { // far from zero
		d.Points[i].Spread = Percentiles{90, 95, 100, 105, 110}
	}
	f := made(t)(Fan(d))
	assert.Subset(t, texts(f), []string{"all done", "variant 1", "variant 3", "middle half of seasons"})
	assert.Contains(t, strings.Join(texts(f), " "), "a single season need not follow the median")
	assert.NotContains(t, texts(f), "0")
	var medians []point
	for _, m := range f.marks {
		if d, ok := m.(dot); ok {
			medians = append(medians, d.centre)
		}
	}
	tick := func(s string) float64 { return labelled(t, f, s).at.y }
	unit := (tick("all done") - tick("100")) / 100
	zero := medians[0].y + 100*unit
	assert.Len(t, medians, 3)
	var line float64
	for _, m := range f.marks {
		if s, ok := m.(stroke); ok && s.pen.colour == ink && s.pen.width == 1 {
			line = s.points[0].y
		}
	}
	assert.InDelta(t, zero, line, 1e-9)

	d.Zero = ""
	assert.NotContains(t, texts(made(t)(Fan(d))), "all done")
	assert.NotContains(t, texts(made(t)(Fan(d))), "0", "not reached")
}

// Without words of their own, the runs are shifts.
func TestRunsWords(t *testing.T) {
	for _, c := range []struct {
		runs      Runs
		one, many string
	}{
		{Runs{}, "shift", "shifts"},
		{Runs{"season", "seasons"}, "season", "seasons"},
		{Runs{One: "season"}, "shift", "shifts"},
	} {
		one, many := c.runs.words()
		assert.Equal(t, []string{c.one, c.many}, []string{one, many})
	}
	spoken := Runs{"season", "seasons"}
	assert.Contains(t, texts(made(t)(Cumulative(CumulativeData{Of: spoken, Curves: []Values{{Name: "x", Values: []float64{1}}}}))), "share of seasons at or below")
	assert.Contains(t, spoken.boxed(), "the middle half of the seasons")
}
