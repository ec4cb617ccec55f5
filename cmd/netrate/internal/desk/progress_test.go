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

// The line fits any terminal, and says how long it still takes wherever there is room for it.
func TestProgressLine(t *testing.T) {
	for width, want := range map[int]string{
		80: "1,250 shifts of at most 5,000, 12 s left [" + strings.Repeat("=", 9) + strings.Repeat(" ", 28) + "]",
		56: "1,250 shifts of at most 5,000, 12 s left [===          ]",
		40: "1,250 shifts of at most 5,000, 12 s left",
		39: "1,250 shifts, 12 s left",
		12: "12 s left",
		4:  "12 s",
		0:  "", -1: "",
	} {
		line := progressLine(1250, 5000, "1,250 shifts", " of at most 5,000", "12 s left", width)
		assert.LessOrEqual(t, len(line), max(width, 0))
		assert.Equal(t, want, line)
	}
	assert.NotContains(t, progressLine(9, 4, "9 shifts", " of at most 4", "0 s left", 80), "= ", "more than the most is no more than full")
	assert.Equal(t, []string{"1 s", "119 s", "2 min", "3 h"}, []string{lasts(time.Millisecond), lasts(119 * time.Second), lasts(2 * time.Minute), lasts(2*time.Hour + 1)})
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
		assert.Equal(t, "begun 1 s ago", strings.TrimSpace(lines[1]), "not stuck at 0")
		assert.Equal(t, "5 shifts of at most 10, 1 s left", strings.SplitN(lines[2], " [", 2)[0])
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

// What is shown are the shifts of all lines together; lines that drop out of a selection have no more,
// and what is foreseen of the others is the aim.
func TestProgressCountsTheShiftsOfAllLines(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var to bytes.Buffer
		a := &asking{env: Env{Err: &to}, word: "shift"}
		shown := func() string {
			text, _, _ := strings.Cut(a.bar.line(100), " [")
			return text
		}
		a.heard(count{done: 10, most: 100, lines: 4}, false)
		time.Sleep(time.Second)
		assert.Equal(t, "40 shifts of at most 400 (4 lines), 9 s left", shown())
		a.heard(count{done: 20, most: 100, expected: 40, lines: 4}, false)
		assert.Equal(t, "80 shifts of some 160 (4 lines), 1 s left", shown())
		a.heard(count{done: 30, most: 100, lines: 2, ahead: 50}, false)
		assert.Equal(t, "100 shifts of some 150 (2 lines), 1 s left", shown())
		a.heard(count{done: 31, most: 100, lines: 1}, false)
		assert.Equal(t, "101 shifts of at most 170, 1 s left", shown())
		a.heard(count{done: 1, most: 10}, true)
		assert.Equal(t, "1 draws of at most 10, 0 s left", shown())
		a.stop()
	})
}

// Whoever hears how far a verb is hears it in words and as a share, and no terminal is written to.
func TestProgressIsHeard(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var out bytes.Buffer
		var words []string
		var shares []float64
		p := newProgress(Env{Err: &out, Far: func(share float64, text string) {
			shares, words = append(shares, share), append(words, text)
		}}, 40, "design")
		time.Sleep(patience + time.Millisecond)
		p.Done(10)
		time.Sleep(beat)
		p.Stop()
		assert.Equal(t, []string{"begun 1 s ago", "10 designs of at most 40, 3 s left"}, words) // 0.7 s for 10: 2.1 s for 30
		assert.Equal(t, []float64{0, 0.25}, shares)
		assert.Empty(t, out.String())
	})
}
