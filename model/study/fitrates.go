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
		s.Faults = []FitFault{{Called: "any fault", Rate: rate}}
		return err
	}
	for _, c := range s.As.Faults {
		of := slices.DeleteFunc(slices.Clone(stops), func(stop LogStop) bool { return stop.Cause != c })
		f := FitFault{Called: c.String()}
		wrong := func(by string, err error) error {
			return LogError{fmt.Sprintf("%s, %s%s: %v", s.Name, f.Called, by, err)}
		}
		var err error
		if f.Rate, err = fit.NewRate(int64(len(of)), max(s.fed(s.Feeds, s.Nameless), min(int64(len(of)), s.Feeds)), a.Level); err != nil {
			return wrong("", err)
		}
		if f.Jobs, err = a.divided("job", of, s); err != nil {
			return wrong(", by job", err)
		}
		if f.Speeds, err = a.divided("speed", of, s); err != nil {
			return wrong(", by speed", err)
		}
		f.grow(a.Level)
		s.Faults = append(s.Faults, f)
	}
	return nil
}

// divided divides stops and feeds by job or by speed. It returns nil if there are not two
// groups, or too few faults in them.
func (a *FitAnswer) divided(by string, stops []LogStop, s *FitStation) (*FitDivision, error) {
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
	if len(d.Groups) < 2 || placed < FewFaults {
		return nil, nil //nolint:nilnil // too little is no error
	}
	for i := range d.Groups {
		g := &d.Groups[i]
		nameless := s.namelessOf(func(stop LogStop) bool { return !stop.Mixed && mark(stop.Job, stop.Speed) == g.Name })
		g.Feeds = max(1, g.Faults, partOf(s.fed(g.Feeds, nameless), placed, placed+d.Unsaid))
	}
	return d, d.compare(a.Level, a.Seed)
}

// partOf returns so many parts of all of a number of feeds: those in which the faults that are known to
// be of one kind would have come, if the others were of each kind in proportion.
func partOf(feeds, known, all int64) int64 {
	return int64(math.Round(float64(feeds) * float64(known) / float64(all)))
}

// compare tests whether the groups differ, and finds the rate of each.
func (d *FitDivision) compare(level float64, seed uint64) (err error) {
	var groups []fit.Group
	for i := range d.Groups {
		g := &d.Groups[i]
		groups = append(groups, g.Group)
		if g.Rate, err = fit.NewRate(g.Faults, g.Feeds, level); err != nil {
			return fmt.Errorf("group %q: %w", g.Name, err)
		}
	}
	d.Difference, err = fit.Differ(groups, seed)
	return err
}

// grow fits how a fault grows with the speed, where there are speeds.
func (f *FitFault) grow(level float64) {
	if f.Speeds == nil {
		return
	}
	var runs []fit.Run
	for _, g := range f.Speeds.Groups {
		runs = append(runs, fit.Run{Speed: g.Speed, Faults: g.Faults, Feeds: g.Feeds})
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
