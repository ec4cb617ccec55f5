package present

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/sim"
)

// The answer of a comparison has a row for each of so many alternatives, and so many losses.
const (
	shownEntrants = 9
	shownSteps    = 4
)

// Text returns what the comparison came to, on one screen if it can be.
func (c Comparison) Text() string {
	var b strings.Builder
	b.WriteString(c.title() + "\n\n")
	b.WriteString(say.Wrapped(ComparisonFinding(c.ComparisonAnswer), say.Screen) + "\n")
	if c.Selection != nil {
		b.WriteString(c.selectionTable())
	} else {
		b.WriteString(c.table() + c.jobsBlock())
	}
	b.WriteString(c.uncertaintyBlock())
	b.WriteString(c.worthBlock())
	rest := "\n" + c.why() + "\n" + c.ending()
	if changes := c.changes(); strings.Count(b.String()+changes+rest, "\n") <= say.ScreenLines {
		b.WriteString(changes)
	}
	return b.String() + rest
}

// changes returns what each variant changes, in words.
func (c Comparison) changes() string {
	var b strings.Builder
	for _, x := range c.Lines {
		if len(x.Changes) > 0 {
			b.WriteString("\n" + strings.TrimSuffix(say.Wrapped(x.Name+": "+strings.Join(x.Changes, "; "), say.Screen), "\n"))
		}
	}
	if b.Len() == 0 {
		return ""
	}
	return b.String() + "\n"
}

func (c Comparison) title() string {
	partial := ""
	s := c.Lines[c.Leader].Study
	if s.Ending == sim.Cancelled {
		partial = "PARTIAL ANSWER, interrupted: "
	}
	each := ": " + say.Plural(len(c.Lines), c.word()) + " compared"
	if c.Selection == nil {
		each += " (" + c.sample() + " each)"
	}
	return partial + say.Shortened(c.Origins[0].Scenario.Name, say.Screen-utf8.RuneCountInString(partial+each)) + each
}

// sample returns how many shifts of which length were simulated of each line.
func (c Comparison) sample() string {
	base := c.Lines[0]
	for _, x := range c.Lines {
		if page.Extent(x.Study.Line) != page.Extent(base.Study.Line) {
			return say.Plural(len(base.Study.Shifts), c.period())
		}
	}
	return page.Sample(base.Study)
}

// table returns a row for each alternative: its net rate, and how it differs.
func (c Comparison) table() string {
	rows := [][]string{{"Good envelopes/hour", "net rate", "to base", "wins", "to " + ComparisonLeader(c.ComparisonAnswer), "ppm bad"}}
	if c.Personalised() { // which leaves less room for names
		rows[0][0] = "Good an hour"
		rows[0] = append(rows[0], "‰ remade")
	}
	rows[0] = append(rows[0], "crew")
	for _, i := range c.rows() {
		s := c.Lines[i].Study
		e := s.NetRates().Interval(say.Level)
		base, wins, best := "", "", ComparisonLeader(c.ComparisonAnswer)
		if i != 0 {
			base, wins = say.Gap(c.Compared[0][i].Difference), say.Percent(c.Compared[0][i].Wins, 0.01)
		}
		if i != c.Leader {
			best = say.Gap(c.Compared[c.Leader][i].Difference)
		}
		row := []string{c.Lines[i].Name, say.PlusMinus(say.Measured(e.Mean, e.Half)), base, wins, best, DefectsPerMillion(s)}
		if c.Personalised() {
			e := study.RemakesIn(s)
			row = append(row, say.Rough(e.Mean, e.Half))
		}
		rows = append(rows, append(row, say.Percent(study.CrewBusy(s).Mean, 0.01)))
	}
	text := say.Columns(rows)
	if more := len(c.Lines) - shownEntrants; more > 0 {
		text += fmt.Sprintf("and %d that deliver less: --csv, --json and --report have all\n", more)
	}
	return text
}

