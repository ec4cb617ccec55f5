package desk

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"
)

// How much of the rows of a run may be lost if it dies: in bytes, or in time.
const (
	rowsAtOnce  = 1 << 16
	rowsAtLeast = time.Second
)

// growing is a file of rows that a run writes as it goes, below another name than the file has
// in the end. Whatever becomes of the run, the rows of all that was done are there.
type growing struct {
	to      *OutFile     // not embedded: what it writes of its own must not come between the rows
	says    io.Writer    // where it is said what was left behind
	waiting bytes.Buffer // rows that are not on the disk yet
	written int64        // bytes of whole rows that are
	last    time.Time    // they were
	err     error        // the first, after which nothing is written
	done    bool         // it has its final name
}

// Write takes rows, or a part of one, and now and then brings whole rows to the disk.
func (g *growing) Write(rows []byte) (int, error) {
	if g.err != nil {
		return 0, g.err
	}
	g.waiting.Write(rows)
	if g.waiting.Len() < rowsAtOnce && time.Since(g.last) < rowsAtLeast {
		return len(rows), nil
	}
	if g.settle(); g.err != nil {
		return 0, g.err
	}
	return len(rows), nil
}

// settle brings the whole rows that are waiting to the disk. If not all of them get there, none
// of these does.
func (g *growing) settle() {
	whole := g.waiting.Next(bytes.LastIndexByte(g.waiting.Bytes(), '\n') + 1)
	if len(whole) == 0 || g.err != nil {
		return
	}
	g.last = time.Now()
	if _, g.err = g.to.file.Write(whole); g.err == nil {
		g.written += int64(len(whole))
		return
	}
	if g.to.place != "" {
		_ = g.to.file.Truncate(g.written) // the last row may stay a half one
	}
}

// Finish gives the file its name. If that cannot be, or not all rows could be written, those
// that were stay where they are, and the error says so.
func (g *growing) Finish() error {
	if g.settle(); g.err == nil {
		g.err = g.to.finish()
	}
	if g.done = g.err == nil; g.done {
		return nil
	}
	err := g.to.failed(g.err)
	if g.leaves() {
		err = fmt.Errorf("%w; the rows so far are in %s", err, Shown(g.to.file.Name()))
	}
	return err
}

// leaves reports whether there are rows that have no final name, and brings all of them to the
// disk.
func (g *growing) leaves() bool {
	if g == nil || g.done || g.to.place == "" {
		return false
	}
	g.settle()
	return g.written > 0
}

// Drop ends a file that is not finished: one without rows is thrown away, of any other it is
// said where it is.
func (g *growing) Drop() {
	if g == nil || g.done {
		return
	}
	if !g.leaves() {
		g.to.Drop()
		return
	}
	_ = g.to.file.Close() // what could be written is
	if g.err == nil && g.says != nil {
		fmt.Fprintf(g.says, "netrate: the rows so far are in %s\n", Shown(g.to.file.Name()))
	}
}

// tellUnfinished says what runs left beside a place that wrote rows and died, and removes what
// has no rows.
func tellUnfinished(says io.Writer, place string) {
	for _, path := range deadBeside(place, unfinished) {
		if info, err := os.Stat(path); err == nil && info.Size() == 0 {
			_ = os.Remove(path)
		} else if err == nil && says != nil {
			fmt.Fprintf(says, "netrate: the rows of a run that did not end are in %s\n", Shown(filepath.Clean(path)))
		}
	}
}
