package scenarios

import (
	"cmp"
	"errors"
	"fmt"
	"regexp"
	"strings"
)

// Edit is one value to be written into a scenario file.
type Edit struct {
	Path    string // as of [Scenario.With], such as stations.letter.misfeed
	Value   string // YAML on one line, such as {seen: 99, of: 102177}; text with commas, colons or brackets in quotes
	Comment string // to stand behind the value, without its #; may be empty
}

// Edited returns the text of a scenario file with some values replaced, or added where the
// file does not say them, one after the other; all else of it is as it was, byte for byte.
// The given text is not changed.
//
// A comment behind a value stays if the edit has none; comments within a value of several
// lines go with it. In a flow mapping the comment of the edit is left out, unless the line
// ends behind the value. A new key comes last in its mapping. What a station has from its
// preset is written into the station.
//
// Only the file without its variants is edited: a variant that sets the same path keeps its
// own value.
//
// The file need not be complete, if it is so with the edits: the result passes [Load]. An
// error is of type [Problems]. It names the path of an edit that cannot be made; problems of
// the result have their places in the edited text, and its name says so.
func Edited(file string, text []byte, edits []Edit) ([]byte, error) {
	plain := withoutMark(text)
	mark := text[:len(text)-len(plain)]
	s := newScript(string(plain))
	if s == nil { // then it cannot be loaded either
		_, err := Load(file, text)
		return nil, err
	}
	r := newReader(file, nil)
	for _, e := range edits {
		next, err := s.with(e)
		if err != nil {
			r.noteAt(0, 0, "%s: %v", e.Path, err)
			continue
		}
		s = next
	}
	if len(r.problems) > 0 {
		return nil, r.problems
	}
	edited := []byte(string(mark) + s.text)
	if _, err := Load(file+" (edited)", edited); err != nil {
		return nil, err
	}
	return edited, nil
}

// with returns the script with an edit made. How a text is read is for the YAML library to
// say: it reads the new one, which must hold what was to be written and nothing else new.
func (s *script) with(e Edit) (*script, error) {
	path, err := locate(s.tree, e.Path)
	if err != nil {
		return nil, err
	}
	value, err := e.value()
	if err != nil {
		return nil, err
	}
	wanted, err := put(s.tree, path, value, value)
	if err != nil {
		return nil, err
	}
	next := newScript(s.rewritten(e, path, wanted))
	if next == nil || !same(next.tree, wanted) {
		return nil, errors.New("the file is written in a way that cannot be edited here: write the value into it by hand")
	}
	return next, nil
}

// value returns the value of an edit, which must read the same wherever it is put: in a line
// of its own or between brackets.
func (e Edit) value() (*node, error) {
	if lineBreak.MatchString(e.Value + e.Comment) {
		return nil, errors.New("want the value and its comment on one line")
	}
	if s := newScript("{a: " + e.Value + "}"); s != nil && len(s.tree.Content) == 2 {
		if n := s.tree.Content[1]; s.text[s.start(n):s.end(n, s.tree)] == e.Value {
			return n, nil
		}
	}
	return nil, fmt.Errorf("%s is not a value: want one alone, text with commas, colons or brackets in quotes", brief(scalar(e.Value, &node{})))
}

// same reports whether two trees say the same.
func same(a, b *node) bool {
	if a.Kind != b.Kind || a.Value != b.Value || len(a.Content) != len(b.Content) {
		return false
	}
	for i := range a.Content {
		if !same(a.Content[i], b.Content[i]) {
			return false
		}
	}
	return true
}

// rewritten returns the text with an edit made at the last mapping on its path that the file
// has. What is missing below it is written as it stands in the wanted tree.
func (s *script) rewritten(e Edit, path spot, wanted *node) string {
	of, i := s.tree, 0
	for ; i < len(path)-1; i++ {
		below := step(of, path[i])
		if below == nil || below.Kind == scalarNode {
			break
		}
		of = below
	}
	key, value := path[i], e.Value
	if i < len(path)-1 {
		n, _ := follow(wanted, path[:i+1])
		value = written(n)
	}
	if step(of, key) != nil {
		return s.replaced(of, key, value, e.Comment)
	}
	return s.added(of, key+": "+value, e.Comment)
}

// replaced returns the text with another value of a key.
func (s *script) replaced(of *node, key, value, comment string) string {
	old := step(of, key)
	from, to := s.start(old), s.end(old, of)
	behind := s.text[to:s.lineEnd(to)]
	if s.inBlock(old) && of.Kind == mappingNode { // it begins below its key, or with a > or | behind it
		from = s.afterColon(of, key)
		behind = commentBehind.FindString(s.text[from:s.lineEnd(from)])
	}
	if strings.HasSuffix(s.text[:from], ":") {
		value = " " + value
	}
	return s.text[:from] + value + commented(behind, comment) + s.text[s.lineEnd(to):]
}

// added returns the text with a new key and its value, last in a mapping.
func (s *script) added(to *node, entry, comment string) string {
	if len(to.Content) == 0 {
		at := s.start(to) + len("{")
		return s.text[:at] + entry + s.text[at:]
	}
	at := s.end(to.Content[len(to.Content)-1], to)
	if !s.inBlock(to) {
		return s.text[:at] + ", " + entry + s.text[at:]
	}
	at = s.lineEnd(at)
	indented := cmp.Or(lineBreak.FindString(s.text), "\n") + strings.Repeat(" ", to.Column-1)
	return s.text[:at] + indented + entry + commented("", comment) + s.text[at:]
}

var (
	commentBehind = regexp.MustCompile(`[ \t]+#.*$`)
	lastOfLine    = regexp.MustCompile(`^([ \t]*,)?[ \t]*(#.*)?$`) // what may follow a value at the end of a line
)

// commented returns the rest of a line behind a value with a new comment, if there is one
// and room for it.
func commented(behind, comment string) string {
	m := lastOfLine.FindStringSubmatch(behind)
	if comment == "" || m == nil {
		return behind
	}
	return m[1] + "  # " + comment
}
