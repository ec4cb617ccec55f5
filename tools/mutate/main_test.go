package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const root = "../.."

// Every mistake of the list can be planted: its text is found once, what becomes of it is Go, and the
// tests that shall notice it are there.
func TestMistakesCanBePlanted(t *testing.T) {
	text, err := os.ReadFile("planted.txt")
	require.NoError(t, err)
	all, err := read(string(text))
	require.NoError(t, err)
	require.NotEmpty(t, all)
	for _, m := range all {
		planted, err := m.in(root)
		if !assert.NoError(t, err) {
			continue
		}
		_, err = parser.ParseFile(token.NewFileSet(), m.file, planted, 0)
		assert.NoError(t, err)
		wanted, err := regexp.Compile(m.tests)
		require.NoError(t, err)
		assert.True(t, anyTest(t, filepath.Join(root, m.pkg), wanted), "%s: no test of %s is called %s", m.file, m.pkg, m.tests)
	}
}

// anyTest reports whether a package has a test of such a name.
func anyTest(t *testing.T, directory string, wanted *regexp.Regexp) (found bool) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(directory, "*_test.go"))
	require.NoError(t, err)
	for _, file := range files {
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.SkipObjectResolution)
		require.NoError(t, err)
		for _, d := range parsed.Decls {
			f, is := d.(*ast.FuncDecl)
			found = found || is && strings.HasPrefix(f.Name.Name, "Test") && wanted.MatchString(f.Name.Name)
		}
	}
	return found
}

func TestMistakesThatCannotBePlanted(t *testing.T) {
	for name, m := range map[string]mistake{
		"not there": {file: "go.mod", before: "no such text"},
		"twice":     {file: "go.mod", before: "require"},
		"no file":   {file: "nowhere.go", before: "x"},
	} {
		_, err := m.in(root)
		assert.Error(t, err, name)
	}
	text, err := mistake{file: "go.mod", before: "module netrate", after: "module other"}.in(root)
	require.NoError(t, err)
	assert.Contains(t, text, "module other")
}

func TestReadRefuses(t *testing.T) {
	_, err := read("model/line.go ./model\n-a\n+b")
	assert.ErrorContains(t, err, "want a file, a package and tests")
}
