package lines

import (
	"fmt"
	"strconv"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// What is not known of a line is drawn anew so often.
const (
	usualDoubtDraws = study.UncertaintyDraws
	mostDoubtDraws  = 100_000
	leastDoubtDraws = study.UncertaintyLeast
)

// doubtDraws is the flag that says how often what is in doubt is drawn.
type doubtDraws int

func newDoubtFlag(flags *pflag.FlagSet) *doubtDraws {
	n := doubtDraws(usualDoubtDraws)
	flags.Var(&n, "uncertainty", "number of draws of the uncertain inputs, 40 or more; 500 if not given, 0: nominal values only")
	return &n
}

func (n *doubtDraws) Set(text string) error {
	x, err := strconv.Atoi(text)
	if err != nil || x != 0 && (x < leastDoubtDraws || x > mostDoubtDraws) {
		return fmt.Errorf("want 0 or a whole number from %d to %s", leastDoubtDraws, say.Thousands(mostDoubtDraws))
	}
	*n = doubtDraws(x)
	return nil
}

func (n *doubtDraws) String() string { return strconv.Itoa(int(*n)) }
func (n *doubtDraws) Type() string   { return "N" }

// again returns the flag that draws as often again.
func (n *doubtDraws) again() string {
	if *n == usualDoubtDraws {
		return ""
	}
	return " --uncertainty " + n.String()
}
