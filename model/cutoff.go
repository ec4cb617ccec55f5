package model

import "netrate/sim/portable"

// CutOff is how much a station loses of its faults because no lot and no day makes an attempt fail
// more often than it can.
type CutOff struct {
	Station string
	Most    float64 // the factor of lot, day and drift together above which it is cut
	Share   float64 // of the faults that its rates say; in the long run it has so many fewer
}

// CutOffs returns the stations that lose some of their faults so, along the track. Their rates are
// those at the speed of the line, with its material; drift is that of a whole shift. It is nil if
// the line cannot be.
func (l *Line) CutOffs() (all []CutOff) {
	if !l.SpreadGiven() && !l.Days.Given() {
		return nil
	}
	s, err := New(l)
	if err != nil {
		return nil
	}
	for i, station := range l.Stations {
		x := CutOff{Station: station.Where().Name}
		var lots *Lots
		for _, f := range s.factors {
			if f.station == i {
				x.Most, lots = f.cap, f.kinds()
			}
		}
		for _, h := range s.channels {
			if h.index == i && (h.lots != nil || s.days != nil) {
				x.Most, lots = h.most, &h.Lots
			}
		}
		if x.Most > 0 {
			if x.Share = l.cut(lots, x.Most); x.Share > 0 {
				all = append(all, x)
			}
		}
	}
	return all
}

// kinds returns the lots that a factor is of; none if it has none.
func (x *factor) kinds() *Lots {
	if x.lots == nil {
		return &Lots{}
	}
	return x.lots.Lots
}

// dayParts is into how many parts, equally likely, the days are divided in which faults come.
const dayParts = 200

// cut returns which share of the faults is above a factor, in the mean over lots, days and drift.
//
// A fault comes on a day with the factor D with a probability that is in proportion to D. So the share is the
// mean over the days in which faults come, which are gamma with a shape that is higher by one, of the
// share that lots lose on such a day.
func (l *Line) cut(lots *Lots, most float64) float64 {
	d := &l.Days
	hours := float64(l.Shift) / 3600
	switch {
	case l.Job.Sets > 0:
		hours = float64(l.Job.Sets) / l.RunSpeed()
	case hours == 0: // no work is stated
		hours = 1
	}
	sum, all := 0.0, 0.0
	for _, part := range d.parts(hours) {
		weight := float64(part.hours * part.times)
		all += weight
		if d.CV == 0 {
			sum += float64(weight * lots.above(most/part.times))
			continue
		}
		shape := 1 / (d.CV * d.CV)
		for i := range dayParts {
			day := portable.GammaQuantile(shape+1, (float64(i)+0.5)/dayParts) / shape
			sum += float64(weight / dayParts * lots.above(most/(part.times*day)))
		}
	}
	return sum / all
}

// dayPart is a part of a day with one factor of drift and level.
type dayPart struct{ hours, times float64 }

// parts returns the parts of the first hours of running of a day, or of a whole day where it is
// shorter.
func (d *Days) parts(hours float64) (all []dayPart) {
	if d.Hours > 0 {
		hours = min(hours, d.Hours)
	}
	at := dayPart{times: d.level()}
	from := 0.0
	for _, step := range d.Drift {
		if step.From >= hours {
			break
		}
		if at.hours = step.From - from; at.hours > 0 {
			all = append(all, at)
		}
		from, at.times = step.From, step.Times*d.level()
	}
	at.hours = hours - from
	return append(all, at)
}

// above returns the mean of what the factor of a lot is above a limit, 0 where it is below.
func (x *Lots) above(limit float64) float64 {
	switch {
	case x.CV > 0:
		k := 1 / (x.CV * x.CV)
		return max(0, portable.GammaAbove(k+1, k*limit)-float64(limit*portable.GammaAbove(k, k*limit)))
	case x.Bad > 0:
		good := x.good()
		return float64(x.Bad*max(0, float64(x.Times*good)-limit)) + float64((1-x.Bad)*max(0, good-limit))
	case len(x.Factors) > 0:
		sum, mean := 0.0, portable.Mean(x.Factors)
		for _, f := range x.Factors {
			sum += max(0, f/mean-limit)
		}
		return sum / float64(len(x.Factors))
	}
	return max(0, 1-limit)
}
