package workbench

import (
	_ "embed"
	"errors"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/scenarios"
	"netrate/sim"
)

//go:embed regions.html.tmpl
var regionsText string

var regionsPage = template.Must(template.New("regions").Funcs(template.FuncMap{
	"slug":       say.Slug,
	"paragraphs": func(text string) []string { return strings.Split(text, "\n\n") },
}).Parse(regionsText))

// originOf is where an alternative is from.
type originOf = page.Origin

// region returns a part of the page.
func region(name string, data any) string {
	var b strings.Builder
	if err := regionsPage.ExecuteTemplate(&b, name, data); err != nil {
		panic(fmt.Sprintf("workbench: region %s: %v", name, err))
	}
	return b.String()
}

// problemRegions says what is wrong with the text; the answer stays, and looks like one that is not
// of this text.
func problemRegions(err error) map[string]string {
	var problems scenarios.Problems
	if !errors.As(err, &problems) {
		problems = scenarios.Problems{{Text: err.Error()}}
	}
	return map[string]string{
		"problems": region("problems", problems),
		"status":   region("status", status{Stale: true, Says: "The text cannot be run: " + say.Plural(len(problems), "problem") + ". The answer below is of the text before."}),
	}
}

// unaskedRegions says why nothing can be asked of a scenario that is right by itself.
func unaskedRegions(err error, rev int) map[string]string {
	text := "It cannot be run."
	if err != nil {
		text = err.Error()
	}
	return map[string]string{"problems": "", "status": region("status", status{Stale: true, Says: text, Rev: rev})}
}

// status is how the answer on the page stands to the text.
type status struct {
	Stale bool // it is of another text
	Rough bool // more is to come
	Says  string
	Rev   int
	Reps  int
}

// withTrack adds the line drawn to its pitches, the jobs to choose from and what can be asked.
func withTrack(sc *scenarios.Scenario, job string, regions map[string]string) map[string]string {
	regions["track"] = region("track", tracksOf(sc))
	regions["about"] = region("about", sc)
	regions["asks"] = region("asks", asksOf(sc))
	regions["design"] = switchesOf(sc)
	regions["jobs"] = region("jobs", jobsShown{jobNames(sc), job})
	return regions
}

type jobsShown struct {
	Names []string
	Now   string
}

func jobNames(sc *scenarios.Scenario) (names []string) {
	for _, p := range sc.Products {
		names = append(names, p.Name)
	}
	return names
}

// answerShown is the answer as the page has it.
type answerShown struct {
	Mean, Half, Unit string
	Answer           string
	Figures          []figureShown
	Rough            bool
}

type figureShown struct {
	Title, Subtitle string
	Chart           template.HTML
}

// quickFigures are those that move while something is changed.
var quickFigures = []string{"distribution", "waterfall", "stops"}

// answerRegions returns what is shown of an answer at once.
func answerRegions(x *found, rev int) map[string]string {
	shown := answerShown{Unit: page.PerHour, Rough: x.rough}
	e := x.rate.Estimate()
	shown.Mean, shown.Half = say.Measured(e.Mean, e.Half)
	says := say.Plural(x.reps, x.word) + " so far: it gets sharper"
	if !x.rough {
		says = say.Plural(x.reps, x.word)
		if x.drawn {
			says += ", and draws of the uncertain inputs"
		}
	}
	r, err := glance(x.shown)
	if err != nil {
		return map[string]string{"status": region("status", status{Stale: true, Says: err.Error(), Rev: rev})}
	}
	shown.Answer = r.Page.Answer
	for _, name := range quickFigures {
		i := slices.IndexFunc(r.Figures, func(f desk.NamedFigure) bool { return f.Name == name })
		if i >= 0 {
			shown.Figures = append(shown.Figures, drawn(r.Figures[i].Figure))
		}
	}
	return map[string]string{
		"problems": "",
		"status":   region("status", status{Rough: x.rough, Says: says, Rev: rev, Reps: x.reps}),
		"rate":     region("rate", shown),
		"figures":  region("figures", shown.Figures),
	}
}

// glance returns of an answer the page with the quick figures: the whole one, where that has no shorter form.
func glance(x page.Shown) (*page.Report, error) {
	if short, can := x.(interface {
		Glance(version string) (*page.Report, error)
	}); can {
		return short.Glance(desk.Version())
	}
	return x.Report(desk.Version())
}

// drawn returns a figure as the page has it.
func drawn(f *plots.Figure) figureShown {
	svg, err := f.Chart()
	if err != nil {
		return figureShown{Title: f.Title, Subtitle: err.Error()}
	}
	return figureShown{f.Title, f.Subtitle, template.HTML(svg)} // made and escaped by plots
}

// detailRegions returns the whole report of an answer, but for the figures that are shown already.
func detailRegions(x *found) map[string]string {
	r, err := x.shown.Report(desk.Version())
	if err != nil {
		return nil
	}
	return map[string]string{"details": region("sections", sectionsOf(r, quickFigures))}
}

type sectionShown struct {
	Heading, Text string
	Figures       []figureShown
	Tables        []template.HTML
}

