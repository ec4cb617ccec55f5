package study

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"netrate/sim/fit"
)

// Stops that name only the hour or the shift that they were in are looked through for bursts in the
// numbers of stops of each: by work, as others are, in the order of the counts. What is much shorter
// than such a period is not seen.

// FitPeriods is the periods in which the stops of a station were counted, as they name no moments.
type FitPeriods struct {
	Clocked bool          // it is known when each began; otherwise only on which day
	Long    time.Duration // of each, if that is known

	faults []float64 // the dispersion of each fault of the station
	rest   float64   // that of all of them without the bursts that were found
}

// burstPeriod is one period of a work of a station.
type burstPeriod struct {
	begins time.Time // a moment of its day, if it is not clocked
	day    time.Time
	line   int
	name   string // of a period that is not clocked
	feeds  int64
	stops  []LogStop
}

// countedStops is the stops of a station by period, divided by the work that they are of.
type countedStops struct {
	FitPeriods
	of      []logWork
	periods [][]burstPeriod // of each work, in order of time
	n       int             // stops in all
}

// untimed reports whether no stop of a station says when it began.
func (s *LogStation) untimed() bool {
	return len(s.Stops) > 0 && !slices.ContainsFunc(s.Stops, func(x LogStop) bool { return !x.Untimed })
}

// dated reports whether all counts of a station and its stops say of which day they are.
func (s *LogStation) dated() bool {
	return !slices.ContainsFunc(s.Stops, func(x LogStop) bool { return x.When.IsZero() }) &&
		!slices.ContainsFunc(s.Counts, func(c LogCount) bool { return c.Day.IsZero() })
}

// periodKey is what the counts of a period and its stops have in common: a moment, or a day and a name.
type periodKey struct {
	work logWork
	at   int64
	name string
}

// countedOf counts the faults of a station by period; nil if some stops say when they began, or some
// not on which day. Periods of several works of which it is not known which the stops are of are left out.
func (a *FitAnswer) countedOf(s *LogStation) *countedStops {
	if !s.untimed() || !s.dated() {
		return nil
	}
	d := &countedStops{}
	for i := range s.Counts {
		_, dated := s.Counts[i].begins(0)
		d.Clocked = d.Clocked || !dated
	}
	stops, _ := s.faultStops(a.Log.KindOf(s))
	byShift := slices.ContainsFunc(s.Stops, func(x LogStop) bool { return x.Shift != "" })
	byPeriod := slices.ContainsFunc(s.Stops, func(x LogStop) bool { return x.Period != "" })
	workOf := s.divider()
	key := func(w logWork, at time.Time, period, shift string) periodKey {
		if d.Clocked {
			return periodKey{work: w, at: at.UnixNano()}
		}
		return periodKey{w, a.dayOf(at).UnixNano(), strings.ToLower(periodName(byPeriod, byShift, period, shift))}
	}
	all := map[periodKey]*burstPeriod{}
	for _, c := range s.Counts {
		if c.Feeds == 0 || c.Mixed {
			continue
		}
		at := c.Day
		if !d.Clocked {
			at = at.Add(a.DayStarts)
		}
		k := key(workOf(c.Job, c.Speed), at, c.Period, c.Shift)
		if all[k] == nil {
			all[k] = &burstPeriod{begins: at, day: a.dayOf(at), line: c.Line}
			if !d.Clocked {
				all[k].name = periodName(byPeriod, byShift, c.Period, c.Shift)
			}
		}
		all[k].feeds += c.Feeds
	}
	for _, x := range stops {
		if p := all[key(workOf(x.Job, x.Speed), x.When, x.Period, x.Shift)]; p != nil && !x.Mixed && int64(len(p.stops)) < p.feeds {
			p.stops = append(p.stops, x)
			d.n++
		}
	}
	d.order(all, a.DayStarts > 0)
	return d
}

// periodName returns what a period of a day is called, as far as stops say it.
func periodName(byPeriod, byShift bool, period, shift string) string {
	var words []string
	if byShift && shift != "" {
		words = append(words, shift)
	}
	if byPeriod && period != "" {
		words = append(words, period)
	}
	return strings.Join(words, " ")
}

// order puts the periods of each work in the order of time: by day, and within it by their moment if it
// is known when a day begins; otherwise as they are written, as hours after midnight may be of the day before.
func (d *countedStops) order(all map[periodKey]*burstPeriod, starts bool) {
	place := map[logWork]int{}
	var moments []time.Time
	keys := make([]periodKey, 0, len(all))
	for k := range all {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(x, y periodKey) int {
		p, q := all[x], all[y]
		if c := cmp.Or(p.day.Compare(q.day), cmp.Compare(x.work.job, y.work.job), cmp.Compare(x.work.speed, y.work.speed)); c != 0 {
			return c
		}
		if d.Clocked && starts {
			return p.begins.Compare(q.begins)
		}
		return cmp.Or(cmp.Compare(p.line, q.line), p.begins.Compare(q.begins), cmp.Compare(x.name, y.name))
	})
	for _, k := range keys {
		i, met := place[k.work]
		if !met {
			i = len(d.of)
			place[k.work] = i
			d.of, d.periods = append(d.of, k.work), append(d.periods, nil)
		}
		d.periods[i] = append(d.periods[i], *all[k])
		moments = append(moments, all[k].begins)
	}
	if !d.Clocked {
		return
	}
	slices.SortFunc(moments, time.Time.Compare)
	for i := range moments[min(1, len(moments)):] {
		if step := moments[i+1].Sub(moments[i]); step > 0 && (d.Long == 0 || step < d.Long) {
			d.Long = step
		}
	}
}

