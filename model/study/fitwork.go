package study

import (
	"math"
	"slices"

	"netrate/sim/fit"
	"netrate/sim/portable"
)

// FitCount is a number of faults in a number of feeds, as a scenario takes them.
type FitCount struct {
	Seen, Feeds int64
	Counted     int64 // the feeds of the log, where faults come in bursts and so many tell no more than Feeds; else 0
}

// FitJob is what a station had with one job.
type FitJob struct {
	Job    string
	Counts []FitCount // of each fault of the station, in its order
}

// work finds how the faults of a station depend on speed and job: how they grow with the speed
// within jobs, all faults together, as a station has one growth; and whether jobs differ, the
// speeds at which they ran being allowed for.
func (s *FitStation) work(stops []LogStop, level float64, seed uint64) {
	s.rows(stops)
	var rows [][]fit.Run
	byJob := map[string]int{}
	even := s.withoutBursts()
	for _, r := range even {
		if r.mixed {
			continue
		}
		i, met := byJob[r.job]
		if !met {
			i = len(rows)
			byJob[r.job] = i
			rows = append(rows, nil)
		}
		if r.speed > 0 {
			rows[i] = append(rows[i], fit.Run{Speed: r.speed, Faults: s.fewer(r.all()), Feeds: r.feeds})
		}
	}
	if g, err := fit.GrowWithin(rows, level); err == nil && g.Low > 0 && s.As.Grows {
		s.Growth = &g
	}
	s.JobsDiffer = s.jobsDiffer(even, seed)
}

// workRow is the faults of a station in one work.
type workRow struct {
	logWork
	mixed bool    // of periods that hold other works too: nothing is seen in it, as its faults may be of these
	feeds int64   // as of fed
	seen  []int64 // of each fault of the station
}

func (r *workRow) all() (n int64) {
	for _, seen := range r.seen {
		n += seen
	}
	return n
}

// rows counts the faults of a station by the work that they are of.
func (s *FitStation) rows(stops []LogStop) {
	workOf := s.divider()
	row := func(w logWork, mixed bool) *workRow {
		for i := range s.byWork {
			if s.byWork[i].logWork == w && s.byWork[i].mixed == mixed {
				return &s.byWork[i]
			}
		}
		return nil
	}
	for _, c := range s.Counts {
		if c.Feeds == 0 {
			continue
		}
		w := workOf(c.Job, c.Speed)
		r := row(w, c.Mixed)
		if r == nil {
			s.byWork = append(s.byWork, workRow{logWork: w, mixed: c.Mixed, seen: make([]int64, len(s.As.Faults))})
			r = &s.byWork[len(s.byWork)-1]
		}
		r.feeds += c.Feeds
	}
	for i := range s.byWork {
		r := &s.byWork[i]
		r.feeds = s.fed(r.feeds, s.namelessOf(func(stop LogStop) bool { return !stop.Mixed && !r.mixed && workOf(stop.Job, stop.Speed) == r.logWork }))
	}
	placed, unsaid := 0.0, 0.0
	wanted := workOf("job", 1)
	for _, stop := range stops {
		switch r := row(workOf(stop.Job, stop.Speed), false); {
		case stop.Mixed:
		case r != nil:
			r.seen[slices.Index(s.As.Faults, stop.Cause)]++
			placed++
		case wanted.job != "" && stop.Job == "" || wanted.speed != 0 && stop.Speed == 0:
			unsaid++
		}
	}
	s.said = 1
	if placed > 0 {
		s.said = placed / (placed + unsaid)
	}
}

// withoutBursts returns the work of a station without the bursts that were found, faults and feeds: one
// bad pallet would pass for an effect of the speed or of the job that it came in.
func (s *FitStation) withoutBursts() []workRow {
	rows := slices.Clone(s.byWork)
	for _, b := range s.Found {
		for i := range rows {
			r := &rows[i]
			if r.mixed || (r.logWork != logWork{b.Job, b.Speed}) {
				continue
			}
			r.seen = slices.Clone(r.seen)
			for k, fault := range s.As.Faults {
				r.seen[k] = max(0, r.seen[k]-int64(b.faults[fault]))
			}
			r.feeds = max(1, s.fewer(r.all()), r.feeds-b.feeds)
		}
	}
	return rows
}

// fewer returns the number of independent faults that are as uncertain as these.
func (s *FitStation) fewer(faults int64) int64 {
	if s.InBursts() && s.ByPeriod != nil { // a period may hold a whole burst, which is left out
		return int64(math.Round(float64(faults) / max(1, s.ByPeriod.rest)))
	}
	if s.InBursts() {
		return int64(math.Round(float64(faults) / max(1, s.Bursts.Dispersion)))
	}
	return faults
}

