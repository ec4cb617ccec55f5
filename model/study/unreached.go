package study

import "netrate/model"

// Unreached is a speed asked for that a line cannot reach, cycles an hour.
type Unreached struct {
	Line      string   // its name where there are several, else ""
	Asked     float64  // for
	Speed     float64  // at which the line runs
	LimitedBy []string // what allows no more
}

// Unreached returns the speeds asked for that the lines of the alternative cannot reach, as they
// stand or are set up.
func (a *Alternative) Unreached() []Unreached {
	var all []Unreached
	for i, l := range a.Lines() {
		u := Unreached{Asked: l.Speed, Speed: l.RunSpeed()}
		if a.Setups != nil {
			fit := a.Setups[i].Fit
			u.Asked, u.LimitedBy = fit.Asked, fit.LimitedBy
		} else {
			u.LimitedBy = slowest(l)
		}
		if a.Group != nil {
			u.Line = l.Name
		}
		if u.Asked > u.Speed {
			all = append(all, u)
		}
	}
	return all
}

// slowest returns the stations that allow a line no more than it runs at.
func slowest(l *model.Line) (names []string) {
	for _, s := range l.Stations {
		if p := s.Where(); p.Rated == l.RunSpeed() {
			names = append(names, p.Name)
		}
	}
	return names
}
