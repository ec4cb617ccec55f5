package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios"
)

func schemaVerb() desk.Verb {
	return desk.Verb{
		Name: "schema", Takes: "[NAME]", About: "print the JSON schema of scenario files, or list their keys",
		More: `An editor that knows YAML schemas helps with writing, if the first line of the file is
  # yaml-language-server: $schema=./netrate.schema.json
and the schema is there: netrate schema > netrate.schema.json

With a NAME, such as feeder, hopper or costs, it lists the keys of that mapping instead.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			all := flags.Bool("keys", false, "list the keys of all mappings instead")
			return func(e desk.Env, args []string) error { return schema(e, args, *all) }
		},
	}
}

func schema(e desk.Env, args []string, all bool) error {
	switch {
	case all && len(args) > 0:
		return desk.Wrong("schema takes --keys or a name, not both: found %q", args[0])
	case all:
		var parts []string
		for _, m := range scenarios.Mappings() {
			parts = append(parts, mappingText(m))
		}
		_, err := io.WriteString(e.Out, strings.Join(parts, "\n"))
		return err
	case len(args) > 0: // a name may be of several words: document channel
		m, err := scenarios.MappingNamed(strings.Join(args, " "))
		if err != nil {
			return desk.Wrong("%v", err)
		}
		_, err = io.WriteString(e.Out, mappingText(m))
		return err
	}
	_, err := e.Out.Write(scenarios.Schema())
	return err
}

// mappingText returns the keys of a mapping, each with what it means.
func mappingText(m scenarios.Mapping) string {
	title := m.Name
	if m.About != "" {
		title += ": " + m.About
	}
	var text strings.Builder
	text.WriteString(say.Wrapped(title, say.Prose()))
	widest := 0
	for _, k := range m.Keys {
		widest = max(widest, utf8.RuneCountInString(k.Name))
	}
	for _, k := range m.Keys {
		mark := " "
		if k.Needed {
			mark = "*"
		}
		about := strings.ReplaceAll(say.Wrapped(keyText(k), say.Prose()-widest-4), "\n", "\n"+strings.Repeat(" ", widest+4))
		fmt.Fprintf(&text, "%s %-*s  %s\n", mark, widest, k.Name, strings.TrimRight(about, " \n"))
	}
	return text.String()
}

// keyText returns what a key means and what it holds, unless its meaning says that already.
func keyText(k scenarios.Key) string {
	said := 0
	for _, w := range k.Words {
		if strings.Contains(k.About, w) {
			said++
		}
	}
	_, such, found := strings.Cut(k.Values, "such as ")
	switch {
	case k.Holds != "":
		return k.About + " [" + k.Holds + "]"
	case len(k.Words) > 1 && said < 2 && k.Name != "kind":
		return k.About + " (" + strings.Join(k.Words, ", ") + ")"
	case found && !strings.Contains(k.About, "such as"):
		return k.About + " (such as " + such + ")"
	}
	return k.About
}
