package learn

import (
	"cmp"
	"slices"
	"strconv"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios/stoplog"
	"netrate/sim/fit"
)

// fewFaults is how many faults are too few to be divided (common practice, no source).
const fewFaults = 10

// division is the faults of one cause, divided among jobs or speeds.
type division struct {
	groups     []fit.Group
	speeds     []float64 // of the groups, if they are speeds
	outside    int64     // faults that have no group, or one of which there are no feeds
	difference fit.Difference
}

// rates fills in the probability of each fault of a station.
func (x *fitting) rates(l *learnt) error {
	if l.feeds == 0 {
		return nil
	}
	stops, _ := l.faultStops()
	if l.kind.name == "" { // no stop says what it is
		rate, err := fit.NewRate(0, l.feeds, x.level)
		l.faults = []faultLearnt{{called: "any fault", rate: rate}}
		return err
	}
	for _, c := range l.kind.faults {
		of := slices.DeleteFunc(slices.Clone(stops), func(s stoplog.Stop) bool { return s.Cause != c })
		f := faultLearnt{called: c.String()}
		var err error
		if f.rate, err = fit.NewRate(int64(len(of)), l.feeds, x.level); err != nil {
			return desk.Wrong("%s, %s: %v", l.name, f.called, err)
		}
		if f.jobs, err = x.divided(of, l.counts, jobOfStop, jobOfCount); err != nil {
			return desk.Wrong("%s, %s, by job: %v", l.name, f.called, err)
		}
		if f.speeds, err = x.divided(of, l.counts, speedOfStop, speedOfCount); err != nil {
			return desk.Wrong("%s, %s, by speed: %v", l.name, f.called, err)
		}
		f.grow(x.level)
		l.faults = append(l.faults, f)
	}
	return nil
}

func jobOfStop(s stoplog.Stop) string     { return s.Job }
func jobOfCount(c stoplog.Count) string   { return c.Job }
func speedOfStop(s stoplog.Stop) string   { return speedText(s.Speed) }
func speedOfCount(c stoplog.Count) string { return speedText(c.Speed) }

func speedText(speed float64) string {
	if speed == 0 {
		return ""
	}
	return strconv.FormatFloat(speed, 'f', -1, 64) + "/h"
}

// divided divides stops and feeds by a mark that both have. It returns nil if there are not
// two groups, or too few faults in them.
func (x *fitting) divided(stops []stoplog.Stop, counts []stoplog.Count, ofStop func(stoplog.Stop) string, ofCount func(stoplog.Count) string) (*division, error) {
	d := &division{}
	place := map[string]int{}
	for _, c := range counts {
		name := ofCount(c)
		if name == "" || c.Feeds == 0 {
			continue
		}
		i, met := place[name]
		if !met {
			i = len(d.groups)
			place[name] = i
			d.groups = append(d.groups, fit.Group{Name: name})
			d.speeds = append(d.speeds, c.Speed)
		}
		d.groups[i].Feeds += c.Feeds
	}
	for _, s := range stops {
		if i, met := place[ofStop(s)]; met {
			d.groups[i].Faults++
		} else {
			d.outside++
		}
	}
	if len(d.groups) < 2 || int64(len(stops))-d.outside < fewFaults {
		return nil, nil //nolint:nilnil // too little is no error
	}
	var err error
	d.difference, err = fit.Differ(d.groups, x.seed)
	return d, err
}

// grow fits how a fault grows with the speed, where there are speeds.
func (f *faultLearnt) grow(level float64) {
	if f.speeds == nil {
		return
	}
	var runs []fit.Run
	for i, g := range f.speeds.groups {
		runs = append(runs, fit.Run{Speed: f.speeds.speeds[i], Faults: g.Faults, Feeds: g.Feeds})
	}
	slices.SortFunc(runs, func(a, b fit.Run) int { return cmp.Compare(a.Speed, b.Speed) })
	g, err := fit.Grow(runs, runs[len(runs)-1].Speed, level)
	if err != nil {
		f.unlimited = err.Error()
		return
	}
	f.growth = &g
}

// interval returns the interval of a rate as feeds for each fault, or its limit.
func interval(r fit.Rate) string {
	if r.Faults == 0 {
		return "over " + say.OneIn(r.AtMost)
	}
	return say.OneIn(r.High) + " to " + say.OneIn(r.Low)
}
