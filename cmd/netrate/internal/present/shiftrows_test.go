package present

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/runs"
)

// The rows that come one replication at a time are those of the whole, also where a line has ended
// before the others; and no byte order mark stands before the first name.
func TestShiftRowsGrow(t *testing.T) {
	c := variants(t, reps(4))
	var names []string
	var studies []*runs.Study
	for i := range c.Lines {
		names, studies = append(names, c.Lines[i].Name), append(studies, c.Lines[i].Nominal)
	}
	short := *studies[1]
	short.Shifts = short.Shifts[:2]
	studies[1] = &short
	var whole, grown bytes.Buffer
	all := ShiftRows(names, studies, 0)
	require.NoError(t, all.WriteCSV(&whole))
	require.Len(t, all.Rows, 4*len(studies)-2)
	for k := range 4 {
		var last []*runs.Study
		for _, s := range studies {
			last = append(last, s.Only(k))
		}
		more := ShiftRows(names, last, k)
		write := more.WriteCSVRows
		if k == 0 {
			write = more.WriteCSV
		}
		require.NoError(t, write(&grown))
	}
	assert.Equal(t, whole.String(), grown.String())
	assert.Regexp(t, `^replication,line,net_rate_`, whole.String())
}
