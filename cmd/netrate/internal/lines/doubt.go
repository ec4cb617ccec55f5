package lines

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/sim"
)

// What is not known of a line is drawn anew so often, and each draw simulated so often. More
// draws of few shifts each tell best what shifts vary by.
const (
	usualDoubtDraws = 500
	mostDoubtDraws  = 100_000
	shiftsOfADraw   = 4
	leastDoubtDraws = 40 // fewer say nothing of 95 %
)

// doubtDraws is the flag that says how often what is in doubt is drawn.
type doubtDraws int

func newDoubtFlag(flags *pflag.FlagSet) *doubtDraws {
	n := doubtDraws(usualDoubtDraws)
	flags.Var(&n, "doubt", "draw what is given with its doubt so often, 40 or more; 500 if not given, 0: take it as given")
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

// inDoubt reports whether anything of the entrants is in doubt.
func (f *field) inDoubt() bool {
	for _, l := range f.lines() {
		if len(l.Doubts) > 0 {
			return true
		}
	}
	for _, h := range f.halls() {
		if len(h.Doubts()) > 0 {
			return true
		}
	}
	return false
}

// drawDoubt draws what is in doubt, the same for all entrants. It does nothing where nothing
// is in doubt or shall be drawn. When ctx ends early the entrants have the draws until then, if
// these say anything, and the error is the cause.
func (f *field) drawDoubt(ctx context.Context, e desk.Env, plan sim.Plan, draws doubtDraws) (err error) {
	if draws == 0 || !f.inDoubt() {
		return nil
	}
	var watch func(int)
	if e.Terminal {
		p := desk.NewProgress(e.Err, int(draws), "draw")
		defer p.Stop()
		watch = func(draw int) { p.Done(draw + 1) }
	}
	plan.Max = int(draws)
	var studies []*model.DoubtStudy
	var ending sim.Ending
	switch {
	case f.halls() != nil:
		studies, ending, err = model.RunDoubtedHalls(ctx, f.halls(), plan, shiftsOfADraw, watch)
	case f.mixes() != nil:
		studies, ending, err = model.RunDoubtedMixed(ctx, f.mixes(), plan, shiftsOfADraw, watch)
	default:
		studies, ending, err = model.RunDoubted(ctx, f.lines(), plan, shiftsOfADraw, watch)
	}
	if err != nil {
		return err
	}
	done := studies[0].Draws()
	for i, s := range studies {
		if done >= leastDoubtDraws {
			f.entrants[i].doubt = s
		}
	}
	if ending == sim.Cancelled {
		for i := range f.entrants { // the answer is partial, if there is one
			if s := f.entrants[i].study; s != nil {
				s.Ending = sim.Cancelled
				done = max(done, len(s.Shifts))
			}
		}
		return desk.CutShort(ctx, done, f.period())
	}
	return nil
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
type doubtOf struct {
	*model.Doubted
	study *model.DoubtStudy
	job   bool
}

func doubtIn(s *model.DoubtStudy) *doubtOf {
	d := &doubtOf{study: s, job: s.Line.Job.Sets > 0}
	d.Doubted = s.Of(d.figure())
	return d
}

// figure returns the figure that is told.
func (d *doubtOf) figure() func(*model.Shift) float64 {
	if d.job {
		return func(s *model.Shift) float64 { return s.Finish }
	}
	return netRateIn
}

// half returns half of the width of the interval of the long run.
func (d *doubtOf) half() float64 {
	low, high := d.Interval(say.Level)
	return (high - low) / 2
}

// called returns what is known within the interval.
func (d *doubtOf) called() string {
	if d.job {
		return "h until it is finished, on average"
	}
	return "an hour in the long run"
}

// unit returns the unit of the figure.
func (d *doubtOf) unit() string {
	if d.job {
		return " h"
	}
	return " an hour"
}

// narrowed returns the half-width if what the chosen doubts were learnt from were so many
// times as much.
func (d *doubtOf) narrowed(times float64, chosen func(model.Doubt) bool) string {
	return "± " + say.TwoDigitsOr0(d.half()*d.Narrowed(times, chosen))
}

// within returns the ends of an interval, with two digits of its half-width.
func within(low, high float64) (from, to string) {
	places := 0
	if half := (high - low) / 2; half > 0 && !math.IsInf(half, 0) {
		places = say.Magnitude(half) - 1
	}
	return say.Rounded(low, places), say.Rounded(high, places)
}
