package seasons

import (
	"math"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// MostWeeks is how many weeks a plan looks ahead; what is not done by then is never done.
const MostWeeks = 104

// AsElse is as many operators as there are without an item that only says who is absent.
const AsElse = -1

// Staffed is how many operators there are in some shifts instead of the crew, and who of them is absent. With
// none nobody works in them.
type Staffed struct {
	Name      string
	Weeks     []int    // from 1; nil for all
	Days      []int    // of a week, from 1; nil for all
	Shifts    []int    // of a day, from 1; nil for all
	Operators int      // or AsElse
	Absent    []string // names of people of the crew, who are not there whatever else is said, and for whom nobody comes
	Optional  bool     // it is in force only where it is chosen
	Chosen    bool     // it was optional, and is chosen
	Cost      float64  // of choosing it: of each day or shift, or of all
	Per       Per
	Only      []StaffDay // of its days or shifts, where it is chosen in part; nil for all
}

// Per is what a cost of staff is for.
type Per string

// What a cost is for.
const (
	ForAll   Per = ""
	PerDay   Per = "day"   // of the calendar that it is of
	PerShift Per = "shift" // of these days that it is of
)

// Price is what a choice costs: so often so much.
type Price struct {
	Name  string
	Each  float64
	Times int
	Per   Per
	Of    []StaffDay // those that are chosen; nil for all
}

// All returns all of it.
func (p Price) All() float64 { return float64(p.Each * float64(p.Times)) }

// price returns what an item of staff costs if it is chosen: of its days or shifts those that are not
// over when the plan begins.
func (p *Plan) price(s *Staffed) Price {
	all := Price{Name: s.Name, Each: s.Cost, Times: 1, Per: s.Per}
	if s.Per == ForAll {
		return all
	}
	all.Times, all.Of = len(p.Days(s)), s.Only
	return all
}

// Over returns the items of staff that are optional and of no shift that is not over when the plan begins.
func (p *Plan) Over() (all []string) {
	windows := p.Calendar.shiftWindows()
	for i := range p.Staffed {
		if s := &p.Staffed[i]; s.Optional && !s.comes(windows, p.From) {
			all = append(all, s.Name)
		}
	}
	return all
}

// comes reports whether it is of a shift that is not over at a time.
func (s *Staffed) comes(windows []shiftWindow, from sim.Seconds) bool {
	for w := range MostWeeks {
		for _, x := range windows {
			if s.covers(w+1, x.day+1, x.shift+1) && sim.Seconds(sim.Seconds(w)*week)+x.To > from {
				return true
			}
		}
	}
	return false
}

// covers reports whether it is of a shift.
func (s *Staffed) covers(week, day, shift int) bool {
	for _, x := range []struct {
		listed []int
		is     int
	}{{s.Weeks, week}, {s.Days, day}, {s.Shifts, shift}} {
		if x.listed != nil && !slices.Contains(x.listed, x.is) {
			return false
		}
	}
	return s.Only == nil || has(s.Only, week, day, shift)
}

// Horizon is the working time of some weeks, of which no two need be alike, and who is there. Times
// are in seconds from the start of the first week; working time counts from when it begins.
type Horizon struct {
	windows []Window
	people  []presence    // in each
	begun   []sim.Seconds // when the shift of each began, or what of it is not over
	stated  int           // operators who are stated one by one; 0 where all may do all
	before  []sim.Seconds // working time before each, and at the end all of it
}

// NewHorizon returns the working time of a calendar from a time on, with a crew, or as many of it as is
// said of a shift, by the last that says so of it, less those who are absent.
func NewHorizon(c *Calendar, crew *model.Crew, staffed []Staffed, from sim.Seconds) *Horizon {
	h := &Horizon{before: []sim.Seconds{0}, stated: stated(crew)}
	c.eachShift(MostWeeks, func(of shiftOf, windows []Window) {
		there := present(crew, staffed, of.Week, of.Day, of.Shift)
		windows = after(windows, from)
		for _, own := range there.parts(windows, c.rests(crew, of)) {
			h.windows, h.people, h.begun = append(h.windows, own.Window), append(h.people, own.presence), append(h.begun, windows[0].From)
			h.before = append(h.before, h.before[len(h.before)-1]+own.To-own.From)
		}
	})
	return h
}

// shiftWindow is a stretch of working time of one shift.
type shiftWindow struct {
	Window
	day, shift int
}

// shiftWindows returns the working time of a week with the shifts it belongs to.
func (c *Calendar) shiftWindows() []shiftWindow {
	var all []shiftWindow
	for _, w := range c.Windows() {
		own := shiftWindow{Window: w}
		for d := range c.Days {
			for s, x := range c.Shifts {
				if from := sim.Seconds(sim.Seconds(d)*day) + x.Start; from <= w.From && w.From < from+x.Length {
					own.day, own.shift = d, s
				}
			}
		}
		all = append(all, own)
	}
	return all
}

// Length returns all its working time.
func (h *Horizon) Length() sim.Seconds { return h.before[len(h.before)-1] }

// End returns when the last shift ends: after it nobody is there.
func (h *Horizon) End() sim.Seconds { return h.windows[len(h.windows)-1].To }

// Ends reports whether people stop coming before it looks no further ahead.
func (h *Horizon) Ends() bool { return h.End() <= sim.Seconds((MostWeeks-1)*week) }

// At returns when so much working time has passed: at the end of a shift rather than the start of
// the next; +Inf, which is never, if there is not so much.
func (h *Horizon) At(worked sim.Seconds) sim.Seconds {
	i, found := slices.BinarySearch(h.before, worked)
	switch {
	case worked <= 0:
		return h.windows[0].From
	case i >= len(h.before):
		return sim.Seconds(math.Inf(1))
	case found:
		return h.windows[i-1].To
	}
	return h.windows[i-1].From + worked - h.before[i-1]
}

// From is At for what begins then: at the start of a shift rather than the end of the one before.
func (h *Horizon) From(worked sim.Seconds) sim.Seconds {
	if i, found := slices.BinarySearch(h.before, worked); found && i < len(h.windows) {
		return h.windows[i].From
	}
	return h.At(worked)
}

// Worked returns how much working time has passed at a time.
func (h *Horizon) Worked(at sim.Seconds) sim.Seconds {
	i, _ := slices.BinarySearchFunc(h.windows, at, func(w Window, at sim.Seconds) int {
		if w.To <= at {
			return -1
		}
		return 1
	})
	if i == len(h.windows) {
		return h.Length()
	}
	return h.before[i] + max(0, at-h.windows[i].From)
}

// Windows returns the shifts until a time, with how many are there, for a chart: a shift in several stretches if there
// are breaks in it.
func (h *Horizon) Windows(until sim.Seconds) (windows []Window, operators []int) {
	for i, w := range h.windows {
		switch last := len(windows) - 1; {
		case w.From >= until:
		case last >= 0 && h.begun[i] == h.begun[i-1] && windows[last].To == w.From && operators[last] == h.people[i].there():
			windows[last].To = w.To // another has his own break
		default:
			windows, operators = append(windows, w), append(operators, h.people[i].there())
		}
	}
	return windows, operators
}

// OperatorHours returns for how many hours operators are there, all together, in the shifts that begin before a
// time: each to its end, since people are paid for all of a shift, its breaks without relief and their own left out.
func (h *Horizon) OperatorHours(until sim.Seconds) float64 {
	sum := sim.Seconds(0)
	for i, w := range h.windows {
		if h.begun[i] < until {
			sum += sim.Seconds(sim.Seconds(h.people[i].there()) * (w.To - w.From))
		}
	}
	return float64(sum) / 3600
}

// stretches returns times in working time, in order, those that overlap as one.
func (h *Horizon) stretches(all []Window) []model.Stretch {
	var found []model.Stretch
	sorted := slices.SortedFunc(slices.Values(all), func(a, b Window) int {
		if a.From < b.From {
			return -1
		}
		return 1
	})
	for _, w := range sorted {
		s := model.Stretch{From: h.Worked(w.From), To: h.Worked(w.To)}
		switch last := len(found) - 1; {
		case s.From >= s.To:
		case last >= 0 && s.From <= found[last].To:
			found[last].To = max(found[last].To, s.To)
		default:
			found = append(found, s)
		}
	}
	return found
}
