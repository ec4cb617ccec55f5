package workbench

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/desk"
	"netrate/scenarios"
)

// work is the work in hand: a text with all its steps, the file it belongs to, and the pins. All is
// in the journal before it is told to anybody.
type work struct {
	history

	theirs    string // what somebody else has made of the file on disk
	hasTheirs bool
	restored  bool // unsaved work of an earlier time was brought back

	env     desk.Env
	journal *journal
	lost    error // why the journal is not written any more
}

// pin is an alternative that was kept: a whole text, or a variant of one.
type pin struct {
	Name    string `json:"name"`
	Text    string `json:"text"`
	Variant string `json:"variant,omitempty"` // as which the text is taken
	Job     string `json:"job,omitempty"`
}

// mostPins is how many alternatives are compared at a time.
const mostPins = 24

// largest is the size of the largest text, in bytes, as scenarios has it.
const largest = 1 << 20

// openWork begins the work on a file, or on a text without one. Where its journal in the directory
// dir has work that was not saved, that is brought back; without a directory no journal is kept.
func openWork(e desk.Env, dir string, from place, text string) (*work, error) {
	w := &work{env: e, history: history{place: from}}
	w.text = text
	if dir == "" {
		return w, nil
	}
	name := journalName(dir, from.File, from.Title)
	records, err := readJournal(name)
	if err != nil {
		return nil, fmt.Errorf("the journal of unsaved work cannot be read: %w", err)
	}
	before := &work{env: e}
	n := before.replay(records)
	switch {
	case n > 0 && before.dirty():
		on := from.Saved
		*w = *before
		w.restored = true
		if from.File != "" && on != w.Saved { // somebody changed the file meanwhile
			w.theirs, w.hasTheirs = text, true
		}
		records = records[:n]
	case n > 0:
		w.pins, w.job, w.chosen = before.pins, before.job, before.chosen
		records = nil
	default:
		records = nil
	}
	if records == nil {
		records = []record{{Begun: &begun{w.text, w.pins, w.place, w.job, w.chosen}, Sum: sumOf(w.text)}}
	}
	w.journal, err = newJournal(name, records)
	if err != nil {
		return nil, fmt.Errorf("the journal of unsaved work cannot be written: %w", err)
	}
	return w, nil
}

// replay does what records say, as far as they fit together, and returns how many did.
func (w *work) replay(records []record) (n int) {
	for i, r := range records {
		switch {
		case (r.Begun == nil) != (i > 0):
			return n
		case r.Begun != nil:
			w.text, w.pins, w.place, w.job, w.chosen = r.Begun.Text, r.Begun.Pins, r.Begun.Place, r.Begun.Job, r.Begun.Chosen
		case r.To != nil:
			text, fits := r.To.Change.made(w.text)
			if !fits {
				return n
			}
			w.to(text, r.To.Group, r.To.beside)
		case r.Undo:
			w.undo()
		case r.Redo:
			w.redo()
		case r.Place != nil:
			w.place = *r.Place
		}
		if r.Sum != sumOf(w.text) {
			return n
		}
		n++
	}
	return n
}

// keep writes a record of what was done.
func (w *work) keep(r record) {
	r.Sum = sumOf(w.text)
	if err := w.journal.add(r); err != nil && w.lost == nil {
		w.lost = err
	}
}

// dirty reports whether the text is not what its file has. What never had a file is not yet worth
// saving as long as nothing was changed.
func (w *work) dirty() bool {
	if w.File == "" && w.Saved == "" {
		return slices.ContainsFunc(w.done, func(s step) bool { return len(s.Changes) > 0 })
	}
	return sumOf(w.bytes()) != w.Saved
}

// bytes returns the text as the file has it: with its byte order mark and its line ends.
func (w *work) bytes() string { return w.place.bytes(w.text) }

func (p *place) bytes(text string) string {
	if p.CRLF {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	if p.Mark {
		text = byteOrderMark + text
	}
	return text
}

const byteOrderMark = "\ufeff"

// read takes what a file holds apart: how it is written, and the text as it is edited, whose lines
// end with \n unless the file mixes line ends.
func (p *place) read(data string) (text string, err error) {
	switch {
	case len(data) > largest:
		return "", errors.New("it is larger than 1 MiB")
	case !utf8.ValidString(data):
		return "", errors.New("it is not a text in UTF-8")
	}
	p.Saved = sumOf(data)
	text, p.Mark = strings.CutPrefix(data, byteOrderMark)
	n := strings.Count(text, "\r\n")
	if p.CRLF = n > 0 && n == strings.Count(text, "\n") && n == strings.Count(text, "\r"); p.CRLF {
		text = strings.ReplaceAll(text, "\r\n", "\n")
	}
	return text, nil
}

// onDisk returns what the file holds now.
func (w *work) onDisk() (string, error) {
	from, err := w.env.Open(w.File)
	if err != nil {
		return "", err
	}
	data, err := io.ReadAll(io.LimitReader(from, largest+1))
	return string(data), errors.Join(err, from.Close())
}

// look notices what somebody else has made of the file; it reports whether that is new.
func (w *work) look() bool {
	if w.File == "" {
		return false
	}
	data, err := w.onDisk()
	if err != nil { // gone, or out of reach: saving will say
		return false
	}
	if sumOf(data) == w.Saved {
		was := w.hasTheirs
		w.theirs, w.hasTheirs = "", false
		return was
	}
	if w.hasTheirs && w.theirs == data {
		return false
	}
	w.theirs, w.hasTheirs = data, true
	return true
}

// load returns the scenario that the text is.
func (w *work) load() (*scenarios.Scenario, error) {
	return scenarios.Load(w.Title, []byte(w.text))
}
