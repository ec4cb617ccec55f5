package model

import (
	"crypto/sha256"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

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
				fmt.Fprintf(sum, "%+v\n", o) // %v writes a number in full
			}
		}
		sums = append(sums, fmt.Sprintf("%x", sum.Sum(nil)[:8]))
	}
	assert.Equal(t, []string{
		"29aee87527e66d51", "0fe8d26cabc08553", "cfa11828dba2abf7", "aeeaec4b546e5076", "b8f7f8148cfa36a5",
	}, sums)
}
