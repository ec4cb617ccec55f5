package workbench

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
)

// journal is a file to which all is added that happens to the work in hand, so that a crash loses
// nothing. A record is one line of JSON. The first says what the text was; what follows leads from
// there. A last line that is torn is no record.
type journal struct {
	file *os.File
	mu   sync.Mutex // of syncing
	due  bool
}

// record is one thing that happened; only one field but the sum is given.
type record struct {
	Begun *begun  `json:"begun,omitempty"`
	To    *toText `json:"to,omitempty"`
	Undo  bool    `json:"undo,omitempty"`
	Redo  bool    `json:"redo,omitempty"`
	Place *place  `json:"place,omitempty"`
	Sum   string  `json:"sum,omitempty"` // of the text after it
}

// begun is what the work began with.
type begun struct {
	Text  string `json:"text"`
	Pins  []pin  `json:"pins,omitempty"`
	Place place  `json:"place"`
	Job   string `json:"job,omitempty"`

	Chosen []string `json:"chosen,omitempty"`
}

// toText is a step of the history.
type toText struct {
	Group  string `json:"group,omitempty"`
	Change change `json:"change"`
	beside
}

// place is where the text belongs, and what was there when it was last read or written.
type place struct {
	File  string `json:"file,omitempty"` // "" while it has none
	Title string `json:"title"`          // what it is called on the page
	Saved string `json:"saved"`          // sum of what is on disk; "" for nothing
	Mark  bool   `json:"mark,omitempty"` // the file begins with a byte order mark
	CRLF  bool   `json:"crlf,omitempty"` // all its lines end so
}

// sumOf returns a sum by which texts are told apart.
func sumOf(text string) string {
	h := sha256.Sum256([]byte(text))
	return hex.EncodeToString(h[:16])
}

// journalName returns where the journal of a file is kept; of a text without a file by what it is
// called.
func journalName(dir, file, title string) string {
	name := "unsaved " + title
	if file != "" {
		name = file
		if whole, err := filepath.Abs(file); err == nil {
			name = whole
		}
	}
	return filepath.Join(dir, sumOf(name)+".journal")
}

// readJournal returns the records of a journal in their order; none if there is no journal.
func readJournal(path string) ([]record, error) {
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	var all []record
	for line := range bytes.Lines(data) {
		var r record
		if !bytes.HasSuffix(line, []byte("\n")) || json.Unmarshal(line, &r) != nil {
			break
		}
		all = append(all, r)
	}
	return all, err
}

// newJournal begins a journal with some records, in the place of one that is there.
func newJournal(path string, records []record) (*journal, error) {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return nil, err
	}
	f, err := os.OpenFile(path+".new", os.O_CREATE|os.O_TRUNC|os.O_WRONLY|os.O_APPEND, 0o600)
	if err != nil {
		return nil, err
	}
	w := bufio.NewWriter(f)
	for _, r := range records {
		err = errors.Join(err, writeRecord(w, r))
	}
	if err = errors.Join(err, w.Flush(), f.Sync()); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	// An open file cannot be renamed on Windows.
	if err = errors.Join(f.Close(), os.Rename(path+".new", path)); err != nil {
		return nil, err
	}
	if f, err = os.OpenFile(path, os.O_WRONLY|os.O_APPEND, 0o600); err != nil {
		return nil, err
	}
	return &journal{file: f}, nil
}

func writeRecord(w interface{ Write([]byte) (int, error) }, r record) error {
	line, err := json.Marshal(r)
	if err != nil {
		return fmt.Errorf("journal: %w", err)
	}
	_, err = w.Write(append(line, '\n'))
	return err
}

// add writes a record. It is with the system when add returns, which is enough for the death of
// this program; soon after it is on the disk.
func (j *journal) add(r record) error {
	if j == nil {
		return nil
	}
	if err := writeRecord(j.file, r); err != nil {
		return err
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	if !j.due {
		j.due = true
		go j.sync()
	}
	return nil
}

func (j *journal) sync() {
	j.mu.Lock()
	j.due = false
	j.mu.Unlock()
	_ = j.file.Sync() // the death of the machine may then cost the last moments
}

// close ends the journal.
func (j *journal) close() {
	if j != nil {
		_ = j.file.Close() // all is written
	}
}
