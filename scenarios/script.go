package scenarios

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// script is a file as it is written: its tree and the text that the tree was read from. The
// YAML library tells where a value begins, not where it ends, so the end is looked for. Where
// a text is so odd that it is missed, [script.with] refuses the edit.
type script struct {
	text string
	tree *node // a mapping
	from []int // where each line begins in the text
}

// newScript returns nil for a text that is no mapping in the YAML of scenarios.
func newScript(text string) *script {
	if len(text) > maxBytes {
		return nil
	}
	text = Normal(text) // as the tree has it
	r := newReader("", []byte(text))
	tree := r.parse([]byte(text))
	if len(r.problems) > 0 || tree.Kind != mappingNode {
		return nil
	}
	s := &script{text, tree, []int{0}}
	for _, br := range lineBreak.FindAllStringIndex(text, -1) {
		s.from = append(s.from, br[1])
	}
	return s
}

// start returns where a value begins in the text.
func (s *script) start(n *node) int {
	at := s.from[min(n.Line, len(s.from))-1]
	for range n.Column - 1 {
		_, size := utf8.DecodeRuneInString(s.text[at:])
		at += size
	}
	return at
}

// end returns where a value ends in the text, which is an item or a value of another node.
func (s *script) end(n, of *node) int {
	at := s.start(n)
	switch {
	case n.Kind == scalarNode && n.Style&quoted != 0:
		return s.past(quotedText, at)
	case n.Kind == scalarNode && n.Style&block != 0:
		return s.endOfBlock(at, of.Column)
	case n.Kind == scalarNode: // plain, perhaps folded over several lines
		for word := range strings.FieldsSeq(n.Value) {
			rest := strings.TrimLeftFunc(s.text[at:], unicode.IsSpace)
			at = len(s.text) - len(strings.TrimPrefix(rest, word))
		}
		return at
	case len(n.Content) == 0:
		return s.past(closing, at+len("{"))
	case s.inBlock(n):
		return s.end(n.Content[len(n.Content)-1], n)
	default:
		return s.past(closing, s.end(n.Content[len(n.Content)-1], n))
	}
}

var (
	quotedText = regexp.MustCompile(`(?s)^(?:"(?:[^"\\]|\\.)*"|'(?:[^']|'')*')`)
	closing    = regexp.MustCompile(`^(?:[\s,]|#[^\r\n]*)*[}\]]`) // the bracket behind the last item
)

// past returns where a part of the text ends that begins at a place; the place itself if
// there is no such part.
func (s *script) past(part *regexp.Regexp, at int) int {
	if found := part.FindStringIndex(s.text[at:]); found != nil {
		return at + found[1]
	}
	return at
}

// endOfBlock returns where a text ends whose lines, below that of a place, are indented by
// that many characters or more.
func (s *script) endOfBlock(at, indent int) int {
	end := s.lineEnd(at)
	for _, from := range s.from {
		if from <= at {
			continue
		}
		line := s.text[from:s.lineEnd(from)]
		if strings.TrimSpace(line) == "" {
			continue
		}
		if len(line)-len(strings.TrimLeft(line, " ")) < indent {
			break
		}
		end = from + len(line)
	}
	return end
}

// lineEnd returns where the line of a place ends.
func (s *script) lineEnd(at int) int {
	if found := lineBreak.FindStringIndex(s.text[at:]); found != nil {
		return at + found[0]
	}
	return len(s.text)
}

// inBlock reports whether a value is written in lines of its own, without brackets or quotes.
func (s *script) inBlock(n *node) bool {
	if n.Kind == scalarNode {
		return n.Style&block != 0
	}
	at := s.text[s.start(n):]
	return !strings.HasPrefix(at, "{") && !strings.HasPrefix(at, "[")
}

// afterColon returns the place behind a key of a mapping and its colon.
func (s *script) afterColon(of *node, key string) int {
	for i := 0; i < len(of.Content); i += 2 {
		if k := of.Content[i]; k.Value == key {
			at := s.end(k, of)
			return at + strings.Index(s.text[at:s.lineEnd(at)], ":") + 1
		}
	}
	panic("scenarios: no key " + key)
}
