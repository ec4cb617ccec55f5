package scenarios

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRefused(t *testing.T) {
	example, err := ExampleNamed("statements")
	good := example.Data
	require.NoError(t, err)
	inLine := bytes.Replace(good, []byte("match: by hand"), []byte("match: in line"), 1)
	gate := []byte("    - {kind: track gate, name: track gate, at: 11, bin: {sets: 60, warn: 25, empty: 20 s}}\n")
	refused := bytes.Replace(inLine, gate, nil, 1)
	require.NotEqual(t, inLine, refused)

	line := Refused("x", refused)
	require.NotNil(t, line)
	assert.NotEmpty(t, line.Check())
	assert.Nil(t, Refused("x", good), "nothing is wrong with it")
	assert.Nil(t, Refused("x", []byte("name: 3")), "more is wrong than a response")
	assert.Nil(t, Refused("x", bytes.Replace(refused, []byte("8 h"), []byte("8"), 1)), "more is wrong than a response")
}
