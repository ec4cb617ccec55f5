package lines

import (
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/setup"
	"netrate/model/study"
	"netrate/model/worth"
	"netrate/scenarios"
)

// entrant is one of the lines that are compared, or the only line of a run.
type entrant struct {
	name     string
	called   string   // in a sentence; “name” if it is empty
	note     string   // what it is about; may be empty
	changes  []string // from the base, in words; none of the base and of another file
	scenario *scenarios.Scenario
	line     *model.Line
	hall     *model.Hall      // if the entrant is several lines with one crew; line then stands for them
	costs    *worth.Costs     // nil if the file gives none
	products []*setup.Product // the jobs of the file
	mix      *runs.Mix        // the work by jobs, if the costs have a yearly volume of each; nil until it is set up
	study    *runs.Study      // nil until it is simulated; of a hall that of all lines together
	doubt    *runs.DoubtStudy // nil if nothing is in doubt, or it was not drawn
}

// field is what is simulated: the entrants, the base first.
type field struct {
	entrants []entrant
	origins  []page.Origin
	again    string // the command that does it again, without its flags
}

// alternative returns what the entrant is in a question.
func (x *entrant) alternative() study.Alternative {
	a := study.Alternative{
		Name: x.name, Called: x.called, Note: x.note, Changes: x.changes,
		Line: x.line, Costs: x.costs, Products: x.products,
	}
	if x.hall != nil {
		a.Line, a.Group = nil, x.hall
	}
	if x.scenario != nil {
		a.File = x.scenario.File
	}
	if a.Called == "" && x.name == scenarios.BaseName {
		a.Called = "the base"
	}
	return a
}

// base returns the scenario of the base, whose settings hold for all.
func (f *field) base() *scenarios.Scenario { return f.entrants[0].scenario }

// halls returns the lines of each entrant with the crew they share; nil if none has several.
func (f *field) halls() []*model.Hall {
	var halls []*model.Hall
	for _, x := range f.entrants {
		if x.hall != nil {
			halls = append(halls, x.hall)
		}
	}
	return halls
}

// word returns what an entrant is: a line, or a configuration of several with one crew.
func (f *field) word() string {
	if f.halls() != nil {
		return "configuration"
	}
	return "line"
}

// period returns what one replication of the base is: a shift, or a job.
func (f *field) period() string { return page.Period(f.entrants[0].line) }

// lines returns the lines of the entrants.
func (f *field) lines() []*model.Line {
	var lines []*model.Line
	for i := range f.entrants {
		lines = append(lines, f.entrants[i].line)
	}
	return lines
}

// attended returns all lines of the entrants: those that share a crew one by one.
func (f *field) attended() []*model.Line {
	all := f.lines()
	for _, h := range f.halls() {
		all = append(all, h.Lines...)
	}
	return all
}

// call returns what an entrant is called in a sentence.
func (f *field) call(i int) string {
	x := f.entrants[i].alternative()
	return x.InWords()
}

// bases returns what the answer rests on.
func (f *field) bases() []page.Basis {
	var all []page.Basis
	for _, x := range f.entrants {
		all = append(all, page.Basis{Name: x.name, Scenario: x.scenario, Line: x.line, Hall: x.hall, Work: mixStatements(x)})
	}
	return all
}

// entered reads what is to be compared: the variants of one file or example, or several
// files.
func entered(e desk.Env, example string, files []string) (*field, error) {
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

// variantsOf enters the line of a file and its variants.
func variantsOf(from page.Origin, again, called string) (*field, error) {
	sc := from.Scenario
	if len(sc.Variants) == 0 {
		return nil, desk.Wrong("%s has no variants, so there is nothing to compare: write some below variants,\n"+
			"or name several files; netrate example seventh-feeder shows how", called)
	}
	f := &field{origins: []page.Origin{from}, again: again}
	f.entrants = append(f.entrants, entrant{
		name: scenarios.BaseName, scenario: sc, line: sc.Line, hall: sc.Hall, costs: sc.Costs, products: sc.Products,
	})
	for _, v := range sc.Variants {
		f.entrants = append(f.entrants, entrant{
			name: v.Name, note: v.Note, changes: v.Changes,
			scenario: sc, line: v.Line, hall: v.Hall, costs: v.Costs, products: v.Products,
		})
	}
	return f, nil
}

// basesOf enters the line of each file. They go by the names of the scenarios, or by those
// of the files if two scenarios have the same name.
func basesOf(e desk.Env, files []string) (*field, error) {
	f := &field{again: "netrate compare"}
	byFile := map[string]bool{}
	byName := map[string]bool{}
	for _, file := range files {
		if byFile[file] {
			return nil, desk.Wrong("%s is given twice", desk.ShownFile(file))
		}
		sc, text, err := desk.Load(e, file)
		if err != nil {
			return nil, err
		}
		byFile[file], byName[sc.Name] = true, true
		f.again += " " + desk.Quoted(file)
		f.origins = append(f.origins, page.Origin{Scenario: sc, Text: text})
		f.entrants = append(f.entrants, entrant{
			name: sc.Name, scenario: sc, line: sc.Line, hall: sc.Hall, costs: sc.Costs, products: sc.Products,
		})
	}
	if len(byName) < len(files) {
		for i, file := range files {
			f.entrants[i].name = strings.TrimSuffix(desk.ShownFile(file), ".yaml")
		}
	}
	return f, nil
}
