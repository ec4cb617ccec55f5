package scenarios

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0},
		{"", "abc", 3},
		{"jam", "jam", 0},
		{"kitten", "sitting", 3}, // the usual example of the textbooks (from memory)
		{"ca", "abc", 3},         // restricted: a swapped pair is not touched again (from memory)
		{"misfede", "misfeed", 1},
		{"größe", "grösse", 2},
	} {
		t.Run(c.a+" "+c.b, func(t *testing.T) {
			assert.Equal(t, c.want, distance(c.a, c.b))
			assert.Equal(t, c.want, distance(c.b, c.a))
		})
	}
}

func TestNearest(t *testing.T) {
	keys := []string{"misfeed", "double", "jam", "false_calls", "hopper", "track gate", "exit gate", "s", "at"}
	for word, want := range map[string]string{
		"misfeeds":    "misfeed",
		"Misfeed":     "misfeed",
		"mis-feed":    "misfeed",
		"false calls": "false_calls",
		"falsecals":   "false_calls",
		"trackgate":   "track gate",
		"gate":        "track gate",
		"jma":         "jam",
		"colour":      "",
		"x":           "",
		"":            "",
		"fortnight":   "",
	} {
		t.Run(word, func(t *testing.T) { assert.Equal(t, want, Nearest(word, keys)) })
	}
}
