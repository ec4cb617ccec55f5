package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// ranThrough says of how many planned stops the log says too that the line ran.
func (f Fit) ranThrough() string {
	n := f.RanThrough()
	if n == 0 {
		return ""
	}
	return fmt.Sprintf(" In the middle of %d of them other stops began: the line is taken to have run then.", n)
}

// Notes returns what qualifies the figures, in sentences.
func (f Fit) Notes() []string {
	var text []string
	for _, first := range []string{f.Log.narrowed(), f.Log.netRates(f.DayStarts), f.taken()} {
		if first != "" {
			text = append(text, first)
		}
	}
	text = append(text,
		"Only what stopped the line is in a stop log: doubles that nobody noticed and sets that a gate took out are not in these rates.")
	text = append(text, f.lengthNotes()...)
	others := 0
	for i := range f.Stations {
		text = append(text, stationNotes(&f.Stations[i])...)
		others += f.Stations[i].Others
	}
	others -= f.Nameless().Stops // shared out
	if untimed := f.Log.untimed(); untimed != "" {
		text = append(text, untimed)
	}
	if nights := f.Log.midnights(f.DayStarts); nights != "" {
		text = append(text, nights)
	}
	if n, stood := f.Log.Planned(); n > 0 {
		text = append(text, fmt.Sprintf("%s, a break, a changeover or the like, for %s min: set apart%s.%s", say.Plural(n, "planned stop"), say.Exact(float64(stood)/60), byCause(f.Log.PlannedByCause()), f.ranThrough()))
		others -= n - len(f.Log.OfLine)
	}
	if others > 0 {
		text = append(text, fmt.Sprintf("%s for stocks, other causes or what is no fault of such a station: not in the rates%s.%s", say.Plural(others, "stop"), byCause(f.OthersByCause()), f.Log.unknownCauses()))
	}
	return text
}

// mostCauses is how many causes of what is set aside are named.
const mostCauses = 6

// byCause returns what stops were for, the longest first, each with its number and its minutes.
func byCause(all []study.LogStood) string {
	var parts []string
	stops, seconds := 0, 0.0
	for i, c := range all {
		if i >= mostCauses {
			stops, seconds = stops+c.Stops, seconds+float64(c.Seconds)
			continue
		}
		name := c.Called
		if name == "" {
			name = "no cause"
		}
		parts = append(parts, fmt.Sprintf("%s %s × in %s min", name, say.Thousands(c.Stops), say.Rounded(float64(c.Seconds)/60, 0)))
	}
	if stops > 0 {
		parts = append(parts, fmt.Sprintf("the rest %s × in %s min", say.Thousands(stops), say.Rounded(seconds/60, 0)))
	}
	if len(parts) == 0 {
		return ""
	}
	return ": " + strings.Join(parts, ", ")
}

// lengthNotes say what the lengths of the log hold besides the work of clearing.
func (f Fit) lengthNotes() []string {
	attended := 0
	for i := range f.Stations {
		attended += f.Stations[i].Clearing.Attended
	}
	if attended > 0 {
		return []string{fmt.Sprintf("Where the log says when an operator was there, %s, clearing times are from then on: walk and the wait for somebody free are those of the scenario.", say.Plural(attended, "stop"))}
	}
	return []string{
		"The lengths are those of the log, with walk and restart if it counts them; in a scenario these come on top.",
		"They also include the wait for a free operator, which the simulation adds again: with one busy operator a few percent of the standing time, which --into measures. A column arrival, when an operator was there, takes it out.",
	}
}

// taken says what the stations were taken for where no flag says it.
func (f Fit) taken() string {
	var parts []string
	for _, kind := range f.Log.Kinds {
		var names []string
		for _, s := range f.Stations {
			if s.Kind == "" && s.As.Name == kind.Name {
				names = append(names, s.Name)
			}
		}
		if len(names) > 0 {
			parts = append(parts, "for "+kind.Name+"s: "+say.List(names))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "Taken, by their stops, " + strings.Join(parts, "; ") + ". Where that is wrong --kind says what they are."
}

// chanceOf returns a P with what stands before it.
func chanceOf(p float64) string {
	if p < 0.0001 {
		return "below 0.0001"
	}
	return "= " + say.Rounded(p, -4)
}

// stationNotes returns what qualifies the figures of a station.
func stationNotes(s *study.FitStation) []string {
	var text []string
	add := func(format string, args ...any) { text = append(text, s.Name+": "+fmt.Sprintf(format, args...)) }
	c, known := &s.Clearing, s.As.Name != ""
	if s.Feeds == 0 && known {
		add("its feeds are not counted, so there are no rates.")
	}
	if !known && len(s.Stops) == 0 {
		add("no stop; --kind says what it is, so that its rates can be written.")
	}
	if known {
		switch {
		case c.Chosen == nil:
			add("no clearing time, %s.", c.None)
		case c.Misfits():
			add("not even the %s fits the lengths; their own values, as empirical, may serve better. AIC of the others: %s.", c.Chosen.Kind, ranking(c))
		default:
			add("AIC of the other kinds, against the %s: %s.", c.Chosen.Kind, ranking(c))
		}
	}
	if s.ByFault.Shown() {
		add("its faults are shown to take different times (Kruskal and Wallis, P %s): a scenario gets a time for each, which was not tested.", chanceOf(s.ByFault.Ranks.P))
	}
	if c.Step > 0 && c.Chosen != nil {
		add("its lengths are whole minutes, and were fitted as what is rounded to these; the fit was not tested.")
	}
	if c.CutOff > 0 && c.Chosen != nil {
		add("%s cut off, which lasted as long as is written or longer; the fit was not tested.", say.Plural(c.CutOff, "stop"))
	}
	if c.Zeros > 0 {
		add("%s of no length not in the clearing time.", say.Plural(c.Zeros, "stop"))
	}
	for _, f := range s.Faults {
		if f.Jobs != nil && f.Jobs.Unsaid > 0 {
			add("%s for %s that name no job are shared out among the jobs in proportion.", say.Plural(f.Jobs.Unsaid, "stop"), f.Called)
		}
		if f.Speeds != nil && f.Speeds.Unsaid > 0 && (f.Jobs == nil || f.Jobs.Unsaid != f.Speeds.Unsaid) {
			add("%s for %s that name no speed are shared out among the speeds in proportion.", say.Plural(f.Speeds.Unsaid, "stop"), f.Called)
		}
		if f.Jobs != nil && f.Jobs.Outside > 0 {
			add("%s for %s in jobs that have no feeds.", say.Plural(f.Jobs.Outside, "stop"), f.Called)
		}
		if f.Speeds != nil && f.Speeds.Outside > 0 {
			add("%s for %s at speeds that have no feeds.", say.Plural(f.Speeds.Outside, "stop"), f.Called)
		}
		if f.NoGrowth != "" {
			add("no growth of %s with the speed: %s.", f.Called, f.NoGrowth)
		}
	}
	return text
}

// ranking returns the kinds that were not chosen, with how far they lie behind by AIC.
func ranking(c *study.FitClearing) string {
	var others []string
	for _, k := range c.Kinds.Candidates {
		if k.Kind != c.Chosen.Kind {
			others = append(others, fmt.Sprintf("%s %+.1f", k.Kind, k.AIC()-c.Chosen.AIC()))
		}
	}
	return say.List(others)
}
