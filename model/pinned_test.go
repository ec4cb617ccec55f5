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
		"c3a9df5e0c581485", "85ac4f46ddf7a311", "cb84caa94a2dd9af", "ec21ff4148d43a57", "b7e2fcaff3a1eaa9",
	}, sums)
}
