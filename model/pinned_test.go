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
		"51e29b43b474ed57", "1b4e659172e02a9b", "82eee748010d52de", "06d304613e2cd132", "650dbe5de197607a",
	}, sums)
}
