package stoplog

import (
	"bufio"
	"bytes"
	"errors"
	"io"
)

// What is longer than this is not a row of a log: a quote was left open, or it is another
// kind of file.
const (
	maxRow   = 64 << 10 // bytes, without the line break
	maxLines = 20       // lines of one row
)

// rows cuts a file into rows and these into cells. Its memory does not grow with the file.
type rows struct {
	in        *bufio.Reader
	delimiter byte
	ended     bool // all of the file is in the buffer of in

	// The row at hand, valid until the next one.
	line    int    // its first line, from 1
	raw     []byte // its text, with line breaks
	cells   []cell
	fault   string // why it has no cells, "" if it has
	faultAt int    // where that is in raw

	next    int    // line of the next row
	scratch []byte // texts that had doubled quotes
	blank   int64  // rows so far with nothing in them
}

// cell is one field of a row.
type cell struct {
	text []byte // without quotes and without blanks around it
	at   int    // where it begins in the row
}

func newRows(r io.Reader) rows {
	return rows{in: bufio.NewReaderSize(&lineEnds{in: r}, 4*maxRow), next: 1}
}

// advance goes on to the next row that has something in it. It returns io.EOF after the
// last one, or the error of the reader.
func (r *rows) advance() error {
	for {
		view, err := r.view()
		if err != nil {
			return err
		}
		r.line, r.cells, r.fault, r.scratch = r.next, r.cells[:0], "", r.scratch[:0]
		r.raw = view[:r.cut(view)]
		if r.tooLong() {
			return r.skipLine()
		}
		r.drop(len(r.raw))
		if r.fault != "" || !r.empty() {
			return nil
		}
		r.blank++
	}
}

// view returns what is left of the file, as far as a row may reach; io.EOF if nothing is.
func (r *rows) view() ([]byte, error) {
	reach := maxRow + 1
	if r.ended {
		reach = min(reach, r.in.Buffered())
	}
	view, err := r.in.Peek(reach)
	switch {
	case errors.Is(err, io.EOF):
		r.ended = true
	case err != nil:
		return nil, err
	}
	if len(view) == 0 {
		return nil, io.EOF
	}
	return view, nil
}

// drop takes a number of bytes that view has shown as done with.
func (r *rows) drop(n int) {
	view, _ := r.in.Peek(n)
	r.next += bytes.Count(view, newline)
	_, _ = r.in.Discard(n) // they are in the buffer
}

var newline = []byte{'\n'}

// tooLong says whether the row does not end within the reach of a row.
func (r *rows) tooLong() bool {
	return len(r.raw) > maxRow && !bytes.HasSuffix(r.raw, newline)
}

// skipLine makes the row at hand, of which the end is out of reach, a faulty one.
func (r *rows) skipLine() error {
	r.cells, r.fault, r.faultAt = r.cells[:0], "the row is longer than 64 KiB", 0
	r.raw = bytes.Clone(r.raw[:min(len(r.raw), 4*excerptWidth)])
	r.next++
	for {
		switch _, err := r.in.ReadSlice('\n'); {
		case errors.Is(err, bufio.ErrBufferFull):
		case errors.Is(err, io.EOF):
			r.ended = true
			return nil
		default:
			return err
		}
	}
}

func (r *rows) empty() bool {
	for _, c := range r.cells {
		if len(c.text) > 0 {
			return false
		}
	}
	return true
}
