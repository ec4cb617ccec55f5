package study

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"netrate/sim/fit"
)

// FitBurst is stops of a station that came closer together than independent ones do.
type FitBurst struct {
	From, To time.Time // its first and its last stop; of stops that name no moment the beginning and the end of their hours, as the counts date them: To may be before From where a night is of the day on which it began
	Dated    bool      // only the days of From and To are known
	Job      string    // "" if not given
	Speed    float64   // cycles per hour; 0 if not given
	Shift    string    // "" if not given, or if there may be several
	Stops    int
	Expected float64 // in as many feeds of this job at this speed

	faults map[LogCause]int // its stops by their fault
	feeds  int64            // from its first stop to its last
}

// logWork is the work that a row is of: faults are compared within it, as one job may well have
// more of them than another.
type logWork struct {
	job   string
	speed float64
}

// stretches is the stops of a station, divided by the work that they are of.
type stretches struct {
	of    []logWork
	gaps  []fit.Stretch
	stops [][]LogStop // the faults of each, in the order of the gaps
	n     int         // stops in all

	counted *countedStops // instead of all this, of stops that name only a period; nil if they do not, or it cannot be
}

// divide returns the stops of each station by the work that they are of, in feeds. Jobs and
// speeds count where all its counts say them.
func (a *FitAnswer) divide() []stretches {
	all := a.byTime()
	rounded := roundedIn(all)
	gaps := rounded.spread(all, withoutPauses(ran(all, rounded.reach())), a.Seed)
	divided := make([]stretches, len(a.Log.Stations))
	for i, s := range a.Log.Stations {
		if counted := a.countedOf(s); counted != nil {
			divided[i] = stretches{counted: counted, n: counted.n}
		} else {
			divided[i] = a.stretchesOf(i, s, all, gaps)
		}
	}
	return divided
}

// stretchesOf divides the stops of one station, given all stops of the line and for how long it
// ran before each, and after the last. A gap belongs to the work of the stop that ends it.
func (a *FitAnswer) stretchesOf(station int, s *LogStation, all []placedStop, gaps []float64) (d stretches) {
	kind, workOf := a.Log.KindOf(s), s.divider()
	feeds, place := map[logWork]int64{}, map[logWork]int{}
	for _, c := range s.Counts {
		feeds[workOf(c.Job, c.Speed)] += c.Feeds
	}
	var ran []float64 // of each stretch, until now
	var at [][]float64
	for i, m := range all {
		w := workOf(m.Job, m.Speed)
		if feeds[w] == 0 {
			continue
		}
		k, met := place[w]
		if !met {
			k = len(d.of)
			place[w] = k
			d.of, d.stops = append(d.of, w), append(d.stops, nil)
			ran, at = append(ran, 0), append(at, nil)
		}
		ran[k] += gaps[i]
		if c, is := kind.Fault(m.Cause); is && m.station == station {
			m.Cause = c
			d.stops[k], at[k] = append(d.stops[k], m.LogStop), append(at[k], ran[k])
		}
		if i == len(all)-1 {
			ran[k] += gaps[len(all)]
		}
	}
	for k, w := range d.of {
		if ran[k] == 0 { // by the log the line never ran: it says nothing of where the stops lie
			d.gaps = append(d.gaps, fit.Stretch{})
			continue
		}
		d.gaps = append(d.gaps, inFeeds(at[k], ran[k], feeds[w]))
		d.n += len(at[k])
	}
	return d
}

// divider returns how rows of a station are divided: by job and speed, as far as all its counts
// say them.
func (s *LogStation) divider() func(job string, speed float64) logWork {
	jobs, speeds := true, true
	for _, c := range s.Counts {
		if c.Feeds > 0 {
			jobs, speeds = jobs && c.Job != "", speeds && c.Speed != 0
		}
	}
	return func(job string, speed float64) (w logWork) {
		if jobs {
			w.job = job
		}
		if speeds {
			w.speed = speed
		}
		return w
	}
}

// inFeeds returns stops that are given by the time for which the line had run, as feeds.
func inFeeds(at []float64, ran float64, feeds int64) (s fit.Stretch) {
	last := int64(0)
	for _, t := range at {
		gap := max(1, int64(t/ran*float64(feeds))-last)
		s.Gaps = append(s.Gaps, gap)
		last += gap
	}
	s.Rest = max(0, feeds-last)
	return s
}

