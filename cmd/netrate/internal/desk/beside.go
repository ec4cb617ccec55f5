package desk

import (
	"errors"
	"fmt"
	"hash/fnv"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"sync"
	"syscall"
	"time"
)

// An output is written beside its place, under its name with ".part-", the machine, the
// process and the moment of its beginning. So the next run can tell what is left of a run
// that died from what another run is writing, even where folders are shared by machines.
// What is of use before it is whole, the rows of a run, has ".unfinished-" there.
const (
	part       = ".part-"
	unfinished = ".unfinished-"
)

var thisRun = sync.OnceValue(func() run {
	name, _ := os.Hostname() // without a name all machines without one are alike
	sum := fnv.New32a()
	sum.Write([]byte(name))
	return run{fmt.Sprintf("%08x", sum.Sum32()), os.Getpid(), strconv.FormatInt(time.Now().UnixNano(), 36)}
})

// run is a run of the command.
type run struct {
	machine string
	process int
	began   string
}

// lastOf returns where a name leads to, through links, also if nothing is there yet.
func lastOf(path string) (string, error) {
	for range 40 { // as many links as Linux follows
		info, err := os.Lstat(path)
		if errors.Is(err, fs.ErrNotExist) || err == nil && info.Mode()&fs.ModeSymlink == 0 {
			return path, nil
		}
		if err != nil {
			return "", err
		}
		if whole, err := filepath.EvalSymlinks(path); err == nil {
			return whole, nil
		}
		to, err := os.Readlink(path)
		if err != nil {
			return "", err
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return "", errors.New("too many links")
}

// besideBytes is how much of a name is kept beside its place: names end at 255 bytes.
const besideBytes = 150

// stem returns what the names of all files of a sort beside a place begin with.
func stem(place, sort string) string {
	base := filepath.Base(place)
	return base[:min(len(base), besideBytes)] + sort
}

// beside returns where a file is written before it takes its place.
func beside(place, sort string) string {
	r := thisRun()
	return filepath.Join(filepath.Dir(place), stem(place, sort)+fmt.Sprintf("%s-%d-%s", r.machine, r.process, r.began))
}

var ofRun = regexp.MustCompile(`^([0-9a-f]{8})-([0-9]{1,10})-([0-9a-z]+)$`)

// clearOf removes what dead runs of this machine left beside a place.
func clearOf(place string) {
	for _, path := range deadBeside(place, part) {
		_ = os.Remove(path)
	}
}

// deadBeside returns what dead runs of this machine left beside a place.
func deadBeside(place, sort string) (left []string) {
	names, err := os.ReadDir(filepath.Dir(place))
	if err != nil {
		return nil // creating the file will say it
	}
	start := stem(place, sort)
	for _, name := range names {
		if len(name.Name()) <= len(start) || name.Name()[:len(start)] != start || !name.Type().IsRegular() {
			continue
		}
		if m := ofRun.FindStringSubmatch(name.Name()[len(start):]); m != nil {
			process, _ := strconv.Atoi(m[2])
			if (run{m[1], process, m[3]}).dead() {
				left = append(left, filepath.Join(filepath.Dir(place), name.Name()))
			}
		}
	}
	return left
}

// dead reports whether a run of this machine has ended. Of other machines, and where the
// system does not say, nothing is known, and the run may go on.
func (r run) dead() bool {
	this := thisRun()
	if r.machine != this.machine {
		return false
	}
	if r.process == this.process {
		return r.began != this.began // the system gave the number again
	}
	p, err := os.FindProcess(r.process)
	if err != nil {
		return false
	}
	err = p.Signal(syscall.Signal(0))
	return errors.Is(err, os.ErrProcessDone) || errors.Is(err, syscall.ESRCH)
}
