package stoplog

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/golden"
	"netrate/scenarios"
)

// given are the mappings of the files that need one.
var given = map[string]Mapping{
	"column_not_there":       {Columns: map[Column]string{Reason: "Raeson"}},
	"column_given_twice":     {Columns: map[Column]string{Reason: "2", Station: "2"}},
	"headless_by_heading":    {Headless: true, Columns: map[Column]string{When: "1", Station: "2", Reason: "3", Length: "Seconds"}},
	"headless_nothing_given": {Headless: true},
}

// Every file of testdata/bad has the fault that it is named for, and beside it the text that
// its author is to read. The data are invented.
func TestBadFiles(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*.csv")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".csv")
		t.Run(name, func(t *testing.T) {
			m := given[name]
			m.File = filepath.Base(file)
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			in := bytes.NewReader(data)
			var report Report
			if strings.HasPrefix(name, "counts_") {
				report, err = ReadCounts(in, m, func(Count) error { return nil })
			} else {
				report, err = Read(in, m, func(Stop) error { return nil })
			}
			require.Error(t, err, "the file has a fault")
			if report.Rows > 0 {
				require.ErrorAs(t, err, new(BadRows))
				require.ErrorAs(t, err, new(scenarios.Problems))
			}
			assert.Equal(t, report.Rows, report.Used+report.Skipped)
			golden.Check(t, strings.TrimSuffix(file, ".csv")+".txt", err.Error()+"\n")
		})
	}
}
