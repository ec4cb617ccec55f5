package desk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"
)

// What a flag names, as annotations of flags.
const (
	readsFile  = "netrate-reads"
	writesFile = "netrate-writes"
	writesInto = "netrate-writes-into"
)

// Reads marks flags that name files which are read.
func Reads(flags *pflag.FlagSet, names ...string) { mark(flags, readsFile, names) }

// Writes marks flags that name files which are written; "-" is none.
func Writes(flags *pflag.FlagSet, names ...string) { mark(flags, writesFile, names) }

// WritesInto marks flags that name directories into which pictures are written.
func WritesInto(flags *pflag.FlagSet, names ...string) { mark(flags, writesInto, names) }

func mark(flags *pflag.FlagSet, as string, names []string) {
	for _, name := range names {
		if err := flags.SetAnnotation(name, as, []string{}); err != nil {
			panic("desk: " + err.Error())
		}
	}
}

// place is a file, or a directory, that the command line names.
type place struct {
	said string // how the command line names it: the flag and the name
	path string // through all links
	info fs.FileInfo
	at   fs.FileInfo // its directory, if there is nothing yet
}

func placeOf(said, path string) place {
	p := place{said: said, path: path}
	if last, err := lastOf(path); err == nil {
		p.path = last
	}
	p.info, _ = os.Stat(p.path)
	p.at, _ = os.Stat(filepath.Dir(p.path))
	return p
}

// SameFile reports whether two names are of one file.
func SameFile(a, b string) bool { return placeOf("", a).same(placeOf("", b)) }

// same reports whether two places are one. What is no file, such as a pipe or the null
// device, may be named many times.
func (p place) same(as place) bool {
	switch {
	case p.info != nil && as.info != nil:
		return p.info.Mode().IsRegular() && os.SameFile(p.info, as.info)
	case p.info != nil || as.info != nil:
		return false
	case p.at != nil && as.at != nil:
		return filepath.Base(p.path) == filepath.Base(as.path) && os.SameFile(p.at, as.at)
	}
	return false
}

// isPicture reports whether a name is like those of the pictures.
func isPicture(name string) bool {
	ending := strings.ToLower(filepath.Ext(name))
	return ending == ".svg" || ending == ".png"
}

// pictureOf reports whether a place is, or may become, a picture of a directory: one of its
// name, or what a picture there is a link to.
func (p place) pictureOf(directory place) bool {
	if directory.info == nil {
		return false
	}
	if p.at != nil && os.SameFile(p.at, directory.info) && isPicture(p.path) {
		return true
	}
	inside, _ := os.ReadDir(directory.path) // making pictures there will say it
	for _, x := range inside {
		if isPicture(x.Name()) && p.same(placeOf("", filepath.Join(directory.path, x.Name()))) {
			return true
		}
	}
	return false
}

// nameless returns an error if a flag that names a file is given no name.
func nameless(flags *pflag.FlagSet) error {
	var errs []error
	flags.Visit(func(f *pflag.Flag) {
		for _, as := range []string{readsFile, writesFile, writesInto} {
			if _, marked := f.Annotations[as]; marked && f.Value.String() == "" {
				errs = append(errs, Wrong("--%s is \"\", want a name", f.Name))
			}
		}
	})
	return errors.Join(errs...)
}

// apart returns an error if an output would overwrite an input, or another output.
func apart(flags *pflag.FlagSet, e Env, args []string) error {
	var inputs, outputs, directories []place
	add := func(to *[]place, said, path string) {
		if path != "" && path != "-" {
			*to = append(*to, placeOf(said, path))
		}
	}
	for _, name := range args {
		add(&inputs, Shown(name), name)
	}
	flags.VisitAll(func(f *pflag.Flag) {
		path := f.Value.String()
		for as, to := range map[string]*[]place{readsFile: &inputs, writesFile: &outputs, writesInto: &directories} {
			if _, marked := f.Annotations[as]; marked {
				add(to, "--"+f.Name+" "+Shown(path), path)
			}
		}
	})
	if from, ok := e.In.(*os.File); ok && from != nil {
		if info, err := from.Stat(); err == nil {
			inputs = append(inputs, place{said: "standard input", info: info})
		}
	}
	var printed *place
	if e.Stdout != nil {
		if info, err := e.Stdout.Stat(); err == nil {
			printed = &place{said: "standard output", info: info}
		}
	}
	return errors.Join(overwritten(inputs, outputs, directories, printed), twice(outputs, directories))
}

// overwritten returns which output would overwrite an input, or the answer.
func overwritten(inputs, outputs, directories []place, printed *place) error {
	var errs []error
	for _, in := range inputs {
		for _, out := range outputs {
			if out.same(in) {
				errs = append(errs, Wrong("%s is the same file as %s, which is read: want another name", out.said, in.said))
			}
		}
		for _, dir := range directories {
			if in.pictureOf(dir) {
				errs = append(errs, Wrong("%s is among the pictures of %s and is read: want another directory", in.said, dir.said))
			}
		}
	}
	if printed == nil {
		return errors.Join(errs...)
	}
	for _, in := range inputs {
		if in.same(*printed) {
			errs = append(errs, Wrong("%s is read, and the answer is printed to it: want another file", in.said))
		}
	}
	for _, out := range outputs {
		if out.same(*printed) {
			errs = append(errs, Wrong("%s is the file that the answer is printed to: want another name", out.said))
		}
	}
	return errors.Join(errs...)
}

// twice returns which outputs are one file.
func twice(outputs, directories []place) error {
	var errs []error
	for i, out := range outputs {
		for _, other := range outputs[:i] {
			if out.same(other) {
				errs = append(errs, Wrong("%s and %s are one file: want two names", other.said, out.said))
			}
		}
		for _, dir := range directories {
			if out.pictureOf(dir) {
				errs = append(errs, Wrong("%s is among the pictures of %s: want another name", out.said, dir.said))
			}
		}
	}
	return errors.Join(errs...)
}
