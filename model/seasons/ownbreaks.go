package seasons

import (
	"cmp"
	"fmt"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Rest is a break that one operator has while the others work on.
type Rest struct {
	Number int // of the operator
	Window
}

// alone reports whether it is a break of some people, and not of everybody.
func (b Break) alone() bool { return b.Who != nil }

// ownWrong says what is wrong with whose break it is; "" for nothing.
func (b Break) ownWrong() string {
	if b.Who == nil {
		return ""
	}
	names := slices.Sorted(slices.Values(b.Who))
	switch again := slices.Compact(slices.Clone(names)); {
	case len(names) == 0:
		return "of nobody: a break of everybody has no who"
	case len(again) < len(names):
		return "of somebody who is named twice"
	case b.Relief:
		return "of some people with relief: the line runs on anyway, while the others work on"
	}
	return ""
}

// HasOwnBreaks reports whether anybody has a break while the others work on.
func (c *Calendar) HasOwnBreaks() bool {
	own := slices.ContainsFunc(c.Breaks, Break.alone)
	for _, s := range c.Shifts {
		own = own || slices.ContainsFunc(s.Breaks, Break.alone)
	}
	return own
}

// unknown returns an error for each break of somebody who is nobody of the crew.
func (c *Calendar) unknown(crew *model.Crew) (errs []error) {
	of := func(all []Break) {
		for _, b := range all {
			for _, name := range b.Who {
				if len(numbers(crew, name)) == 0 {
					errs = append(errs, fmt.Errorf("%s has a break, and is nobody of the people of the crew", name))
				}
			}
		}
	}
	of(c.Breaks)
	for _, s := range c.Shifts {
		of(s.Breaks)
	}
	return errs
}

// rests returns the breaks that people have of their own in a shift, whether they are there or not, in seconds from the
// start of the first week: by their numbers and in order, those of one that overlap as one.
func (c *Calendar) rests(crew *model.Crew, of shiftOf) []Rest {
	shift, start := c.Shifts[of.Shift-1], sim.Seconds(sim.Seconds(of.Week-1)*week)
	from := sim.Seconds(sim.Seconds(of.Day-1)*day) + shift.Start
	var all []Rest
	for _, b := range c.breaks(shift) {
		for _, name := range b.Who {
			for _, n := range numbers(crew, name) {
				all = append(all, Rest{n, Window{start + (from + b.After), start + (from + b.After + b.Length)}})
			}
		}
	}
	slices.SortFunc(all, func(a, b Rest) int { return cmp.Or(a.Number-b.Number, cmp.Compare(a.From, b.From)) })
	joined := all[:0]
	for _, r := range all {
		if last := len(joined) - 1; last >= 0 && joined[last].Number == r.Number && r.From <= joined[last].To {
			joined[last].To = max(joined[last].To, r.To)
			continue
		}
		joined = append(joined, r)
	}
	return joined
}

// part is a stretch of working time in which the same people are there.
type part struct {
	Window
	presence
}

// parts returns stretches of working time of a shift in parts, which end where somebody's own break begins or ends. What
// leaves nobody there is no working time: it is as a break of everybody.
func (x presence) parts(windows []Window, rests []Rest) (all []part) {
	for _, w := range windows {
		cuts := []sim.Seconds{w.From, w.To}
		for _, r := range rests {
			for _, at := range []sim.Seconds{r.From, r.To} {
				if w.From < at && at < w.To {
					cuts = append(cuts, at)
				}
			}
		}
		slices.Sort(cuts)
		cuts = slices.Compact(cuts)
		for i := range cuts[1:] {
			own := part{Window{cuts[i], cuts[i+1]}, x.less(rests, cuts[i])}
			switch last := len(all) - 1; {
			case own.there() == 0:
			case last >= 0 && all[last].To == own.From && all[last].is(&own.presence):
				all[last].To = own.To
			default:
				all = append(all, own)
			}
		}
	}
	return all
}

// less returns who is there without those who have their own break at a time.
func (x presence) less(rests []Rest, at sim.Seconds) presence {
	if len(rests) == 0 {
		return x
	}
	there := presence{operators: x.operators}
	for n := range x.operators {
		if !x.has(n) || slices.ContainsFunc(rests, func(r Rest) bool { return r.Number == n && r.From <= at && at < r.To }) {
			there.absent = append(there.absent, n)
		}
	}
	return there
}

// attended returns the stretches of some parts, those in a row as one.
func attended(parts []part) (all []Window) {
	for _, p := range parts {
		if last := len(all) - 1; last >= 0 && all[last].To == p.From {
			all[last].To = p.To
			continue
		}
		all = append(all, p.Window)
	}
	return all
}

// clipped returns what of some breaks is working time.
func clipped(rests []Rest, windows []Window) (all []Rest) {
	for _, r := range rests {
		for _, w := range windows {
			if own := (Window{max(r.From, w.From), min(r.To, w.To)}); own.From < own.To {
				all = append(all, Rest{r.Number, own})
			}
		}
	}
	return all
}

// OwnBreak is a break that somebody has while the others work on.
type OwnBreak struct {
	Name   string
	After  sim.Seconds // from the start of a shift
	Length sim.Seconds
	Shift  int // of which alone it is, from 1; 0 for a break of the calendar
}

// InWords says of which shift it is.
func (b *OwnBreak) InWords() string {
	if b.Shift == 0 {
		return "a shift"
	}
	return fmt.Sprintf("shift %d", b.Shift)
}

// OwnBreaks returns the breaks in which the others work on, each once.
func (c *Calendar) OwnBreaks() (all []OwnBreak) {
	for shift := range c.Shifts {
		for _, b := range c.ownBreaks(shift + 1) {
			if !slices.Contains(all, b) {
				all = append(all, b)
			}
		}
	}
	return all
}

// IdleBreaks returns the breaks of people that are in no shift in which they are there, whatever is chosen of what is
// optional: they change nothing, and may be meant for somebody else or for another shift.
func (p *Plan) IdleBreaks() []OwnBreak {
	return p.Calendar.idleBreaks(&p.Crew, p.Staffed, p.From, MostWeeks)
}

// IdleBreaks returns the same of a season.
func (s *Season) IdleBreaks() []OwnBreak {
	return s.Calendar.idleBreaks(&s.Line.Crew, s.Staff, 0, min(len(s.Weeks), MostWeeks))
}

func (c *Calendar) idleBreaks(crew *model.Crew, staffed []Staffed, from sim.Seconds, weeks int) []OwnBreak {
	if !c.HasOwnBreaks() {
		return nil
	}
	rotas := [][]Staffed{staffed}
	for i := range staffed {
		if staffed[i].Optional {
			rota := slices.Clone(staffed)
			rota[i].Optional = false
			rotas = append(rotas, rota)
		}
	}
	used := map[OwnBreak]bool{}
	c.eachShift(weeks, func(of shiftOf, windows []Window) {
		if len(after(windows, from)) == 0 {
			return
		}
		for i := range rotas {
			there := present(crew, rotas[i], of.Week, of.Day, of.Shift)
			for _, b := range c.ownBreaks(of.Shift) {
				used[b] = used[b] || slices.ContainsFunc(numbers(crew, b.Name), there.has)
			}
		}
	})
	return slices.DeleteFunc(c.OwnBreaks(), func(b OwnBreak) bool { return used[b] })
}

// ownBreaks returns the breaks that people have of their own in a shift of the day, from 1.
func (c *Calendar) ownBreaks(shift int) (all []OwnBreak) {
	s, number := c.Shifts[shift-1], 0
	if s.Breaks != nil {
		number = shift
	}
	for _, b := range c.breaks(s) {
		for _, name := range b.Who {
			all = append(all, OwnBreak{name, b.After, b.Length, number})
		}
	}
	return all
}

// errAllRest is the error of a season of one line in which all have their own break at once.
func errAllRest(of shiftOf) error {
	return fmt.Errorf("all who are there in week %d, day %d, shift %d have a break at once: give it without who, as a break of everybody", of.Week, of.Day, of.Shift)
}
