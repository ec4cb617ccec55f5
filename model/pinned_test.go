package model

import (
	"crypto/sha256"
	"fmt"
	"reflect"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/internal/golden"
)

// entryName returns what an entry of a list of figures is called: by its fault or its cause, where
// the list is of these.
func entryName(list reflect.Type, i int) string {
	switch list {
	case reflect.TypeFor[[faults]int64]():
		return Fault(i).String()
	case reflect.TypeFor[[Causes]StopTotal]():
		return "cause " + causeNames[i]
	default:
		return strconv.Itoa(i)
	}
}

// The whole outcomes of random lines, to the last bit of every figure, as sums of forty lines
// each: a change of speed or of shape changes none. Another way to draw, a new rule or another
// anyLine does, and says so.
func TestOutcomesOfAnyLines(t *testing.T) {
	lines := rapid.Custom(anyLine)
	var sums []string
	for group := range 5 {
		sum := sha256.New()
		var o Outcome
		for k := range 40 {
			s, err := New(lines.Example(40*group + k))
			require.NoError(t, err)
			for replication := range 3 {
				require.NoError(t, s.Run(uint64(k), replication, &o))
				golden.Numbers(sum, o, entryName)
			}
		}
		sums = append(sums, fmt.Sprintf("%x", sum.Sum(nil)[:8]))
	}
	assert.Equal(t, []string{
		"51e29b43b474ed57", "5c713690e1930c5e", "ebf53a9076f760d7", "ee85d768a4621f8e", "6c44fc587bbd4af8",
	}, sums)
}