// jobsDiffer reports whether a fault of the station is shown to differ between jobs.
func (s *FitStation) jobsDiffer(rows []workRow, seed uint64) bool {
	jobs := s.jobsOf(rows, s.fastest())
	if len(jobs) < 2 {
		return false
	}
	for i := range s.As.Faults {
		var groups []fit.Group
		seen := int64(0)
		for _, j := range jobs {
			n := s.fewer(j.Counts[i].Seen)
			groups = append(groups, fit.Group{Name: j.Job, Faults: n, Feeds: max(j.Counts[i].Feeds, n, 1)})
			seen += n
		}
		if seen < FewFaults {
			continue
		}
		if d, err := fit.Differ(groups, seed); err == nil && d.P < ShownP {
			return true
		}
	}
	return false
}

// CountsAt returns what a scenario is given of each fault of a station whose faults grow with the
// speed: the number seen, and the feeds at one speed, cycles per hour, in which as many come.
func (s *FitStation) CountsAt(speed float64) []FitCount {
	all := make([]FitCount, len(s.As.Faults))
	feeds := 0.0
	for _, r := range s.byWork {
		feeds += s.at(r, speed)
	}
	for i := range s.As.Faults { // of all works, so those of which it is not known are among them
		all[i] = s.allowed(i, FitCount{s.Faults[i].Rate.Faults, 0, s.Faults[i].Rate.Feeds}, feeds)
	}
	return all
}

// JobsAt returns what a scenario is given of each job, if jobs are shown to differ: at one speed as of
// CountsAt, to go with the growth, or at 0 as it was counted, at the speeds that the job had. Where
// faults do not grow with the speed that does not matter.
func (s *FitStation) JobsAt(speed float64) []FitJob {
	if !s.JobsDiffer {
		return nil
	}
	jobs := s.jobsOf(s.byWork, speed)
	for k := range jobs {
		for i, c := range jobs[k].Counts {
			jobs[k].Counts[i] = s.allowed(i, c, float64(c.Feeds))
		}
	}
	return jobs
}

// jobsOf returns the faults of each job, its feeds at a speed as of JobsAt, and those counted.
func (s *FitStation) jobsOf(rows []workRow, speed float64) (jobs []FitJob) {
	feeds := map[string]float64{}
	for _, r := range rows {
		if r.job == "" || r.mixed {
			continue
		}
		k := slices.IndexFunc(jobs, func(j FitJob) bool { return j.Job == r.job })
		if k < 0 {
			k = len(jobs)
			jobs = append(jobs, FitJob{r.job, make([]FitCount, len(s.As.Faults))})
		}
		feeds[r.job] += float64(s.said * s.at(r, speed))
		for i := range jobs[k].Counts {
			jobs[k].Counts[i].Seen += r.seen[i]
			jobs[k].Counts[i].Feeds = int64(math.Round(feeds[r.job]))
			jobs[k].Counts[i].Counted += r.feeds
		}
	}
	return jobs
}

// fastest returns the highest speed that the station had, 0 if none is known.
func (s *FitStation) fastest() (speed float64) {
	for _, r := range s.byWork {
		speed = max(speed, r.speed)
	}
	return speed
}

// at returns the feeds at a speed in which as many faults come as in those of a row; at 0 those of the
// row.
func (s *FitStation) at(r workRow, speed float64) float64 {
	if s.Growth == nil || r.speed == 0 || speed == 0 {
		return float64(r.feeds)
	}
	return float64(float64(r.feeds) * portable.Pow(r.speed/speed, s.Growth.Exponent))
}

// allowed returns what was seen and counted of fault i, in feeds that tell as much, with the allowance
// for bursts.
func (s *FitStation) allowed(i int, of FitCount, feeds float64) FitCount {
	if s.worth > 0 {
		feeds *= s.worth
	}
	varies := max(s.Faults[i].Varies, s.Faults[i].together)
	if varies <= 0 || of.Seen == 0 {
		return FitCount{of.Seen, max(1, of.Seen, int64(math.Round(feeds))), 0}
	}
	n := max(1, math.Round(float64(of.Seen)/varies))
	return FitCount{int64(n), max(int64(n), int64(math.Round(n/float64(of.Seen)*feeds))), 0}.countedIn(of.Counted)
}

// countedIn returns a count that stands for more feeds of the log, if these are more.
func (c FitCount) countedIn(feeds int64) FitCount {
	if c.Counted = 0; feeds > c.Feeds {
		c.Counted = feeds
	}
	return c
}
