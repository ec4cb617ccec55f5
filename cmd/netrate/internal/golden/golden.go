package golden

import (
	"flag"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Update is the flag that has the expected texts rewritten.
var Update = flag.Bool("update", false, "rewrite the expected texts")

// Check compares a text with that of a file. Read the difference before you use -update.
func Check(t *testing.T, file, got string) {
	t.Helper()
	if *Update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o600))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}
