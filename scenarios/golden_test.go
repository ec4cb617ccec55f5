package scenarios

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/internal/golden"
)

// Every file of testdata/bad has the fault that it is named for, and beside it the text
// that its author is to read.
func TestBadFiles(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			s, err := Load(filepath.Base(file), data)
			require.Error(t, err, "the file has a fault")
			require.Nil(t, s)
			var problems Problems
			require.ErrorAs(t, err, &problems)
			for _, p := range problems {
				require.True(t, p.Line > 0 && p.Column > 0, "no place: %s", p.Text)
			}
			golden.Check(t, strings.TrimSuffix(file, ".yaml")+".txt", err.Error()+"\n")
		})
	}
}

// The bad files are made from good ones, so that each has no fault but its own.
func TestTheGoodFiles(t *testing.T) {
	for _, file := range []string{"testdata/good.yaml", "testdata/good_streams.yaml", "testdata/good_season.yaml", "testdata/good_lines.yaml", "testdata/good_costs.yaml", "testdata/good_volumes.yaml"} {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		_, err = Load(file, data)
		require.NoError(t, err)
	}
}
