package scenarios

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Longest texts, in characters.
const (
	maxName     = 60
	maxSentence = 400
)

// name is a short text on one line.
type name string

func (x *name) decode(r *reader, n *node, key string) { r.text((*string)(x), n, key, maxName) }

// sentence is a longer text, which may take several lines in the file.
type sentence string

func (x *sentence) decode(r *reader, n *node, key string) {
	r.text((*string)(x), n, key, maxSentence)
}

func (r *reader) text(x *string, n *node, key string, most int) {
	text := strings.TrimSuffix(n.Value, "\n")
	unseen, hidden := Unseen(text)
	switch word := r.hash(n); {
	case n.Kind != scalarNode:
		r.note(n, "%s is %s, want text", key, shown(n))
	case n.Tag != textTag && n.Style&tagged == 0:
		r.note(n, "%s is %s, want text: put it in quotes", key, shown(n))
	case word != "":
		r.note(n, "%s ends before %s, which is a comment: put quotes around \"%s %s\", or a space after the #", key, word, text, word)
	case text == "":
		r.note(n, "%s is empty, want text", key)
	case text != strings.TrimSpace(text):
		r.note(n, "%s begins or ends with a space", key)
	case utf8.RuneCountInString(text) > most:
		r.note(n, "%s is too long, want at most %d characters", key, most)
	case strings.ContainsFunc(text, func(c rune) bool { return !unicode.IsPrint(c) }):
		r.note(n, "%s holds a line break or another character that is not printable", key)
	case hidden:
		r.note(n, "%s holds the character %U, which nobody sees: leave it out", key, unseen)
	default:
		*x = text
	}
}
