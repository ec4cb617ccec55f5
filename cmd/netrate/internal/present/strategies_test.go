package present

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestManyOf(t *testing.T) {
	assert.Equal(t, "131,072", manyOf(1<<17))
	assert.Equal(t, "1.1 × 10^15", manyOf(1<<50))
}
