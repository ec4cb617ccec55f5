package present

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots/terminal"
	"netrate/sim"
)

// Text returns what a run came to, on one screen but for what is uncertain. A run without shifts has none.
func (run Run) Text() string { return run.screen() + PolicyNote(run.Slips) }

func (run Run) screen() string {
	s := run.Study
	facts := run.grounds()
	above := func(facts []fact) string {
		return title(s, run.Nominal) + "\n\n" + factLines(append(run.Finding(), facts...)...) + "\n" + beside(timeTable(s), setsTable(s)) + "\n"
	}
	below := "\n" + uncertaintyText(run.Uncertainty, run.Basis) + ending(run.Command, run.Nominal, run.Uncertainty != nil)
	if run.Uncertainty != nil { // what was drawn has a screen of its own
		return above(append(facts, run.shiftsNamed()...)) + stopsText(s, shownStops) + below
	}
	besides := run.besideStops()
	if besides == nil {
		facts = append(facts, run.shiftsNamed()...)
	}
	room := func() int { return min(shownStops, say.ScreenLines-strings.Count(above(facts)+below, "\n")-1) }
	k := slices.IndexFunc(facts, func(f fact) bool { return f.name == "Remakes" })
	if k >= 0 && room() < fewStops {
		facts = slices.Delete(facts, k, k+1) // what causes remakes: a report has it
	}
	return above(facts) + joined(stopsText(s, max(1, room())), besides) + below
}

const (
	shownStops = 4 // as many a screen shows
	fewStops   = 3 // where there is no room for as many, causes of remakes give way
)

// fewToName is how many shifts there must be for the median one to mean anything.
const fewToName = 3

// shiftsNamed returns which shifts are worth a look, by the numbers that netrate trace takes.
func (run Run) shiftsNamed() []fact {
	n, named := run.notable()
	if !named {
		return nil
	}
	return []fact{{"To trace", []string{fmt.Sprintf("Shift %s is nearest to the median, %s the worst, %s the best",
		say.Thousands(n.Median), say.Thousands(n.Worst), say.Thousands(n.Best))}}}
}

// notable returns the shifts that are worth a look; false where there are too few.
func (run Run) notable() (n study.NotableShifts, some bool) {
	s := run.Nominal
	if s.Line.Job.Sets > 0 || len(s.Shifts) < fewToName {
		return n, false
	}
	return study.NotableShiftsOf(s), true
}

// besideStops returns the same in short lines, to stand to the right of the costliest stops, where
// they take no line of their own; nil where there is no room for them.
func (run Run) besideStops() []string {
	n, named := run.notable()
	stops := stopsText(run.Study, shownStops)
	if !named || strings.Count(stops, "\n") < 2 {
		return nil
	}
	lines := []string{
		"To trace: " + say.Thousands(n.Median) + " (median),",
		say.Thousands(n.Worst) + " (worst), " + say.Thousands(n.Best) + " (best)",
	}
	if widest(strings.Split(stops, "\n"))+between+widest(lines) > say.Screen() {
		return nil
	}
	return lines
}

// Finding returns what leads: what comes out of the line in the long run, allowing for what is
// uncertain, or else at the values of the file.
func (run Run) Finding() []fact {
	if run.Uncertainty != nil && run.Uncertainty.Job {
		d := UncertaintyIn(run.Uncertainty)
		return []fact{d.found(run.Nominal.Interval(d.Of(), say.Level)), untilThen(run.Study)}
	}
	all := found(run.Study, run.Uncertainty, run.AtNominal)
	if run.Target != nil {
		all = append(all, targetFact(run.Target, page.Period(run.Line)))
	}
	return all
}

// found returns what lines deliver and, if what is uncertain was drawn, how far that is known;
// then nominal is what they deliver at nominal values.
func found(s *runs.Study, u *study.Uncertainty, nominal *study.NetRate) []fact {
	switch {
	case u != nil:
		return []fact{UncertaintyIn(u).found(nominal.Estimate())}
	case s.Line.Job.Sets > 0:
		return finished(s)
	}
	return []fact{netRateFact(s)}
}

// grounds returns what stands beside the finding.
func (run Run) grounds() []fact {
	facts := []fact{run.onPaper(), exposureFact(run)}
	if causes := remakeCauses(run.Study); causes != "" {
		facts = append(facts, fact{"Remakes", []string{causes}})
	}
	return facts
}

// title returns the name of the line and how much was simulated, on one line; of what was
// simulated at nominal values, whether all of it was.
func title(s, nominal *runs.Study) string {
	partial := ""
	if nominal.Ending == sim.Cancelled {
		partial = "PARTIAL ANSWER, interrupted: "
	}
	much := " (" + page.Sample(s) + ")"
	room := say.Screen() - terminal.Width(partial+much)
	return partial + say.Shortened(s.Line.Name, room) + much
}

func netRateFact(s *runs.Study) fact {
	rates := s.NetRates()
	e := s.IntervalOf(rates, say.Level)
	rate := say.PlusMinus(say.Measured(e.Mean, e.Half)) + " good envelopes an hour"
	low, high := say.Rough(rates.Quantile(0.05), e.Half), say.Rough(rates.Quantile(0.95), e.Half)
	name, word := "Net rate", page.Period(s.Line)
	switch {
	case len(rates) < 2:
		return fact{name, []string{rate, "One " + word + " alone does not say how far this may be off"}}
	case len(rates) < 20:
		low, high = say.Rough(rates.Quantile(0), e.Half), say.Rough(rates.Quantile(1), e.Half)
		return fact{name, []string{rate + " (95 % interval)", fmt.Sprintf("The worst %s had %s, the best %s", word, low, high)}}
	}
	return fact{name, []string{rate + " (95 % interval)", spreadWords(s.Line, low, high)}}
}