// testable reports whether bursts can be looked for at a station, and why not.
func (s *FitStation) testable(d stretches) (why string) {
	switch {
	case s.Feeds == 0:
		return "its feeds are not counted"
	case d.counted == nil && slices.ContainsFunc(s.Stops, func(x LogStop) bool { return x.Untimed }):
		return s.unseen()
	case d.n < FewFaults && d.counted != nil:
		return fmt.Sprintf("too few stops in hours or shifts of one job and speed: %d", d.n)
	case d.n < FewFaults:
		return fmt.Sprintf("too few stops: %d", d.n)
	}
	return ""
}

// unseen says why stops of which some name only a period are not looked through.
func (s *FitStation) unseen() string {
	if s.untimed() {
		return "stops or counts do not say on which day they were"
	}
	return "some stops say when they began, and others only in which hour or shift"
}

// look looks for bursts at all stations. The tests of all of them allow for each other.
func (a *FitAnswer) look(s *FitStation, d stretches, stations int) {
	if s.NoBursts = s.testable(d); s.NoBursts != "" {
		return
	}
	if d.counted != nil {
		a.lookByPeriod(s, d.counted, stations)
		return
	}
	s.burstP = ShownP / 4 / float64(max(1, stations))
	b, err := fit.Pattern(d.gaps, s.burstP, a.Seed)
	if err != nil {
		s.NoBursts = err.Error()
		return
	}
	s.placed = d.gaps
	s.Bursts = &b
	clusters := fit.Clusters(d.gaps, ShownP, a.Seed)
	s.dense = slices.ContainsFunc(clusters, func(c fit.Cluster) bool { return c.P < s.burstP })
	if !s.InBursts() {
		return
	}
	for _, c := range clusters {
		s.Found = append(s.Found, s.burst(d, c))
	}
	s.allowAll(a.Level)
}

// allowAll puts the bursts of a station in order, and widens the intervals of its rates for them.
func (s *FitStation) allowAll(level float64) {
	slices.SortStableFunc(s.Found, func(a, b FitBurst) int { return a.From.Compare(b.From) })
	for i := range s.Faults {
		s.Faults[i].allow(s, s.As.Faults[i], level)
	}
}

// Unseen says why no bursts could be looked for at a station that has many stops, of which some name
// only the hour or the shift that they were in; "" of others.
func (s *FitStation) Unseen() string {
	seen := int64(0)
	for i := range s.Faults {
		seen += s.Faults[i].Rate.Faults
	}
	if s.Bursts != nil || seen < FewFaults || !slices.ContainsFunc(s.Stops, func(x LogStop) bool { return x.Untimed }) {
		return ""
	}
	return s.NoBursts
}

// Course returns after how many feeds of the station each of its stops came, one job and speed
// after the other, and where as many stops would have come evenly in each of them; nothing where
// bursts were not looked for.
func (s *FitStation) Course() (log, even []float64) {
	base := 0.0
	for _, g := range s.placed {
		at := base
		for _, gap := range g.Gaps {
			at += float64(gap)
			log = append(log, at)
		}
		all := at + float64(g.Rest) - base
		for i := range g.Gaps {
			even = append(even, base+float64(all*(float64(i)+0.5)/float64(len(g.Gaps))))
		}
		base += all
	}
	return log, even
}

// burst returns when a cluster of stops was.
func (s *FitStation) burst(d stretches, c fit.Cluster) FitBurst {
	stops, w := d.stops[c.Stretch][c.First:c.Last+1], d.of[c.Stretch]
	b := FitBurst{From: stops[0].When, To: stops[len(stops)-1].When, Job: w.job, Speed: w.speed, Stops: len(stops), Expected: c.Expected, faults: map[LogCause]int{}}
	for _, stop := range stops {
		b.faults[stop.Cause]++
	}
	for _, gap := range d.gaps[c.Stretch].Gaps[c.First+1 : c.Last+1] {
		b.feeds += gap
	}
	b.Shift = s.shiftAt(b.From, w)
	return b
}

// shiftAt returns the shift in which a work was done at a moment, if the counts leave no choice.
func (s *FitStation) shiftAt(when time.Time, w logWork) string {
	workOf, shift := s.divider(), ""
	when = when.Add(-s.starts) // a shift over midnight is of the day on which it began
	for _, c := range s.Counts {
		if c.Shift == "" || c.Feeds == 0 || workOf(c.Job, c.Speed) != w || c.Day.Format(time.DateOnly) != when.Format(time.DateOnly) {
			continue
		}
		if shift != "" && shift != c.Shift {
			return ""
		}
		shift = c.Shift
	}
	return shift
}

