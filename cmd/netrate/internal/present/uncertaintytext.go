package present

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/sim"
)

// shownSources is how many of the uncertain inputs have a row on the screen.
const shownSources = 6

// leastSource is the share of the uncertainty below which a number has no row.
const leastSource = 0.01

// found returns what the figure is in the long run and how far that is known, how much of what
// shifts vary by is chance, and what it is at nominal values.
func (d Uncertain) found(nominal sim.Estimate) fact {
	below, above := UncertaintyEnds(d.singles())
	word, longRun := page.Period(d.Study.Line), fromTo(UncertaintyEnds(d.longRun()))
	mean := d.mean()
	f := fact{"Net rate", []string{fmt.Sprintf("%s good envelopes an hour in the long run (95 %%: %s)", mean, longRun)}}
	if d.Job {
		f = fact{"Finished", []string{fmt.Sprintf("after %s h in the long run (95 %%: %s)", mean, longRun)}}
	}
	f.says = append(f.says,
		spreadWords(d.Study.Line, below, above),
		fmt.Sprintf("Variance of %ss: %s (%s to %s) from %s", word, uncertainShare(d.Share.Share), uncertainShare(d.Share.Low),
			uncertainShare(d.Share.High), say.Plural(len(d.Study.Line.UncertainInputs), "uncertain input")),
		"At nominal values: "+say.PlusMinus(say.Measured(nominal.Mean, nominal.Half)))
	return f
}

// mean returns the mean over the draws, with the digits that its interval bears.
func (d Uncertain) mean() string {
	mean, _ := say.Measured(d.UncertainFigure.All.Mean(), d.Half())
	return mean
}

// Text says what the uncertainty comes of.
func (d Uncertain) Text() string {
	table := d.Table(d.shown())
	text := say.Wrapped(d.MoreData()+fmt.Sprintf(" Drawn %s times.", say.Thousands(d.Draws)), say.Prose())
	if len(table.Rows) == 0 {
		return text
	}
	return brief(table) + text
}

// shown returns the sources that have a row on the screen.
func (d Uncertain) shown() []study.UncertaintySource {
	n := 0
	for n < min(len(d.Sources), shownSources) && d.Sources[n].Share >= leastSource {
		n++
	}
	return d.Sources[:n]
}

// observations returns how many there are to be of something.
func observations(m *study.Measurement, to study.MeasuredTo) string {
	n := float64(to.Observations)
	if n == 1 {
		return "1 " + strings.TrimSuffix(m.What, "s")
	}
	if n < 100 {
		return say.Rounded(n, 0) + " " + m.What
	}
	return say.TwoDigits(n) + " " + m.What
}

// lineHours says how long a line must run, or "" if that is not known.
func lineHours(hours study.Number) string {
	switch h := float64(hours); {
	case math.IsNaN(h) || math.IsInf(h, 0):
		return ""
	case h < 1:
		return " (" + say.FewDigits(60*h) + " minutes of its line)"
	case h < 20:
		return " (" + say.FewDigits(h) + " h of its line)"
	default:
		return " (" + say.FewDigits(h/8) + " shifts of 8 h of its line)"
	}
}

// uncertainShare returns a share of what is uncertain.
func uncertainShare(share study.Number) string { return say.Percent(float64(share), 0.01) }

// mostMeasured is the most sources that are to be measured together.
const mostMeasured = 3

// speeds returns the sources that a job at two speeds would narrow, the largest share first.
func (d Uncertain) speeds() (all []study.UncertaintySource) {
	for _, s := range d.Sources {
		if s.Input.Name == "growth" && float64(s.Share) >= leastSource {
			all = append(all, s)
		}
	}
	return all
}

// MoreData says what to measure first, how long, and what that buys.
func (d Uncertain) MoreData() string {
	if len(d.Sources) == 0 {
		return fmt.Sprintf("Too few draws to tell which of them matter: %s or more would.", "--uncertainty "+say.Thousands(2*len(d.Study.Line.UncertainInputs)+3))
	}
	all := d.Measured(leastSource)
	narrowing := slices.DeleteFunc(slices.Clone(all), func(s study.UncertaintySource) bool {
		return knownTo(float64(s.Measure.Half.LongRun)) == knownTo(d.Half())
	})
	if speeds := d.speeds(); len(speeds) > 0 && (len(narrowing) == 0 || narrowing[0].Share < speeds[0].Share) {
		return fmt.Sprintf("Run one job at two speeds first, and log both: %s of the uncertainty comes from %s. No count or time of anything else would narrow it as much.",
			uncertainShare(speeds[0].Share), d.called(speeds[0].Input))
	}
	switch {
	case len(all) > 0 && len(narrowing) == 0:
		return fmt.Sprintf("Nothing is worth measuring by itself: with the uncertainty of %s halved the interval would still be %s.", d.called(all[0].Input), knownTo(float64(all[0].Measure.Half.LongRun)))
	case len(all) == 0:
		return "None of what makes up the uncertainty can be counted or timed: only better knowledge of it narrows the interval."
	}
	all = narrowing
	first := all[0]
	m := first.Measure
	text := fmt.Sprintf("Measure first %s: %s%s would halve its uncertainty, and the interval would be %s%s, not %s; %s%s would leave a tenth of it, and %s.",
		d.called(first.Input), observations(m, m.Half), lineHours(m.Half.Hours), knownTo(float64(m.Half.LongRun)), d.unit(), knownTo(d.Half()),
		observations(m, m.Tenth), lineHours(m.Tenth.Hours), knownTo(float64(m.Tenth.LongRun)))
	if all = all[:min(len(all), mostMeasured)]; len(all) > 1 {
		var names []string
		for _, s := range all {
			names = append(names, d.called(s.Input))
		}
		text += fmt.Sprintf(" With the uncertainty of %s halved it would be %s.", strings.Join(names, "; "), knownTo(d.HalfMeasured(all)))
	}
	return text
}
