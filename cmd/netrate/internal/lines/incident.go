package lines

import (
	"netrate/cmd/netrate/internal/present"
	"netrate/model"
	"netrate/model/study"
	"netrate/plots"
)

// incident draws what a misfeed of a stream leads to, cycle by cycle.
func incident(name string, l *model.Line) (*plots.Figure, error) {
	a, err := study.Incident{Line: l}.Ask()
	if err != nil {
		return nil, err
	}
	return present.IncidentFigure(a, name)
}