// spreadWords says how far shifts spread and, where that is so, that bad lots and bad days, which
// spread them further, are not given.
func spreadWords(l *model.Line, low, high string) string {
	word := page.Period(l)
	if l.SpreadGiven() {
		return fmt.Sprintf("One %s in twenty falls below %s, one in twenty exceeds %s", word, low, high)
	}
	return fmt.Sprintf("Lots and days alike: one %s in 20 is below %s, one above %s", word, low, high)
}

// onPaper returns the sum done on paper, which takes nominal values.
func (run Run) onPaper() fact {
	f := onPaper(run.Nominal, run.OnPaper.Difference)
	if run.Uncertainty == nil {
		return f
	}
	nominal := strings.NewReplacer("in the simulation", "simulated at nominal values", "than simulated", "than simulated at nominal values",
		"The simulation shows", "At nominal values the simulation shows")
	for i, text := range f.says {
		f.says[i] = nominal.Replace(text)
	}
	f.says[0] = "nominally " + f.says[0]
	return f
}

// onPaper returns the sum done on paper, and why the simulation differs from it.
func onPaper(s *runs.Study, gap *study.PaperGap) fact {
	if s.Line.Job.Sets > 0 {
		return jobOnPaper(s)
	}
	paper := study.OnPaperOf(s.Line)
	return fact{"On paper", []string{rateOnPaper(paper), difference(s, float64(paper.NetRate), gap)}}
}

func difference(s *runs.Study, paper float64, why *study.PaperGap) string {
	e := s.IntervalOf(s.NetRates(), say.Level)
	gap := e.Mean - paper
	if e.N < 2 {
		return "One shift alone cannot be compared with that"
	}
	if !(math.Abs(gap) > e.Half) {
		return "The simulation shows no difference from that"
	}
	size := say.Rough(math.Abs(gap), e.Half) + " more in the simulation"
	if gap < 0 {
		size = say.Rough(math.Abs(gap), e.Half) + " less in the simulation"
	}
	return size + causes(why, say.Screen()-factIndent-len(size))
}

// causes returns what the difference from the sum on paper clearly comes from. Where there is
// little room it is short.
func causes(g *study.PaperGap, room int) string {
	var long, short []string
	for _, x := range g.Causes() {
		name, brief := x.Name, x.Name
		switch {
		case name == study.PaperOverlap && x.Mean.Mean > 0:
			name, brief = "stops that overlap", "overlapping stops"
		case name == study.PaperOverlap:
			name, brief = "waiting for a busy operator", "a busy operator"
		case name == study.PaperEnds:
			brief = "start and end"
		case name == study.PaperSlow:
			name, brief = "slow cycles that are not on paper", "slow cycles"
		case name == study.PaperDocuments:
			name, brief = "the document channel", "documents"
		}
		long, short = append(long, name), append(short, brief)
	}
	text := ": " + strings.Join(long, ", ")
	switch {
	case long == nil:
		return ", for no one cause that was measured"
	case len(text) > room:
		return ": " + strings.Join(short, ", ")
	}
	return text
}

// precisionOf returns how precisely the mean of a figure is known, as a share of it.
func precisionOf(figures sim.Sample) string {
	e := figures.Interval(say.Level)
	return "± " + say.TwoDigitsOr0(100*e.Half/math.Abs(e.Mean)) + " %"
}

// butReached says the same where that is less than was asked for; nothing where nothing is known.
func butReached(figures sim.Sample) string {
	if len(figures) < 2 || figures.Mean() == 0 {
		return ""
	}
	return ", at " + precisionOf(figures)
}

// ending returns why the run ended, and how to repeat it.
func ending(again string, s *runs.Study, drawn bool) string {
	n, asked, known := len(s.Shifts), "± "+strconv.FormatFloat(100*s.Plan.Precision, 'g', 6, 64)+" %", precisionOf(s.NetRates())
	why, word := "", page.Period(s.Line)
	switch s.Ending {
	case sim.Precise:
		why = "Known to " + known + " (asked for: " + asked + ")"
		if n == s.Plan.First() {
			why += " at the minimum of " + word + "s"
		}
	case sim.AtMost:
		why = "Stopped after the number of " + word + "s asked for"
		switch {
		case s.Plan.Precision == 0 && s.Plan.Min < s.Plan.Max:
			why = "Stopped at the maximum number of " + word + "s that the file allows"
		case s.Plan.Precision > 0:
			why = "NOT KNOWN TO " + asked + " AS ASKED: stopped at the maximum number of " + word + "s" + butReached(s.NetRates())
		}
	case sim.Cancelled:
		why = fmt.Sprintf("Interrupted after %s of at most %s", say.Plural(n, word), say.Thousands(s.Plan.Max))
		if n == s.Plan.Max {
			why = "Interrupted while the uncertain inputs were drawn"
		}
	}
	if drawn && s.Ending != sim.Cancelled {
		why = "At nominal values: " + say.Small(why)
	}
	return say.Wrapped(why+". To repeat it:", say.Prose()) + fmt.Sprintf("  %s --seed %d --reps %d\n"+page.Caution(),
		again, s.Plan.Seed, n)
}
