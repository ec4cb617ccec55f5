package study

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"netrate/sim/fit"
)

// FitDivision is the faults of one cause, divided among jobs or speeds. Periods of several works whose
// stops do not say which they are of are in none of them, with their feeds. Faults that do not say their
// job or speed, though their period may, are taken to be of each group in proportion: those that
// do are then those of fewer feeds.
type FitDivision struct {
	By         string     // job or speed
	Groups     []FitGroup // as they were met in the counts
	Unsaid     int64      // faults that do not say their group
	Outside    int64      // faults of a group of which there are no feeds
	NoBursts   bool       // the bursts that were found are left out, with their feeds: one bad pallet is no effect of its job or speed
	Difference fit.Difference
}

// FitGroup is the faults of one job, or at one speed.
type FitGroup struct {
	fit.Group
	Speed float64 // cycles per hour, in a division by speed
	Rate  fit.Rate
}

// rates fills in the probability of each fault of a station: in the feeds of which those with a cause are
// the share, where stops have none.
func (a *FitAnswer) rates(s *FitStation, stops []LogStop) error {
	if s.Feeds == 0 {
		return nil
	}
	if s.As.Name == "" { // no stop says what it is: those without a cause may all be faults
		rate, err := fit.NewRate(int64(s.Nameless.Stops), s.Feeds, a.Level)
		if err != nil {
			return LogError{fmt.Sprintf("%s, any fault: %v", s.Name, err)}
		}
		s.Faults = []FitFault{{Called: "any fault", Rate: rate}}
		return nil
	}
	for _, c := range s.As.Faults {
		of := slices.DeleteFunc(slices.Clone(stops), func(stop LogStop) bool { return stop.Cause != c })
		f := FitFault{Called: c.String()}
		var err error
		if f.Rate, err = fit.NewRate(int64(len(of)), max(s.fed(s.Feeds, s.Nameless), min(int64(len(of)), s.Feeds)), a.Level); err != nil {
			return LogError{fmt.Sprintf("%s, %s: %v", s.Name, f.Called, err)}
		}
		s.Faults = append(s.Faults, f)
	}
	return nil
}

// divisions divides each fault of a station by job and by speed, when it is known which of its stops
// came in bursts.
func (a *FitAnswer) divisions(s *FitStation, stops []LogStop) (err error) {
	if s.As.Name == "" {
		return nil
	}
	for i := range s.Faults {
		f, c := &s.Faults[i], s.As.Faults[i]
		of := slices.DeleteFunc(slices.Clone(stops), func(stop LogStop) bool { return stop.Cause != c })
		if f.Jobs, err = a.divided(s, "job", c, of); err != nil {
			return LogError{fmt.Sprintf("%s, %s, by job: %v", s.Name, f.Called, err)}
		}
		if f.Speeds, err = a.divided(s, "speed", c, of); err != nil {
			return LogError{fmt.Sprintf("%s, %s, by speed: %v", s.Name, f.Called, err)}
		}
		f.grow(s, a.Level)
	}
	return nil
}

// divided divides the stops and the feeds of a fault by job or by speed. It returns nil if there are
// not two groups, or too few faults in them.
func (a *FitAnswer) divided(s *FitStation, by string, fault LogCause, stops []LogStop) (*FitDivision, error) {
	mark := func(job string, _ float64) string { return job }
	if by == "speed" {
		mark = func(_ string, speed float64) string { return LogSpeed(speed) }
	}
	d := &FitDivision{By: by}
	place := map[string]int{}
	for _, c := range s.Counts {
		name := mark(c.Job, c.Speed)
		if name == "" || c.Feeds == 0 || c.Mixed {
			continue
		}
		i, met := place[name]
		if !met {
			i = len(d.Groups)
			place[name] = i
			d.Groups = append(d.Groups, FitGroup{Group: fit.Group{Name: name}, Speed: c.Speed})
		}
		d.Groups[i].Feeds += c.Feeds
	}
	placed := int64(0)
	for _, stop := range stops {
		if stop.Mixed {
			continue
		}
		name := mark(stop.Job, stop.Speed)
		i, met := place[name]
		switch {
		case met:
			d.Groups[i].Faults++
			placed++
		case name == "":
			d.Unsaid++
		default:
			d.Outside++
		}
	}
	for _, b := range s.Found {
		if i, met := place[mark(b.Job, b.Speed)]; met {
			n := int64(b.faults[fault])
			d.Groups[i].Faults, d.Groups[i].Feeds, placed = d.Groups[i].Faults-n, d.Groups[i].Feeds-b.feeds, placed-n
			d.NoBursts = true
		}
	}
	if len(d.Groups) < 2 || s.fewer(placed) < FewFaults {
		return nil, nil //nolint:nilnil // too little is no error
	}
	for i := range d.Groups {
		g := &d.Groups[i]
		nameless := s.namelessOf(func(stop LogStop) bool { return !stop.Mixed && mark(stop.Job, stop.Speed) == g.Name })
		g.Feeds = max(1, g.Faults, partOf(s.fed(g.Feeds, nameless), placed, placed+d.Unsaid))
	}
	return d, d.compare(s, a.Level, a.Seed)
}

