package weeks

import (
	"encoding/json"
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
)

// mostPromised is how large the document of an earlier plan may be, bytes.
const mostPromised = 256 << 20

// promisedDocument is what is read of the document that plan --json wrote: of the plan that it chose for a
// service, else of its base, as nobody decided on what merely came nearest.
type promisedDocument struct {
	Format   int                `json:"netrate_json"`
	Plans    []promisedPlan     `json:"plans"`
	Chosen   *int               `json:"chosen"`
	Nearest  *int               `json:"nearest"`
	Bought   []study.PlansPrice `json:"bought"`
	Revision int                `json:"revision"`
}

type promisedPlan struct {
	Chosen []string           `json:"chosen"`
	Prices []study.PlansPrice `json:"prices"`
	Lines  []study.PlansLine  `json:"lines"`
}

// readPromised reads the plan that was made before: what plan --json wrote of it.
func readPromised(e desk.Env, name string) (*study.PlansPromise, error) {
	in, err := e.Open(name)
	if err != nil {
		return nil, err
	}
	defer in.Close() //nolint:errcheck // it was read to its end
	wrong := func(why string) error {
		return desk.Wrong("%s: %s, want what netrate plan --json wrote of the plan that was promised", desk.ShownFile(name), why)
	}
	text, err := io.ReadAll(io.LimitReader(in, mostPromised+1))
	if err != nil {
		return nil, err
	}
	var d promisedDocument
	switch err := json.Unmarshal(text, &d); {
	case len(text) > mostPromised:
		return nil, wrong("it is too large")
	case err != nil:
		return nil, wrong(err.Error())
	case d.Format != page.JSONVersion:
		return nil, wrong("its netrate_json is not that of this version")
	case d.Revision < 0:
		return nil, wrong("its revision is below 0")
	case len(d.Plans) == 0:
		return nil, wrong("it has no plans")
	}
	for _, k := range []*int{d.Nearest, d.Chosen} {
		if k != nil && (*k < 0 || *k >= len(d.Plans)) {
			return nil, wrong("it has no plan of the number that it chose")
		}
	}
	p, open := &d.Plans[0], []string(nil)
	switch {
	case d.Chosen != nil:
		p = &d.Plans[*d.Chosen]
	case d.Nearest != nil:
		open = d.Plans[*d.Nearest].Chosen
	}
	jobs := 0
	for _, line := range p.Lines {
		jobs += len(line.Jobs)
	}
	if jobs == 0 {
		return nil, wrong("its plan has no jobs")
	}
	return &study.PlansPromise{Revision: d.Revision, Bought: append(d.Bought, p.Prices...), Open: open, Lines: p.Lines}, nil
}