// allow widens the interval of a rate for stops that come in bursts: by as much as the number of
// faults varies more than that of independent ones. A number of bursts of sizes x, each of which
// is an event of its own, has a variance of Σx² for a mean of Σx; what is not in a burst has the
// size 1. The dispersion in windows is the least that is taken.
//
// Source: the index of dispersion of a compound Poisson process, Cox and Lewis, The Statistical
// Analysis of Series of Events (1966), chapter 6 (from memory).
func (f *FitFault) allow(s *FitStation, fault LogCause, level float64) {
	n := float64(f.Rate.Faults)
	if n == 0 {
		return
	}
	single, squares, all := n, 0.0, float64(s.Bursts.Stops)
	for _, b := range s.Found {
		x := max(0, float64(b.faults[fault])-float64(b.Expected*n/all))
		single -= x
		squares += float64(x * x)
	}
	f.varies(max(1, s.dispersion(fault, f.Rate.Faults), (single+squares)/n), level)
}

// varies widens the interval of a rate whose faults vary so many times as much as independent ones.
func (f *FitFault) varies(times, level float64) {
	n := float64(f.Rate.Faults)
	f.Varies = times
	f.Like.Faults = max(1, int64(n/f.Varies+0.5))
	f.Like.Feeds = int64(float64(f.Like.Faults) / n * float64(f.Rate.Feeds))
	if like, err := fit.NewRate(f.Like.Faults, f.Like.Feeds, level); err == nil {
		f.Rate.Low, f.Rate.High, f.Rate.AtMost = like.Low, like.High, like.AtMost
	}
}

// Counts returns the faults and feeds that a scenario is to be given: as many independent ones as
// leave the rate as uncertain as it is, in so many feeds of days that are neither good nor bad.
func (f *FitFault) Counts() FitCount {
	seen, feeds := f.Rate.Faults, f.Rate.Feeds
	switch n := float64(seen); {
	case f.together > 0:
		seen = max(1, int64(math.Round(n/f.together)))
		feeds = max(seen, int64(math.Round(float64(seen)/n*float64(feeds))))
	case f.Varies > 0:
		seen, feeds = f.Like.Faults, f.Like.Feeds
	}
	if f.worth > 0 {
		feeds = max(seen, 1, int64(math.Round(float64(feeds)*f.worth)))
	}
	c := FitCount{Seen: seen, Feeds: feeds}
	if f.together > 0 || f.Varies > 0 {
		c = c.countedIn(f.Rate.Feeds)
	}
	return c
}

// InBursts reports whether the stops are shown to come in bursts: all of them, or some that lie
// close together. Four tests are made at each station, so each must reach a quarter of the usual
// P, and that over the number of stations (of stops by period two are made, at half of it): in one log of twenty without bursts some are reported.
func (s *FitStation) InBursts() bool { return s.dense || s.Overall() }

// Overall reports whether all stops of the station together are shown to come in bursts.
func (s *FitStation) Overall() bool {
	b, p := s.Bursts, s.burstP
	return b != nil && (b.DispersionP < p && b.Dispersion > 1 ||
		b.SpreadP < p && b.Spread > 1 || b.CorrelationP < p && b.Correlation > 0)
}

// placedStop is a stop in the order of all stops of the line.
type placedStop struct {
	LogStop
	station int // −1: the stop is none of those that are taken
}

func (m *placedStop) ends() time.Time {
	return m.When.Add(time.Duration(float64(m.Seconds) * float64(time.Second)))
}

// byTime returns all stops of the line in the order of time, those set aside too.
func (a *FitAnswer) byTime() (all []placedStop) {
	for i, s := range a.Log.Stations {
		for _, stop := range s.Stops {
			all = append(all, placedStop{stop, i})
		}
	}
	for _, stop := range slices.Concat(a.Log.Aside, a.Log.OfLine) {
		if !stop.Untimed {
			all = append(all, placedStop{stop, -1})
		}
	}
	slices.SortStableFunc(all, func(a, b placedStop) int {
		return cmp.Or(a.When.Compare(b.When), cmp.Compare(a.Line, b.Line))
	})
	return all
}
