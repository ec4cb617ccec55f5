package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/scenarios/stoplog"
	"netrate/sim/fit"
)

// Report returns what was learnt as a page.
func (f Fit) Report(version string) (*page.Report, error) {
	r := page.NewReport(version, page.Opening{
		Title:    "Rates from " + f.Log.StopFile.Name + stoplog.Taken(f.Log.Log),
		Question: "How often does the line fail, and for how long does it stand?",
		Answer:   f.Finding(), Lead: f.partial(". ") + "Nothing was simulated.", Command: f.Command,
	})
	shown, alike := f.Divisions()
	often := plots.Section{
		Heading: "How often", Text: strings.TrimSpace(strings.Join(append([]string{f.divided()}, f.burstNotes()...), " ")),
		Tables: append([]plots.Table{f.Rates()}, shown...),
	}
	if len(alike.Rows) > 0 {
		often.Tables = append(often.Tables, alike)
	}
	if bursts := f.BurstTable(); len(bursts.Rows) > 0 {
		often.Tables = append(often.Tables, bursts)
	}
	for i := range f.Stations {
		if s := &f.Stations[i]; s.InBursts() {
			often.Figures = append(often.Figures, r.Figure("bursts-"+say.Slug(s.Name))(burstFigure(s)))
		}
	}
	r.Add(often)
	section := plots.Section{Heading: "How long", Text: strings.Join(f.Notes(), " ")}
	if times := f.ClearingTimes(); len(times.Rows) > 0 {
		section.Tables = []plots.Table{times}
	}
	for i := range f.Stations {
		if s := &f.Stations[i]; s.Clearing.Chosen != nil && s.Clearing.Chosen.Events > 0 {
			section.Figures = append(section.Figures, r.Figure("clear-"+say.Slug(s.Name))(clearingFigure(s)))
		}
	}
	r.Add(section)
	r.Add(plots.Section{Heading: "What was read as what", Text: strings.ReplaceAll(f.Log.read(), "\n", "\n\n")})
	return r.Done()
}

// curvePoints are enough for a curve that looks smooth.
const curvePoints = 400

// clearingFigure draws the lengths of the stops of a station against the fit.
func clearingFigure(s *study.FitStation) (*plots.Figure, error) {
	c := s.Clearing.Chosen
	title := fmt.Sprintf("%s: the line stood for %s s on average, spread like the %s", s.Name, say.Rough(float64(c.Mean()), float64(c.MeanSE())), c.Kind)
	if s.Clearing.Misfits() {
		title = s.Name + ": no kind of distribution fits how long the line stood"
	}
	about := say.Plural(c.Events, "stop")
	if s.Clearing.CutOff > 0 {
		about += ", those cut off left out"
	}
	return plots.Cumulative(plots.CumulativeData{
		Head:   plots.Head{Title: title, Subtitle: "Share of stops at or below a length, seconds; " + about},
		Axis:   "seconds",
		Of:     plots.Runs{One: "stop", Many: "stops"},
		Curves: []plots.Values{{Name: "the log", Role: plots.Base, Values: s.Clearing.Complete()}, {Name: c.Kind.String(), Values: spreadLike(c.Fitted, curvePoints)}},
	})
}

// spreadLike returns a number of durations that are spread as a fit says.
func spreadLike(f fit.Fitted, n int) []float64 {
	xs := make([]float64, n)
	for i := range xs {
		xs[i] = float64(f.Quantile((float64(i) + 0.5) / float64(n)))
	}
	return xs
}
