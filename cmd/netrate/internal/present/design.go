package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// Design is a search for what to buy, as it is said and drawn.
type Design struct {
	*study.DesignAnswer
	Origin  page.Origin
	Command string // that does it again, without the seed and the number of shifts
}

// DesignFinding returns what to buy, and how sure that is.
func DesignFinding(d Design) string { return sentences(d.advised(), d.certainty()) }

// advised returns what to buy.
func (d Design) advised() string {
	partial := ""
	if d.Settings.Partial {
		partial = "PARTIAL ANSWER: the run was interrupted. "
	}
	switch advice := &d.Finalists[d.Advice]; {
	case d.Goal == study.DesignOperators:
		return partial + sentences(d.operatorsFinding(advice), d.pays())
	case d.Advice == 0:
		return partial + sentences("Buy nothing: "+d.nothing(), d.pays())
	default:
		return partial + sentences(fmt.Sprintf("%s %s: %s.", buyOrTake(advice), d.bought(advice), strings.Join(d.gain(), "; ")), d.equal(), d.pays())
	}
}

// goalWords returns what is looked for.
func (d Design) goalWords() string {
	switch d.Goal {
	case study.DesignCost:
		return "the least cost of a thousand"
	case study.DesignValue:
		return "the highest net present value"
	case study.DesignOperators:
		return "the smallest crew"
	case study.DesignNetRate:
	}
	return "the highest net rate"
}

// buyOrTake returns what is done with choices: what costs nothing is not bought.
func buyOrTake(x *study.DesignOne) string {
	if x.Price == 0 {
		return "Take"
	}
	return "Buy"
}

// bought returns what is chosen in a design, and for how much.
func (d Design) bought(x *study.DesignOne) string {
	if x.Price == 0 {
		return say.List(x.Choices) + ", which costs nothing"
	}
	return say.List(x.Choices) + ", for " + d.sum(x.Price)
}

// sum returns a sum of money in the currency of the costs, if there is one.
func (d Design) sum(x study.Number) string {
	text := say.Rounded(float64(x), 0)
	if c := d.Origin.Scenario.Costs; c != nil {
		text += " " + c.Currency
	}
	return text
}

// gain returns what is advised is ahead of the line as it is: in what is looked for first, then in what else there is.
func (d Design) gain() []string {
	rate := d.Comparison.Lines[d.Advice].NetRate.Estimate()
	ahead := d.Comparison.Compared[0][d.Advice].Difference
	all := []string{fmt.Sprintf("%s good envelopes an hour, %s against the line as it is", say.Size(rate), say.Gap(ahead))}
	m := d.Comparison.Money
	if m == nil || d.Goal == study.DesignNetRate {
		return all
	}
	all = append([]string{fmt.Sprintf("a thousand cost %s %s with the price in it, where the line as it is takes %s", designCost(m, d.Advice), m.Currency, designCost(m, 0))}, all...)
	if d.Goal == study.DesignValue {
		all = append([]string{fmt.Sprintf("its net present value is %s against the line as it is, over %s at %s %%",
			designValue(m, d.Advice), say.Plural(m.Life, "year"), say.Exact(100*float64(m.Rate)))}, all...)
	}
	return all
}

// designValue returns the net present value of a line against the first, and between what nine draws
// in ten lie.
func designValue(m *study.WorthAnswer, line int) string {
	npv := m.Worth.Gains[line].NPV
	drawn := "nine draws in ten"
	if !m.Ranges && !m.Uncertain {
		drawn = "nine draws of the shifts in ten, which show chance alone"
	}
	return fmt.Sprintf("%s %s (%s: %s)", Averaged(npv), m.Currency, drawn, nineInTen(npv))
}

// designCost returns what a thousand good envelopes cost on a line, with the price in it.
func designCost(m *study.WorthAnswer, line int) string {
	return say.Rounded(float64(m.Lines[line].AllIn.Mean), -2)
}

