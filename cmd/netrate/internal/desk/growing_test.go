package desk

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// grown writes rows as they come, to a disk, and then the answer.
func grown(d Disk, rows int) (printed, said string, err error) {
	o := &Outputs{Data: "rows.csv", dataFlag: "csv", grows: true}
	var out, says bytes.Buffer
	e := Env{Out: &out, Err: &says, Disk: d}
	defer func() { said = says.String() }()
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return "", "", err
	}
	for i := range rows {
		_, _ = io.WriteString(o.Rows(), fmt.Sprintf("%06d", i)) // the answer is asked for all the same
		_, _ = fmt.Fprintf(o.Rows(), ",%s\n", strings.Repeat("x", 990))
	}
	err = o.Deliver(e, Answer{Text: Text(func() string { return "the answer\n" })})
	return out.String(), "", err
}

// unfinishedBeside returns what is left without its final name.
func unfinishedBeside(t *testing.T) []string {
	t.Helper()
	left, err := filepath.Glob("rows.csv.*")
	require.NoError(t, err)
	return left
}

// At every call of the disk that can fail the answer is printed, the file that was there stays,
// and the rows that were written before are there, whole, in a file that the message names.
func TestRowsOutliveAFault(t *testing.T) {
	const rows = 200 // three times as many as are written at once
	t.Chdir(t.TempDir())
	good := &brokenDisk{}
	printed, _, err := grown(good, rows)
	require.NoError(t, err)
	require.Equal(t, "the answer\n", printed)
	whole, err := os.ReadFile("rows.csv")
	require.NoError(t, err)
	require.Equal(t, rows, strings.Count(string(whole), "\n"))
	require.Equal(t, strings.Repeat("x", 990)+"\n", string(whole[len(whole)-991:]))
	require.True(t, strings.HasPrefix(string(whole), "000000,x"))
	require.Empty(t, unfinishedBeside(t))
	require.Greater(t, good.call, 7)
	kept := 0
	for _, lasting := range []bool{false, true} {
		for at := 1; at <= good.call; at++ {
			t.Run(fmt.Sprintf("call %d lasting %t", at, lasting), func(t *testing.T) {
				t.Chdir(t.TempDir())
				require.NoError(t, os.WriteFile("rows.csv", []byte("old"), 0o600))
				d := &brokenDisk{at: at, lasting: lasting}
				printed, _, err := grown(d, rows)
				require.ErrorContains(t, err, "--csv rows.csv: no space left on device")
				assert.Equal(t, 1, Status(err))
				old, readErr := os.ReadFile("rows.csv")
				require.NoError(t, readErr)
				assert.Equal(t, "old", string(old))
				left := unfinishedBeside(t)
				if printed == "" { // nothing was begun
					assert.Empty(t, left)
					return
				}
				if len(left) == 0 { // not one row had been written
					assert.NotContains(t, err.Error(), "the rows up to there")
					return
				}
				kept++
				require.Len(t, left, 1)
				assert.ErrorContains(t, err, "; the rows so far are in "+left[0])
				text, readErr := os.ReadFile(left[0])
				require.NoError(t, readErr)
				assert.True(t, strings.HasPrefix(string(whole), string(text)))
				if d.failed != "truncate" && !lasting {
					assert.True(t, strings.HasSuffix(string(text), "\n"), "a half row, after %s", d.failed)
				}
			})
		}
	}
	assert.Greater(t, kept, 5, "faults after which rows were kept")
}

// A run that fails after some rows leaves them, and says where; one that fails before leaves
// nothing.
func TestRowsOutliveTheRun(t *testing.T) {
	for rows, said := range map[int]string{0: `^$`, 3: `^netrate: the rows so far are in rows\.csv\.unfinished-\S+\n$`} {
		t.Chdir(t.TempDir())
		var says bytes.Buffer
		o := &Outputs{Data: "rows.csv", dataFlag: "csv", grows: true}
		require.NoError(t, o.Begin(Env{Err: &says}))
		for i := range rows {
			fmt.Fprintf(o.Rows(), "%d\n", i)
		}
		o.Drop()
		assert.Regexp(t, said, says.String())
		left := unfinishedBeside(t)
		if rows == 0 {
			assert.Empty(t, left)
			continue
		}
		require.Len(t, left, 1)
		text, err := os.ReadFile(left[0])
		require.NoError(t, err)
		assert.Equal(t, "0\n1\n2\n", string(text))
	}
}

// The next run says what a run that died has left, and leaves it; without rows it is removed.
func TestRowsOfADeadRun(t *testing.T) {
	t.Chdir(t.TempDir())
	dead := func(began string) string {
		return fmt.Sprintf("rows.csv.unfinished-%s-%d-%s", thisRun().machine, 1<<22+1, began) // above the most a Linux has
	}
	require.NoError(t, os.WriteFile(dead("a"), []byte("1\n"), 0o600))
	require.NoError(t, os.WriteFile(dead("b"), nil, 0o600))
	var says bytes.Buffer
	o := &Outputs{Data: "rows.csv", dataFlag: "csv", grows: true}
	require.NoError(t, o.Begin(Env{Err: &says}))
	o.Drop()
	assert.Equal(t, "netrate: the rows of a run that did not end are in "+dead("a")+"\n", says.String())
	assert.Equal(t, []string{dead("a")}, unfinishedBeside(t))
}
