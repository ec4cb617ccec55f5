package scenarios

import (
	"fmt"
	"maps"
	"reflect"
	"slices"

	"netrate/model"
	"netrate/sim/output"
)

// A search has so many options and choices at most: what can be combined is a product.
const (
	maxOptions = 20
	maxChoices = 20 // of one option
)

// design is a search as it is written.
type design struct {
	Goal    *designGoal    `yaml:"goal" jsonschema_description:"what makes a design the best: the highest net rate, the least cost per thousand with the price in it, the highest net present value against the line as it is, or the fewest operators"`
	Target  *speed         `yaml:"target,omitempty" jsonschema_description:"with goal operators: the good envelopes an hour that a shift is to reach, such as 12500/h"`
	Share   *probability   `yaml:"share,omitempty" jsonschema_description:"with goal operators: the share of the shifts that are to reach the target; 90% if not given"`
	Limits  *designLimits  `yaml:"limits,omitempty" jsonschema_description:"what every design must keep to; no limits if not given"`
	Options []designOption `yaml:"options" jsonschema_description:"of each of which one choice is taken" jsonschema:"minItems=1,maxItems=20"`
}

// designLimits are limits as they are written.
type designLimits struct {
	Price     *outlay      `yaml:"price,omitempty" jsonschema_description:"the price of all that is chosen, at most"`
	Defective *probability `yaml:"defective,omitempty" jsonschema_description:"share of the envelopes delivered that may be defective, such as 1/20000"`
	Pitches   *capacity    `yaml:"pitches,omitempty" jsonschema_description:"from the first station to the last, at most"`
	Operators *capacity    `yaml:"operators,omitempty" jsonschema_description:"of the crew, at most"`
}

// designOption is an option as it is written: with choices or, if it is one thing that is there or
// not, with the keys of that choice.
type designOption struct {
	Name     *name          `yaml:"name" jsonschema_description:"unique among all options and choices"`
	Choices  []designChoice `yaml:"choices,omitempty" jsonschema_description:"one of which is taken: give two or more, or the price and the changes of the option itself, which is then taken or not" jsonschema:"minItems=2,maxItems=20"`
	Note     *sentence      `yaml:"note,omitempty" jsonschema_description:"what it is about"`
	Price    *outlay        `yaml:"price,omitempty" jsonschema_description:"paid for it now; 0 if not given"`
	Changes  []change       `yaml:"changes,omitempty" jsonschema_description:"made to the line, as those of a variant" jsonschema:"maxItems=200"`
	Needs    []name         `yaml:"needs,omitempty" jsonschema_description:"choices that must be taken with it, by their names"`
	Excludes []name         `yaml:"excludes,omitempty" jsonschema_description:"choices that cannot be taken with it, by their names"`

	node *node
}

// designChoice is a choice as it is written.
type designChoice struct {
	Name     *name     `yaml:"name" jsonschema_description:"unique among all options and choices"`
	Note     *sentence `yaml:"note,omitempty" jsonschema_description:"what it is about"`
	Price    *outlay   `yaml:"price,omitempty" jsonschema_description:"paid for it now; 0 if not given"`
	Changes  []change  `yaml:"changes,omitempty" jsonschema_description:"made to the line, as those of a variant; none if not given" jsonschema:"maxItems=200"`
	Needs    []name    `yaml:"needs,omitempty" jsonschema_description:"choices that must be taken with it, by their names"`
	Excludes []name    `yaml:"excludes,omitempty" jsonschema_description:"choices that cannot be taken with it, by their names"`

	node *node
}

func (x *designOption) decode(r *reader, n *node, _ string) { x.node = n; r.inside(n, "an option", x) }

func (x *designChoice) decode(r *reader, n *node, _ string) { x.node = n; r.inside(n, "a choice", x) }

// designGoal is a goal by its name.
type designGoal DesignGoal

func (x *designGoal) read(text string) error {
	if !slices.Contains(designGoals, text) {
		return fmt.Errorf("%s", meant(text, designGoals))
	}
	*x = designGoal(text)
	return nil
}

