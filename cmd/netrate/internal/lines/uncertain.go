package lines

import (
	"fmt"
	"strconv"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/say"
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
	flags.Var(&n, "uncertainty", "number of draws of the uncertain inputs, 40 or more (default 500); 0 for nominal values only")
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

// again returns the flag that draws as often again.
func (n *uncertaintyDraws) again() string {
	if *n == usualUncertaintyDraws {
		return ""
	}
	return " --uncertainty " + n.String()
}
