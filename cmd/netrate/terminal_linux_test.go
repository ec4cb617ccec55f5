package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// terminal returns both ends of a pseudo-terminal: ours, and the command's.
func terminal(t *testing.T) (ours, its *os.File) {
	t.Helper()
	return terminalOf(t, 80)
}

// terminalOf returns a pseudo-terminal that is a number of characters wide.
func terminalOf(t *testing.T, width uint16) (ours, its *os.File) {
	t.Helper()
	ours, err := os.OpenFile("/dev/ptmx", os.O_RDWR|unix.O_NOCTTY, 0)
	require.NoError(t, err)
	t.Cleanup(func() { _ = ours.Close() })
	fd := int(ours.Fd())
	require.NoError(t, unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0))
	n, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	require.NoError(t, err)
	require.NoError(t, unix.IoctlSetWinsize(fd, unix.TIOCSWINSZ, &unix.Winsize{Row: 24, Col: width}))
	its, err = os.OpenFile("/dev/pts/"+strconv.Itoa(n), os.O_RDWR|unix.O_NOCTTY, 0)
	require.NoError(t, err)
	return ours, its
}

// A long run shows its progress on a terminal. A signal ends it with the answer up to
// there, marked as such. The signal is sent when the progress tells of the first shifts.
func TestInterrupted(t *testing.T) {
	for _, c := range []struct {
		signal syscall.Signal
		want   int
	}{{syscall.SIGINT, 130}, {syscall.SIGTERM, 143}, {syscall.SIGHUP, 129}} {
		t.Run(c.signal.String(), func(t *testing.T) {
			rows := filepath.Join(t.TempDir(), "rows.csv")
			ours, its := terminal(t)
			var out bytes.Buffer
			cmd := exec.Command("netrate", "run", "--example", "small-shop", "--reps", "5000000", "--csv", rows)
			cmd.Stdout, cmd.Stderr = &out, its
			require.NoError(t, cmd.Start())
			require.NoError(t, its.Close())
			waitFor(t, ours, `[1-9][0-9,]* shifts of at most 5,000,000`)
			require.NoError(t, cmd.Process.Signal(c.signal))
			rest, _ := io.ReadAll(ours) // ends with an error when the command does
			require.Error(t, cmd.Wait())

			assert.Equal(t, c.want, cmd.ProcessState.ExitCode())
			assert.Contains(t, string(rest), "netrate: interrupted: the answer is partial")
			first := regexp.MustCompile(`^PARTIAL ANSWER, interrupted: Small shop, four feeders \(([0-9,]+) shifts?`).FindStringSubmatch(out.String())
			require.NotNil(t, first, out.String())
			text, err := os.ReadFile(rows)
			require.NoError(t, err)
			assert.Equal(t, strings.ReplaceAll(first[1], ",", ""), strconv.Itoa(strings.Count(string(text), "\n")-1))
		})
	}
}

// Progress is seen on a narrow terminal as well, and never takes more than a line of it.
func TestProgressOnANarrowTerminal(t *testing.T) {
	for _, width := range []uint16{40, 20} {
		ours, its := terminalOf(t, width)
		cmd := exec.Command("netrate", "run", "--example", "small-shop", "--reps", "5000000")
		cmd.Stderr = its
		require.NoError(t, cmd.Start())
		require.NoError(t, its.Close())
		seen := waitFor(t, ours, `[1-9][0-9,]* shifts|[0-9] (s|min|h) left`)
		require.NoError(t, cmd.Process.Kill())
		require.Error(t, cmd.Wait())
		for line := range strings.SplitSeq(seen, "\r") {
			assert.Less(t, len(line), int(width))
			assert.NotContains(t, line, "\n")
		}
	}
}

// waitFor reads until what was read matches the pattern, and returns it.
func waitFor(t *testing.T, from io.Reader, pattern string) string {
	t.Helper()
	wanted, seen := regexp.MustCompile(pattern), ""
	buffer := make([]byte, 4096)
	for !wanted.MatchString(seen) {
		n, err := from.Read(buffer)
		require.NoError(t, err, "after %q", seen)
		seen += string(buffer[:n])
	}
	return seen
}