// design reads a search of the scenario, whose file has no problem but those noted.
func (r *reader) design(n *node, s *Scenario, base *node) *Design {
	var given design
	r.read(n, "design", reflect.ValueOf(&given).Elem())
	if r.spoilt(n) || n.Kind != mappingNode {
		return nil
	}
	d := &Design{
		Goal: DesignGoal(or(given.Goal, "")), Target: float64(or(given.Target, 0)), Share: float64(or(given.Share, 0.9)),
		Limits: given.Limits.limits(), scenario: &Scenario{File: r.file, tree: base, sources: r.sources},
	}
	if len(given.Options) > maxOptions {
		r.note(child(n, "options"), "a design has %d options, want at most %d", len(given.Options), maxOptions)
		return nil
	}
	for i := range given.Options {
		d.Options = append(d.Options, r.option(&given.Options[i]))
	}
	r.together(n, d, s)
	r.nameChoices(given.Options)
	if r.spoilt(n) {
		return nil
	}
	d.owners = r.choicesSet(d)
	r.tryChoices(d)
	return d
}

// together notes what of a search does not go with the rest.
func (r *reader) together(n *node, d *Design, s *Scenario) {
	switch {
	case s.LineGroup != nil:
		r.note(n, "a design is searched for one line, and there are several")
	case d.Goal == DesignOperators && d.Target == 0:
		r.note(child(n, "goal"), "the fewest operators are those with which a target is reached: give a target, such as 12500/h")
	case d.Goal != DesignOperators && child(n, "target") != nil:
		r.note(child(n, "target"), "target goes with the goal operators")
	case d.Goal != DesignOperators && child(n, "share") != nil:
		r.note(child(n, "share"), "share goes with the goal operators")
	case (d.Goal == DesignCost || d.Goal == DesignValue) && s.Costs == nil:
		r.note(child(n, "goal"), "the goal is %s, and the file has no costs with a volume", d.Goal)
	}
	if at := child(n, "share"); at != nil && !r.spoilt(at) && !(d.Share > 0 && d.Share < 1) {
		r.note(at, "share is %s, want more than 0%% and less than 100%%", shown(at))
	}
}

func (x *designLimits) limits() DesignLimits {
	l := or(x, designLimits{})
	return DesignLimits{
		Price: as[float64](l.Price), Defective: as[float64](l.Defective), Pitches: as[int](l.Pitches), Operators: as[int](l.Operators),
	}
}

// as returns a number as another type; nil if it is not given.
func as[T, F ~int | ~int64 | ~float64](x *F) *T {
	if x == nil {
		return nil
	}
	y := T(*x)
	return &y
}

// option returns an option with its choices, and notes what it lacks, or has and should not.
func (r *reader) option(x *designOption) DesignOption {
	o := DesignOption{Name: string(or(x.Name, ""))}
	if x.Choices == nil {
		one := designChoice{Name: x.Name, Note: x.Note, Price: x.Price, Changes: x.Changes, Needs: x.Needs, Excludes: x.Excludes}
		if len(x.Changes) == 0 && !r.spoilt(x.node) {
			r.note(x.node, "option %q has no changes and no choices", o.Name)
		}
		o.Optional, o.Choices = true, []DesignChoice{{Name: "without " + o.Name}, one.choice()}
		return o
	}
	for _, key := range []string{"price", "changes", "needs", "excludes"} {
		if at := child(x.node, key); at != nil {
			r.note(at, "option %q has choices: give each of them its %s", o.Name, key)
		}
	}
	if n := len(x.Choices); n < 2 || n > maxChoices {
		r.note(child(x.node, "choices"), "option %q has %d, want from 2 to %d choices", o.Name, n, maxChoices)
	}
	for i := range x.Choices {
		o.Choices = append(o.Choices, x.Choices[i].choice())
	}
	return o
}

func (x *designChoice) choice() DesignChoice {
	c := DesignChoice{Name: string(or(x.Name, "")), Note: string(or(x.Note, "")), Price: float64(or(x.Price, 0)), changes: x.Changes}
	for _, n := range x.Needs {
		c.Needs = append(c.Needs, string(n))
	}
	for _, n := range x.Excludes {
		c.Excludes = append(c.Excludes, string(n))
	}
	return c
}

