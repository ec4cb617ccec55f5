package setup

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"netrate/model"
)

// ErrWhich says that there are several products and none is named.
var ErrWhich = errors.New("say which one")

// Chosen returns the product of the name or, if none is named, the only one. It is nil where there
// are no products and none is named. The error says which there are.
func Chosen(products []*Product, name string) (*Product, error) {
	var names []string
	for _, p := range products {
		names = append(names, p.Name)
	}
	at := slices.Index(names, name)
	switch {
	case at >= 0:
		return products[at], nil
	case name != "" && names == nil:
		return nil, fmt.Errorf("there is no job %s: there are no jobs", name)
	case name != "":
		return nil, fmt.Errorf("there is no job %s: the jobs are %s", name, model.Listed(names))
	case len(names) > 1:
		return nil, fmt.Errorf("there are %d jobs, %s: %w", len(names), model.Listed(names), ErrWhich)
	case len(names) == 1:
		return products[0], nil
	}
	return nil, nil
}

// For returns a line set up for a product, as [Fitted] does, with the random streams that the
// job has in a mix of several, or an error with every reason why it cannot be. Without work of
// its own the line makes the product's number of sets.
func For(l *model.Line, p *Product, several, noWork bool) (*Setup, error) {
	line, fit := Fitted(l, p)
	if line == nil {
		return nil, fmt.Errorf("the line cannot run the job %s: %s", p.Name, strings.Join(fit.Reasons, "; "))
	}
	if several {
		line.Random = p.Name
	}
	if noWork {
		if p.Sets == 0 {
			return nil, fmt.Errorf("there is no work, and the job %s has no number of sets: give the job sets, or the file work, such as work.shift 8 h", p.Name)
		}
		line.Shift, line.Job = 0, model.Job{Sets: p.Sets}
	}
	return &Setup{Product: p, Line: line, Fit: fit}, nil
}