// DesignNotes returns what is to be known of a search.
func DesignNotes(d Design) []string {
	notes := d.cautious()
	if d.Advice != 0 {
		notes = append(notes, "Why: "+ComparisonWhy(d.Comparison))
	}
	notes = append(notes, d.equalInMoney()...)
	notes = append(notes, d.sureties()...)
	notes = append(notes, d.robust()...)
	if last := d.lastMoney(); last != "" {
		notes = append(notes, last)
	}
	return slices.Concat(notes, d.otherwiseBought(), d.searched())
}

// cautious returns what is to be known of the table.
func (d Design) cautious() (notes []string) {
	if d.Limits.Defective != nil {
		notes = append(notes, "The limit of defective mail is kept on paper. What was counted in the simulation is in the comparison, and overrules it.")
	}
	if d.Goal == study.DesignOperators {
		notes = append(notes, "Of each number of operators there are in the table: what delivers most, the cheapest that reached the target as often as is asked for in other "+d.period()+"s, and the cheapest that was shown to (95 %).")
	}
	if none := d.noRoom(); none != "" {
		notes = append(notes, none)
	}
	if d.Goal == study.DesignNetRate && d.crewsDiffer() {
		counted := "The choice does not count what they cost: a goal in money does."
		if d.Comparison.Money != nil {
			counted = "What they cost is in the all-in cost, by which the choice was not made: a goal in money is."
		}
		notes = append(notes, "Operators are no part of the price. "+counted)
	}
	return append(notes, d.speeds()...)
}

// speeds says which speed is asked for that the line as it is or what is advised cannot reach, and what limits it.
func (d Design) speeds() []string {
	some := []study.Alternative{d.Comparison.Lines[0].Of}
	if d.Advice != 0 {
		some = append(some, d.Comparison.Lines[d.Advice].Of)
	}
	return desk.SpeedsNotReached(some...)
}

// searched returns where combinations were left out, and by what shifts the choice was made.
func (d Design) searched() []string {
	c := &d.Counts
	notes := []string{fmt.Sprintf("%s combinations: %s against the rules or too dear, %s cannot be, %s outside the other limits%s, %s left out on paper, since what they can deliver at most is below what others are seen to; %s simulated%s. To the end of the comparison that took %s.",
		say.Rounded(float64(c.Combinations), 0), say.Rounded(float64(c.Ruled), 0), say.Thousands(c.Impossible), say.Thousands(c.Limits), d.outsideEach(), say.Thousands(c.Ceiling), say.Thousands(c.Simulated),
		d.near(), say.Plural(int(c.Shifts), d.period()))}
	notes = append(notes, d.cannotBe()...)
	return append(notes, "The choice was made in other "+d.period()+"s than those of the table, so that these do not flatter it.")
}

// mostReasons is how many reasons why lines cannot be are told of each kind, of choices that can never stand together
// and of others.
const mostReasons = 3

// cannotBe says why lines cannot be: first which choices can never stand together.
func (d Design) cannotBe() (notes []string) {
	told := map[bool]int{}
	for _, r := range d.Reasons {
		never := r.Choices != nil
		if told[never]++; told[never] > mostReasons {
			continue
		}
		text := say.Plural(r.Combinations, "combination") + " cannot be"
		if never {
			if text = neverWords(r.Choices); r.Combinations > 0 {
				text += " (" + say.Plural(r.Combinations, "combination") + ")"
			}
		}
		notes = append(notes, text+": "+strings.TrimSuffix(r.Why, ".")+".")
	}
	return notes
}

// neverWords says that a choice can never be had, or two never together.
func neverWords(choices []string) string {
	if len(choices) == 1 {
		return quotedChoice(choices[0]) + " can never be had"
	}
	return quotedChoice(choices[0]) + " and " + quotedChoice(choices[1]) + " can never stand together"
}