// nameChoices notes names that are taken, and names in needs and excludes that no choice has.
func (r *reader) nameChoices(options []designOption) {
	lines, names := map[string]int{}, []string{}
	take := func(n *node) {
		at := child(n, "name")
		if at == nil || r.bad[at] {
			return
		}
		if line, twice := lines[at.Value]; twice {
			r.note(at, "two choices are named %q, the first in line %d", at.Value, line)
			return
		}
		lines[at.Value] = at.Line
		names = append(names, at.Value)
	}
	each := func(f func(n *node)) {
		for _, o := range options {
			if o.Choices == nil {
				f(o.node)
			}
			for _, c := range o.Choices {
				f(c.node)
			}
		}
	}
	each(take)
	each(func(n *node) {
		for _, key := range []string{"needs", "excludes"} {
			list := child(n, key)
			if list == nil || list.Kind != sequenceNode {
				continue
			}
			for _, at := range list.Content {
				switch {
				case !slices.Contains(names, at.Value):
					r.note(at, "no choice is named %q: %s", at.Value, r.meant(at.Value, names))
				case nameOf(n) == at.Value:
					r.note(at, "%q %s itself", at.Value, key)
				}
			}
		}
	})
}

// choicesSet returns what choices set, by the name of the choice, but for what also stands in the line.
func (r *reader) choicesSet(d *Design) map[*node]string {
	owners := map[*node]string{}
	var own func(n *node, name string)
	own = func(n *node, name string) {
		if _, ofLine := r.first[n]; ofLine {
			return
		}
		owners[n] = name
		for _, below := range n.Content {
			own(below, name)
		}
	}
	for _, o := range d.Options {
		for i := range o.Choices {
			for _, c := range o.Choices[i].changes {
				own(c.node, o.Choices[i].Name)
			}
		}
	}
	return owners
}

// tryChoices makes the changes of each choice, with those of the choices that it needs, and notes
// what cannot be made or read. Whether the line can be is asked of whole designs: a choice may
// need company that it does not name.
func (r *reader) tryChoices(d *Design) {
	for i := range d.Options {
		for k := range d.Options[i].Choices {
			choices, ok := d.withNeeds(i, k)
			if !ok {
				continue
			}
			look := r.again()
			look.owners, look.prior = d.owners, maps.Clone(r.prior)
			maps.DeleteFunc(look.prior, func(u model.Unknown, _ output.Prior) bool { return u.Owner != "" }) // a variant may have the name of a choice
			tree, _ := d.changed(look, choices)
			if tree != nil {
				look.scenario(tree)
			}
			for _, p := range look.problems {
				r.noteAt(p.Line, p.Column, "choice %q: %s", d.Options[i].Choices[k].Name, p.Text)
			}
			if len(look.problems) > 0 {
				return // others would say the same
			}
		}
	}
}

// withNeeds returns the design of one choice and those that it needs, all other options as they are
// first; false if it needs two of one option.
func (d *Design) withNeeds(option, choice int) ([]int, bool) {
	choices, taken := make([]int, len(d.Options)), map[int]bool{option: true}
	choices[option] = choice
	wanted := slices.Clone(d.Options[option].Choices[choice].Needs)
	for len(wanted) > 0 {
		o, c := d.named(wanted[0]) // there is one: the file was read
		wanted = wanted[1:]
		switch {
		case taken[o] && choices[o] != c:
			return nil, false
		case !taken[o]:
			taken[o], choices[o] = true, c
			wanted = append(wanted, d.Options[o].Choices[c].Needs...)
		}
	}
	return choices, true
}

// named returns the option and the choice of a name; -1 if there is none.
func (d *Design) named(name string) (option, choice int) {
	for i, o := range d.Options {
		if k := slices.IndexFunc(o.Choices, func(c DesignChoice) bool { return c.Name == name }); k >= 0 {
			return i, k
		}
	}
	return -1, -1
}
