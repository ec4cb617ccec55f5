package desk

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// OutFile is a file being written. A regular file is written beside its place and takes it
// only when it is whole; anything else, such as a pipe, is written to straight.
type OutFile struct {
	*bufio.Writer
	file  *os.File
	place string // what the file is to be called in the end; "" if it is that already
}

// Create begins a file.
func Create(path string) (*OutFile, error) {
	asked, mode := path, fs.FileMode(0o666)
	switch info, err := os.Stat(path); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, fmt.Errorf("%s is a directory", path)
	case !info.Mode().IsRegular():
		f, err := os.OpenFile(path, os.O_WRONLY, 0)
		if err != nil {
			return nil, err
		}
		return &OutFile{bufio.NewWriter(f), f, ""}, nil
	default:
		mode = info.Mode().Perm()
		if path, err = filepath.EvalSymlinks(path); err != nil {
			return nil, err
		}
	}
	beside := fmt.Sprintf("%s.part-%d", path, os.Getpid())
	f, err := os.OpenFile(beside, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if at, ok := errors.AsType[*fs.PathError](err); ok {
		at.Path = asked // nobody knows of the one beside it
	}
	if err != nil {
		return nil, err
	}
	return &OutFile{bufio.NewWriter(f), f, path}, nil
}

// Finish puts the file in its place.
func (o *OutFile) Finish() error {
	err := errors.Join(o.Flush(), o.file.Close())
	if o.place == "" {
		return err
	}
	if err == nil {
		err = os.Rename(o.file.Name(), o.place)
	}
	if err != nil {
		return errors.Join(err, os.Remove(o.file.Name()))
	}
	return nil
}

// Drop throws the file away, unless it is finished or there is none.
func (o *OutFile) Drop() {
	if o == nil {
		return
	}
	if o.file.Close() == nil && o.place != "" {
		_ = os.Remove(o.file.Name()) // a file too many is no reason to fail
	}
}
