package study

import (
	"slices"

	"netrate/model"
	"netrate/model/runs"
)

// Basis is what the figures of an answer rest on: all of them, for those of one answer never
// disagree.
type Basis struct {
	On     string `json:"on"`               // one of the words below
	Inputs int    `json:"uncertain_inputs"` // the number of unknowns
	Draws  int    `json:"draws,omitempty"`  // of these inputs
	Each   int    `json:"replications_each,omitempty"`
}

// What figures rest on. Where inputs are uncertain, draws of them lead: a mean is that of the draws,
// and its interval that of the long run. A question that draws nothing takes each input at the mean
// of its prior: of a skewed range that is not its likeliest value.
const (
	OnStated  = "stated values" // nothing is uncertain
	OnDraws   = "draws of the uncertain inputs"
	OnNominal = "nominal values of the uncertain inputs"
	OnMeans   = "means of the uncertain inputs"
)

// basisOf returns what figures rest on that take the uncertain inputs of some lines in a way.
func basisOf(on string, lines ...*model.Line) Basis {
	unknowns := map[model.Unknown]bool{}
	for _, l := range lines {
		for _, d := range l.UncertainInputs {
			unknowns[d.Unknown()] = true
		}
	}
	if len(unknowns) == 0 {
		on = OnStated
	}
	return Basis{On: on, Inputs: len(unknowns)}
}

// Line returns a line as a sum on paper takes it that stands beside figures of this basis: with each
// uncertain input at its mean where these are of draws or of means, and as it is where they are of
// nominal values.
func (b Basis) Line(l *model.Line) *model.Line {
	if b.On == OnDraws || b.On == OnMeans {
		return l.AtMeans()
	}
	return l
}

// drawn returns the same where studies of draws lead, which are the first to say.
func (b Basis) drawn(s *runs.UncertaintyStudy) Basis {
	if s == nil {
		return b
	}
	return Basis{OnDraws, b.Inputs, s.Draws(), s.Each}
}

// basisOfAll returns what the answers of alternatives rest on that were run.
func basisOfAll(all []*tried) Basis {
	var lines []*model.Line
	for _, t := range all {
		if t.Group != nil {
			lines = append(lines, &model.Line{UncertainInputs: t.Group.UncertainInputs()})
			continue
		}
		lines = append(lines, t.Line)
	}
	if all[0].means {
		return basisOf(OnMeans, lines...)
	}
	return basisOf(OnNominal, lines...).drawn(all[0].draws)
}

// meansFit returns why lines cannot be run at the means of what is uncertain of them, a
// [model.ImpossibleDraw]; nil if they can.
func meansFit(lines ...*model.Line) error {
	for _, l := range lines {
		if len(l.UncertainInputs) == 0 || len(l.Check()) > 0 {
			continue // no other than it is, or wrong as it is, which is said where it is run
		}
		if wrong := l.AtMeans().Check(); len(wrong) > 0 {
			return &model.ImpossibleDraw{Line: l.Name, Why: wrong[0]}
		}
	}
	return nil
}

// atMeans returns lines with each uncertain input at the mean of its prior.
func atMeans(lines []*model.Line) []*model.Line {
	lines = slices.Clone(lines)
	for i, l := range lines {
		lines[i] = l.AtMeans()
	}
	return lines
}

// DrawsFit returns why an alternative cannot be run with what is uncertain of it drawn, an
// [model.ImpossibleDraw]: set up for each job that it can run, or as it stands where it has none. It
// looks at the draws that a run makes of itself, under the seed; nil if all of them can be.
func (a Alternative) DrawsFit(seed uint64) error {
	all := []Alternative{a}
	if len(a.Products) > 0 {
		all = nil
	}
	for _, p := range a.Products {
		if set, err := a.SetUp(false, p.Name); err == nil { // else it is said of the job
			all = append(all, set)
		}
	}
	for _, x := range all {
		if err := possibleDraws(x.Lines(), seed); err != nil {
			return err
		}
	}
	return nil
}

// possibleDraws returns the first draw that a line cannot be.
func possibleDraws(lines []*model.Line, seed uint64) error {
	for _, l := range lines {
		if len(l.UncertainInputs) == 0 || len(l.Check()) > 0 {
			continue
		}
		for draw := range UncertaintyDraws {
			drawn, _ := l.Drawn(seed, draw)
			if wrong := drawn.Check(); len(wrong) > 0 {
				return &model.ImpossibleDraw{Line: l.Name, Draw: draw + 1, Why: wrong[0]}
			}
		}
	}
	return nil
}
