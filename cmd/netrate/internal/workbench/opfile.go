package workbench

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"netrate/cmd/netrate/internal/desk"
	"netrate/scenarios"
)

// example takes the text of an example; opened that of another file, which the page has read.
// Neither has a place on the disk: saving asks for one. The pins were of another line. What was there,
// with its pins and its file, comes back with undo.
func (w *work) example(op Op) (done, error) {
	x, err := scenarios.ExampleNamed(op.Name)
	if err != nil {
		return done{}, err
	}
	return w.begin(x.Name, string(x.Data))
}

func (w *work) opened(op Op) (done, error) { return w.begin(op.Name, op.Text) }

func (w *work) begin(title, data string) (done, error) {
	to := place{Title: cmp.Or(title, "untitled")}
	text, err := to.read(data)
	if err != nil {
		return done{}, err
	}
	to.Saved = ""
	d, err := w.stepWith(text, "", beside{Pins: new([]pin), Place: &to, Job: new(string), Chosen: new([]string)})
	if err != nil {
		return d, err
	}
	w.hasTheirs, w.theirs = false, ""
	d.shown = true
	return d, nil
}

// takeTheirs takes what somebody else has made of the file. What was there comes back with undo.
func (w *work) takeTheirs(Op) (done, error) {
	if !w.hasTheirs {
		return done{}, errors.New("nobody has changed the file")
	}
	to := place{File: w.File, Title: w.Title}
	text, err := to.read(w.theirs)
	if err != nil {
		return done{}, err
	}
	d, err := w.step(text, "")
	if err != nil {
		return d, err
	}
	w.place, w.hasTheirs, w.theirs = to, false, ""
	w.keep(record{Place: &to})
	d.shown = true
	return d, nil
}

// forJob says for which job the line is set up.
func (w *work) forJob(op Op) (done, error) { return w.stepWith(w.text, "", beside{Job: &op.Name}) }

// save writes the file; under another name of the same directory where one is given.
func (w *work) save(op Op) (done, error) {
	to := w.File
	if op.Save != "" {
		path, err := w.saveAs(op.Save)
		if err != nil {
			return done{}, err
		}
		to = path
	}
	if to == "" {
		return done{}, errors.New("it has no file yet: say under which name to save it")
	}
	data := w.bytes()
	if to == w.File {
		w.look()
		if w.hasTheirs && !op.Over {
			return done{shown: true}, errors.New("somebody else has changed the file meanwhile: take theirs, save under another name, or save over it, which keeps theirs as an alternative")
		}
		if w.hasTheirs {
			_ = w.keepTheirs() // what is no text cannot be a pin, and was no scenario
		}
	}
	if err := desk.SaveFile(w.env, to, data); err != nil {
		return done{}, err
	}
	w.place = place{File: to, Title: filepath.Base(to), Saved: sumOf(data), Mark: w.Mark, CRLF: w.CRLF}
	w.hasTheirs, w.theirs, w.restored = false, "", false
	w.keep(record{Place: &w.place})
	return done{shown: true, said: "Saved " + desk.Shown(to)}, nil
}

// keepTheirs keeps what somebody else has made of the file as a pin.
func (w *work) keepTheirs() error {
	var as place
	text, err := as.read(w.theirs)
	if err != nil {
		return err
	}
	_, err = w.pinned(pin{Name: w.pinName("from the disk"), Text: text})
	return err
}

// saveAs returns the path of a new file beside that of the work, or in the directory in which the
// program was started.
func (w *work) saveAs(name string) (string, error) {
	if strings.TrimSpace(name) == "" || name != filepath.Base(name) || strings.ContainsAny(name, `/\:`) || strings.ContainsFunc(name, unicode.IsControl) || strings.HasPrefix(name, ".") {
		return "", errors.New("want the name of a file, without a directory, such as my-line.yaml")
	}
	if ext := strings.ToLower(filepath.Ext(name)); ext != ".yaml" && ext != ".yml" {
		name += ".yaml"
	}
	path := name
	if w.File != "" {
		path = filepath.Join(filepath.Dir(w.File), name)
	}
	if _, err := os.Lstat(path); err == nil && path != w.File {
		return "", fmt.Errorf("%s is there already: choose another name", desk.Shown(path))
	}
	return path, nil
}
