package scenarios

import (
	"bytes"
	"errors"
	"io"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"
)

// This is the one file that calls the YAML library; the rest of the package knows its
// nodes only.

// node is one value of a file, with its place: a text, a mapping or a list.
type node = yaml.Node

const (
	scalarNode   = yaml.ScalarNode
	mappingNode  = yaml.MappingNode
	sequenceNode = yaml.SequenceNode
	aliasNode    = yaml.AliasNode

	quoted   = yaml.SingleQuotedStyle | yaml.DoubleQuotedStyle
	flow     = yaml.FlowStyle
	block    = yaml.LiteralStyle | yaml.FoldedStyle
	tagged   = yaml.TaggedStyle
	nullTag  = "!!null"
	textTag  = "!!str"
	mergeTag = "!!merge"
)

// maxDepth is how deep a file may nest; a scenario needs eleven levels.
const maxDepth = 20

// parse returns the tree of a file that holds one document, or nil if it has none. It
// notes what is wrong with the file as YAML; what it says is looked at by decode.
func (r *reader) parse(data []byte) *node {
	if !r.readable(data) {
		return nil
	}
	var tree, second node
	loader, err := yaml.NewLoader(bytes.NewReader(data),
		yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(maxDepth))))
	if err != nil {
		panic("scenarios: the YAML options are wrong: " + err.Error())
	}
	err = loader.Load(&tree)
	if errors.Is(err, io.EOF) || err == nil && empty(&tree) {
		r.noteAt(1, 1, "the file is empty: want a scenario, beginning with its name, such as name: my line")
		return nil
	}
	if err != nil {
		r.syntax(err)
		return nil
	}
	if err = loader.Load(&second); err == nil {
		r.noteAt(second.Line, second.Column, "a second document begins here: want one scenario a file")
		return nil
	} else if !errors.Is(err, io.EOF) {
		r.syntax(err)
		return nil
	}
	root := tree.Content[0]
	normalise(root)
	r.plain(root)
	return root
}

// empty reports whether a document says nothing.
func empty(document *node) bool {
	return len(document.Content) == 0 || isNull(document.Content[0])
}

func isNull(n *node) bool { return n.Kind == scalarNode && n.Tag == nullTag }

// normalise puts all texts below a node in the form in which they are compared.
func normalise(n *node) {
	n.Value = Normal(n.Value)
	for _, child := range n.Content {
		normalise(child)
	}
}

// plain notes what YAML can do and a scenario must not: a value that stands somewhere
// else, a key that is given twice or is no text, a type that is forced on a value.
func (r *reader) plain(n *node) {
	switch {
	case n.Kind == aliasNode: // noted at what it stands for
		r.bad[n] = true
	case n.Anchor != "":
		r.note(n, "&%s would let *%s stand for this value: write values where they belong; stations that are alike may share a preset", n.Anchor, n.Anchor)
	case n.Style&tagged != 0 || n.Tag == "!":
		r.note(n, "%s forces a type on the value: leave it out", n.Tag)
	}
	lines := map[string]int{}
	for i, child := range n.Content {
		if n.Kind == mappingNode && i%2 == 0 {
			r.plainKey(child, lines)
		}
		r.plain(child)
	}
}

func (r *reader) plainKey(key *node, lines map[string]int) {
	switch line, twice := lines[key.Value]; {
	case key.Kind != scalarNode:
		r.note(key, "a key must be one word")
	case key.Tag == mergeTag:
		r.note(key, "<< is not used in scenarios: write the values out; stations that are alike may share a preset")
	case twice:
		r.note(key, "%s is given twice, first in line %d", shown(key), line)
	default:
		lines[key.Value] = key.Line
	}
}

// syntax notes where the YAML library could not go on, in words for those who do not
// know YAML.
func (r *reader) syntax(err error) {
	// This one is to be asked for first: it also passes for its first error.
	if many, ok := errors.AsType[*yaml.LoadErrors](err); ok {
		for _, one := range many.Errors {
			r.syntaxAt(one)
		}
		return
	}
	if one, ok := errors.AsType[*yaml.LoadError](err); ok {
		r.syntaxAt(one)
		return
	}
	r.noteAt(1, 1, "%v", err)
}

func (r *reader) syntaxAt(e *yaml.LoadError) {
	text, at := "this is not YAML: "+e.Message, e.Mark
	for _, s := range syntaxWords {
		if !strings.Contains(e.Message, s.theirs) {
			continue
		}
		if text = s.ours; s.from {
			at = e.ContextMark
		}
	}
	if from := e.ContextMark.Line; from > 0 && from < at.Line {
		text += ", which begins in line " + strconv.Itoa(from)
	}
	if line := r.hashBefore(at.Line); line > 0 {
		text += "; mind that # begins a comment in line " + strconv.Itoa(line) + ": put a text with # in quotes"
	}
	r.noteAt(at.Line, at.Column, "%s", text)
}

var syntaxWords = []struct {
	theirs, ours string
	from         bool // the place is where the thing began
}{
	{"cannot start any token", "a value cannot begin like this: indent with spaces, not tabs, and put text that begins with %, @ or ` in quotes", false},
	{"mapping values are not allowed", "a colon with a space after it makes a key, and none can stand here: put text with a colon in quotes, or look at the indentation", false},
	{"did not find expected ',' or ']'", "a comma or ] is missing here, in a list", false},
	{"did not find expected ',' or '}'", "a comma or } is missing here, in a mapping", false},
	{"did not find expected key", "look at the indentation: this is not in line with the keys of the mapping", false},
	{"did not find expected '-' indicator", "look at the indentation: this is not in line with the list", false},
	{"did not find expected node content", "a value is missing here", false},
	{"could not find expected ':'", "a colon and a space are missing after this key", true},
	{"found unexpected end of stream", "this text in quotes has no end", true},
	{"exceeded max depth", "nested far too deep", false},
	{"unknown anchor", "* stands for another value, and there is none: put text that begins with * in quotes", false},
	{"found a comment without preceding whitespace", "# begins a comment here: put text with # in quotes", false},
	{"incompatible YAML document", "this is not YAML 1.2: leave the %YAML line out", false},
}
