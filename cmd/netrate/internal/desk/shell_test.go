package desk

import (
	"os/exec"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestQuoted(t *testing.T) {
	for name, want := range map[string]string{
		"line.yaml": "line.yaml", "a b.yaml": "'a b.yaml'", "it's": `'it'\''s'`, "": "''", "-": "-", "größe.yaml": "größe.yaml", "$x": "'$x'",
	} {
		t.Run(name, func(t *testing.T) { assert.Equal(t, want, Quoted(name)) })
	}
}

// Every file name comes back from a shell as it was.
func TestQuotedInShell(t *testing.T) {
	for _, name := range []string{"line.yaml", "a b.yaml", "it's", "$HOME", "a;b", "*", "größe"} {
		out, err := exec.Command("sh", "-c", "printf %s "+Quoted(name)).Output()
		require.NoError(t, err)
		assert.Equal(t, name, string(out))
	}
}
