package desk

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"syscall"
)

// roomTried is what an output must find room for before anything is run, bytes.
const roomTried = 1 << 20

// OutFile is a file being written. A regular file is written beside its place and takes it
// only when it is whole; anything else, such as a pipe, is written to straight.
type OutFile struct {
	*bufio.Writer
	disk  Disk
	file  File
	asked string // the flag and the name, as the user typed them
	place string // what the file is to be called in the end; "" if it is that already
}

// Create begins the file that a flag names. There must be room for a megabyte. What
// earlier runs that died left beside its place is removed.
func Create(e Env, flag, path string) (*OutFile, error) { return create(e, flag, path, part) }

// create begins a file that is of this sort until it is whole.
func create(e Env, flag, path, sort string) (*OutFile, error) {
	o := &OutFile{disk: e.disk(), asked: Shown(path)}
	if flag != "" {
		o.asked = "--" + flag + " " + o.asked
	}
	place, err := lastOf(path)
	if err != nil {
		return nil, o.failed(err)
	}
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		place = path // a link such as /dev/stdout may lead to what has no name
	}
	mode := fs.FileMode(0o666)
	switch info, err := os.Stat(place); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return nil, o.failed(err)
	case info.IsDir():
		return nil, o.failed(errors.New("is a directory, want a file"))
	case !info.Mode().IsRegular():
		if o.file, err = o.disk.Open(place); err != nil {
			return nil, o.failed(err)
		}
		o.Writer = bufio.NewWriter(o.file)
		return o, nil
	default:
		mode = info.Mode().Perm()
	}
	clearOf(place)
	if o.file, err = o.disk.Create(beside(place, sort), mode); err != nil {
		return nil, o.failed(err)
	}
	o.Writer, o.place = bufio.NewWriter(o.file), place
	if err := o.tryRoom(); err != nil {
		o.Drop()
		return nil, o.failed(err)
	}
	return o, nil
}

// tryRoom writes some zeros and takes them away again.
func (o *OutFile) tryRoom() error {
	if _, err := o.file.Write(make([]byte, roomTried)); err != nil {
		return err
	}
	if err := o.file.Truncate(0); err != nil {
		return err
	}
	_, err := o.file.Seek(0, io.SeekStart)
	return err
}

// failed returns an error with the name that the user knows: nobody knows of the file
// beside it.
func (o *OutFile) failed(err error) error {
	return fmt.Errorf("%s: %w", o.asked, bare(err))
}

// Finish puts the file in its place, or throws it away if that fails.
func (o *OutFile) Finish() error {
	if err := o.finish(); err != nil {
		o.Drop()
		return o.failed(err)
	}
	return nil
}

func (o *OutFile) finish() error {
	if err := o.Flush(); err != nil {
		return err
	}
	if o.place != "" {
		// A name must not outlive a power cut without its contents. Some file systems cannot say.
		if err := o.file.Sync(); err != nil && !errors.Is(err, syscall.EINVAL) && !errors.Is(err, errors.ErrUnsupported) {
			return err
		}
	}
	if err := o.file.Close(); err != nil || o.place == "" {
		return err
	}
	return o.disk.Rename(o.file.Name(), o.place)
}

// Drop throws the file away, unless it is finished or there is none.
func (o *OutFile) Drop() {
	if o == nil {
		return
	}
	_ = o.file.Close()
	if o.place != "" {
		_ = os.Remove(o.file.Name()) // a file too many is no reason to fail; after Finish there is none
	}
}

// Fill writes the contents of a file and puts it in its place.
func Fill(f *OutFile, contents func(io.Writer) error) error {
	if err := contents(f); err != nil {
		f.Drop()
		return f.failed(err)
	}
	return f.Finish()
}

// WriteFile writes the whole file that a flag names, or none.
func WriteFile(e Env, flag, path string, contents func(io.Writer) error) error {
	f, err := Create(e, flag, path)
	if err != nil {
		return err
	}
	return Fill(f, contents)
}
