package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// What is said choice by choice of the fewest operators: with which of them not enough shifts reach the target.

// needed returns which choices are needed, which are toss-ups, and which are not needed; a sentence each.
func (d Design) needed() (notes []string) {
	of := map[study.DesignVerdict][]string{}
	var needed []string
	for i := range d.Turns {
		t := &d.Turns[i]
		switch {
		case t.Why != "":
		case t.Verdict != study.DesignCertain:
			of[t.Verdict] = append(of[t.Verdict], d.enoughWords(t))
		case t.Reaches.High < d.Share && d.taken(t):
			needed = append(needed, d.enoughWords(t))
		}
	}
	target := fmt.Sprintf("the target in %s of its %ss", say.Exact(100*float64(d.Share))+" %", d.period())
	for _, x := range []struct {
		all  []string
		text string
	}{
		{needed, "Needed, each by itself with all else as it is" + d.atMeans() + ", since what is left is shown not to reach " + target + ": "},
		{of[study.DesignTossUp], "A toss-up, since it is not shown whether it reaches " + target + " or not: "},
		{of[study.DesignSmall], "As good, with as many operators and for as much money: "},
		{of[study.DesignBetter], "In the " + d.period() + "s of the table enough too, though other " + d.period() + "s did not choose it: "},
	} {
		if len(x.all) > 0 {
			notes = append(notes, x.text+strings.Join(x.all, "; ")+".")
		}
	}
	if len(notes) > 0 {
		notes[len(notes)-1] += " What only costs more, or takes more operators, is not named: the table of choices has all."
	}
	return notes
}

// taken reports whether a turn leaves out or replaces something that is not in the line as it is.
func (d Design) taken(t *study.DesignTurn) bool {
	for i := range d.Options {
		if o := &d.Options[i]; o.Name == t.Option {
			return t.Taken != o.Choices[0].Name
		}
	}
	return false
}

// enoughWords returns what is taken instead of what, for what money and with how many operators, and how many shifts
// then reach the target.
func (d Design) enoughWords(t *study.DesignTurn) string {
	text := d.insteadWords(t)
	if len(t.Without) > 0 {
		text += ", and without " + say.List(t.Without)
	}
	if t.Operators != d.Finalists[d.Advice].Operators {
		text += ", with " + say.Plural(t.Operators, "operator")
	}
	switch {
	case t.Price < 0:
		text += ", for " + d.sum(-t.Price) + " less"
	case t.Price > 0:
		text += ", for " + d.sum(t.Price) + " more"
	}
	return text + ", " + d.reachesWords(t)
}

// reachesWords returns how many shifts of a turn reach the target.
func (d Design) reachesWords(t *study.DesignTurn) string {
	switch low, high := float64(t.Reaches.Low), float64(t.Reaches.High); t.Reaches.Share {
	case 1:
		return fmt.Sprintf("all (at least %s)", say.AtLeast(low))
	case 0:
		return fmt.Sprintf("none (at most %s)", say.AtMost(high))
	default:
		return fmt.Sprintf("%s (%s)", say.ShareOf(float64(t.Reaches.Share), 0, "under ", "over "), say.Between(low, high))
	}
}

// neededTable returns a row for each choice taken otherwise.
func (d Design) neededTable() plots.Table {
	t := plots.Table{
		Name: "Choice by choice",
		Caption: "What is advised, with one choice taken otherwise and all else as it is" + d.atMeans() + ": how many of the " + d.period() +
			"s of the comparison reach the target; all intervals right at once (95 %).",
		Columns: []plots.Column{
			{Title: "Option"},
			{Title: "Taken"},
			{Title: "Instead"},
			{Title: "Price", Kind: plots.Number},
			{Title: "Operators", Kind: plots.Number},
			{Title: "Reach the target", Kind: plots.Share, Decimals: 1},
			{Title: "The choice is, in " + d.Finalists[d.Advice].Name},
		},
	}
	for i := range d.Turns {
		x := &d.Turns[i]
		instead := x.Instead
		if len(x.Without) > 0 {
			instead += ", without " + say.List(x.Without)
		}
		row := []plots.Entry{page.Words(x.Option), page.Words(x.Taken), page.Words(instead), {Number: float64(x.Price), Shown: say.Signed(float64(x.Price))}}
		if x.Why != "" {
			t.Rows = append(t.Rows, append(row, page.Words("–"), page.Words("–"), page.Words("not to be had otherwise: "+strings.TrimSuffix(x.Why, "."))))
			continue
		}
		t.Rows = append(t.Rows, append(row, page.Value(float64(x.Operators)), plots.Entry{Number: float64(x.Reaches.Share), Shown: d.reachesWords(x)}, page.Words(d.neededVerdict(x))))
	}
	return t
}

// neededVerdict returns what a choice of the advice is, in words.
func (d Design) neededVerdict(t *study.DesignTurn) string {
	switch {
	case t.Verdict != study.DesignCertain:
		return map[study.DesignVerdict]string{study.DesignSmall: "as good as the other", study.DesignTossUp: "a toss-up", study.DesignBetter: "not needed in these shifts"}[t.Verdict]
	case t.Reaches.High < d.Share:
		return "certain: the other is not enough"
	case t.Operators > d.Finalists[d.Advice].Operators:
		return "certain: the other takes more operators"
	}
	return "certain: the other costs more"
}
