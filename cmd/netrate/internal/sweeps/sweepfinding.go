package sweeps

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/output"
)

// curve is how the net rate follows the values of one path.
type curve struct {
	*sweep
	changes []output.Comparison // from each value to the next, all right at once
	last    int                 // the last value that is not, shift by shift, as the one before it
	peak    *output.Peak        // nil where there is none to look for
}

// newCurve returns what there is to say of a sweep of one path.
func newCurve(s *sweep) *curve {
	c := &curve{sweep: s}
	var steps [][2]int
	for i := 1; i < len(s.points); i++ {
		steps = append(steps, [2]int{i - 1, i})
		if !slices.Equal(s.points[i].rates, s.points[i-1].rates) {
			c.last = i
		}
	}
	c.changes = output.Pairwise(s.samples(), steps, say.Level)
	inside := s.best > 0 && s.best < c.last
	switch {
	case ofWords(s.vary[0]), ofCounts(s.vary[0]), c.last < 2, c.flat():
		return c
	case inside && (s.rival(0) || s.rival(c.last)): // it may as well rise or fall all the way
		return c
	}
	var places []float64
	for _, p := range s.points[:c.last+1] {
		places = append(places, c.reached(p))
	}
	peak := output.FindPeak(places, s.samples()[:c.last+1], say.Level, s.plan.Seed)
	c.peak = &peak
	return c
}

// flat reports whether no point is shown to be worse than another.
func (s *sweep) flat() bool {
	for i := range s.points {
		if !s.rival(i) {
			return false
		}
	}
	return true
}

// finding returns what the sweep found, in a few sentences.
func (s *sweep) finding() string { return s.rateFinding() + s.capFinding() + s.defectFinding() }

// defectFinding warns of a best point that delivers more defects than another: more than
// twice as many, and more than chance explains if defects come at random.
func (s *sweep) defectFinding() string {
	fewest := s.best
	for i := range s.points {
		if page.PerMillion(&s.points[i].study.Total) < page.PerMillion(&s.points[fewest].study.Total) {
			fewest = i
		}
	}
	best, few := s.points[s.best], s.points[fewest]
	seen := float64(best.study.Total.Sets.Defective)
	ratio := page.PerMillion(&few.study.Total) / page.PerMillion(&best.study.Total)
	if !(ratio*(1+4/math.Sqrt(seen)) < 0.5) {
		return ""
	}
	return fmt.Sprintf(" But %s of a million delivered are defective; at %s, %s.", defects(best.study), s.label(few), defects(few.study))
}

// rateFinding says where the net rate is highest.
func (s *sweep) rateFinding() string {
	switch {
	case s.shifts < 2:
		return "One " + page.Period(s.points[0].study.Line) + " alone does not say how far these net rates may be off."
	case s.flat():
		return fmt.Sprintf("No difference is shown: at the best, %s, the net rate is %s.", s.label(s.points[s.best]), s.netRate(s.best))
	case len(s.vary) == 1 && ofCounts(s.vary[0]):
		return s.curve.enoughFinding()
	case s.curve == nil || s.curve.peak == nil:
		return s.bestFinding()
	case s.curve.peak.Edge:
		return s.curve.edgeFinding()
	}
	return s.curve.peakFinding()
}

// bestFinding names the best point and how many others may be as good.
func (s *sweep) bestFinding() string {
	best := s.label(s.points[s.best])
	var rivals []string
	second := -1
	for i := range s.points {
		if i == s.best {
			continue
		}
		if s.rival(i) {
			rivals = append(rivals, s.label(s.points[i]))
		}
		if second < 0 || s.behind[i].Difference.Mean > s.behind[second].Difference.Mean {
			second = i
		}
	}
	switch n := len(rivals); {
	case n == 0:
		return fmt.Sprintf("%s delivers most: %s. The next, %s, delivers %s less.", best, s.netRate(s.best), s.label(s.points[second]), say.Size(s.behind[second].Difference))
	case n <= 2:
		return fmt.Sprintf("%s leads with %s. Not shown to be worse: %s.", best, s.netRate(s.best), strings.Join(rivals, "; "))
	default:
		return fmt.Sprintf("%s leads with %s. %d others are not shown to be worse.", best, s.netRate(s.best), n)
	}
}

