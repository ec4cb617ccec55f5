package scenarios

import (
	"errors"
	"fmt"
	"regexp"

	"netrate/model"
)

// takes is what can be put into a feeder, as it is written.
type takes struct {
	Thickness *bounds `yaml:"thickness,omitempty" jsonschema_description:"of a piece; any if not given"`
	Height    *bounds `yaml:"height,omitempty" jsonschema_description:"of a piece, which may also be turned; any if not given"`
	Length    *bounds `yaml:"length,omitempty" jsonschema_description:"of a piece, which may also be turned; any if not given"`
}

// setTakes is what can go through an inserter, as it is written.
type setTakes struct {
	Thickness *bounds `yaml:"thickness,omitempty" jsonschema_description:"of the whole set; any if not given"`
	Height    *bounds `yaml:"height,omitempty" jsonschema_description:"of the envelope; any if not given"`
	Length    *bounds `yaml:"length,omitempty" jsonschema_description:"of the envelope; any if not given"`
}

func (t *takes) bounds() model.Takes {
	x := or(t, takes{})
	return model.Takes{Height: or(x.Height, bounds{}).Bounds, Length: or(x.Length, bounds{}).Bounds, Thickness: or(x.Thickness, bounds{}).Bounds}
}

func (t *setTakes) bounds() model.Takes { return (*takes)(t).bounds() }

// bounds are the least and the most of a length.
type bounds struct{ model.Bounds }

const wantBounds = "lengths such as 90 mm to 250 mm, up to 6 mm, or from 90 mm"

func (x *bounds) read(text string) error {
	m := boundsPattern.FindStringSubmatch(text)
	if m == nil {
		return want(wantBounds, nil)
	}
	var b [2]side // the least and the most
	for i, part := range []string{m[1] + m[3], m[2] + m[4]} {
		if part == "" {
			continue
		}
		if err := b[i].read(part); err != nil {
			return want(wantBounds, fmt.Errorf("%s: %w", part, err))
		}
	}
	if b[1] > 0 && !(b[0] <= b[1]) {
		return want(wantBounds, errors.New("the lower one first"))
	}
	x.Bounds = model.Bounds{Least: float64(b[0]), Most: float64(b[1])}
	return nil
}

// boundsPattern matches from A, up to B, and A to B.
var boundsPattern = regexp.MustCompile(`^(?:from (.+)|up to (.+)|(.+?) to (.+))$`)

// sizeGroup is envelopes up to a size, with the speed that an inserter runs them at.
type sizeGroup struct {
	Name   *name  `yaml:"name" jsonschema_description:"unique, such as letters"`
	Height *side  `yaml:"height" jsonschema_description:"of its largest envelope"`
	Length *side  `yaml:"length" jsonschema_description:"of its largest envelope"`
	Speed  *speed `yaml:"speed" jsonschema_description:"at most, with these envelopes"`
}

func (g *sizeGroup) decode(r *reader, n *node, _ string) { r.inside(n, "a size group", g) }

func (g *sizeGroup) group() model.SizeGroup {
	return model.SizeGroup{Name: string(or(g.Name, "")), Height: float64(or(g.Height, 0)), Length: float64(or(g.Length, 0)), Speed: float64(or(g.Speed, 0))}
}

// maxGroups is how many size groups an inserter can have.
const maxGroups = 20

// groups notes a group that holds no more than the one before it, and so is never used.
func (r *reader) groups(given []sizeGroup, list *node) {
	if list == nil || r.spoilt(list) {
		return
	}
	for i := 1; i < len(given); i++ {
		before, g := given[i-1].group(), given[i].group()
		if !(g.Height > before.Height || g.Length > before.Length) {
			r.note(list.Content[i], "the group %s takes no larger envelopes than %s, which stands before it: want the smallest first", g.Name, before.Name)
		}
	}
}
