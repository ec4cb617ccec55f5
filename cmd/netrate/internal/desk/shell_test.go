package desk

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestQuoted(t *testing.T) {
	for name, want := range map[string]string{
		"line.yaml": "line.yaml", "a b.yaml": "'a b.yaml'", "it's": `'it'\''s'`, "": "''", "-": "-", "größe.yaml": "größe.yaml", "$x": "'$x'",
		"a\x1b[31mb": `$'a\033[31mb'`, "it's\n": `$'it\'s\012'`, "\xff": `$'\377'`, "a\u202eb": `$'a\342\200\256b'`,
	} {
		t.Run(name, func(t *testing.T) { assert.Equal(t, want, Quoted(name)) })
	}
}

// Every file name comes back from a shell as it was.
func TestQuotedInShell(t *testing.T) {
	for _, name := range []string{"line.yaml", "a b.yaml", "it's", "$HOME", "a;b", "*", "größe", "a\x1b[31mb", "it's\\\n", "\xff", "a\u202eb"} {
		shell := "sh"
		if strings.HasPrefix(Quoted(name), "$'") { // POSIX has it since 2024
			shell = "bash"
		}
		if _, err := exec.LookPath(shell); err != nil {
			t.Skip(err)
		}
		out, err := exec.Command(shell, "-c", "printf %s "+Quoted(name)).Output()
		require.NoError(t, err)
		assert.Equal(t, name, string(out))
	}
}

// What a terminal would obey, or nobody would see, is quoted in messages.
func TestShown(t *testing.T) {
	for name, want := range map[string]string{
		"line.yaml": "line.yaml", "a b": "a b", "größe": "größe", "": `""`, "a\x1b[2J": `"a\x1b[2J"`, "a\u202eb": `"a\u202eb"`, "\xff": `"\xff"`,
		"a\u3164": `"a\u3164"`, "a\u200bb": `"a\u200bb"`,
	} {
		assert.Equal(t, want, Shown(name))
	}
}
