package weeks

import (
	"context"
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
)

// seasonDocument is the answer below its head.
type seasonDocument struct {
	Format   int               `json:"netrate_json"`
	Version  string            `json:"version"`
	Scenario page.ScenarioJSON `json:"scenario"`
	*study.SeasonsAnswer
}

// document returns the seasons as JSON has them.
func (s *simulated) document() *seasonDocument {
	return &seasonDocument{page.JSONVersion, desk.Version(), page.ScenarioOf(s.Scenario, s.Source), s.answer}
}

// rows writes a row for each season and week of each configuration as CSV.
func (s *simulated) rows(to io.Writer) error {
	var all []study.SeasonsRow
	for i := range s.answer.Lines {
		x := &s.answer.Lines[i]
		for replication := range x.Study.Done {
			all = append(all, x.Rows(replication)...)
		}
	}
	t := present.SeasonsRows(all)
	return t.WriteCSV(to)
}

// seasonBySeason returns a question that writes the rows of each season as soon as it is done, if
// a file of them is wanted: those that a whole answer has, in the same order.
func seasonBySeason(o *desk.Outputs, ask asks) asks {
	to := o.Rows()
	if to == nil {
		return ask
	}
	return func(ctx context.Context, told func(study.Sofar[study.SeasonsAnswer])) (*study.SeasonsAnswer, error) {
		return ask(ctx, func(s study.Sofar[study.SeasonsAnswer]) {
			t := present.SeasonsRows(s.Season())
			write := t.WriteCSVRows
			if s.Done == 1 {
				write = t.WriteCSV
			}
			_ = write(to) // delivering says it: the run goes on for its answer
			if told != nil {
				told(s)
			}
		})
	}
}

// asks is how the question is asked.
type asks = func(context.Context, func(study.Sofar[study.SeasonsAnswer])) (*study.SeasonsAnswer, error)
