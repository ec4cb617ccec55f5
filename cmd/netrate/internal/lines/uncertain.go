package lines

import (
	"fmt"
	"slices"
	"strconv"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
)

// How often what is not known of a line is drawn anew.
const (
	usualUncertaintyDraws = study.UncertaintyDraws
	mostUncertaintyDraws  = 100_000
	leastUncertaintyDraws = study.UncertaintyLeast
)

// uncertaintyDraws is the flag that says how often what is uncertain is drawn.
type uncertaintyDraws int

func newUncertaintyFlag(flags *pflag.FlagSet) *uncertaintyDraws {
	n := uncertaintyDraws(usualUncertaintyDraws)
	flags.Var(&n, "uncertainty", "number of draws of the uncertain inputs, 40 or more, of 4 shifts each (default 500); 0 for nominal values only")
	return &n
}

func (n *uncertaintyDraws) Set(text string) error {
	x, err := strconv.Atoi(text)
	if err != nil || x != 0 && (x < leastUncertaintyDraws || x > mostUncertaintyDraws) {
		return fmt.Errorf("want 0 or a whole number from %d to %s", leastUncertaintyDraws, say.Thousands(mostUncertaintyDraws))
	}
	*n = uncertaintyDraws(x)
	return nil
}

func (n *uncertaintyDraws) String() string { return strconv.Itoa(int(*n)) }
func (n *uncertaintyDraws) Type() string   { return "N" }

// asked takes the number of draws from --reps, where that is given alone and an input of the lines is
// uncertain: the shifts asked for are those of all draws.
func (n *uncertaintyDraws) asked(o *desk.PlanFlags, reps int, of ...*model.Line) error {
	if !o.Changed("reps") || o.Changed("uncertainty") || !uncertain(of) {
		return nil
	}
	draws := (reps + study.UncertaintyEach - 1) / study.UncertaintyEach
	if draws < leastUncertaintyDraws || draws > mostUncertaintyDraws {
		return desk.Wrong("--reps %d: inputs are uncertain, and are drawn %d to %s times, with %d shifts of each draw: want --reps from %d to %s, "+
			"or --uncertainty beside it: the number of draws, or 0 for nominal values only",
			reps, leastUncertaintyDraws, say.Thousands(mostUncertaintyDraws), study.UncertaintyEach,
			leastUncertaintyDraws*study.UncertaintyEach, say.Thousands(mostUncertaintyDraws*study.UncertaintyEach))
	}
	*n = uncertaintyDraws(draws)
	return nil
}

// uncertain reports whether any input of the lines is.
func uncertain(of []*model.Line) bool {
	return slices.ContainsFunc(of, func(l *model.Line) bool { return len(l.UncertainInputs) > 0 })
}

// again returns the flag that draws as often again: a command that is repeated has --reps, which
// alone would say how often.
func (n *uncertaintyDraws) again(of ...*model.Line) string {
	if !uncertain(of) && *n == usualUncertaintyDraws {
		return ""
	}
	return " --uncertainty " + n.String()
}