// sectionsOf returns the sections of a report without some figures.
func sectionsOf(r *page.Report, without []string) (all []sectionShown) {
	for _, s := range r.Page.Sections {
		x := sectionShown{Heading: s.Heading, Text: s.Text}
		for _, f := range s.Figures {
			if !slices.ContainsFunc(r.Figures, func(n desk.NamedFigure) bool { return n.Figure == f && slices.Contains(without, n.Name) }) {
				x.Figures = append(x.Figures, drawn(f))
			}
		}
		for i := range s.Tables {
			var b strings.Builder
			if err := s.Tables[i].WriteHTML(&b); err == nil {
				x.Tables = append(x.Tables, template.HTML(b.String())) // from a template that escapes
			}
		}
		all = append(all, x)
	}
	return all
}

// gainShown is how what is there now differs from the base.
type gainShown struct {
	Base, Gain string
	Sure       bool
	Rough      string // of how few shifts it is, while more are to come; "" if it is whole
}

// gainRegion says by how much the last of a comparison differs from its base.
func gainRegion(c *study.ComparisonAnswer, rough string) string {
	e := c.Compared[0][len(c.Lines)-1].Difference
	return region("gain", gainShown{c.Lines[0].Name, gainIn(e), e.Shown(), rough})
}

// gainOf says the same where there are pins; of the variants of a file what their comparison comes to.
func gainOf(c *study.ComparisonAnswer, pins []pin) string {
	if len(pins) == 0 {
		return region("verdict", present.ComparisonHeadline(c))
	}
	return gainRegion(c, "")
}

func gainIn(e sim.Estimate) string {
	if math.IsInf(e.Half, 1) {
		return "not known yet"
	}
	return say.Gain(e)
}

// versusShown is the alternatives side by side.
type versusShown struct {
	Pins  []pin
	Rows  []versusRow
	Of    bool // pins, not variants of the file
	Wrong string
	Title string
	// Sample says of how many shifts each is: as many as netrate compare takes, and not as the answer has.
	Sample string
	Same   string // the pin that what is there now is the same as
	Years  string // over which it is worth that
}

type versusRow struct {
	Name         string
	Pin          int // -1 for what is there now
	Rate, Half   string
	Gain         string
	Shown        bool
	Best         string // the probability of being best, or what is known instead
	Worth        string
	Base, Leader bool
}

// comparisonRegions returns the alternatives side by side, with their pins; nil for no comparison.
func comparisonRegions(c *present.Comparison, pins []pin, same string, wrong error) map[string]string {
	x := versusShown{Pins: pins, Of: len(pins) > 0, Same: same}
	if wrong != nil {
		x.Wrong = wrong.Error()
	}
	if c == nil {
		for i, p := range pins {
			x.Rows = append(x.Rows, versusRow{Name: p.Name, Pin: i})
		}
		return map[string]string{"pins": region("pins", x), "versus": ""}
	}
	x.Title = present.ComparisonHeadline(c.ComparisonAnswer)
	x.Sample = say.Plural(c.Settings.Reps, present.ComparisonPeriod(c.ComparisonAnswer)) + " of each"
	if c.Money != nil {
		x.Years = say.Plural(c.Money.Life, "year")
	}
	for i := range c.Lines {
		x.Rows = append(x.Rows, versusRowOf(c.ComparisonAnswer, i, pins))
	}
	regions := map[string]string{"pins": region("pins", x)}
	if c.Money != nil || c.Aside != nil || c.Settings.Reps >= 1 && !c.Settings.Partial {
		if r, err := c.Details(desk.Version()); err == nil {
			regions["versus"] = region("sections", sectionsOf(r, nil))
		}
	}
	return regions
}

func versusRowOf(c *study.ComparisonAnswer, i int, pins []pin) versusRow {
	l := &c.Lines[i]
	e := l.Study.IntervalOf(l.Study.NetRates(), say.Level)
	r := versusRow{Name: l.Name, Pin: -1, Base: i == 0, Leader: i == c.Leader, Best: bestOf(c, i)}
	if i < len(pins) {
		r.Pin = i
	}
	r.Rate, r.Half = say.Measured(e.Mean, e.Half)
	if i > 0 {
		d := c.Compared[0][i].Difference
		r.Gain, r.Shown = say.Gap(d), d.Shown()
	}
	if c.Money != nil {
		r.Worth = money(c.Money, i)
	}
	return r
}

// bestOf says how probable it is that an alternative is the best; where no input is uncertain, what
// the shifts show of that.
func bestOf(c *study.ComparisonAnswer, i int) string {
	switch {
	case c.Uncertainty != nil:
		return say.Probability(float64(c.Uncertainty.Lines[i].Best))
	case i == c.Leader && c.Best.Shown:
		return "shown to be best"
	case slices.Contains(c.Candidates, i):
		return "may be best"
	}
	return "shown not to be best"
}

// money returns what an alternative is worth against the first, over its life; "" of the first.
func money(a *study.WorthAnswer, i int) string {
	g := a.Lines[i].Against
	if g == nil {
		return ""
	}
	return fmt.Sprintf("%s %s (5 %% to 95 %%: %s to %s)", a.Currency, amount(g.NPV.Mean), amount(g.NPV.P5), amount(g.NPV.P95))
}

// amount returns a sum of money to two digits: no more are known of what is drawn.
func amount(x study.Number) string { return say.WithMinus(say.TwoDigitsOr0(float64(x))) }
