package scenarios

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// crew is the people, as they are written.
type crew struct {
	Operators   *operators   `yaml:"operators" jsonschema_description:"number of people; of 1.5 one is there for half of the time, in blocks"`
	Walk        *duration    `yaml:"walk" jsonschema_description:"time from where an operator is to where he is called"`
	Attends     *attention   `yaml:"attends,omitempty" jsonschema_description:"which hopper, bin or belt they see to first, stops before all: the most urgent if not given"`
	Exhausted   *exhausted   `yaml:"exhausted,omitempty" jsonschema_description:"where a hopper, bin or belt that is used up waits for them: with the stops if not given, or in turn, where it stood among the hoppers, bins and belts"`
	Blocks      *seconds     `yaml:"blocks,omitempty" jsonschema_description:"of an operator who is there for part of the time: in each block of this length, such as 30 min, he is there for one stretch of that share, at a time drawn anew"`
	Later       []later      `yaml:"later,omitempty" jsonschema_description:"how many there are later in the shift; always as many if not given" jsonschema:"maxItems=24"`
	Breaks      []shiftBreak `yaml:"breaks,omitempty" jsonschema_description:"breaks without relief within the shift; none if not given" jsonschema:"maxItems=24"`
	People      []person     `yaml:"people,omitempty" jsonschema_description:"what each of the operators may do, as many together as there are at the most, in any shift of a season or a plan too; of fewer those come who stand first; all may do all if not given" jsonschema:"maxItems=50"`
	Help        *helping     `yaml:"help,omitempty" jsonschema_description:"an operator with nothing else to do helps at a fault; nobody does if not given"`
	Technicians *people      `yaml:"technicians,omitempty" jsonschema_description:"who come for breakdowns, to all lines together; as many as are needed if not given"`
	crewErrors
	Source *sentence `yaml:"source,omitempty" jsonschema_description:"where the numbers of the crew come from"`
}

// later is how many there are from a time on.
type later struct {
	After     *seconds `yaml:"after" jsonschema_description:"from the start of the shift, such as 4 h"`
	Operators *present `yaml:"operators" jsonschema_description:"number of people from then on; 0 for nobody"`
}

// shiftBreak is a break without relief.
type shiftBreak struct {
	After  *seconds `yaml:"after" jsonschema_description:"from the start of the shift, such as 2 h"`
	Length *seconds `yaml:"length" jsonschema_description:"such as 15 min"`
	Line   *resting `yaml:"line" jsonschema_description:"what the line does: runs on, until something needs somebody, or stands"`
	Remain *remain  `yaml:"remain,omitempty" jsonschema_description:"operators who stay; 0 if not given"`
}

// person is an operator, or some who may do the same.
type person struct {
	Name      *name   `yaml:"name" jsonschema_description:"unique; of a person or of several alike"`
	Operators *people `yaml:"operators,omitempty" jsonschema_description:"how many; 1 if not given"`
	Does      *doing  `yaml:"does,omitempty" jsonschema_description:"clearing of faults, filling of hoppers and emptying of bins and belts, or changing over between jobs of a season or a plan: one of these or a list, or anything; anything if not given"`
	Lines     []name  `yaml:"lines,omitempty" jsonschema_description:"of several lines with one crew, names of those on which they do it; all if not given" jsonschema:"maxItems=20"`
	Stations  []name  `yaml:"stations,omitempty" jsonschema_description:"names of the stations at which they do it; all if not given" jsonschema:"maxItems=64"`
	Stays     *name   `yaml:"stays,omitempty" jsonschema_description:"name of the station at which they stay, without a walk, on the first of their lines; none if not given"`
	Elsewhere *truth  `yaml:"elsewhere,omitempty" jsonschema_description:"true if who stays also goes to tasks elsewhere; false if not given"`
}

// helping is two at one fault.
type helping struct {
	Faster *factor `yaml:"faster" jsonschema_description:"two work so many times as fast as one, from when both are there: from 1 to 10, such as 1.6"`
}

// breakdowns are stops for a technician, as they are written.
type breakdowns struct {
	Every  *uncertainTime `yaml:"every" jsonschema_description:"mean running time of the line from one to the next, such as 40 h: they come at random"`
	Comes  *duration      `yaml:"comes" jsonschema_description:"time until a technician who is free is there"`
	Repair *duration      `yaml:"repair" jsonschema_description:"time of his work"`
}

