package present

import (
	"math"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// timeTable returns where the time goes, and what of its own the crew is busy.
func timeTable(s *runs.Study) plots.Table {
	word, channel, closing := page.Period(s.Line), study.HasChannel(s.Line), s.Line.Job.Closing != model.Open
	t := plots.Table{
		Name: "Time", Caption: "Where the time of a " + word + " goes, means with 95 % intervals; and of the crew’s own what it is busy, walking included",
		Columns: append([]plots.Column{
			{Title: "Time", Brief: "Time of a " + word},
			{Title: "Share", Kind: plots.Share, Decimals: 1, Brief: "share"},
		}, estimateColumns(plots.Column{Title: "Minutes", Unit: "a " + word, Kind: plots.Number, Brief: "minutes"})...),
	}
	operators := s.Line.Crew.Attending(s.Line.Shift)
	row := func(name string, of func(*runs.Shift) float64) {
		e := s.Interval(func(s *runs.Shift) float64 { return of(s) / 60 }, say.Level)
		share, half := 60*e.Mean/study.Length(s), 60*e.Half/study.Length(s)
		t.Rows = append(t.Rows, append([]plots.Entry{page.Words(name), {Number: share, Shown: say.Percent(share, half)}}, estimated(e)...))
	}
	row("running", func(s *runs.Shift) float64 { return s.Running })
	if s.Line.Slow.Given() {
		row("of it, for slow cycles", func(s *runs.Shift) float64 { return s.Slow })
	}
	row("waiting and walking", func(s *runs.Shift) float64 { return s.Waiting })
	at := "operator at work"
	if s.Line.BreaksDown() {
		at = "people at work"
	}
	row(at, func(s *runs.Shift) float64 { return s.Working })
	row("restarting", func(s *runs.Shift) float64 { return s.Restarting })
	if s.Line.Crew.StandsForBreaks() {
		row("on breaks", func(s *runs.Shift) float64 { return s.Breaks })
	}
	if channel {
		row("channel too slow", func(s *runs.Shift) float64 { return s.Starved })
	}
	if closing {
		row("closing remakes", study.Closing)
	}
	row(crewWords(&s.Line.Crew)+", busy", func(s *runs.Shift) float64 { return s.CrewBusy / operators })
	if faults, _ := study.CrewParts(s); !channel || !closing { // then a screen has the room
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words("of it, with faults"),
			{Number: faults, Shown: say.Percent(faults, 0)},
			{Number: faults * study.Length(s) / 60, Shown: say.Rough(faults*study.Length(s)/60, 0.1)},
			page.Value(math.NaN()),
		})
	}
	return t
}

// crewWords names a crew in one cell.
func crewWords(c *model.Crew) string {
	if c.Varies() {
		return "crew"
	}
	return "crew of " + say.Thousands(c.Operators)
}

// setsTable returns where the sets go.
func setsTable(s *runs.Study) plots.Table {
	word := page.Period(s.Line)
	caption := "What became of the sets of a " + word + ", means with 95 % intervals"
	if s.Total.Sets.Defective == 0 && !s.Line.CanLeak() {
		caption += "; none possible: in this model no fault makes a defective envelope"
	}
	t := plots.Table{
		Name: "Sets", Caption: caption,
		Columns: append(append([]plots.Column{{Title: "Sets", Brief: "Sets"}},
			estimateColumns(plots.Column{Title: "Sets", Unit: "a " + word, Kind: plots.Number, Brief: "a " + word})...),
			plots.Column{Title: "Share", Unit: "per 1,000", Kind: plots.Number, Decimals: 2, Brief: "per 1,000"}),
	}
	row := func(name string, of func(*runs.Shift) float64) {
		part := study.PerThousand(s, of)
		sets := append(estimated(s.Interval(of, say.Level)), page.Bearing(part.Mean, part.Half))
		if name == "defective" {
			sets = defectiveSets(s, sets)
		}
		t.Rows = append(t.Rows, append([]plots.Entry{page.Words(name)}, sets...))
	}
	row("good", func(s *runs.Shift) float64 { return s.Good })
	row("defective", func(s *runs.Shift) float64 { return s.Defective })
	row("diverted", func(s *runs.Shift) float64 { return s.Diverted })
	row("outsorted", func(s *runs.Shift) float64 { return s.Outsorted })
	row("spoiled", func(s *runs.Shift) float64 { return s.Spoiled })
	if s.Line.Job.Sets == 0 {
		row("on the line", func(s *runs.Shift) float64 { return s.OnLine })
	}
	if s.Line.Personalised() {
		row("remakes", func(s *runs.Shift) float64 { return s.Remakes })
	}
	return t
}

// defectiveSets returns what is known of defective sets where their mean with its ± does not say
// it: none was seen, or so few that ± would reach below none.
//
// Where none of n was seen, their share is below 3/n, with a confidence of 95 %. Source: Hanley
// and Lippman-Hand, If nothing goes wrong, is everything all right?, JAMA 249 (1983) 1743–1745
// (from memory).
func defectiveSets(s *runs.Study, counted []plots.Entry) []plots.Entry {
	exact := figureEntries(s, runs.Figure{Name: "defective", Of: func(s *runs.Shift) float64 { return s.Defective }})
	switch {
	case s.Total.Sets.Defective > 0 && exact[1].Text != "" && len(s.Shifts) > 1:
		counted[0].Shown = exact[1].Text
	case s.Total.Sets.Defective > 0:
	case !s.Line.CanLeak():
		counted[0].Text, counted[2].Text = "none possible", "–"
	case s.Total.Sets.Good < 6:
		counted[0].Text, counted[2].Text = "none seen", "–"
	default:
		counted[0].Text, counted[2].Text = "none seen", "<"+strings.TrimPrefix(say.FewDigits(3000/float64(s.Total.Sets.Good)), "<")
	}
	return counted
}
