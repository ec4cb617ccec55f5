package manual

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every file is a topic of the list, and begins with its title.
func TestTopics(t *testing.T) {
	found, err := fs.Glob(files, "*.md")
	require.NoError(t, err)
	var names []string
	for _, topic := range Topics() {
		names = append(names, topic.Name+".md")
		assert.True(t, strings.HasPrefix(topic.Text, "# "+topic.Title+"\n\n"), topic.Name)
		assert.NotEmpty(t, topic.Title)
	}
	assert.ElementsMatch(t, found, names)
}

// A link leads to a topic that there is, and to nothing that a terminal cannot show.
func TestLinks(t *testing.T) {
	for _, topic := range Topics() {
		for _, parts := range link.FindAllStringSubmatch(topic.Text, -1) {
			name, is := strings.CutSuffix(parts[2], ".md")
			require.True(t, is, "%s links to %s", topic.Name, parts[2])
			if !strings.Contains(name, "/") {
				_, is = Named(name)
				assert.True(t, is, "%s links to %s", topic.Name, parts[2])
			}
		}
	}
}

func TestPlain(t *testing.T) {
	topic := Topic{Text: "# Title\n\nSee [x](words.md) and [y](../README.md), a [z](words.md)\n(also [x](words.md)) and\n**bold** `code`.\n\n## Part\n\n- **a** one\n  two\n\n```\n$ netrate\n\n  b\n```\n"}
	assert.Equal(t, `Title
=====

See netrate help words and y, a z (netrate help words)
(also netrate help words) and
bold code.

Part
----

- a one
  two

    $ netrate

      b
`, topic.Plain())
	wide := strings.Repeat("x", 78)
	assert.Equal(t, "  "+wide+"\n", Topic{Text: "```\n" + wide + "\n```\n"}.Plain())
	assert.Equal(t, wide+"xxx\n", Topic{Text: "```\n" + wide + "xxx\n```\n"}.Plain())
}

// What is code is so from one mark to the next, in the next line too, and no mark is left.
func TestPlainLeavesNoMark(t *testing.T) {
	assert.Equal(t, "one two\nthree four\n\n- b\n\n      k: v\n", Topic{Text: "one `two\nthree` four\n\n- **b**\n\n  ```\n  k: v\n  ```\n"}.Plain())
	for _, topic := range Topics() {
		assert.NotContains(t, topic.Plain(), "`", topic.Name)
	}
}

// No line of text is much wider than a terminal, once it is plain. Blocks are as wide as they are.
func TestFits(t *testing.T) {
	blocks := regexp.MustCompile("(?s)```.*?```\n")
	for _, topic := range Topics() {
		topic.Text = blocks.ReplaceAllString(topic.Text, "")
		for line := range strings.Lines(topic.Plain()) {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), 96, "%s: %s", topic.Name, line)
		}
	}
}
