package manual

import (
	"embed"
	"fmt"
	"strings"
)

//go:embed *.md
var files embed.FS

// order is that of the list of topics: from the first answer to the small print.
var order = []string{
	"workbench",
	"reading", "tracing", "filming", "comparing", "money", "responses", "improving", "jobs", "seasons", "planning", "sharing", "people", "designing", "accepting",
	"fitting", "uncertainty", "replay", "calibrating",
	"file", "keys", "presets", "matching", "errors", "causes", "commands", "clusters",
	"words", "model", "cautions",
}

// Topic is a chapter of the manual.
type Topic struct {
	Name  string // by which it is asked for, and its file is called
	Title string
	Text  string // Markdown, as in the file
}

// Topics returns the whole manual, in the order in which it is listed.
func Topics() []Topic {
	list := make([]Topic, len(order))
	for i, name := range order {
		text, err := files.ReadFile(name + ".md")
		if err != nil {
			panic(fmt.Sprintf("manual: the topic %s is listed and not there: %v", name, err))
		}
		first, _, _ := strings.Cut(string(text), "\n")
		list[i] = Topic{Name: name, Title: strings.TrimPrefix(first, "# "), Text: string(text)}
	}
	return list
}

// Named returns the topic with a name; false if there is none.
func Named(name string) (Topic, bool) {
	for _, t := range Topics() {
		if t.Name == name {
			return t, true
		}
	}
	return Topic{}, false
}
