package learn

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// notes returns what qualifies the comparison, in sentences: first how it is to be read,
// then what was simulated, then what was left out.
func (x *against) notes() []string {
	return slices.Concat(x.readingNotes(), x.workNotes(), x.leftOutNotes())
}

func (x *against) readingNotes() []string {
	text := []string{"The tests allow for each other (Holm, 5 %). Single rows do not: one in twenty lies outside by chance."}
	known := "If the rates come from this log, its stops agree by construction, its seconds nearly (they hold the wait for somebody free, which the simulation adds again)"
	if len(x.tests) > 2 {
		usual := "Where " + x.word + "s differ, 1 is what chance makes on average"
		if len(x.line.Doubts) > 0 {
			usual += " in one line; less here, as what is in doubt is drawn anew too"
		}
		text = append(text, usual+".")
		text = append(text, known+"; how "+x.word+"s differ need not. Bursts shorter than a "+x.word+" are not seen here: netrate fit looks for them.")
	} else {
		text = append(text, known+". With one "+x.word+" alone nothing can be said of how "+x.word+"s differ.")
	}
	if least := x.leastP(); least > usualP/float64(len(x.tests)) {
		text = append(text, fmt.Sprintf("So few records cannot put a test out of line: %d are the least that can.", int(2*float64(len(x.tests))/usualP)-1))
	}
	stops, seconds := x.tests[model.AllStops], x.tests[model.AllSeconds]
	longer := seconds.Log*stops.Simulated.Mean() < seconds.Simulated.Mean()*stops.Log // a stop, in the simulation
	if seconds.Out && longer && (x.line.Restart.Mean() > 0 || x.line.Crew.Walk.Mean() > 0) {
		text = append(text, "Simulated stops are longer than those of the log. The scenario has walk or restart besides its clearing times: if those are whole stops, as a log has them, they count twice.")
	}
	return text
}

// workNotes say what was simulated.
func (x *against) workNotes() []string {
	sets := int64(0)
	for _, p := range x.periods {
		sets += p.Sets
	}
	var text []string
	if narrowed := x.records.narrowed(); narrowed != "" {
		text = append(text, narrowed)
	}
	text = append(text, fmt.Sprintf("The work is what %s handled: %s in %s, each begun with full hoppers.%s", x.worker, say.Plural(sets, "set"), say.Plural(len(x.periods), x.word), x.speeds()))
	if len(x.line.Doubts) > 0 {
		text = append(text, "What is in doubt in the scenario was drawn anew for each record.")
	}
	if share := x.handled(); share < 0.99 || share > 1.01 {
		text = append(text, fmt.Sprintf("Simulated, %s handled %s of these: so much work was compared.", x.worker, say.Percent(share, 0)))
	}
	return text
}

// handled returns how many of the sets the station that they are counted at handles in the
// simulation; 1 if the line does not have it.
func (x *against) handled() float64 {
	for i, s := range x.line.Stations {
		if s.Where().Name != x.worker {
			continue
		}
		feeds, sets := 0.0, 0.0
		for _, r := range x.drawn {
			feeds += float64(r.Feeds[i])
		}
		for _, p := range x.periods {
			sets += float64(p.Sets)
		}
		return feeds / sets / float64(len(x.drawn))
	}
	return 1
}

// speeds says at what speeds the periods were simulated, if not all at that of the scenario.
func (x *against) speeds() string {
	own, mixed, slow := 0, 0, 0
	for _, p := range x.periods {
		switch {
		case len(p.said) > 1:
			mixed++
		case p.Speed > 0:
			own++
			line := x.line
			if line.Speed = p.Speed; line.RunSpeed() < p.Speed {
				slow++
			}
		}
	}
	text := ""
	if own > 0 {
		text += fmt.Sprintf(" %s at a speed of %s own", say.Capital(say.Plural(own, x.word)), map[bool]string{true: "its", false: "their"}[own == 1])
		if slow > 0 {
			text += fmt.Sprintf(", %d no faster than the stations are rated", slow)
		}
		text += "."
	}
	if mixed > 0 {
		text += fmt.Sprintf(" %s had several speeds, simulated at that of the scenario, %s/h.", say.Capital(say.Plural(mixed, x.word)), say.Exact(x.line.RunSpeed()))
	}
	return text
}

// leftOutNotes say what is not compared.
func (x *against) leftOutNotes() []string {
	var text, uncounted []string
	for i, s := range x.line.Stations {
		if x.out[i] {
			uncounted = append(uncounted, s.Where().Name)
		}
	}
	if len(uncounted) > 0 {
		text = append(text, fmt.Sprintf("Left out on both sides, as their feeds are not counted: %s.", say.List(uncounted)))
	}
	if names := x.left.named(); len(names) > 0 {
		text = append(text, "Not in the scenario, and left out: "+say.List(names)+".")
	}
	if !x.stocks {
		text = append(text, "The log has no stops for stocks used up, so these are left out on both sides.")
	}
	if page.HasChannel(&x.line) {
		text = append(text, "Stops for want of a document are left out on both sides.")
	}
	var parts []string
	add := func(n int, why string) {
		if n > 0 {
			parts = append(parts, say.Plural(n, "stop")+" "+why)
		}
	}
	add(x.left.before, "before the first "+x.word)
	add(x.left.idle, fmt.Sprintf("on %ss without work", x.word))
	add(x.left.uncounted, "at stations whose feeds are not counted")
	add(x.left.others, "for what is no fault or stock of such a station")
	if len(parts) > 0 {
		text = append(text, "Left out of the log: "+strings.Join(parts, "; ")+"."+x.records.unknownCauses())
	}
	if x.left.cut > 0 {
		text = append(text, say.Plural(x.left.cut, "stop")+" of the log cut off: with the time that is written.")
	}
	return text
}
