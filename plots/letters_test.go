package plots

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestLetters(t *testing.T) {
	for i, want := range map[int]string{0: "a", 25: "z", 26: "aa", 51: "az", 52: "ba", 701: "zz", 702: "aaa"} {
		assert.Equal(t, want, letter(i))
	}
	var l letters
	assert.Equal(t, []string{"a", "b", "a"}, []string{l.of("one"), l.of("two"), l.of("one")})
}

// Short words stand side by side, long ones one below the other; none is left off.
func TestLetterList(t *testing.T) {
	short := &Figure{width: usualWidth}
	short.list(letters{[]string{"one", "two"}})
	assert.InDelta(t, labelled(t, short, "one").at.y, labelled(t, short, "two").at.y, 1e-9)
	long := &Figure{width: usualWidth}
	long.list(letters{[]string{longName(0), "two"}})
	assert.Greater(t, labelled(t, long, "two").box().top, labelled(t, long, "a").box().bottom)
	assert.Less(t, labelled(t, long, "two").box().bottom, long.y, "the next thing goes below")
}

// Ticks are thinned evenly until their names have room.
func TestNamedTicks(t *testing.T) {
	var weeks []Tick
	for i := range 13 {
		weeks = append(weeks, Tick{float64(i), "week 40"})
	}
	wide := textFace.width("week 40") + 8 // the name and what keeps it clear of the next
	for want, room := range map[int]float64{13: 12*wide + 1, 7: 12*wide - 1, 5: 4*wide + 1, 2: wide + 1, 1: wide - 1} {
		assert.Len(t, thinned(scale{0, 12, 0, room}, weeks).ticks, want)
	}
}
