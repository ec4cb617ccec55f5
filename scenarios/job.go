package scenarios

import (
	"slices"

	"netrate/model"
	"netrate/model/setup"
)

const (
	maxJobs    = 200
	maxInserts = 64
	maxFurther = 7 // documents beside the first
)

// job is what one job makes, as it is written.
type job struct {
	Name      *name       `yaml:"name" jsonschema_description:"unique; a season speaks of it by this name"`
	Sets      *sets       `yaml:"sets,omitempty" jsonschema_description:"of one such job; a season says how many in each week"`
	Speed     *speed      `yaml:"speed,omitempty" jsonschema_description:"speed asked for; as fast as the line can run it if not given"`
	Envelope  *envelope   `yaml:"envelope" jsonschema_description:"outer envelope: a standard size such as C5 or \"#10\", or a mapping"`
	Documents *documents  `yaml:"documents,omitempty" jsonschema_description:"personalised sheets that a document channel gathers and folds; none if not given"`
	Further   []documents `yaml:"further_documents,omitempty" jsonschema_description:"those of further document channels, if several documents go into a set" jsonschema:"maxItems=7"`
	Inserts   []insert    `yaml:"inserts,omitempty" jsonschema_description:"what the feeders put into each set, each kind from a feeder of its own" jsonschema:"maxItems=64"`
	Rates     *jobRates   `yaml:"rates,omitempty" jsonschema_description:"rates of faults that stations have with this job, instead of their own; they hold for its inserts, whose material is then left out"`
}

// documents are the personalised sheets of a set, as they are written.
type documents struct {
	Stream *name  `yaml:"stream" jsonschema_description:"the stream that they are, as the document channel calls it"`
	Pages  *pages `yaml:"pages" jsonschema_description:"sheets of a document"`
	sheet
}

// insert is one kind of piece, as it is written.
type insert struct {
	Name *name `yaml:"name" jsonschema_description:"unique in its job"`
	sheet
	Sheets    *sheetCount  `yaml:"sheets,omitempty" jsonschema_description:"sheets of paper that are folded together; 1 if not given"`
	Thickness *side        `yaml:"thickness,omitempty" jsonschema_description:"of the whole piece, folded, as measured; instead of paper and sheets"`
	Material  *factor      `yaml:"material,omitempty" jsonschema_description:"factor on the misfeeds, doubles and jams of its feeder; 1 if not given"`
	Share     *probability `yaml:"share,omitempty" jsonschema_description:"share of the sets that get it; 100% if not given"`
	Only      *name        `yaml:"only,omitempty" jsonschema_description:"the attribute, one of the line's, of the sets that get it; all sets if not given"`
	Stream    *name        `yaml:"stream,omitempty" jsonschema_description:"the stream that it is, if it is personalised"`
	Feeder    *name        `yaml:"feeder,omitempty" jsonschema_description:"the feeder that must take it; any that can if not given"`
}

func (x *job) decode(r *reader, n *node, _ string) {
	r.inside(n, "a job", x)
	r.entries(n, "inserts", maxInserts)
	r.entries(n, "further_documents", maxFurther)
}

func (x *documents) decode(r *reader, n *node, _ string) { r.inside(n, "documents", x) }

func (x *insert) decode(r *reader, n *node, _ string) {
	r.inside(n, "an insert", x)
	if x.Thickness != nil && (x.Paper != nil || x.Sheets != nil) {
		r.note(child(n, "thickness"), "an insert has thickness as well as paper or sheets: give thickness of the whole piece, or else of what it is made")
	}
	if x.Material != nil && !r.spoilt(child(n, "material")) && !(*x.Material > 0 && *x.Material <= maxMaterial) {
		r.note(child(n, "material"), "material is %v, want a factor above 0, at most %d", float64(*x.Material), maxMaterial)
	}
	if x.Share != nil && !r.spoilt(child(n, "share")) && !(*x.Share > 0) {
		r.note(child(n, "share"), "share is %s, want more than 0: leave the insert out", shown(child(n, "share")))
	}
}

// maxMaterial is what the model takes for a feeder.
const maxMaterial = 1000

// product returns the job of the model; what could not be read is zero.
func (x *job) product() *setup.Product {
	p := &setup.Product{
		Name:     string(or(x.Name, "")),
		Sets:     int64(or(x.Sets, 0)),
		Speed:    float64(or(x.Speed, 0)),
		Envelope: or(x.Envelope, envelope{}).given(),
	}
	if d := x.Documents; d != nil {
		p.Documents = d.gathered()
	}
	for i := range x.Further {
		p.Further = append(p.Further, *x.Further[i].gathered())
	}
	for i := range x.Inserts {
		p.Inserts = append(p.Inserts, x.Inserts[i].piece())
	}
	return p
}

func (x *documents) gathered() *setup.Documents {
	height, length := x.folded()
	return &setup.Documents{
		Stream: string(or(x.Stream, "")), Pages: x.Pages.number(),
		Height: height, Length: length, Sheet: float64(or(x.Paper, 0)), Layers: x.layers(),
	}
}

func (x *insert) piece() setup.Insert {
	height, length := x.folded()
	sheets := float64(or(x.Sheets, 1)) * float64(x.layers())
	return setup.Insert{
		Name:   string(or(x.Name, "")),
		Height: height, Length: length, Thickness: float64(or(x.Thickness, side(sheets*float64(or(x.Paper, 0))))),
		Material: float64(or(x.Material, 1)),
		Share:    float64(or(x.Share, 1)),
		Only:     string(or(x.Only, "")),
		Stream:   string(or(x.Stream, "")),
		Feeder:   string(or(x.Feeder, "")),
	}
}

// products returns the jobs, and notes what cannot be among them. That a line cannot run
// one of them is no fault of the file.
func (r *reader) products(jobs []job, tree *node, tracks []track) []*setup.Product {
	r.entries(tree, "jobs", maxJobs)
	if jobs != nil && len(jobs) == 0 {
		r.note(child(tree, "jobs"), "jobs is an empty list, want what is to be made")
	}
	feeders := feederNames(tracks)
	var all []*setup.Product
	for i := range min(len(jobs), maxJobs) {
		p := jobs[i].product()
		all = append(all, p)
		p.Rates = r.rates(jobs[i].Rates, p.Name, tracks)
		for k, insert := range p.Inserts {
			if insert.Feeder == "" || slices.Contains(feeders, insert.Feeder) || len(feeders) == 0 {
				continue
			}
			at := child(child(child(tree, "jobs").Content[i], "inserts").Content[k], "feeder")
			r.note(at, "no feeder is named %q: %s", insert.Feeder, r.meant(insert.Feeder, feeders))
		}
	}
	return all
}

// feederNames returns the names of the feeders of all lines, each once.
func feederNames(tracks []track) []string {
	var names []string
	for _, t := range tracks {
		for _, s := range t.Stations {
			if name := s.Where().Name; model.TakesInserts(s) && name != "" && !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return names
}

// sheetCount is how many sheets a piece is made of.
type sheetCount int

func (x *sheetCount) read(text string) error { return whole(x, text, 1, maxPages) }
func (*sheetCount) number()                  {}
