package present

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
)

// Notes returns what qualifies the comparison, in sentences: first how it is to be read, then
// what was simulated, then what was left out.
func (p Replay) Notes() []string {
	return slices.Concat(p.readingNotes(), p.workNotes(), p.leftOutNotes())
}

func (p Replay) readingNotes() []string {
	text := []string{"The tests allow for each other (Holm, 5 %). Single rows do not: one in twenty lies outside by chance."}
	known := "If the rates come from this log, its stops agree by construction, its seconds nearly so (they include the wait for a free operator, which the simulation adds again)"
	if len(p.Tests) > 2 {
		usual := "Where " + p.Period + "s differ, 1 is what chance makes on average"
		if len(p.Line.UncertainInputs) > 0 {
			usual += " in one line; less here, as the uncertain inputs are drawn anew too"
		}
		text = append(text, usual+".")
		text = append(text, known+"; how "+p.Period+"s differ need not. Bursts shorter than a "+p.Period+" are not seen here: netrate fit looks for them.")
	} else {
		text = append(text, known+". With one "+p.Period+" alone nothing can be said of how "+p.Period+"s differ.")
	}
	if rates := p.Log.netRates(p.DayStarts()); rates != "" {
		text = append(text, rates)
	}
	if p.TooFew() {
		text = append(text, fmt.Sprintf("With this number of records no test can be out of line: it takes %d or more.", p.Enough()))
	}
	if p.TimeTwice() {
		text = append(text, "Simulated stops are longer than those of the log. The scenario has walk or restart besides its clearing times: if those are whole stops, as a log has them, they count twice.")
	}
	return text
}

// workNotes say what was simulated.
func (p Replay) workNotes() []string {
	var text []string
	if narrowed := p.Log.narrowed(); narrowed != "" {
		text = append(text, narrowed)
	}
	text = append(text, fmt.Sprintf("The work is what %s handled: %s in %s, each begun %s.%s", p.Work, say.Plural(p.Sets(), "set"), say.Plural(len(p.Periods), p.Period), p.Line.Begins.OfJob(), p.speeds()))
	if untimed := p.Log.untimed(); untimed != "" {
		text = append(text, untimed)
	}
	if nights := p.Log.midnights(p.DayStarts()); nights != "" {
		text = append(text, nights)
	}
	text = append(text, p.stationNotes()...)
	if len(p.Line.UncertainInputs) > 0 {
		text = append(text, "The uncertain inputs of the scenario were drawn anew for each record.")
	}
	text = append(text, p.spreadNotes()...)
	if share := p.Handled(); share < 0.99 || share > 1.01 {
		text = append(text, fmt.Sprintf("Simulated, %s handled %s of these: that share of the work was compared.", p.Work, say.Percent(share, 0)))
	}
	return text
}

// spreadNotes say how lots and days were simulated, where the line has them.
func (p Replay) spreadNotes() (text []string) {
	if p.Line.SpreadGiven() {
		text = append(text, fmt.Sprintf("Lots and days differ as the scenario says: each %s is a good or a bad day for all that was made in it, and lots go on from one %s into the next.", p.Period, p.Period))
	}
	if len(p.Line.Days.Drift) > 0 {
		text = append(text, fmt.Sprintf("The drift of a day begins anew with each job and each speed of a %s.", p.Period))
	}
	return text
}

// stationNotes say how the line was set up for the work, if not as it stands.
func (p Replay) stationNotes() (text []string) {
	if setUp, not := p.Jobs(); len(setUp) > 0 {
		text = append(text, "The line was set up for "+say.List(setUp)+", as the scenario has them.")
		if len(not) > 0 {
			text = append(text, "No jobs of the scenario, or none that the line can run, and simulated on the line as it stands: "+say.List(not)+".")
		}
	}
	idle, parts := p.Parted()
	if len(idle) > 0 {
		text = append(text, "Taken out in the work in which they fed nothing: "+say.List(idle)+".")
	}
	if len(parts) > 0 {
		text = append(text, "With the share of the sets that they fed in some work: "+say.List(parts)+".")
	}
	return text
}

// speeds says at what speeds the periods were simulated, if not all at that of the scenario.
func (p Replay) speeds() string {
	n, text := p.Speeds(), ""
	if n.Own > 0 {
		text += fmt.Sprintf(" %s at a speed of %s own", say.Plural(n.Own, p.Period), map[bool]string{true: "its", false: "their"}[n.Own == 1])
		if n.Slow > 0 {
			text += fmt.Sprintf(", %d no faster than the stations are rated", n.Slow)
		}
		text += "."
	}
	if n.Mixed > 0 {
		text += fmt.Sprintf(" %s had several speeds, each part simulated at its own.", say.Plural(n.Mixed, p.Period))
	}
	return text
}

// leftOutNotes say what is not compared.
func (p Replay) leftOutNotes() []string {
	var text []string
	if names := p.LeftOut(); len(names) > 0 {
		text = append(text, fmt.Sprintf("Left out on both sides, as their feeds are not counted: %s.", say.List(names)))
	}
	if names := p.strangers(); len(names) > 0 {
		text = append(text, "Not in the scenario, and left out: "+say.List(names)+".")
	}
	if !p.Stocks {
		text = append(text, "The log has no stops for stocks used up, so these are left out on both sides.")
	}
	if page.HasChannel(p.Line) {
		text = append(text, "Stops for a channel too slow are left out on both sides.")
	}
	var parts []string
	add := func(n int, why string) {
		if n > 0 {
			parts = append(parts, say.Plural(n, "stop")+" "+why)
		}
	}
	add(p.Left.Before, "before the first "+p.Period)
	add(p.Left.Idle, fmt.Sprintf("on %ss without work", p.Period))
	add(p.Left.Uncounted, "at stations whose feeds are not counted")
	add(p.Left.Others, "for what is no fault or stock of such a station")
	if len(parts) > 0 {
		text = append(text, "Left out of the log: "+strings.Join(parts, "; ")+"."+p.Log.unknownCauses())
	}
	if p.Shared > 0 {
		text = append(text, say.Plural(p.Shared, "stop")+" of the log without a cause: counted at their stations, shared out among the causes there in proportion.")
	}
	if p.Left.CutOff > 0 {
		text = append(text, say.Plural(p.Left.CutOff, "stop")+" of the log cut off: with the time that is written.")
	}
	return text
}

// strangers returns the stations that the line does not have with their stops, those with the
// most first.
func (p Replay) strangers() (names []string) {
	of := p.Left.Strangers
	for name := range of {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int { return cmp.Or(of[b]-of[a], cmp.Compare(a, b)) })
	for i, name := range names {
		said := "no stop"
		if n := of[name]; n > 0 {
			said = say.Plural(n, "stop")
		}
		names[i] = fmt.Sprintf("%s (%s)", name, said)
	}
	return names
}
