package seasons

import (
	"fmt"
	"slices"
	"strings"

	"netrate/sim"
)

// StaffDay is a day of which an item of staff is, or a shift of that, all from 1. It is encoded as a text, such as
// "week 1 day 4" or "week 1 day 4 shift 3".
type StaffDay struct {
	Week, Day int
	Shift     int // 0 for the day
}

// From returns when its day begins, from the start of the first week.
func (d StaffDay) From() sim.Seconds {
	return sim.Seconds(sim.Seconds(d.Week-1)*week) + sim.Seconds(sim.Seconds(d.Day-1)*day)
}

func (d StaffDay) String() string {
	text := fmt.Sprintf("week %d day %d", d.Week, d.Day)
	if d.Shift > 0 {
		text += fmt.Sprintf(" shift %d", d.Shift)
	}
	return text
}

// MarshalText returns the day as text.
func (d StaffDay) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (d *StaffDay) UnmarshalText(text []byte) error {
	own := StaffDay{}
	n, _ := fmt.Sscanf(string(text), "week %d day %d shift %d", &own.Week, &own.Day, &own.Shift)
	if n < 2 || own.String() != string(text) || own.Week < 1 || own.Week > MostWeeks || own.Day < 1 || own.Day > 7 {
		return fmt.Errorf("%q is no day of a plan, such as week 1 day 4", text)
	}
	*d = own
	return nil
}

// Called returns what an item of staff is called of which some days are in force, or all.
func Called(name string, days []StaffDay) string {
	if days == nil {
		return name
	}
	var all []string
	for _, d := range days {
		all = append(all, d.String())
	}
	return name + " (" + strings.Join(all, "; ") + ")"
}

// has reports whether a shift is one of some days.
func has(days []StaffDay, week, day, shift int) bool {
	return slices.ContainsFunc(days, func(d StaffDay) bool {
		return d.Week == week && d.Day == day && (d.Shift == 0 || d.Shift == shift)
	})
}

// Days returns for which days or shifts an item of staff is paid if it is chosen, in order: of those that it is of the
// ones that are not over when the plan begins. An item that is paid once has none.
func (p *Plan) Days(s *Staffed) (all []StaffDay) {
	if s.Per == ForAll {
		return nil
	}
	windows := p.Calendar.shiftWindows()
	for w := range MostWeeks {
		for _, x := range windows {
			d := StaffDay{w + 1, x.day + 1, x.shift + 1}
			if !s.covers(d.Week, d.Day, d.Shift) || sim.Seconds(sim.Seconds(w)*week)+x.To <= p.From {
				continue
			}
			if s.Per == PerDay {
				d.Shift = 0
			}
			if !slices.Contains(all, d) {
				all = append(all, d)
			}
		}
	}
	return all
}

// InPart returns the plan with some items of staff, by their numbers, on some of their days alone.
func (p *Plan) InPart(days map[int][]StaffDay) *Plan {
	own := *p
	own.Staffed = slices.Clone(p.Staffed)
	for i, only := range days {
		own.Staffed[i].Only = only
	}
	return &own
}

// Instead returns a plan that was made as another in its order, with its times: one that differs in who is there. It is
// an error if that order cannot be with these people.
func (m *Made) Instead(p *Plan) (*Made, error) {
	own := *p
	own.Order = m.Order
	if err := own.Check(); err != nil {
		return nil, err
	}
	made := *m
	made.Plan, made.Horizon, made.Tried = &own, own.Horizon(), 0
	return &made, nil
}
