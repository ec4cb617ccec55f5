package seasons

import "slices"

// mostOthers is how many other items of a shift are looked at with each item, chosen or not, all ways.
const mostOthers = 8

// IdleStaff returns the items of staff that are optional, not over, and change nobody in any shift that is left,
// whatever else is chosen: as who is absent by another item whatever this one says.
func (p *Plan) IdleStaff() []string { return p.idle(true) }

// IdleItems returns the same of those that are not optional: they may be a slip.
func (p *Plan) IdleItems() []string {
	whole := *p
	whole.From = 0 // what is over by now may have changed somebody
	return whole.idle(false)
}

func (p *Plan) idle(optional bool) (names []string) {
	over := p.Over()
	for i := range p.Staffed {
		s := &p.Staffed[i]
		if s.Optional == optional && !s.Chosen && !slices.Contains(over, s.Name) && !p.changes(i) {
			names = append(names, s.Name)
		}
	}
	return names
}

// changes reports whether an item of staff changes who is there in a shift that is not over when the plan begins,
// with some choice of those that are optional.
func (p *Plan) changes(item int) (is bool) {
	p.Calendar.eachShift(MostWeeks, func(of shiftOf, windows []Window) {
		if is || !p.Staffed[item].covers(of.Week, of.Day, of.Shift) || len(after(windows, p.From)) == 0 {
			return
		}
		var all, others []int // of the shift, and of these those that may be chosen or not
		for i := range p.Staffed {
			if s := &p.Staffed[i]; s.covers(of.Week, of.Day, of.Shift) {
				if all = append(all, i); s.Optional && i != item {
					others = append(others, i)
				}
			}
		}
		if len(others) > mostOthers { // a service is not asked for with so many
			is = true
			return
		}
		for set := range 1 << len(others) {
			with := p.inForce(all, others, set)
			without := p.inForce(slices.DeleteFunc(slices.Clone(all), func(i int) bool { return i == item }), others, set)
			there, other := present(&p.Crew, with, of.Week, of.Day, of.Shift), present(&p.Crew, without, of.Week, of.Day, of.Shift)
			is = is || !there.is(&other)
		}
	})
	return is
}

// inForce returns some items of staff less those of others that are not in a set.
func (p *Plan) inForce(all, others []int, set int) (in []Staffed) {
	for _, i := range all {
		if k := slices.Index(others, i); k >= 0 && set>>k&1 == 0 {
			continue
		}
		s := p.Staffed[i]
		s.Optional = false
		in = append(in, s)
	}
	return in
}
