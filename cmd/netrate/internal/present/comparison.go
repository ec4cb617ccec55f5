package present

import (
	"fmt"
	"strconv"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/plots"
)

// Comparison is what a comparison came to, as it is said and drawn.
type Comparison struct {
	*study.ComparisonAnswer
	Origins []page.Origin // one of each alternative, or one of all
	Command string        // that does it again, without the seed, the number of replications and how the best is chosen
}

// grouped reports whether the alternatives are several lines with one crew.
func (c Comparison) grouped() bool { return c.Lines[0].Of.Group != nil }

// mixed reports whether the work is by jobs.
func (c Comparison) mixed() bool { return c.Lines[0].Mix != nil }

// word returns what an alternative is: a line, or a configuration of several with one crew.
func (c Comparison) word() string { return ComparisonWord(c.ComparisonAnswer) }

// period returns what one replication is: a shift, or a job.
func (c Comparison) period() string { return ComparisonPeriod(c.ComparisonAnswer) }

// called returns what an alternative is called in a sentence.
func (c Comparison) called(i int) string { return ComparisonCalled(c.ComparisonAnswer, i) }

// recommended returns which alternative is recommended: the cheapest over the life where there is
// money, and else the one that delivers most.
func (c Comparison) recommended() int {
	if c.Money != nil {
		return c.Money.Cheapest
	}
	return c.Leader
}

// featured returns the two that are set against each other, in their order.
func (c Comparison) featured() []int { return []int{min(c.From, c.To), max(c.From, c.To)} }

// lineOf returns the line of an alternative as its file has it; of a group the one that stands for
// its lines.
func lineOf(x *study.LineAnswer) *model.Line {
	if x.Of.Line != nil {
		return x.Of.Line
	}
	return x.Study.Line
}

// bases returns what the answer rests on.
func (c Comparison) bases() []page.Basis {
	var all []page.Basis
	for i := range c.Lines {
		x, from := &c.Lines[i], c.Origins[0].Scenario
		if len(c.Origins) > 1 {
			from = c.Origins[i].Scenario
		}
		all = append(all, page.Basis{Name: x.Name, Scenario: from, Line: lineOf(x), LineGroup: x.Of.Group, Work: page.MixStatements(x.Mix, x.Of.Products)})
	}
	return all
}

// repeat returns the flags that do the comparison again.
func (c Comparison) repeat() string {
	s := c.Lines[c.Leader].Nominal
	if c.Selection == nil {
		return repeat(s)
	}
	return fmt.Sprintf(" --seed %d --reps %d --best --indifference %s/h --confidence %s%%", s.Plan.Seed, c.Selection.Most,
		strconv.FormatFloat(float64(c.Selection.Indifference), 'f', -1, 64), strconv.FormatFloat(100*float64(c.Selection.Confidence), 'g', 6, 64))
}

// comparisonDocument is what a comparison came to.
type comparisonDocument struct {
	Format    int                 `json:"netrate_json"`
	Version   string              `json:"version"`
	Scenarios []page.ScenarioJSON `json:"scenarios"`
	Headline  string              `json:"headline"` // what the screen and the page begin with
	*study.ComparisonAnswer
}

// Document returns all that a comparison came to, as JSON has it.
func (c Comparison) Document(version string) any {
	doc := comparisonDocument{Format: page.JSONVersion, Version: version, Headline: c.headline(), ComparisonAnswer: c.ComparisonAnswer}
	for _, o := range c.Origins {
		doc.Scenarios = append(doc.Scenarios, page.ScenarioOf(o.Scenario, o.Text))
	}
	return doc
}

// Rows returns a row for each shift and line.
func (c Comparison) Rows() plots.Table { return shiftRowsOf(c.Lines) }

// RowsNote says what the rows are not of.
func (c Comparison) RowsNote() string {
	return page.RowsAtNominal(c.Lines[0].Nominal, c.Uncertainty != nil)
}

// worthBlock returns what the alternatives cost and what they are worth, or why that is not said.
func (c Comparison) worthBlock() string {
	switch {
	case c.Aside != nil:
		return "\n" + say.Wrapped("Costs are not evaluated: "+c.aside()+".", say.Prose())
	case c.Money == nil:
		return ""
	}
	return "\n" + WorthText(c.Money, c.rows())
}
