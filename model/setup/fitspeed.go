package setup

import (
	"math"
	"slices"

	"netrate/model"
)

// limit is something that keeps the line from running faster.
type limit struct {
	name  string
	speed float64 // cycles an hour
}

// limit notes a speed that the line must not exceed.
func (f *fitting) limit(name string, speed float64) {
	if !(speed > 0) || math.IsInf(speed, 1) {
		f.because("%s: the speed is %v cycles an hour, want more than 0", name, speed)
		return
	}
	f.limits = append(f.limits, limit{name, speed})
}

// speed finds the speed the line runs at and what limits it.
func (f *fitting) speed() {
	for _, asked := range []float64{f.product.Speed, f.line.Speed} {
		if asked != 0 {
			f.limit("the speed asked for", asked)
		}
		if asked > 0 && (f.fit.Asked == 0 || asked < f.fit.Asked) {
			f.fit.Asked = asked
		}
	}
	if f.hopper != nil && f.hopper.Where().Rated != 0 {
		f.limit(f.hopper.Where().Name, f.hopper.Where().Rated)
	}
	f.line.Speed = 0
	for _, m := range f.limits {
		if f.line.Speed == 0 || m.speed < f.line.Speed {
			f.line.Speed = m.speed
		}
	}
	for _, s := range f.line.Stations {
		if p := s.Where(); p.Rated > 0 {
			f.limits = append(f.limits, limit{p.Name, p.Rated})
		}
	}
	f.fit.Speed = f.line.RunSpeed()
	for _, m := range f.limits {
		if m.speed == f.fit.Speed && !slices.Contains(f.fit.LimitedBy, m.name) {
			f.fit.LimitedBy = append(f.fit.LimitedBy, m.name)
		}
	}
	f.plainEnvelopes()
}

// plainEnvelopes makes the feeder of personalised envelopes the inserter's hopper. Its
// misfeeds are as many as they were, at the speed the line now runs at.
func (f *fitting) plainEnvelopes() {
	i := f.line.First(model.Inserts)
	if f.hopper == nil || i < 0 {
		return
	}
	n, own := f.line.Stations[i], f.line.Stations[i].Setting().Feeds
	place, from := f.hopper.Where(), f.hopper.Setting().Feeds
	*own.Hopper = *from.Hopper
	*own.Misfeed = *from.Misfeed * *from.Material
	if f.fit.Speed > 0 {
		*own.Misfeed *= f.line.Growth(place.Rated, from.Growth) / f.line.Growth(n.Where().Rated, own.Growth)
	}
	f.note("%s feeds plain envelopes: its misfeeds are counted as the inserter's and stop the line; its doubles, jams, false calls and streaks are left out", place.Name)
}
