package scenarios

import (
	"fmt"
	"regexp"
	"strconv"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/sim"
)

// calendar is when people work, as it is written.
type calendar struct {
	Days        *days         `yaml:"days" jsonschema_description:"working days of a week, from its first"`
	Shifts      []shift       `yaml:"shifts" jsonschema_description:"of each working day, in order" jsonschema:"minItems=1,maxItems=24"`
	Breaks      []pause       `yaml:"breaks,omitempty" jsonschema_description:"of each shift that has none of its own, where they are over before it ends" jsonschema:"maxItems=24"`
	Maintenance []maintenance `yaml:"maintenance,omitempty" jsonschema_description:"of each week: what of it falls into a shift is lost to work" jsonschema:"maxItems=24"`
}

// shift is one shift of every working day.
type shift struct {
	Start  *clock   `yaml:"start" jsonschema_description:"time of day, such as \"06:00\""`
	Length *seconds `yaml:"length" jsonschema_description:"such as 8 h; it may end on the next day"`
	Breaks []pause  `yaml:"breaks,omitempty" jsonschema_description:"of this shift instead of those of the calendar; [] for none" jsonschema:"maxItems=24"`
}

// pause is a break in a shift.
type pause struct {
	After  *seconds `yaml:"after" jsonschema_description:"from the start of the shift, such as 4 h"`
	Length *seconds `yaml:"length" jsonschema_description:"such as 30 min"`
	Relief *truth   `yaml:"relief,omitempty" jsonschema_description:"true if others take over, so that the line runs on; false if not given"`
	Who    []name   `yaml:"who,omitempty" jsonschema_description:"people of the crew, by their names, who alone have this break while the others work on; everybody has it if not given" jsonschema:"minItems=1,maxItems=50,uniqueItems=true"`
}

// maintenance is time kept free every week.
type maintenance struct {
	Day    *days    `yaml:"day" jsonschema_description:"1 for the first of the week"`
	Start  *clock   `yaml:"start" jsonschema_description:"time of day, such as \"10:00\""`
	Length *seconds `yaml:"length" jsonschema_description:"such as 2 h, within that day"`
}

// maxOfDay is how many shifts, breaks or times for maintenance there can be.
const maxOfDay = 24

func (x *shift) decode(r *reader, n *node, _ string)       { r.inside(n, "a shift", x) }
func (x *pause) decode(r *reader, n *node, _ string)       { r.inside(n, "a break", x) }
func (x *maintenance) decode(r *reader, n *node, _ string) { r.inside(n, "maintenance", x) }

// calendar returns the calendar of the model, and notes what the model has against it, and who of a crew has a break
// that cannot be; nil if none is given.
func (r *reader) calendar(given *calendar, n *node, crew *model.Crew) *seasons.Calendar {
	if given == nil {
		return nil
	}
	for _, key := range []string{"shifts", "breaks", "maintenance"} {
		r.entries(n, key, maxOfDay)
	}
	c := &seasons.Calendar{Days: int(or(given.Days, 0))}
	for i, s := range given.Shifts {
		r.entries(child(n, "shifts").Content[i], "breaks", maxOfDay)
		r.alone(child(child(n, "shifts").Content[i], "breaks"), crew)
		c.Shifts = append(c.Shifts, seasons.ShiftTime{Start: sim.Seconds(or(s.Start, 0)), Length: sim.Seconds(or(s.Length, 0)), Breaks: pauses(s.Breaks)})
	}
	c.Breaks = pauses(given.Breaks)
	r.alone(child(n, "breaks"), crew)
	for _, m := range given.Maintenance {
		c.Maintenance = append(c.Maintenance, seasons.Planned{Day: int(or(m.Day, 0)), Start: sim.Seconds(or(m.Start, 0)), Length: sim.Seconds(or(m.Length, 0))})
	}
	if r.spoilt(n) {
		return c
	}
	for _, err := range c.Check() {
		r.note(culprit(n, err), "%v", err)
	}
	return c
}

// pauses returns breaks; nil if they are not given, and empty if it is given that there is none.
func pauses(given []pause) []seasons.Break {
	if given == nil {
		return nil
	}
	all := []seasons.Break{}
	for _, b := range given {
		all = append(all, seasons.Break{After: sim.Seconds(or(b.After, 0)), Length: sim.Seconds(or(b.Length, 0)), Relief: bool(or(b.Relief, false)), Who: listed(b.Who)})
	}
	return all
}

// alone notes what is wrong with the people of whom alone some breaks are.
func (r *reader) alone(breaks *node, crew *model.Crew) {
	for _, b := range items(breaks) {
		list := child(b, "who")
		if list == nil || r.spoilt(b) {
			continue
		}
		if relief := child(b, "relief"); relief != nil && relief.Value == "true" {
			r.note(relief, "relief is for a break of everybody: in one with who the others work on anyway")
		}
		if len(list.Content) == 0 {
			r.note(list, "who is an empty list: leave it out for a break of everybody")
		}
		seen := map[string]bool{}
		for _, who := range list.Content {
			if seen[who.Value] {
				r.note(who, "%s is named twice", who.Value)
			}
			seen[who.Value] = true
		}
		if crew != nil {
			r.ofCrew(list, crew, "has a break alone")
		}
	}
}

// blamed matches what a problem of a calendar is about: shift 2, the last shift, or that
// there is none.
var blamed = regexp.MustCompile(`^(?:the )?(last |calendar has no )?(shift|break|maintenance)(?: (\d+))?\b`)

// culprit returns the node that a problem of a calendar is about.
func culprit(n *node, err error) *node {
	m := blamed.FindStringSubmatch(err.Error())
	if m == nil {
		return n
	}
	list := child(n, map[string]string{"shift": "shifts", "break": "breaks", "maintenance": "maintenance"}[m[2]])
	i, _ := strconv.Atoi(m[3])
	if m[1] == "last " {
		i = len(list.Content)
	}
	if i == 0 {
		return list
	}
	return list.Content[i-1]
}

// days is a number of days of a week, or one of its days.
type days int

func (x *days) read(text string) error { return whole(x, text, 1, 7) }
func (*days) number()                  {}

// clock is a time of day, in seconds from midnight.
type clock float64

const wantClock = `a time of day such as "06:00" or "22:30"`

var clockPattern = regexp.MustCompile(`^([01][0-9]|2[0-3]):([0-5][0-9])$`)

func (x *clock) read(text string) error {
	m := clockPattern.FindStringSubmatch(text)
	switch {
	case m == nil && clockPattern.MatchString("0"+text):
		return want(wantClock, fmt.Errorf("write 0%s", text))
	case m == nil:
		return want(wantClock, nil)
	}
	hours, _ := strconv.Atoi(m[1])
	minutes, _ := strconv.Atoi(m[2])
	*x = clock(3600*hours + 60*minutes)
	return nil
}
