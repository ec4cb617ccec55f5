package study

import (
	"slices"
	"time"

	"netrate/sim"
)

// LogOutput is what the counts say that the line delivered of one job.
type LogOutput struct {
	Job     string // "" where the counts name none
	Good    int64
	Hours   float64 // of its periods without what was planned in them; 0 if that is not known
	Periods int     // which had this job alone
	Each    time.Duration
}

// Rate returns the good envelopes an hour; 0 if the hours are not known.
func (o LogOutput) Rate() float64 {
	if o.Hours <= 0 {
		return 0
	}
	return float64(o.Good) / o.Hours
}

// countedPeriod is a period of the counts.
type countedPeriod struct {
	begins time.Time
	jobs   []string
	good   int64
}

// Output returns what the line delivered of each job, where the counts say how much of it was good: in
// the periods that had this job alone, as they were met. How long a period is, is the shortest time
// between two that begin on one day; of a job whose periods have no beginning the hours are not known.
func (l *Log) Output(dayStarts time.Duration) (all []LogOutput) {
	periods := l.periods(dayStarts)
	each := shortest(periods)
	for _, p := range periods {
		if len(p.jobs) != 1 || p.good == 0 {
			continue
		}
		i := slices.IndexFunc(all, func(o LogOutput) bool { return o.Job == p.jobs[0] })
		if i < 0 {
			i = len(all)
			all = append(all, LogOutput{Job: p.jobs[0], Each: each})
		}
		o := &all[i]
		o.Good, o.Periods = o.Good+p.good, o.Periods+1
		if each > 0 {
			o.Hours += each.Hours() - l.plannedIn(p.begins, each)
		}
	}
	for _, stop := range l.planned() {
		if stop.Untimed { // in which period is not known to the minute
			for i := range all {
				all[i].Hours = 0
			}
		}
	}
	return all
}

// periods returns the periods of the counts in which something was fed, as they were met.
func (l *Log) periods(dayStarts time.Duration) (all []countedPeriod) {
	type key struct {
		day           time.Time
		period, shift string
	}
	place := map[key]int{}
	for _, s := range l.Stations {
		for _, c := range s.Counts {
			if c.Feeds == 0 {
				continue
			}
			k := key{c.Day, c.Period, c.Shift}
			i, met := place[k]
			if !met {
				i = len(all)
				place[k] = i
				all = append(all, countedPeriod{begins: beginOf(&c, dayStarts)})
			}
			if all[i].good += c.Good; !slices.Contains(all[i].jobs, c.Job) {
				all[i].jobs = append(all[i].jobs, c.Job)
			}
		}
	}
	return all
}

// beginOf returns when the period of a count began; the zero time if that is not known. An hour before
// the day starts is of the night after it.
func beginOf(c *LogCount, dayStarts time.Duration) time.Time {
	clock, err := time.Parse("15:04", c.Period)
	switch {
	case c.Day.IsZero() || err != nil:
		return time.Time{}
	case c.Day.Hour() != 0 || c.Day.Minute() != 0: // a moment
		return c.Day
	}
	at := time.Duration(clock.Hour())*time.Hour + time.Duration(clock.Minute())*time.Minute
	if at < dayStarts {
		at += 24 * time.Hour
	}
	return c.Day.Add(at)
}

// shortest returns the shortest time between the beginnings of two periods, which is how long one is; 0
// if some have none.
func shortest(periods []countedPeriod) (each time.Duration) {
	var begins []time.Time
	for _, p := range periods {
		if p.begins.IsZero() {
			return 0
		}
		begins = append(begins, p.begins)
	}
	slices.SortFunc(begins, time.Time.Compare)
	for i := 1; i < len(begins); i++ {
		if gap := begins[i].Sub(begins[i-1]); gap > 0 && (each == 0 || gap < each) {
			each = gap
		}
	}
	return each
}

// plannedIn returns for how many hours of a period the line was meant to stand.
func (l *Log) plannedIn(begins time.Time, each time.Duration) float64 {
	var stood sim.Seconds
	for _, stop := range l.planned() {
		from, to := stop.When, stop.When.Add(time.Duration(float64(stop.Seconds)*float64(time.Second)))
		if from.Before(begins) {
			from = begins
		}
		if end := begins.Add(each); to.After(end) {
			to = end
		}
		stood += sim.Seconds(max(0, to.Sub(from).Seconds()))
	}
	return min(each.Hours(), float64(stood)/3600)
}
