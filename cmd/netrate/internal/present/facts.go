package present

import (
	"strings"

	"netrate/cmd/netrate/internal/say"
)

// A fact is a part of what was found, in sentences without their full stops. A screen has a line
// for each, and a page one paragraph of all.
type fact struct {
	name string // such as "Net rate"
	says []string
}

// factIndent is where the sentences of facts begin on a screen.
const factIndent = 10

// factLines returns facts as a screen has them.
func factLines(facts ...fact) string {
	var b strings.Builder
	for _, f := range facts {
		mark := f.name + strings.Repeat(" ", max(1, factIndent-len(f.name)))
		for _, text := range f.says {
			b.WriteString(say.Hanging(mark, text, say.Prose()) + "\n")
			mark = strings.Repeat(" ", factIndent)
		}
	}
	return b.String()
}

// factSentences returns facts as a page has them.
func factSentences(facts ...fact) string {
	var all []string
	for _, f := range facts {
		all = append(all, f.name+" "+strings.Join(f.says, ". ")+".")
	}
	return strings.Join(all, " ")
}
