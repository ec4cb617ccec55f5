package page

import (
	"context"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model/study"
	"netrate/plots"
)

// Asks is how a question is asked.
type Asks[A any] = func(ctx context.Context, told func(study.Sofar[A])) (*A, error)

// Growing returns a question whose rows are written as soon as they are there, if a file of them
// is wanted. rows returns those of the last replication, which a whole answer has in the same
// order; false where there are none.
func Growing[A any](o *desk.Outputs, ask Asks[A], rows func(study.Sofar[A]) (plots.Table, bool)) Asks[A] {
	to := o.Rows()
	if to == nil {
		return ask
	}
	begun := false
	return func(ctx context.Context, told func(study.Sofar[A])) (*A, error) {
		return ask(ctx, func(s study.Sofar[A]) {
			if t, are := rows(s); are {
				write := t.WriteCSVRows
				if !begun {
					write, begun = t.WriteCSV, true
				}
				_ = write(to) // delivering says it: the run goes on for its answer
			}
			if told != nil {
				told(s)
			}
		})
	}
}
