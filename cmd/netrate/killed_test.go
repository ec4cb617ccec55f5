package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A run that is killed with no chance to say anything has left what was done by then: the rows
// are those that the same run prints. The next run says where they are, and keeps them.
func TestKilledRunLeavesItsRows(t *testing.T) {
	for _, x := range []struct{ command, many string }{
		{"run --example small-shop --seed 7 --uncertainty 0", "1000000"},
		{"compare --example seventh-feeder --seed 7 --uncertainty 0", "1000000"},
		{"season --example flats-season --seed 7", "100000"},
	} {
		args := strings.Fields(x.command)
		t.Run(args[0], func(t *testing.T) {
			t.Chdir(t.TempDir())
			long := exec.Command("netrate", append(args, "--reps", x.many, "--csv", "rows.csv")...)
			require.NoError(t, long.Start())
			var left string
			written := assert.Eventually(t, func() bool {
				found, _ := filepath.Glob("rows.csv.unfinished-*")
				for _, left = range found {
					info, err := os.Stat(left)
					return err == nil && info.Size() > 20_000 && info.Size() != 1<<20 // while room is tried
				}
				return false
			}, 2*time.Minute, 10*time.Millisecond)
			require.NoError(t, long.Process.Kill())
			require.Error(t, long.Wait())
			require.True(t, written)
			require.NoFileExists(t, "rows.csv")

			rows, err := os.ReadFile(left)
			require.NoError(t, err)
			lines := strings.SplitAfter(string(rows), "\n")
			require.Empty(t, lines[len(lines)-1], "the last row is whole")
			short := exec.Command("netrate", append(args, "--reps", "20", "--csv", "-")...)
			first, err := short.Output()
			require.NoError(t, err)
			want := strings.SplitAfter(string(first), "\n")
			heading, want := want[0], want[:len(want)-1]
			if args[0] == "season" { // one configuration after the other
				want = slices.DeleteFunc(want, func(row string) bool { return !strings.HasPrefix(row, "base,") && row != heading })
				require.Len(t, want, 1+20*6)
			}
			require.Greater(t, len(lines), len(want))
			assert.Equal(t, want, lines[:len(want)])

			again := exec.Command("netrate", append(args, "--reps", "2", "--csv", "rows.csv")...)
			var says bytes.Buffer
			again.Stderr = &says
			require.NoError(t, again.Run())
			assert.Contains(t, says.String(), "the rows of a run that did not end are in "+left)
			assert.FileExists(t, left)
			assert.FileExists(t, "rows.csv")
		})
	}
}