// rows returns the alternatives that are shown: all, or the base and those that deliver most.
func (c Comparison) rows() []int {
	var all []int
	for i := range c.Lines {
		all = append(all, i)
	}
	if len(all) <= shownEntrants {
		return all
	}
	slices.SortStableFunc(all[1:], func(i, k int) int {
		return cmp.Compare(c.Lines[k].Study.NetRates().Mean(), c.Lines[i].Study.NetRates().Mean())
	})
	all = all[:shownEntrants]
	slices.Sort(all)
	return all
}

// selectionTable returns a row for each alternative: how far it came.
func (c Comparison) selectionTable() string {
	const fates = 54 // where they begin
	var b strings.Builder
	fmt.Fprintf(&b, "%-30s%s%s  dropped\n", "Good envelopes an hour", say.Right("net rate", 14), say.Right(c.period()+"s", 8))
	for i, x := range c.Lines {
		e := x.Study.NetRates().Interval(say.Level)
		fate := strings.TrimSuffix(say.Wrapped(ComparisonFate(c.ComparisonAnswer, i), say.Screen-fates), "\n")
		fmt.Fprintf(&b, "%-30s%s%s  %s\n", say.Shortened(x.Name, 30), say.Right(say.PlusMinus(say.Measured(e.Mean, e.Half)), 14),
			say.Right(say.Thousands(len(x.Study.Shifts)), 8), strings.ReplaceAll(fate, "\n", "\n"+strings.Repeat(" ", fates)))
	}
	return b.String() + ComparisonDroppedWords(c.ComparisonAnswer) + "\n"
}

// why returns the losses that make the difference, the largest first.
func (c Comparison) why() string {
	var b strings.Builder
	rival, best := c.Lines[c.Rival].Study, c.Lines[c.Leader].Study
	row := func(name, a, z, gains string) {
		fmt.Fprintf(&b, "%-40s%s%s%s\n", name, say.Right(a, 12), say.Right(z, 12), say.Right(gains, 12))
	}
	names := [2]string{"base", ComparisonLeader(c.ComparisonAnswer)}
	if c.Leader == 0 {
		names = [2]string{"next", "base"}
	}
	row("Why: lost on the way, envelopes an hour", names[0], names[1], "gains")
	rest := study.ComparisonStep{Name: "all else"}
	sum := study.ComparisonStep{Name: "net rate"}
	for n, s := range c.Ranked() {
		sum.Change += s.Change
		if n < shownSteps {
			row(s.Name, say.Rounded(s.Rival, 0), say.Rounded(s.Best, 0), say.Signed(s.Change))
			continue
		}
		rest.Change += s.Change
	}
	row(rest.Name, "", "", say.Signed(rest.Change))
	row(sum.Name, say.Rounded(rival.NetRates().Mean(), 0), say.Rounded(best.NetRates().Mean(), 0), say.Signed(sum.Change))
	return b.String()
}

// ending returns how much common random numbers was worth, and how to repeat the comparison.
func (c Comparison) ending() string {
	return say.Wrapped(c.random(), say.Screen) + "To repeat it:\n  " + c.Command + c.repeat() + "\n" + page.Caution
}

// random numbers returns how much narrower common random numbers made the interval.
func (c Comparison) random() string {
	same := "All " + c.word() + "s had the same random events"
	if c.grouped() {
		same = "Net rates are of all lines of a configuration together. " + same
	}
	same = c.mixWords() + same
	if c.Selection != nil || len(c.Lines[0].Study.Shifts) < 2 {
		return same + "."
	}
	p := c.Compared[c.Rival][c.Leader]
	switch {
	case math.IsInf(p.Narrowing, 1):
		return same + "."
	case p.Narrowing < 1:
		return same + ", which did not make this difference any surer."
	}
	return fmt.Sprintf("%s. Without that, ± of this difference would be %s times as wide, and it would take %s times as many %ss to be as sure.",
		same, say.TwoDigits(p.Narrowing), say.TwoDigits(p.VarianceRatio), c.period())
}
