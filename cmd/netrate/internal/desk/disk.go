package desk

import (
	"io"
	"io/fs"
	"os"
)

// Disk is what is asked of the disk that outputs are written to. Another one than that of
// the machine can fail when a test wants it to.
type Disk interface {
	// Create makes a file that is not there yet.
	Create(path string, mode fs.FileMode) (File, error)
	// Open opens what is there and is no regular file, such as a pipe.
	Open(path string) (File, error)
	// Mkdir makes one directory; it is no error if it is there.
	Mkdir(path string) error
	Rename(from, to string) error
}

// File is a file of a Disk, open for writing.
type File interface {
	io.WriteSeeker
	io.Closer
	Name() string
	Truncate(size int64) error
	Sync() error
}

// machine is the disk of this machine.
type machine struct{}

func (machine) Create(path string, mode fs.FileMode) (File, error) {
	return os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
}

func (machine) Open(path string) (File, error) { return os.OpenFile(path, os.O_WRONLY, 0) }

func (machine) Mkdir(path string) error {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return nil
	}
	return os.Mkdir(path, 0o777)
}

func (machine) Rename(from, to string) error { return os.Rename(from, to) }
