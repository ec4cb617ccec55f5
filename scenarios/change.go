package scenarios

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"netrate/model"
)

// change is one change of a variant as it is written: one of set, add, remove and shift.
type change struct {
	Set    *setPath  `yaml:"set,omitempty" jsonschema_description:"the value to change, such as crew.operators or stations.NAME.misfeed; with a + instead of a name one more item of a list, such as plan.down.+"`
	To     *anyNode  `yaml:"to,omitempty" jsonschema_description:"its new value"`
	Times  *factor   `yaml:"times,omitempty" jsonschema_description:"or how many times as large it becomes, such as 0.5"`
	Add    *added    `yaml:"add,omitempty" jsonschema_description:"a station to put in"`
	After  *name     `yaml:"after,omitempty" jsonschema_description:"the station after which it is put in"`
	Before *name     `yaml:"before,omitempty" jsonschema_description:"the station before which it is put in"`
	Line   *name     `yaml:"line,omitempty" jsonschema_description:"where there are several lines: the one with the stations to add, remove or shift"`
	Remove *name     `yaml:"remove,omitempty" jsonschema_description:"the station to take out"`
	Shift  *name     `yaml:"shift,omitempty" jsonschema_description:"the first of the stations to move along the track: it and all after it"`
	By     *pitches  `yaml:"by,omitempty" jsonschema_description:"by how many pitches they move on; back if negative"`
	Source *sentence `yaml:"source,omitempty" jsonschema_description:"where what is set or added comes from; not stated if not given, whatever the source of the number that was there"`

	node *node
	act  *action

	old, large *node // of times: what was there, and what is there instead; else nil
}

// action is a kind of change: its key, the keys it comes with, and what it does.
type action struct {
	key   string
	with  []string // all of them, or one of them
	one   bool
	apply func(c *change, tree *node) (*node, string, error)
}

var actions = []action{
	{key: "set", with: []string{"to", "times"}, one: true, apply: (*change).set},
	{key: "add", with: []string{"after", "before"}, one: true, apply: (*change).add},
	{key: "remove", apply: (*change).remove},
	{key: "shift", with: []string{"by"}, apply: (*change).shift},
}

// decode reads a change and finds out what kind it is.
func (c *change) decode(r *reader, n *node, _ string) {
	c.node = n
	if r.inside(n, "a change", c); r.spoilt(n) {
		return
	}
	var keys []string
	for i := range actions {
		a := &actions[i]
		keys = append(keys, a.key)
		switch {
		case child(n, a.key) == nil:
		case c.act != nil:
			r.note(n, "a change has %s as well as %s: write two changes", c.act.key, a.key)
			return
		default:
			c.act = a
		}
	}
	if c.act == nil {
		r.note(n, "a change has none of %s", model.OneOf(keys))
		return
	}
	c.company(r)
}

// company notes what a change lacks, or has and should not.
func (c *change) company(r *reader) {
	given := 0
	for i := 0; i < len(c.node.Content); i += 2 {
		switch key := c.node.Content[i]; {
		case slices.Contains(c.act.with, key.Value):
			given++
		case key.Value == "line" && c.Set == nil:
		case key.Value == sourceKey && (c.Set != nil || c.Add != nil):
		case key.Value != c.act.key:
			r.note(key, "%s does not go with %s", key.Value, c.act.key)
		}
	}
	switch {
	case given > 1 && c.act.one:
		r.note(c.node, "%s has %s: give one of them", c.act.key, strings.Join(c.act.with, " as well as "))
	case given == 0 && c.Add != nil && child(child(c.node, "add"), "kind") == nil:
		r.note(c.node, "add is of a station, and this has no kind, after or before: one more item of a list is set: plan.down.+, with to")
	case given == 0 && len(c.act.with) > 0:
		r.note(c.node, "%s has no %s", c.act.key, strings.Join(c.act.with, " and no "))
	}
	for _, key := range []string{"to", "add"} {
		if at := child(c.node, sourceKey); at != nil && ownSource(child(c.node, key)) != "" {
			r.note(at, "what is %s has a source of its own: give one of them", map[string]string{"to": "set", "add": "added"}[key])
		}
	}
}

