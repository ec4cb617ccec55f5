package workbench

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios"
)

// command returns the command that does the same in a terminal, to which more flags can be added, and
// what is to be done first: what stands in no file is saved. first is "" for nothing.
func command(verb string, from place, text string, args ...string) (says, first string) {
	says = "netrate " + verb + " "
	example, err := scenarios.ExampleNamed(from.Title)
	switch {
	case from.File != "":
		says += desk.Quoted(from.File)
		if sumOf(from.bytes(text)) != from.Saved {
			first = "save first: the text has changes"
		}
	case err == nil && string(example.Data) == text:
		says += "--example " + desk.Quoted(from.Title)
	default:
		says += "my-line.yaml"
		first = "save first, under this name: the text is in no file"
	}
	if len(args) > 0 {
		says += " " + quotedAll(args)
	}
	return says, first
}

// withFirst returns a command on one line with what is to be done first.
func withFirst(says, first string) string {
	if first == "" {
		return says
	}
	return says + "   # " + first
}

// jobArgs returns the flag for a job; none for none.
func jobArgs(job string) []string {
	if job == "" {
		return nil
	}
	return []string{"--job", job}
}

func quotedAll(args []string) string {
	var all []string
	for _, a := range args {
		all = append(all, desk.Quoted(a))
	}
	return strings.Join(all, " ")
}

// compareCommand returns the command that compares the same in a terminal, and what is to be done first.
func compareCommand(t task) (says, first string) {
	if len(t.pins) == 0 {
		return command("compare", t.from, t.text, jobArgs(t.job)...)
	}
	args, jobs := fileNames(t.pins), []string{}
	for _, p := range t.pins {
		jobs = append(jobs, p.Job)
	}
	first = "save the file of each alternative first, under these names"
	if t.same() == "" {
		args, jobs = append(args, nowName+".yaml"), append(jobs, t.job)
		first += ", and the text as " + nowName + ".yaml"
	}
	if len(slices.Compact(jobs)) > 1 {
		return "netrate compare " + quotedAll(args), first + "; each is set up for its own job here, which no command does"
	}
	return "netrate compare " + quotedAll(append(args, jobArgs(jobs[0])...)), first
}

// fileNames returns under which names the files of pins are saved, no two alike.
func fileNames(pins []pin) (names []string) {
	taken := map[string]bool{nowName: true}
	for _, p := range pins {
		slug := cmp.Or(say.Slug(p.Name), "alternative")
		name := slug
		for n := 2; taken[name]; n++ {
			name = fmt.Sprint(slug, "-", n)
		}
		taken[name] = true
		names = append(names, name+".yaml")
	}
	return names
}
