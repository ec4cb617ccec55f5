package runs

import (
	"fmt"

	"netrate/model"
)

// Work is what runs as one of several alternatives: a line, a line at several jobs, or several lines
// that share a crew. One of the three is given.
type Work struct {
	Line  *model.Line
	Mix   *Mix
	Group *model.LineGroup
}

// Lines returns the lines that are run: of a mix the line set up for each job, of a line group each
// with the crew that they share.
func (w Work) Lines() []*model.Line {
	switch {
	case w.Mix != nil:
		return w.Mix.Lines()
	case w.Group != nil:
		var lines []*model.Line
		for _, l := range w.Group.Lines {
			lines = append(lines, l.AttendedBy(w.Group.Crew))
		}
		return lines
	}
	return []*model.Line{w.Line}
}

// Begun returns a study of no replications for each of its lines.
func (w Work) Begun() (studies []*Study) {
	for _, l := range w.Lines() {
		studies = append(studies, &Study{Line: l})
	}
	return studies
}

// With returns the same work with other lines in the place of its own; the crew of a line group is that
// of the first of them.
func (w Work) With(lines []*model.Line) Work {
	switch {
	case w.Mix != nil:
		return Work{Mix: w.Mix.With(lines)}
	case w.Group != nil:
		return Work{Group: &model.LineGroup{Lines: lines, Crew: lines[0].Crew}}
	}
	return Work{Line: lines[0]}
}

// Check returns everything that is wrong with its lines.
func (w Work) Check() (found []error) {
	if w.Group != nil {
		return w.Group.Check()
	}
	for _, l := range w.Lines() {
		found = append(found, l.Check()...)
	}
	return found
}

// AtMeans returns the same work with each uncertain input at the mean of its prior.
func (w Work) AtMeans() Work {
	switch {
	case w.Mix != nil:
		return Work{Mix: w.Mix.AtMeans()}
	case w.Group != nil:
		return Work{Group: w.Group.AtMeans()}
	}
	return Work{Line: w.Line.AtMeans()}
}

// Joined returns the studies of its lines as one: those of jobs as [Mixed] has them, those of a line
// group as [Gathered] does.
func (w Work) Joined(name string, studies []*Study) *Study {
	switch {
	case w.Mix != nil:
		return Mixed(w.Mix.Line, studies, w.Mix.Shares)
	case w.Group != nil:
		return Gathered(name, studies)
	}
	return studies[0]
}

// Rate returns the net rate of a replication from those of its lines, as its study has it: of lines
// that share a crew their sum, of jobs what they come to in their shares, 0 where one delivers none.
func (w Work) Rate(rates []float64) float64 {
	sum := 0.0
	for i, x := range rates {
		if w.Mix != nil {
			x = w.Mix.Shares[i] / x
		}
		sum += x
	}
	if w.Mix != nil {
		return 1 / sum
	}
	return sum
}

// Paper returns the net rate on paper, good envelopes an hour: see [model.Line.Analytic].
func (w Work) Paper() float64 {
	var rates []float64
	for _, l := range w.Lines() {
		rates = append(rates, l.Analytic().NetRate)
	}
	return w.Rate(rates)
}

// readyWork returns what runs a replication of all its lines.
func (w Work) readyWork() (func(seed uint64, number int, each []replication) error, error) {
	if w.Group != nil {
		return readyGroup(w.Group)
	}
	var lines []ready
	for _, l := range w.Lines() {
		one, err := newReady(l)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", l.Name, err)
		}
		lines = append(lines, one)
	}
	return func(seed uint64, number int, each []replication) error {
		for i, line := range lines {
			if err := line.run(seed, number, &each[i]); err != nil {
				return fmt.Errorf("%s: %w", w.Lines()[i].Name, err)
			}
		}
		return nil
	}, nil
}

// readyGroup does the same for lines that share a crew. The outcomes keep their memory.
func readyGroup(h *model.LineGroup) (func(seed uint64, number int, each []replication) error, error) {
	s, err := model.NewLineGroup(h)
	if err != nil {
		return nil, err
	}
	outs := make([]model.Outcome, len(h.Lines))
	return func(seed uint64, number int, each []replication) error {
		for i := range outs {
			outs[i] = each[i].Outcome
		}
		err := s.Run(seed, number, outs)
		for i := range outs {
			each[i].Outcome = outs[i]
		}
		return err
	}, nil
}
