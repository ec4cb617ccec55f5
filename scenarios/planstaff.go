package scenarios

import (
	"slices"
	"strconv"

	"netrate/model"
	"netrate/model/seasons"
)

// staffing is who is there in some shifts.
type staffing struct {
	Name      *name         `yaml:"name" jsonschema_description:"unique, such as one is sick"`
	Weeks     []weekNumber  `yaml:"weeks,omitempty" jsonschema_description:"numbers of weeks, from 1; all if not given" jsonschema:"maxItems=104"`
	Days      []days        `yaml:"days,omitempty" jsonschema_description:"days of the week, 1 for the first; all if not given" jsonschema:"maxItems=7"`
	Shifts    []shiftNumber `yaml:"shifts,omitempty" jsonschema_description:"numbers of shifts of a day, from 1; all if not given" jsonschema:"maxItems=24"`
	Operators *planPeople   `yaml:"operators,omitempty" jsonschema_description:"how many are there; with 0 nobody works; as many as there are else if only absent is given"`
	Absent    []name        `yaml:"absent,omitempty" jsonschema_description:"people of the crew, by their names, who are not there, whatever else is said; nobody comes for them; nobody is absent if not given" jsonschema:"maxItems=50"`
	Optional  *truth        `yaml:"optional,omitempty" jsonschema_description:"true if it only holds where it is chosen: plan --service then tries it"`
	Cost      *outlay       `yaml:"cost,omitempty" jsonschema_description:"of choosing it, such as the pay of a Saturday; 0 if not given"`
	Per       *planPer      `yaml:"per,omitempty" jsonschema_description:"day or shift: the cost is that of each that it is of, of its weeks, which must be given; the cost is that of all if not given"`
}

func (x *staffing) decode(r *reader, n *node, _ string) { r.inside(n, "an item of staff", x) }

// staffed returns the item as the model has it.
func (x *staffing) staffed() seasons.Staffed {
	return seasons.Staffed{
		Name: string(or(x.Name, "")), Weeks: ints(x.Weeks), Days: ints(x.Days), Shifts: ints(x.Shifts),
		Operators: manned(x.Operators, x.Absent), Absent: listed(x.Absent), Optional: bool(or(x.Optional, false)), Cost: float64(or(x.Cost, 0)), Per: seasons.Per(or(x.Per, "")),
	}
}

// manned returns how many operators there are.
func manned(given *planPeople, absent []name) int {
	if given == nil && absent != nil {
		return seasons.AsElse
	}
	return int(or(given, 0))
}

// absent notes who is said to be absent and is nobody, an item of staff that says nothing, and one that has more
// operators than are named.
func (r *reader) absent(n *node, crew *model.Crew) {
	if n.Kind != mappingNode || r.spoilt(n) {
		return
	}
	list := child(n, "absent")
	if list == nil && !hinted(n, "operators") {
		r.note(n, "an item of staff has no operators, and nobody is absent: give one of them")
	}
	r.ofCrew(list, crew, "is absent")
	at := child(n, "operators")
	if at == nil || crew.People == nil {
		return
	}
	if k, err := strconv.Atoi(at.Value); err == nil && k > namedPeople(crew) {
		r.note(at, "operators is %d, and people of the crew are %d: name who comes, or take fewer", k, namedPeople(crew))
	}
}

// namedPeople returns how many operators are stated one by one or in groups.
func namedPeople(crew *model.Crew) (n int) {
	for i := range crew.People {
		n += crew.People[i].Operators
	}
	return n
}

// ofCrew notes who of a list of names is nobody, of whom something is said.
func (r *reader) ofCrew(list *node, crew *model.Crew, said string) {
	var names []string
	for i := range crew.People {
		names = append(names, crew.People[i].Name)
	}
	for _, who := range items(list) {
		switch {
		case len(names) == 0:
			r.note(who, "%s %s, and it is not said who there is: give people under crew", who.Value, said)
			return
		case !slices.Contains(names, who.Value):
			r.note(who, "nobody of the crew is named %q: %s", who.Value, r.meant(who.Value, names))
		}
	}
}

// staffed notes what an item of staff says to no effect.
func (r *reader) staffed(n *node, c *seasons.Calendar) {
	if cost := child(n, "cost"); cost != nil && child(n, "optional") == nil {
		r.note(cost, "cost goes with optional, which is not given: it is paid where the item is chosen")
	}
	if per := child(n, "per"); per != nil && (child(n, "cost") == nil || child(n, "weeks") == nil) {
		r.note(per, "per goes with cost and weeks: it is paid for the days or shifts of these weeks")
	}
	if c == nil || len(c.Check()) > 0 {
		return
	}
	for _, list := range []struct {
		key, text string
		most      int
	}{
		{"days", "day %d is no working day: the calendar has %d in a week", c.Days},
		{"shifts", "there is no shift %d: the calendar has %d in a day", len(c.Shifts)},
	} {
		for _, item := range items(child(n, list.key)) {
			if k, err := strconv.Atoi(item.Value); err == nil && k > list.most {
				r.note(item, list.text, k, list.most)
			}
		}
	}
}

// planPer is what a cost is for.
type planPer string

var planPers = []string{string(seasons.PerDay), string(seasons.PerShift)}

func (x *planPer) read(text string) error {
	if !slices.Contains(planPers, text) {
		return want(model.OneOf(planPers), guess(text, planPers))
	}
	*x = planPer(text)
	return nil
}
