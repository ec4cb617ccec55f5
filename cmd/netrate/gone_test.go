package main

import (
	"bytes"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Whoever reads the answer may be gone before it comes: the command fails and says so once, and
// writes all files that were asked for.
func TestReaderIsGone(t *testing.T) {
	for _, command := range []string{
		"run --example direct-mail --reps 4 --uncertainty 0 --csv rows.csv --report report.html",
		"run --example direct-mail --reps 4 --uncertainty 0 --json --csv rows.csv --report report.html",
		"compare --example seventh-feeder --reps 4 --uncertainty 0 --csv rows.csv --report report.html",
		"season --example flats-season --reps 4 --csv rows.csv --report report.html",
		"check --example flats-season",
		"help",
	} {
		t.Run(command, func(t *testing.T) {
			t.Chdir(t.TempDir())
			reader, writer, err := os.Pipe()
			require.NoError(t, err)
			require.NoError(t, reader.Close())
			answers := exec.Command("netrate", strings.Fields(command)...)
			var says bytes.Buffer
			answers.Stdout, answers.Stderr = writer, &says
			err = answers.Run()
			require.NoError(t, writer.Close())
			var failed *exec.ExitError
			require.ErrorAs(t, err, &failed)
			assert.Equal(t, 1, failed.ExitCode())
			assert.True(t, strings.HasSuffix(says.String(), "netrate: write /dev/stdout: broken pipe\n"), says.String())
			assert.Equal(t, 1, strings.Count(says.String(), "netrate:"))
			for _, file := range []string{"rows.csv", "report.html"} {
				if strings.Contains(command, file) {
					assert.FileExists(t, file)
				}
			}
		})
	}
}