func (x *later) decode(r *reader, n *node, _ string)      { r.inside(n, "a change of the crew", x) }
func (x *person) decode(r *reader, n *node, _ string)     { r.inside(n, "a person", x) }
func (x *shiftBreak) decode(r *reader, n *node, _ string) { r.inside(n, "a break", x) }

func (x *crew) decode(r *reader, n *node, key string) {
	r.inside(n, key, x)
	if n.Kind != mappingNode {
		return
	}
	r.entries(n, "later", maxOfDay)
	r.entries(n, "breaks", maxOfDay)
	r.entries(n, "people", maxPeople)
}

// model returns the people of the model.
func (x *crew) model() model.Crew {
	c := model.Crew{
		Walk:        x.Walk.time(),
		Order:       model.Order(or(x.Attends, 0)),
		Exhausted:   model.Exhausted(or(x.Exhausted, 0)),
		Block:       sim.Seconds(or(x.Blocks, 0)),
		Technicians: int(or(x.Technicians, 0)),
	}
	c.Operators, c.Part = parted(float64(or(x.Operators, 0)))
	c.WrongRepair, c.WrongRealign = float64(or(x.WrongRepair, 0)), float64(or(x.WrongRealign, 0))
	for _, p := range x.Later {
		n, part := parted(float64(or(p.Operators, 0)))
		c.Later = append(c.Later, model.Presence{After: sim.Seconds(or(p.After, 0)), Operators: n, Part: part})
	}
	for _, b := range x.Breaks {
		c.Breaks = append(c.Breaks, model.Break{
			After: sim.Seconds(or(b.After, 0)), Length: sim.Seconds(or(b.Length, 0)), Remain: int(or(b.Remain, 0)), Stands: bool(or(b.Line, false)),
		})
	}
	for _, p := range x.People {
		c.People = append(c.People, p.model())
	}
	if x.Help != nil {
		c.Help = float64(or(x.Help.Faster, 0))
	}
	return c
}

func (x *person) model() model.Person {
	p := model.Person{
		Name: string(or(x.Name, "")), Operators: int(or(x.Operators, 1)), Only: model.Doing(or(x.Does, 0)),
		Stays: string(or(x.Stays, "")), Elsewhere: bool(or(x.Elsewhere, false)),
	}
	p.Lines, p.Stations = listed(x.Lines), listed(x.Stations)
	return p
}

// listed returns some names; nil of none that are stated, which is not a list of none.
func listed(all []name) (names []string) {
	if all != nil {
		names = []string{}
	}
	for _, n := range all {
		names = append(names, string(n))
	}
	return names
}

// parted returns a number of people as so many and the share of one more.
func parted(x float64) (n int, part float64) {
	whole := math.Floor(x)
	return int(whole), x - whole
}

// model returns the breakdowns of the model.
func (x *breakdowns) model() model.Breakdowns {
	if x == nil {
		return model.Breakdowns{}
	}
	return model.Breakdowns{Every: sim.Seconds(or(x.Every, 0)), Comes: x.Comes.time(), Repair: x.Repair.time()}
}

// Numbers of people.
type (
	operators float64 // a part of one at least
	present   float64 // or nobody
	people    int
	remain    int
)

// maxPeople is how many persons can be told apart.
const maxPeople = 50

// leastOperators is the least part of an operator.
const leastOperators = 0.01

func (x *operators) read(text string) error { return someone((*float64)(x), text, leastOperators) }
func (x *present) read(text string) error   { return someone((*float64)(x), text, 0) }
func (x *people) read(text string) error    { return whole(x, text, 1, maxOperators) }
func (x *remain) read(text string) error    { return whole(x, text, 0, maxOperators) }

func (*operators) number() {}
func (*present) number()   {}
func (*people) number()    {}
func (*remain) number()    {}

// someone reads a number of people, of whom one may be there for part of the time.
func someone(x *float64, text string, least float64) error {
	wanted := fmt.Sprintf("a number of people from %v to %d, such as 2 or 1.5", least, maxOperators)
	n, err := parseNumber(text)
	if err != nil {
		return want(wanted, err)
	}
	if !(n >= least && n <= maxOperators) {
		return want(wanted, nil)
	}
	*x = n
	return nil
}

// resting is what a line does in a break: true if it stands.
type resting bool

var restingNames = []string{"runs on", "stands"}

func (x *resting) read(text string) error {
	i := slices.Index(restingNames, text)
	if i < 0 {
		return errors.New(meant(text, restingNames))
	}
	*x = i == 1
	return nil
}
