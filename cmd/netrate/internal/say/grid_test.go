package say

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Cells that are too long go on below, each in its own column.
func TestGrid(t *testing.T) {
	got := Grid([][]string{{"name", "what it is", "x"}, {"a long name", "one\ntwo words more", ""}, {"", "end", "y"}}, []int{6, 9, 3})
	assert.Equal(t, ""+
		"name    what it    x\n"+
		"        is\n"+
		"a long  one\n"+
		"name    two words\n"+
		"        more\n"+
		"        end        y\n", got)
}
