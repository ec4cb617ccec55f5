package scenarios

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"netrate/sim/output"
)

// reader reads one scenario file and notes everything that is wrong with it.
type reader struct {
	file     string
	lines    []string
	problems Problems
	bad      map[*node]bool         // the nodes at which something is wrong
	priors   map[*node]output.Prior // of the numbers that are given with their uncertainty
	unknowns                        // which numbers are one unknown
	sources  sources                // where numbers come from that were set
	priced   []string               // stations of the base whose pieces can have a price; nil while it is read
}

// lineBreak is what begins a new line for YAML.
var lineBreak = regexp.MustCompile("\r\n|[\n\r\u0085\u2028\u2029]")

func newReader(file string, data []byte) *reader {
	return &reader{file: file, lines: lineBreak.Split(string(data), -1), bad: map[*node]bool{}, priors: map[*node]output.Prior{}, unknowns: newUnknowns(), sources: sources{}}
}

// line returns a line of the file, counted from 1, or "" if there is none.
func (r *reader) line(number int) string {
	if number < 1 || number > len(r.lines) {
		return ""
	}
	return r.lines[number-1]
}

// note notes that something is wrong at a node.
func (r *reader) note(n *node, text string, args ...any) {
	r.bad[n] = true
	r.noteAt(n.Line, n.Column, text, args...)
}

func (r *reader) noteAt(line, column int, text string, args ...any) {
	r.problems = append(r.problems, Problem{File: r.file, Line: line, Column: column, Text: fmt.Sprintf(text, args...)})
}

// found returns all that was noted, in the order of the file and each once. Those that
// are printed have their excerpts: a file can be one long line with a problem at every
// word of it.
func (r *reader) found() Problems {
	found := r.problems.sorted()
	for i := range min(len(found), shownProblems) {
		p := &found[i]
		p.Excerpt, p.Caret = excerpt(r.line(p.Line), p.Column)
	}
	return found
}

// spoilt reports whether something is wrong at the node or within it.
func (r *reader) spoilt(n *node) bool {
	if r.bad[n] {
		return true
	}
	return slices.ContainsFunc(n.Content, r.spoilt)
}

// readable notes the first character that cannot be in a text file.
func (r *reader) readable(data []byte) bool {
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		r.noteAt(1, 1, "the file is UTF-16: save it as UTF-8")
		r.lines = nil // they cannot be shown
		return false
	}
	for i, line := range r.lines {
		column := 1
		for j, c := range line {
			_, size := utf8.DecodeRuneInString(line[j:])
			if c == utf8.RuneError && size == 1 {
				r.noteAt(i+1, column, "the file is not UTF-8 here: save it as UTF-8")
				return false
			}
			if c < ' ' && c != '\t' || c >= 0x7f && c < 0xa0 || c == 0xfffe || c == 0xffff || c == '\ufeff' {
				r.noteAt(i+1, column, "the character U+%04X cannot be in a scenario", c)
				return false
			}
			column++
		}
	}
	return true
}

// afterHash matches a # that may well be a part of the value before it.
var afterHash = regexp.MustCompile(`^\s*(#\S[^\s,}\]]*)`)

// longLine is the length of a line, in bytes, that is not looked at again for each value
// on it.
const longLine = 2000

// hash returns the word that begins with # right after a plain value, or "": to YAML it
// is a comment, but "#10" is also an envelope size and "feeder #2" a name.
func (r *reader) hash(n *node) string {
	line := r.line(n.Line)
	if line == "" || len(line) > longLine || n.Style&(quoted|block) != 0 {
		return ""
	}
	rest, from := []rune(line), n.Column-1+utf8.RuneCountInString(n.Value)
	if from < 0 || from > len(rest) {
		return ""
	}
	if m := afterHash.FindStringSubmatch(string(rest[from:])); m != nil {
		return m[1]
	}
	return ""
}

// hashBefore returns the last line up to the given one in which a # that begins a
// comment looks like a part of a value, or 0.
func (r *reader) hashBefore(line int) int {
	for ; line > 0; line-- {
		if midHash.MatchString(r.line(line)) {
			return line
		}
	}
	return 0
}

// midHash matches a # after a value, right before a digit.
var midHash = regexp.MustCompile(`\S\s+#\d`)

// shown returns a value as it is quoted in a message.
func shown(n *node) string {
	switch n.Kind {
	case mappingNode:
		return "a mapping"
	case sequenceNode:
		return "a list"
	default:
	}
	text := []rune(n.Value)
	if len(text) > 40 {
		text = append(text[:39], '…')
	}
	if bare.MatchString(string(text)) && n.Style&quoted == 0 {
		return string(text)
	}
	return strconv.Quote(string(text))
}

// bare matches what can be read in a sentence without quotes.
var bare = regexp.MustCompile(`^[\w.,/%+-]+( (s|min|h|mm|cm|in))?$`)

// child returns the value of a key in a mapping, or nil.
func child(n *node, key string) *node {
	if n == nil || n.Kind != mappingNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return nil
}

// find returns the node at a path of keys such as "hopper.warn", or the deepest one on
// the way to it, and whether it is the node itself.
func find(n *node, path string) (*node, bool) { return follow(n, strings.Split(path, ".")) }

// follow is find for keys that may hold dots.
func follow(n *node, keys []string) (*node, bool) {
	parent := ""
	for _, key := range keys {
		n = longForm(parent, n)
		next := step(n, key)
		if next == nil {
			return n, false
		}
		n, parent = next, key
	}
	return n, true
}
