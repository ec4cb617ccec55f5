package stoplog

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A row of sums, as spreadsheets put it below, is said to be one, once, where it cannot be read as another.
func TestRowOfSums(t *testing.T) {
	for _, rows := range []string{"2026-03-31,,Total:,180\n", "Sum,,,180\n", "Sum,,180,\n"} {
		_, err := ReadCounts(strings.NewReader("Day,Shift,Station,Feeds\n2026-03-31,late,feeder 3,58120\n"+strings.Replace(rows, "2026-03-31,,", "x,,", 1)), Mapping{File: "counts.csv"}, func(Count) error { return nil })
		require.Error(t, err)
		assert.Contains(t, err.Error(), "is no row of the log: it sums others up, leave it out")
		assert.Equal(t, 1, strings.Count(err.Error(), "counts.csv:"))
	}
	_, err := ReadCounts(strings.NewReader("Day,Station,Feeds\n2026-03-31,Total,58120\n"), Mapping{File: "counts.csv"}, func(Count) error { return nil })
	require.NoError(t, err, "a station may be called so")
}
