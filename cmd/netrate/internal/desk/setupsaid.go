package desk

import (
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/setup"
	"netrate/model/study"
)

// SpeedNotes says which speeds are asked for that lines cannot reach, on lines of their own; "" if
// there are none.
func SpeedNotes(of ...study.Alternative) string {
	var text strings.Builder
	for _, note := range SpeedsNotReached(of...) {
		text.WriteString(say.Wrapped(note, say.Prose()))
	}
	return text.String()
}

// SpeedsNotReached says which speeds are asked for that lines cannot reach, a sentence for each. Lines of which the
// same is true stand together.
func SpeedsNotReached(of ...study.Alternative) []string {
	var notes []string
	names := map[string][]string{}
	for i := range of {
		for _, u := range of[i].Unreached() {
			allow := " allow."
			if len(u.LimitedBy) == 1 {
				allow = " allows."
			}
			note := say.Exact(u.Speed) + "/h, the most that " + say.List(u.LimitedBy) + allow
			what := u.Line
			switch {
			case len(of) == 1 && what == "":
				what = "the line"
			case len(of) > 1:
				what = strings.TrimSpace(what + " of " + of[i].InWords())
				what = strings.TrimPrefix(what, "of ")
			}
			note = say.Exact(u.Asked) + "/h are asked for: %s at " + note
			if names[note] == nil {
				notes = append(notes, note)
			}
			names[note] = append(names[note], what)
		}
	}
	for i, note := range notes {
		runs := " runs"
		if len(names[note]) > 1 {
			runs = " run"
		}
		notes[i] = strings.Replace(note, "%s", say.List(names[note])+runs, 1)
	}
	return notes
}

// SetUpFor says what lines were set up for, on lines of their own; "" if they are as they stand.
func SetUpFor(setups []*setup.Setup, lines []*model.Line) string {
	var text strings.Builder
	for i, s := range setups {
		line := "Set up for the job " + s.Product.Name
		if len(setups) > 1 {
			line = lines[i].Name + " set up for the job " + s.Product.Name
		}
		line += ": " + say.Exact(s.Fit.Speed) + "/h, set by " + strings.Join(s.Fit.LimitedBy, ", ")
		for _, l := range s.Fit.Feeders {
			line += "; " + l.Insert + " in " + l.Feeder
		}
		text.WriteString(say.Wrapped(line+".", say.Prose()))
		for _, note := range s.Fit.Notes {
			text.WriteString(say.Wrapped("Note: "+note+".", say.Prose()))
		}
	}
	return text.String()
}

// AtJobs says at which jobs a line works, on lines of their own; "" if it has one kind of work.
func AtJobs(mix *runs.Mix) string {
	if mix == nil {
		return ""
	}
	var jobs []string
	for _, s := range mix.Setups {
		jobs = append(jobs, s.Product.Name)
	}
	return say.Wrapped("At "+say.List(jobs)+", each in its share of the yearly volumes and with the line set up for it; changeovers are not in it.", say.Prose())
}