// enoughFinding names the lowest value that is not shown to be worse than the best.
func (c *curve) enoughFinding() string {
	enough := 0
	for !c.rival(enough) {
		enough++
	}
	text := fmt.Sprintf("At %s the net rate is %s.", c.label(c.points[enough]), c.netRate(enough))
	if enough == len(c.points)-1 {
		return text + fmt.Sprintf(" It is still rising there, by %s from %s: the best may lie beyond.", say.Size(c.changes[enough-1].Difference), c.value(enough-1))
	}
	more, next := gain(c.changes[enough].Difference), c.value(enough+1)
	if c.rival(enough + 1) {
		return text + fmt.Sprintf(" More brings nothing shown: %s from %s to %s.", more, c.value(enough), next)
	}
	return text + fmt.Sprintf(" More does harm: %s from %s to %s.", more, c.value(enough), next)
}

// edgeFinding tells of a net rate that is highest at an end of the range.
func (c *curve) edgeFinding() string {
	way, sign, from, to := "rises", 1.0, 0, c.last // to the best
	if c.best == 0 {
		way, sign, from, to = "falls", -1, c.last, 0
	}
	difference := output.Paired(c.points[from].rates, c.points[to].rates, say.Level).Difference
	all := ""
	if c.monotone(sign) {
		all = " all the way"
	}
	end := " The best may lie beyond."
	switch {
	case c.best > 0 && c.last < len(c.points)-1:
		end = fmt.Sprintf(" Above %s nothing changes.", c.value(c.last))
	case c.best > 0 && c.atCap(c.last):
		end = ""
	}
	low, high := c.value(0), c.value(c.last)
	return fmt.Sprintf("Net rate %s%s with %s from %s to %s: %s at %s, %s above %s.%s",
		way, all, c.vary[0].Path, low, high, c.netRate(to), c.value(to), say.Size(difference), c.value(from), end)
}

// monotone reports whether every step up to the last is shown to go up, or down.
func (c *curve) monotone(sign float64) bool {
	for _, x := range c.changes[:c.last] {
		if !say.Differs(x.Difference) || x.Difference.Mean*sign < 0 {
			return false
		}
	}
	return true
}

func (c *curve) peakFinding() string {
	p, width := *c.peak, (c.peak.High-c.peak.Low)/2
	r := c.vary[0]
	text := fmt.Sprintf("Net rate peaks at %s %s (95 %%: %s to %s). At %s, the best simulated, it is %s.",
		r.Path, placed(r, p.At, width), placed(r, p.Low, width), placed(r, p.High, width), c.value(c.best), c.netRate(c.best))
	if p.Low <= r.Values[0].Number || p.High >= c.reached(c.points[c.last]) && !c.atCap(c.last) {
		text += " The range ends within the interval: the peak may lie beyond."
	}
	return text
}

// placed returns a place between the values of a range as the file would say it, with the
// digits that an interval of the given half-width supports.
func placed(r scenarios.Range, x, half float64) string {
	first := r.Values[0].Text
	half = min(half, math.Abs(x)/10) // or nothing would be left of what is near zero
	switch {
	case r.Unit == "/h":
		return say.Rough(x, half) + "/h"
	case r.Unit != "":
		return say.Rough(x, half) + " " + r.Unit
	case strings.HasSuffix(first, "%"):
		return say.Rough(100*x, 100*half) + "%"
	case strings.Contains(first, "/"):
		return "1/" + say.Rough(1/x, half/(x*x))
	}
	return say.Rough(x, half)
}

// label returns where a point is: "crew.operators 2, crew.walk 10 s".
func (s *sweep) label(p point) string {
	var all []string
	for i, v := range p.values {
		all = append(all, s.vary[i].Path+" "+v.Text)
	}
	return strings.Join(all, ", ")
}

// value returns the value of a point of one path.
func (s *sweep) value(i int) string { return s.points[i].values[0].Text }

// netRate returns the net rate of a point: "13,720 ± 40 good envelopes an hour".
func (s *sweep) netRate(i int) string {
	e := s.points[i].rates.Interval(say.Level)
	return say.PlusMinus(say.Measured(e.Mean, e.Half)) + " good envelopes an hour"
}

// gain returns a difference with its sign: "+310 ± 12".
func gain(e sim.Estimate) string {
	mean, half := say.Measured(e.Mean, e.Half)
	switch nothing := !strings.ContainsAny(mean, "123456789"); {
	case nothing:
		mean = strings.TrimPrefix(mean, "-")
	case e.Mean > 0:
		mean = "+" + mean
	}
	return say.PlusMinus(mean, half)
}

// shownGain returns a difference with its sign, after a ~ if none is shown.
func shownGain(e sim.Estimate) string {
	if say.Differs(e) {
		return gain(e)
	}
	return "~ " + gain(e)
}
