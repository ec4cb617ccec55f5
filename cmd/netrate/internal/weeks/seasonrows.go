package weeks

import (
	"context"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
)

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
