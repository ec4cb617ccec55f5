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

// names returns what the alternatives are called.
func (a *alternatives) names() (names []string) {
	for i := range a.all {
		names = append(names, a.all[i].Name)
	}
	return names
}

// readAlternatives reads what is to be compared: the variants of one file or example, or several
// files.
func readAlternatives(e desk.Env, in *desk.Inputs, args []string) (*alternatives, error) {
	names, err := in.Names(args)
	if err != nil {
		return nil, err
	}
	if len(names) > 1 {
		if in.Chosen() {
			return nil, desk.Wrong("--variant chooses variants of one file, found %d files", len(names))
		}
		return basesOf(e, in, names)
	}
	about, err := in.Read(e, names[0])
	if err != nil {
		return nil, err
	}
	return variantsOf(page.OriginOf(about), about.Again, in.Called(names[0]))
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
func basesOf(e desk.Env, in *desk.Inputs, files []string) (*alternatives, error) {
	a := &alternatives{command: "netrate compare"}
	byFile, byName := map[string]bool{}, map[string]bool{}
	for _, file := range files {
		if byFile[file] {
			return nil, desk.Wrong("%s is given twice", desk.ShownFile(file))
		}
		about, err := in.Read(e, file)
		if err != nil {
			return nil, err
		}
		byFile[file], byName[about.Name] = true, true
		a.command += " " + desk.Quoted(file)
		a.origins = append(a.origins, page.OriginOf(about))
		a.all = append(a.all, page.AlternativeOf(about.Scenario, about.Name))
	}
	a.command += in.Flags()
	if len(byName) < len(files) {
		for i, file := range files {
			a.all[i].Name = strings.TrimSuffix(desk.ShownFile(file), ".yaml")
		}
	}
	return a, nil
}
