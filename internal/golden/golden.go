package golden

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Update is the flag that has the expected texts rewritten.
var Update = flag.Bool("update", false, "rewrite the golden files; read the difference before keeping it")

// Check compares a text with that of a file. Read the difference before you use -update.
func Check(t *testing.T, file, got string) {
	t.Helper()
	assert.Equal(t, expected(t, file, got), got)
}

// CheckDrawing compares a drawing, or a page, with a file. Where they differ it leaves the new one
// beside the file, to be looked at.
func CheckDrawing(t *testing.T, file, got string) {
	t.Helper()
	if expected(t, file, got) != got {
		ext := filepath.Ext(file)
		other := strings.TrimSuffix(file, ext) + ".got" + ext
		require.NoError(t, os.WriteFile(other, []byte(got), 0o600))
		t.Errorf("%s and %s differ: look at both; -update accepts the second", file, other)
	}
}

// expected returns what is in a file, which it rewrites first under -update.
func expected(t *testing.T, file, got string) string {
	t.Helper()
	if *Update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o600))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "-update makes the file")
	return string(want)
}