// counts returns the numbers of stops that are wanted, as they are tested; without those of bursts.
func (d *countedStops) counts(wanted func(LogStop) bool, without ...fit.PeriodCluster) (all [][]fit.Count) {
	for k, periods := range d.periods {
		var row []fit.Count
		for i := range periods {
			c := fit.Count{Feeds: periods[i].feeds}
			for _, stop := range periods[i].stops {
				if wanted(stop) {
					c.Faults++
				}
			}
			if slices.ContainsFunc(without, func(b fit.PeriodCluster) bool { return b.Stretch == k && b.First <= i && i <= b.Last }) {
				c = fit.Count{}
			}
			row = append(row, c)
		}
		all = append(all, row)
	}
	return all
}

// placed returns the stops evenly in the feeds of their periods, to be drawn.
func (d *countedStops) placed() (all []fit.Stretch) {
	for _, periods := range d.periods {
		var row fit.Stretch
		for i := range periods {
			p, last := &periods[i], int64(0)
			for k := range p.stops {
				at := int64(float64(p.feeds) * (float64(k) + 0.5) / float64(len(p.stops)))
				row.Gaps, row.Rest, last = append(row.Gaps, row.Rest+at-last), 0, at
			}
			row.Rest += p.feeds - last
		}
		all = append(all, row)
	}
	return all
}

// lookByPeriod looks for bursts in the counts of periods: two tests are made at each station.
func (a *FitAnswer) lookByPeriod(s *FitStation, d *countedStops, stations int) {
	s.burstP = ShownP / 2 / float64(max(1, stations))
	every := func(LogStop) bool { return true }
	counts := d.counts(every)
	b, err := fit.PeriodPattern(counts, s.burstP, a.Seed)
	if err != nil {
		s.NoBursts = err.Error()
		return
	}
	s.Bursts, s.ByPeriod, s.placed = &b, &d.FitPeriods, d.placed()
	clusters := fit.PeriodClusters(counts, ShownP, a.Seed)
	s.dense = slices.ContainsFunc(clusters, func(c fit.PeriodCluster) bool { return c.P < s.burstP })
	if !s.InBursts() {
		return
	}
	for _, c := range clusters {
		s.Found = append(s.Found, d.burst(c))
	}
	s.ByPeriod.rest = dispersionOf(d.counts(every, clusters...))
	for _, fault := range s.As.Faults {
		s.ByPeriod.faults = append(s.ByPeriod.faults, dispersionOf(d.counts(func(x LogStop) bool { return x.Cause == fault })))
	}
	s.allowAll(a.Level)
}

// dispersionOf returns how much counts vary that were tested before.
func dispersionOf(counts [][]fit.Count) float64 {
	d, err := fit.PeriodDispersion(counts)
	if err != nil { // they would not have been tested
		return 1
	}
	return d
}

// dispersion returns how many times as much as that of independent ones the number of a fault of the
// station varies, by where its stops lie: of those that are counted by period as much as its own counts
// do, and at least as much as if all faults of the station came together: of a share p of them 1 + p(D − 1).
func (s *FitStation) dispersion(fault LogCause, faults int64) float64 {
	i := slices.Index(s.As.Faults, fault)
	if s.ByPeriod == nil || i < 0 {
		return s.Bursts.Dispersion
	}
	share := float64(faults) / float64(s.Bursts.Stops)
	return max(s.ByPeriod.faults[i], 1+float64(share*(s.Bursts.Dispersion-1)))
}

// burst returns when a cluster of periods was.
func (d *countedStops) burst(c fit.PeriodCluster) FitBurst {
	w, run := d.of[c.Stretch], d.periods[c.Stretch][c.First:c.Last+1]
	first, last := &run[0], &run[len(run)-1]
	b := FitBurst{From: first.begins, To: last.begins.Add(d.Long), Dated: !d.Clocked, Job: w.job, Speed: w.speed, Stops: int(c.Stops), Expected: c.Expected, faults: map[LogCause]int{}}
	if b.Shift = first.name; last.name != first.name {
		b.Shift += " to " + last.name
	}
	for i := range run {
		b.feeds += run[i].feeds
		for _, stop := range run[i].stops {
			b.faults[stop.Cause]++
		}
	}
	return b
}
