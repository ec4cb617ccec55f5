package desk

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The line fits any terminal, and says the number wherever there is room for it.
func TestProgressLine(t *testing.T) {
	for width, want := range map[int]string{
		80: "1,250 shifts of at most 5,000 [" + strings.Repeat("=", 10) + strings.Repeat(" ", 30) + "]",
		46: "1,250 shifts of at most 5,000 [===          ]",
		39: "1,250 shifts of at most 5,000",
		12: "1,250 shifts",
		0:  "", -1: "",
	} {
		line := progressLine(1250, 5000, "shift", width)
		if width == 46 {
			assert.LessOrEqual(t, len(line), width)
			assert.Contains(t, line, "[===")
			continue
		}
		assert.Equal(t, want, line)
	}
	assert.NotContains(t, progressLine(9, 4, "shift", 80), "= ", "more than the most is no more than full")
	assert.Contains(t, progressLine(0, 0, "shift", 80), "0 shifts")
}

// Nothing is shown of a short run; of a long one the line is taken off the terminal in the end.
func TestProgress(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var short, long bytes.Buffer
		p := NewProgress(&short, 10, "shift")
		time.Sleep(patience - time.Millisecond)
		p.Stop()
		assert.Empty(t, short.String())

		p = NewProgress(&long, 10, "shift")
		time.Sleep(patience + time.Millisecond)
		p.Done(5)
		time.Sleep(beat)
		p.Stop()
		lines := strings.Split(long.String(), "\r")
		assert.Equal(t, "0 shifts of at most 10", strings.SplitN(lines[1], " [", 2)[0])
		assert.Equal(t, "5 shifts of at most 10", strings.SplitN(lines[2], " [", 2)[0])
		assert.Equal(t, strings.Repeat(" ", len(lines[2])), lines[3])
		assert.Empty(t, lines[4])
	})
	NewProgress(io.Discard, 10, "shift").Stop() // at once
}

// What is no terminal has no width.
func TestWidthOfAFile(t *testing.T) {
	f, err := os.Create(filepath.Join(t.TempDir(), "x"))
	require.NoError(t, err)
	assert.Zero(t, WidthOf(f))
	assert.Equal(t, 80, widthOf(f)())
	require.NoError(t, f.Close())
}