// outsideEach says how many combinations are outside each limit, in brackets; "" if none is outside any.
func (d Design) outsideEach() string {
	var all []string
	sum := 0
	for _, x := range d.Counts.Outside {
		sum += x.Combinations
		all = append(all, say.Thousands(x.Combinations)+" have "+d.outsideWords(x.Limit))
	}
	switch {
	case all == nil:
		return ""
	case len(all) == 1:
		return " (all have " + d.outsideWords(d.Counts.Outside[0].Limit) + ")"
	case sum > d.Counts.Limits:
		return " (" + say.List(all) + "; some have both)"
	}
	return " (" + say.List(all) + ")"
}

// outsideWords returns what is outside a limit.
func (d Design) outsideWords(l study.DesignLimit) string {
	switch l {
	case study.DesignPitches:
		return "more than " + pitchesOf(*d.Limits.Pitches)
	case study.DesignCrew:
		return "more than " + say.Plural(*d.Limits.Operators, "operator")
	case study.DesignDefective:
	}
	return "more than " + ppmText(1e6*float64(*d.Limits.Defective)) + " in a million defective on paper"
}

// near says how many designs were simulated to find what is best for less money; "" if none were.
func (d Design) near() string {
	if d.Counts.Near == 0 {
		return ""
	}
	return ", and of those left out " + say.Thousands(d.Counts.Near) + " besides, to find what is best for less money or as good"
}

// period returns what one replication is: a shift, or a job.
func (d Design) period() string { return ComparisonPeriod(d.Comparison) }

// crewsDiffer reports whether designs have other numbers of operators than the line as it is.
func (d Design) crewsDiffer() bool {
	return slices.ContainsFunc(d.Finalists, func(x study.DesignOne) bool { return x.Operators != d.Finalists[0].Operators })
}

// Text returns the search as a terminal has it.
func (d Design) Text() string {
	var notes strings.Builder
	for _, note := range DesignNotes(d) {
		notes.WriteString(say.Wrapped(note, say.Prose()))
	}
	return Screen(say.Shortened(d.Origin.Scenario.Name+": what to buy", say.Screen()), DesignFinding(d), Designs(d)) +
		"\n" + notes.String() + page.BasisNote(d.Basis) + "To repeat it:\n  " + d.again() + "\n" + page.Caution()
}

// again returns the command that does it again.
func (d Design) again() string {
	return fmt.Sprintf("%s --seed %d --reps %d", d.Command, d.Settings.Seed, d.Settings.Max)
}

// Rows returns a row for each design.
func (d Design) Rows() plots.Table { return Designs(d) }

// designDocument is the answer below its head.
type designDocument struct {
	Format int `json:"netrate_design_json"`
	page.LineDocument
	*study.DesignAnswer
}

// Document returns the search as JSON has it.
func (d Design) Document(version string) any {
	return designDocument{1, page.LineDocumentOf(version, d.Origin, DesignFinding(d)), d.DesignAnswer}
}

// Report returns the page.
func (d Design) Report(version string) (*page.Report, error) {
	question := d.Origin.Scenario.Question
	if question == "" {
		question = "What should be bought?"
	}
	plan := sim.Plan{Seed: d.Settings.Seed}
	answer, rest := d.briefly()
	r := page.NewReport(version, page.Opening{
		Title: d.Origin.Scenario.Name + ": what to buy", Question: question, Answer: answer,
		Lead:    sentences(rest, "All designs were simulated with the same random events, so that what differs is what was chosen."),
		Command: d.again(), Origins: []page.Origin{d.Origin}, Plan: &plan, Word: page.Period(d.Origin.Scenario.Line), Most: d.Settings.Reps,
		Assumptions: page.AssumedOf(d.Origin.Scenario),
	})
	r.Decide(d.decision(r))
	for _, s := range d.sections(r) {
		r.Add(s)
	}
	r.Add(page.LeftOut())
	return r.Done()
}
