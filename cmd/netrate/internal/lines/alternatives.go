package lines

import (
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/scenarios"
)

// alternatives is what is compared, the base first, and where it was read.
type alternatives struct {
	all     []study.Alternative
	origins []page.Origin // one of each alternative, or one of all
	command string        // that compares them again, without its flags
}

// base returns the scenario of the base, whose settings hold for all.
func (a *alternatives) base() *scenarios.Scenario { return a.origins[0].Scenario }

// readAlternatives reads what is to be compared: the variants of one file or example, or several
// files.
func readAlternatives(e desk.Env, example string, files []string) (*alternatives, error) {
	switch {
	case example != "" && len(files) > 0:
		return nil, desk.Wrong("compare takes --example or files, not both: found %q", files[0])
	case example != "":
		sc, text, err := desk.LoadExample(example)
		if err != nil {
			return nil, err
		}
		return variantsOf(page.Origin{Scenario: sc, Text: text}, "netrate compare --example "+example, "example "+example)
	case len(files) == 0:
		return nil, desk.Wrong("compare takes a file with variants, or several files; try netrate compare --example seventh-feeder")
	case len(files) == 1:
		sc, text, err := desk.Load(e, files[0])
		if err != nil {
			return nil, err
		}
		return variantsOf(page.Origin{Scenario: sc, Text: text}, "netrate compare "+desk.Quoted(files[0]), desk.ShownFile(files[0]))
	}
	return basesOf(e, files)
}

// variantsOf returns the line of a file and its variants.
func variantsOf(from page.Origin, command, called string) (*alternatives, error) {
	if len(from.Scenario.Variants) == 0 {
		return nil, desk.Wrong("%s has no variants, so there is nothing to compare: write some below variants,\n"+
			"or name several files; netrate example seventh-feeder shows how", called)
	}
	return &alternatives{page.AlternativesOf(from.Scenario), []page.Origin{from}, command}, nil
}

// basesOf returns the line of each file. They go by the names of the scenarios, or by those of
// the files if two scenarios have the same name.
func basesOf(e desk.Env, files []string) (*alternatives, error) {
	a := &alternatives{command: "netrate compare"}
	byFile, byName := map[string]bool{}, map[string]bool{}
	for _, file := range files {
		if byFile[file] {
			return nil, desk.Wrong("%s is given twice", desk.ShownFile(file))
		}
		sc, text, err := desk.Load(e, file)
		if err != nil {
			return nil, err
		}
		byFile[file], byName[sc.Name] = true, true
		a.command += " " + desk.Quoted(file)
		a.origins = append(a.origins, page.Origin{Scenario: sc, Text: text})
		a.all = append(a.all, page.AlternativeOf(sc, sc.Name))
	}
	if len(byName) < len(files) {
		for i, file := range files {
			a.all[i].Name = strings.TrimSuffix(desk.ShownFile(file), ".yaml")
		}
	}
	return a, nil
}