// partOf returns so many parts of all of a number of feeds: those in which the faults that are known to
// be of one kind would have come, if the others were of each kind in proportion.
func partOf(feeds, known, all int64) int64 {
	return int64(math.Round(float64(feeds) * float64(known) / float64(all)))
}

// compare tests whether the groups differ, and finds the rate of each. Where faults come in bursts those
// that are left vary more than independent ones: as many are tested as vary alike.
func (d *FitDivision) compare(s *FitStation, level float64, seed uint64) (err error) {
	var groups []fit.Group
	for i := range d.Groups {
		g := &d.Groups[i]
		groups = append(groups, fit.Group{Name: g.Name, Faults: s.fewer(g.Faults), Feeds: g.Feeds})
		if g.Rate, err = fit.NewRate(g.Faults, g.Feeds, level); err != nil {
			return fmt.Errorf("group %q: %w", g.Name, err)
		}
	}
	d.Difference, err = fit.Differ(groups, seed)
	return err
}

// grow fits how a fault grows with the speed, where there are speeds.
func (f *FitFault) grow(s *FitStation, level float64) {
	if f.Speeds == nil {
		return
	}
	var runs []fit.Run
	for _, g := range f.Speeds.Groups {
		runs = append(runs, fit.Run{Speed: g.Speed, Faults: s.fewer(g.Faults), Feeds: g.Feeds})
	}
	slices.SortFunc(runs, func(a, b fit.Run) int { return cmp.Compare(a.Speed, b.Speed) })
	g, err := fit.Grow(runs, runs[len(runs)-1].Speed, level)
	if err != nil {
		f.NoGrowth = err.Error()
		return
	}
	f.Growth = &g
}

// Grows reports whether the fault is shown to grow with the speed.
func (f *FitFault) Grows() bool { return f.Growth != nil && f.Growth.Low > 0 }

// Divided returns the divisions of a fault; that by speed is left out if it is the one by
// job under another name.
func (f *FitFault) Divided() (all []*FitDivision) {
	if f.Jobs != nil {
		all = append(all, f.Jobs)
	}
	same := func(a, b FitGroup) bool { return a.Faults == b.Faults && a.Feeds == b.Feeds }
	if f.Speeds != nil && (f.Jobs == nil || !slices.EqualFunc(f.Jobs.Groups, f.Speeds.Groups, same)) {
		all = append(all, f.Speeds)
	}
	return all
}

// Differs reports whether the groups are shown to differ.
func (d *FitDivision) Differs() bool { return d.Difference.P < ShownP }

// OneSpeedEach reports whether there are several jobs and speeds, and no job has two speeds:
// then which of the two makes a difference cannot be told.
func (l *Log) OneSpeedEach() bool {
	speeds := map[string]float64{}
	different := map[float64]bool{}
	for _, s := range l.Stations {
		for _, c := range s.Counts {
			if c.Feeds == 0 {
				continue
			}
			if before, met := speeds[c.Job]; c.Job == "" || c.Speed == 0 || met && before != c.Speed {
				return false
			}
			speeds[c.Job] = c.Speed
			different[c.Speed] = true
		}
	}
	return len(different) > 1
}