// set changes one value.
func (c *change) set(tree *node) (*node, string, error) {
	to, at := child(c.node, "to"), child(c.node, "set")
	spot, err := locate(tree, string(*c.Set))
	if err != nil {
		return nil, "", err
	}
	if c.Times != nil {
		if to, err = c.scaled(spot, tree); err != nil {
			return nil, "", err
		}
	}
	changed, err := put(tree, spot, to, at)
	if err != nil {
		return nil, "", err
	}
	return changed, fmt.Sprintf("%s: %s → %s", *c.Set, spot.before(tree), inPlace(changed, to, brief)), nil
}

// scaled returns what is at a spot, a number of times as large.
func (c *change) scaled(spot spot, tree *node) (*node, error) {
	old, _ := spot.found(tree)
	if isReference(old) {
		var err error
		if old, err = referred(tree, old); err != nil {
			return nil, err
		}
	}
	switch {
	case old == nil:
		return nil, errors.New("it is not given, so it cannot be scaled: say what it is to be")
	case *c.Times == 0:
		return nil, errors.New("times is 0, want more than 0; to: 0 takes it away")
	}
	large, err := scaled(old, float64(*c.Times), child(c.node, "times"))
	if err == nil {
		c.old, c.large = old, large
	}
	return large, err
}

// add puts a station in beside another one.
func (c *change) add(tree *node) (*node, string, error) {
	station, side, beside, on := child(c.node, "add"), "after", c.After, 1
	if beside == nil {
		side, beside, on = "before", c.Before, 0
	}
	row, i, err := c.row(tree, *beside)
	if err != nil {
		return nil, "", err
	}
	kind := "station"
	if k := child(station, "kind"); k != nil {
		kind = k.Value
	}
	stations := slices.Insert(row.stations, i+on, station)
	return row.with(stations, titled(kind, nameOf(station))+" added "+side+" "+string(*beside))
}

// titled returns a kind and a name, or the name alone if it says the kind.
func titled(kind, name string) string {
	if strings.Contains(name, kind) {
		return name
	}
	return kind + " " + name
}

// remove takes a station out.
func (c *change) remove(tree *node) (*node, string, error) {
	row, i, err := c.row(tree, *c.Remove)
	if err != nil {
		return nil, "", err
	}
	return row.with(slices.Delete(row.stations, i, i+1), string(*c.Remove)+" removed")
}

// shift moves a station and all after it along the track. A pitch that is no number is
// left for decode.
func (c *change) shift(tree *node) (*node, string, error) {
	row, from, err := c.row(tree, *c.Shift)
	if err != nil {
		return nil, "", err
	}
	by := child(c.node, "by")
	for i, station := range row.stations[from:] {
		var old pitch
		if at := child(station, "at"); at != nil && old.read(at.Value) == nil {
			row.stations[from+i] = replace(station, "at", scalar(strconv.Itoa(int(old)+int(*c.By)), by), by)
		}
	}
	way, n, plural := "on", int(*c.By), "es"
	if n < 0 {
		way, n = "back", -n
	}
	if n == 1 {
		plural = ""
	}
	return row.with(row.stations, fmt.Sprintf("%s and all after it moved %s by %d pitch%s", *c.Shift, way, n, plural))
}

// setPath names a value of a scenario; what it leads to is looked at in each tree.
type setPath string

func (x *setPath) decode(r *reader, n *node, key string) { r.text((*string)(x), n, key, maxPath) }

// anyNode is a value that is read where it is put.
type anyNode struct{}

func (anyNode) decode(*reader, *node, string) {}

// added is a station that is read where it is put.
type added struct{}

func (added) decode(r *reader, n *node, _ string) {
	if n.Kind != mappingNode {
		r.note(n, "add is %s, want a station: a mapping with kind, name and at", shown(n))
	}
}

// pitches is a distance along the track, back if negative.
type pitches int

func (x *pitches) read(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n == 0 || n < -maxPitch || n > maxPitch || strconv.Itoa(n) != text {
		return fmt.Errorf("want a whole number from 1 to %d, or from -1 to -%d to move back", maxPitch, maxPitch)
	}
	*x = pitches(n)
	return nil
}

func (*pitches) number() {}
