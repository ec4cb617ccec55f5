package workbench

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The editor is the one that make editor bundled, of the packages that it names, and comes with their licences.
func TestEditorIsTheOneBundled(t *testing.T) {
	file := func(name string) string {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		return string(data)
	}
	assert.Equal(t, strings.TrimSpace(file("web/editor.js.sha256")), fmt.Sprintf("%x", sha256.Sum256([]byte(file("web/editor.js")))))
	var of struct{ Dependencies map[string]string }
	require.NoError(t, json.Unmarshal([]byte(file("editor/package.json")), &of))
	licences := file("web/editor-licences.txt")
	for name, version := range of.Dependencies {
		assert.Contains(t, licences, "== "+name+" "+version+" ==")
	}
	assert.NotContains(t, file("editor/package-lock.json"), "http", "no registry is named")
}
