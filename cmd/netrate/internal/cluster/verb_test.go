package cluster

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"
	"pgregory.net/rapid"
)

// A manifest carries every file to the last byte, however it ends and whatever is in it: another reader of
// YAML finds in it what was put there.
func TestFilesAreCarriedExactly(t *testing.T) {
	carries := func(t require.TestingT, text string) {
		var manifest bytes.Buffer
		j := &job{Tasks: 2, Cores: 1, Files: []file{{"a.yaml", text}, {"b.yaml", "b\n"}}}
		require.NoError(t, queues["kubernetes"].Execute(&manifest, j))
		first, _, _ := bytes.Cut(manifest.Bytes(), []byte("---\napiVersion: batch"))
		var got struct {
			Data map[string]string `yaml:"data"`
		}
		require.NoError(t, yaml.Unmarshal(first, &got), "%s", first)
		assert.Equal(t, map[string]string{"a.yaml": text, "b.yaml": "b\n"}, got.Data, "%s", first)
	}
	for _, text := range []string{"", "\n", "\n\n", "a", "a\n", "a\n\n", " a\n  b", "a:\n\n  b: ü\n", "a\r\nb\r\n", "\ta\n", "a\n ", " \n", "\ufeffa\n", "a\u2028b\n", "\x01\x7f\u0085\n", "# a\n---\n"} {
		carries(t, text)
	}
	rapid.Check(t, func(t *rapid.T) {
		carries(t, rapid.StringOf(rapid.RuneFrom([]rune(" \n\r\t:#-'\"\\|>%{}[]aé\u00a0😀"))).Draw(t, "text"))
	})
}
