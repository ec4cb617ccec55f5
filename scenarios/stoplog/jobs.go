package stoplog

import (
	"fmt"
	"slices"
	"strings"

	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim/fit"
)

// atSpeed returns the rates of a station at its rated speed, cycles per hour, and how its faults
// grow from there: where they are shown to grow, and the speed is known.
func atSpeed(a *study.FitAnswer, s *study.FitStation, rates []Estimate, rated float64) []Estimate {
	if s.Growth == nil || rated == 0 {
		return rates
	}
	counts := s.CountsAt(rated)
	for i := range rates {
		k := slices.Index(s.As.Rates, rates[i].Key)
		rates[i].Value, rates[i].Comment = counted(a, counts[k])
		rates[i].Comment += ", at " + perHour(rated)
	}
	g := s.Growth
	return append(rates, Estimate{"growth", yamlEstimate(g.Exponent, g.SE, 2, ""), fmt.Sprintf("of all its faults, within jobs; %s: %s to %s", percent(a.Level), shortest(g.Low, 2), shortest(g.High, 2))})
}

// countText returns a count as a scenario has it.
func countText(c study.FitCount) string {
	text := fmt.Sprintf("{seen: %d, of: %d", c.Seen, c.Feeds)
	if c.Counted > 0 {
		text += fmt.Sprintf(", counted: %d", c.Counted)
	}
	return text + "}"
}

// counted returns a count as a scenario has it, and what it says.
func counted(a *study.FitAnswer, c study.FitCount) (value, comment string) {
	value = countText(c)
	switch r, err := fit.NewRate(c.Seen, c.Feeds, a.Level); {
	case err != nil:
		return value, ""
	case c.Seen == 0:
		return value, fmt.Sprintf("none seen: %s, at most 1/%s", percent(a.Level), oneIn(r.AtMost))
	default:
		return value, fmt.Sprintf("1/%s; %s: 1/%s to 1/%s", oneIn(r.P), percent(a.Level), oneIn(r.High), oneIn(r.Low))
	}
}

// Written returns the jobs into which rates of a station are written: those of the scenario, if
// they are shown to differ.
func (t *Target) Written(s *study.FitStation) (jobs []string) {
	if t.KindOf(s.Name) != s.As.Name || strings.Contains(s.Name, ".") { // no path leads to such a name
		return nil
	}
	for _, j := range s.JobsAt(0) {
		if slices.Contains(t.Jobs, j.Job) {
			jobs = append(jobs, j.Job)
		}
	}
	return jobs
}

// jobEdits returns what is written of a station into the jobs of the scenario: the rates of each.
func (t *Target) jobEdits(a *study.FitAnswer, s *study.FitStation, rates []Estimate) (edits []scenarios.Edit) {
	written := t.Written(s)
	for _, j := range s.JobsAt(t.rated(s.Name)) {
		if !slices.Contains(written, j.Job) {
			continue
		}
		for _, e := range rates {
			k := slices.Index(s.As.Rates, e.Key)
			if k < 0 {
				continue
			}
			value, _ := counted(a, j.Counts[k])
			edits = append(edits, scenarios.Edit{Path: "jobs." + j.Job + ".rates." + s.Name + "." + e.Key, Value: value})
		}
	}
	return edits
}

// Unwritten returns the jobs of the log that differ at some station and are no jobs of the
// scenario: their rates are in those of all jobs.
func (t *Target) Unwritten(a *study.FitAnswer) (jobs []string) {
	for i := range a.Stations {
		s := &a.Stations[i]
		if t.KindOf(s.Name) != s.As.Name {
			continue
		}
		for _, j := range s.JobsAt(0) {
			if !slices.Contains(t.Jobs, j.Job) && !slices.Contains(jobs, j.Job) {
				jobs = append(jobs, j.Job)
			}
		}
	}
	return jobs
}

// rated returns the rated speed of a station, 0 if the scenario does not say it by itself.
func (t *Target) rated(station string) float64 {
	for _, s := range t.Stations {
		if speed, err := scenarios.ParseSpeed(s.Rated); s.Name == station && err == nil {
			return speed
		}
	}
	return 0
}

// jobsText returns the rates of jobs as a scenario has them, where they are shown to differ.
func jobsText(a *study.FitAnswer) string {
	var order []string
	entries := map[string][]string{}
	for i := range a.Stations {
		s := &a.Stations[i]
		if Twin(a.Log, s.LogStation) != "" {
			continue
		}
		for _, j := range s.JobsAt(0) {
			var rates []string
			for k, c := range j.Counts {
				if key := s.As.Rates[k]; key != "" {
					value, _ := counted(a, c)
					rates = append(rates, key+": "+value)
				}
			}
			if !slices.Contains(order, j.Job) {
				order = append(order, j.Job)
			}
			entries[j.Job] = append(entries[j.Job], fmt.Sprintf("      %s: {%s}\n", yamlText(s.Name), strings.Join(rates, ", ")))
		}
	}
	if len(order) == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString("# Jobs are shown to differ. For the jobs of a scenario: envelope, inserts and the rest as there.\n" +
		"# Counts of each job at the speeds that it had in the log: they go with no growth.\njobs:\n")
	for _, job := range order {
		fmt.Fprintf(&b, "  - name: %s\n    rates:\n%s", yamlText(job), strings.Join(entries[job], ""))
	}
	return b.String()
}
