package main

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Without arguments a shell gets the help, and a desktop the workbench; a file that is dropped on the
// program is opened, and nothing else is taken for one.
func TestStarted(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("line.yaml", nil, 0o600))
	require.NoError(t, os.WriteFile("log.csv", nil, 0o600))
	require.NoError(t, os.WriteFile("run", nil, 0o600))
	require.NoError(t, os.Mkdir("d.yaml", 0o700))
	assert.Empty(t, started(nil, false))
	assert.Equal(t, []string{"open"}, started(nil, true))
	assert.Equal(t, []string{"open", "line.yaml"}, started([]string{"line.yaml"}, false))
	for _, args := range [][]string{{"run"}, {"log.csv"}, {"none.yaml"}, {"d.yaml"}, {"--help"}, {"run", "line.yaml"}, {"line.yaml", "line.yaml"}} {
		assert.Equal(t, args, started(args, true))
	}
}
