package willrun

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// sayings returns what the table does not show at a glance: what a track gate is needed
// for, and what is answered alike.
func (r *rules) sayings() []string {
	said := append([]string{r.gateSaying()}, r.recoverySayings()...)
	if r.line.First(model.Reads) >= 0 {
		said = append(said, "A false alarm gets the answer to a mismatch.")
	}
	return said
}

// gateSaying says what cannot leave the line, while it runs, but at a track gate.
func (r *rules) gateSaying() string {
	bare, gated := withoutGates(r.line), withGate(r.line)
	var needs, spared, reasons []string
	for _, s := range r.line.Stations {
		i, k := bare.index(s), gated.index(s)
		if i < 0 {
			continue
		}
		need, spare := false, false
		for _, f := range bare.Faults(i) {
			why := bare.Refusal(i, f, model.Outsort)
			diverts := gated.Refusal(k, f, model.Divert) == ""
			spare = spare || diverts && why == ""
			if !diverts || why == "" {
				continue
			}
			need = true
			if !slices.Contains(reasons, why) {
				reasons = append(reasons, why)
			}
		}
		if need {
			needs = append(needs, s.Where().Name)
		} else if spare {
			spared = append(spared, s.Where().Name)
		}
	}
	if needs == nil {
		return "No track gate is required: a set that is wrong can leave in its envelope, at the exit gate. A track gate saves the envelope."
	}
	where := say.List(needs)
	if spared == nil {
		where = "at every station before the inserter"
	}
	said := []string{"A track gate is required if a set that is wrong shall leave while the line runs, " + where}
	for _, why := range reasons {
		said = append(said, say.Capital(why))
	}
	return strings.Join(said, ". ") + "." + r.gateHere()
}

// gateHere says which track gates the line has.
func (r *rules) gateHere() string {
	var names []string
	for _, s := range r.line.Stations {
		if isTrackGate(s) {
			names = append(names, s.Where().Name)
		}
	}
	if names == nil {
		return " This line has none."
	}
	return " This line has one: " + say.List(names) + "."
}

// recoverySayings says, for each stream that can be answered otherwise than with a stop,
// how it is put in step again.
func (r *rules) recoverySayings() []string {
	var byHand, inLine []string
	for _, s := range r.line.Stations {
		stream, answers := carried(s)
		if stream == "" {
			continue
		}
		name := fmt.Sprintf("%s (%s)", stream, s.Where().Name)
		if slices.ContainsFunc(answers, func(a model.Response) bool { return a != model.Stop }) {
			inLine = append(inLine, name)
		} else {
			byHand = append(byHand, name)
		}
	}
	var said []string
	if byHand != nil {
		said = append(said, "Put in step by hand, at a stop: "+say.List(byHand)+".")
	}
	if inLine != nil {
		said = append(said, "Put in step in line, while the line runs: "+say.List(inLine)+
			". The faulty set and the one after it, the catch-up set, are taken off, and both are made again.")
	}
	return said
}

// carried returns the stream that a station carries, if any, and its answers to misfeeds
// and doubles.
func carried(s model.Station) (stream string, answers []model.Response) {
	own := s.Carries()
	if own == nil {
		return "", nil
	}
	for _, f := range []model.Fault{model.Misfeed, model.Double} {
		if answer := s.Answer(f); answer != nil {
			answers = append(answers, *answer)
		}
	}
	return own.Name, answers
}

// gating is a line with its track gates changed.
type gating struct{ *model.Line }

func (g gating) index(s model.Station) int { return slices.Index(g.Stations, s) }

func withoutGates(l *model.Line) gating {
	bare := *l
	bare.Stations = slices.DeleteFunc(slices.Clone(l.Stations), isTrackGate)
	return gating{&bare}
}

// withGate returns the line with a track gate right before the inserter.
func withGate(l *model.Line) gating {
	gated := *l
	gated.Stations = slices.Insert(slices.Clone(l.Stations), max(0, l.First(model.Inserts)), model.Station(&model.TrackGate{}))
	return gating{&gated}
}

func isTrackGate(s model.Station) bool { return s.Kind().Role == model.Diverts }
