package lines

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
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
	flags.Var(&n, "doubt", "number of draws of the uncertain inputs, 40 or more; 500 if not given, 0: nominal values only")
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
	return " --doubt " + n.String()
}

// doubtCalled returns what a doubt is of, in words.
func doubtCalled(d model.Doubt) string {
	name := strings.NewReplacer("_", " ", ".", " ").Replace(d.Name)
	if d.Station != "" {
		name = d.Station + ", " + name
	}
	if d.Line != "" {
		name = d.Line + ": " + strings.TrimPrefix(name, "line ")
	}
	if d.Part != model.NoPart {
		name += ", " + d.Part.String()
	}
	return name
}

// doubtValue returns a value that a number in doubt may have, with its unit.
func doubtValue(d model.Doubt, x float64) string {
	switch {
	case d.Part == model.MeanPart:
		return threeDigits(x) + " s"
	case d.Part == model.CVPart || d.Name == "growth" || d.Name == "material":
		return threeDigits(x)
	case x < nearNothing:
		return "0"
	case x > 0.02:
		return fmt.Sprintf("%.3g %%", 100*x)
	}
	return "1/" + say.Rounded(1/x, max(0, say.Magnitude(1/x)-3))
}

// nearNothing is a probability that no line lives to see.
const nearNothing = 1e-8

// threeDigits returns a number above 0 with three digits.
func threeDigits(x float64) string {
	if !(x > 0) {
		return "0"
	}
	if m := say.Magnitude(x); m >= 2 {
		return say.Rounded(x, m-2)
	}
	return strconv.FormatFloat(x, 'g', 3, 64)
}

// doubtOf is how far the figure is known that a line is judged by: its net rate or, of a job,
// the time until it is finished.
type doubtOf struct{ *study.Uncertainty }

// longRun returns the ends of the interval of the long run.
func (d doubtOf) longRun() (low, high float64) {
	return float64(d.LongRun.Low), float64(d.LongRun.High)
}

// singles returns between what nine replications in ten lie.
func (d doubtOf) singles() (low, high float64) { return float64(d.P5), float64(d.P95) }

// called returns what is known within the interval.
func (d doubtOf) called() string {
	if d.Job {
		return "h until it is finished, on average"
	}
	return "an hour in the long run"
}

// unit returns the unit of the figure.
func (d doubtOf) unit() string {
	if d.Job {
		return " h"
	}
	return " an hour"
}

// figure returns the figure that is told.
func (d doubtOf) figure() func(*model.Shift) float64 {
	if d.Job {
		return study.Finish
	}
	return func(s *model.Shift) float64 { return s.NetRate }
}

// known returns a half-width as it is told.
func known(half float64) string { return "± " + say.TwoDigitsOr0(half) }

// within returns the ends of an interval, with two digits of its half-width.
func within(low, high float64) (from, to string) {
	places := 0
	if half := (high - low) / 2; half > 0 && !math.IsInf(half, 0) {
		places = say.Magnitude(half) - 1
	}
	return say.Rounded(low, places), say.Rounded(high, places)
}
