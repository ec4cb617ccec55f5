package desk

import (
	"errors"
	"io"
	"io/fs"
	"os"
)

// mostRead is the size of the largest file that is read, bytes: more than a log of all stops
// that a line can have in its life.
const mostRead = 1 << 30

// Open opens a file to be read, or the standard input if that is its name. What is no file,
// or too large, is wrong input; that it cannot be read any more is a failure.
func (e Env) Open(name string) (io.ReadCloser, error) {
	if e.plays != nil {
		return e.plays.open(name)
	}
	from, err := e.open(name)
	if err != nil || e.records == nil {
		return from, err
	}
	return e.records.recording(name, from)
}

func (e Env) open(name string) (io.ReadCloser, error) {
	in := &input{name: ShownFile(name)}
	if name == "-" {
		in.Reader = e.In
		return in, nil
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, Wrong("%s: %v", in.name, bare(err))
	}
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, errors.Join(Wrong("%s is a directory, want a file", in.name), f.Close())
	}
	in.Reader, in.Closer = f, f
	return in, nil
}

// input is a file that is being read.
type input struct {
	io.Reader
	io.Closer // nil for the standard input
	name      string
	bytes     int64
}

// Read reads up to the most that may be read.
func (i *input) Read(p []byte) (int, error) {
	n, err := i.Reader.Read(p)
	if i.bytes += int64(n); i.bytes > mostRead {
		return n, Wrong("it is larger than 1 GiB")
	}
	if err != nil && !errors.Is(err, io.EOF) {
		err = bare(err)
	}
	return n, err
}

// Close closes the file, unless it is the standard input.
func (i *input) Close() error {
	if i.Closer == nil {
		return nil
	}
	return i.Closer.Close()
}

// bare returns an error of the system without the names that it repeats.
func bare(err error) error {
	var at *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &at):
		return at.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}
