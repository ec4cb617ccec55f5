package stoplog

import (
	"bytes"
	"io"
)

// lineEnds reads a file with every carriage return that ends a line by itself, as old
// systems wrote them, made a line feed. One before a line feed stays: it is a blank there.
// The number of bytes stays, so that places do.
type lineEnds struct {
	in      io.Reader
	returns int   // carriage returns of which it is not yet known what follows
	err     error // of in, to be returned when all is handed over
	rest    []byte
	made    []byte // text that is not as it was read
	buffer  [4096]byte
}

// Read implements [io.Reader].
func (l *lineEnds) Read(p []byte) (int, error) {
	for len(l.rest) == 0 {
		switch {
		case l.err != nil && l.returns == 0:
			return 0, l.err
		case l.err != nil:
			l.rest = l.settle(nil, '\n')
		default:
			n, err := l.in.Read(l.buffer[:])
			l.err = err
			l.rest = l.settled(l.buffer[:n])
		}
	}
	n := copy(p, l.rest)
	l.rest = l.rest[n:]
	return n, nil
}

// settled returns what is known of the text up to the end of some more bytes.
func (l *lineEnds) settled(more []byte) []byte {
	if l.returns == 0 && bytes.IndexByte(more, '\r') < 0 { // as almost always
		return more
	}
	text := l.made[:0]
	for _, b := range more {
		switch {
		case b == '\r':
			if l.returns++; l.returns > maxRow { // no memory for what nobody wrote
				text = l.settle(text, '\n')
			}
			continue
		case l.returns > 0 && b == '\n':
			text = l.settle(text, '\r')
		case l.returns > 0:
			text = l.settle(text, '\n')
		}
		text = append(text, b)
	}
	l.made = text
	return text
}

// settle appends the carriage returns at hand as what they are.
func (l *lineEnds) settle(text []byte, as byte) []byte {
	for ; l.returns > 0; l.returns-- {
		text = append(text, as)
	}
	return text
}
