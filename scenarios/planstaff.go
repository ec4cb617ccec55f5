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
	Operators *planPeople   `yaml:"operators" jsonschema_description:"how many are there; with 0 nobody works"`
	Optional  *truth        `yaml:"optional,omitempty" jsonschema_description:"true if it only holds where it is chosen: plan --service then tries it"`
	Cost      *amount       `yaml:"cost,omitempty" jsonschema_description:"of choosing it, such as the pay of a Saturday; 0 if not given"`
	Per       *planPer      `yaml:"per,omitempty" jsonschema_description:"day or shift: the cost is that of each that it is of, of its weeks, which must be given; the cost is that of all if not given"`
}

func (x *staffing) decode(r *reader, n *node, _ string) { r.inside(n, "an item of staff", x) }

// staffed returns the item as the model has it.
func (x *staffing) staffed() seasons.Staffed {
	return seasons.Staffed{
		Name: string(or(x.Name, "")), Weeks: ints(x.Weeks), Days: ints(x.Days), Shifts: ints(x.Shifts),
		Operators: int(or(x.Operators, 0)), Optional: bool(or(x.Optional, false)), Cost: float64(or(x.Cost, 0)), Per: seasons.Per(or(x.Per, "")),
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
