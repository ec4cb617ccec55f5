package plots

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is late is shaded, from the mark of the due time to the end of the axis; box and
// mark stand on one scale.
func TestCompletionDue(t *testing.T) {
	f := made(t)(Completion(CompletionData{Jobs: []Finish{
		{Box{"letter", Recommended, Percentiles{6, 8, 10, 12, 14}, 4, 16}, 20, "in time in all"},
		{Box{"magazine", Recommended, Percentiles{6, 8, 10, 12, 14}, 4, 16}, 0, ""},
	}}))
	letter, magazine := tipped(f, "letter")[0], tipped(f, "magazine")[0]
	assert.InDelta(t, letter.left, magazine.left, 1e-9)
	hour := letter.width() / 4
	late := filled(f, lateFill)
	require.Len(t, late, 2, "one in the legend, none for what is never late")
	assert.InDelta(t, letter.left+12*hour, late[1].left, 1e-9)
	var marks []float64
	for _, m := range f.marks {
		if s, ok := m.(stroke); ok && s.pen.colour == ink && s.pen.width == 1.6 {
			marks = append(marks, s.points[0].x)
		}
	}
	require.Len(t, marks, 2)
	assert.InDelta(t, late[1].left, marks[1], 1e-9)
	assert.Greater(t, labelled(t, f, "in time in all").box().left, late[1].right)
}

// A job that is not always finished ends in an arrow at the end of the axis.
func TestNotAlwaysFinished(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		name   string
		box    Box
		arrow  bool
		boxed  bool
		whisks float64 // end of the whisker, days; 0 if it is the end of the axis
	}{
		{"always", Box{"x", Recommended, Percentiles{6, 8, 10, 12, 14}, 4, 16}, false, true, 14},
		{"nearly always", Box{"x", Recommended, Percentiles{6, 8, 10, 12, 14}, 4, inf}, true, true, 14},
		{"mostly", Box{"x", Recommended, Percentiles{6, 8, 10, 12, inf}, 4, inf}, true, true, 0},
		{"hardly ever", Box{"x", Recommended, Percentiles{inf, inf, inf, inf, inf}, 4, inf}, true, false, 0},
		{"never", Box{"x", Recommended, Percentiles{inf, inf, inf, inf, inf}, inf, inf}, true, false, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := made(t)(Completion(CompletionData{Jobs: []Finish{{c.box, 0, ""}}}))
			end := f.right() - 4
			arrows := tipped(f, "x: not always finished")
			assert.Equal(t, c.arrow, len(arrows) == 1)
			if c.arrow {
				assert.InDelta(t, end, arrows[0].left, 1e-9)
			}
			assert.Empty(t, misplaced(f))
			assert.Equal(t, c.boxed, len(filled(f, tint(blue, 0.3))) == 1)
			if !c.boxed {
				return
			}
			b := filled(f, tint(blue, 0.3))[0] // from 8 to 12
			whisker := filled(f, blue)[len(arrows)]
			want := end
			if c.whisks > 0 {
				want = b.left + b.width()/4*(c.whisks-8)
			}
			assert.InDelta(t, want, whisker.right, 1e-9)
		})
	}
}

func TestCompletionIsTold(t *testing.T) {
	svg, err := made(t)(Completion(completionOf(head, 1, plainName))).SVG()
	require.NoError(t, err)
	assert.Contains(t, string(svg), "variant 1: in time in 93 % variant 1")
	assert.Contains(t, string(svg), "the middle half of the seasons")
}
