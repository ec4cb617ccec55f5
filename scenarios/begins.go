package scenarios

import (
	"errors"
	"fmt"
	"slices"

	"github.com/invopop/jsonschema"

	"netrate/model"
	"netrate/sim"
)

// begins is what is there when a shift begins, as it is written.
type begins struct {
	Hoppers *hoppersAt `yaml:"hoppers,omitempty" jsonschema_description:"full if not given; a share of their capacity such as 60%; or as left: with what the work before the shift left in them, and in the bins and on the belt"`
	Track   *trackAt   `yaml:"track,omitempty" jsonschema_description:"empty if not given; or as left: with the sets, stops and tasks of the work before the shift, which needs hoppers as left"`
	After   *seconds   `yaml:"after,omitempty" jsonschema_description:"how long the line has worked before, from full hoppers, where something is as left; as long as the shift if not given"`
}

const (
	asLeft  = "as left"
	full    = "full"
	emptied = "empty"
)

// hoppersAt is what hoppers hold when a shift begins.
type hoppersAt struct {
	share float64 // of their capacity; 0 for full
	left  bool
}

const wantHoppers = "full, as left, or a share of their capacity above 0, such as 60%"

func (x *hoppersAt) read(text string) error {
	switch share, err := ratio(text); {
	case text == full:
	case text == asLeft:
		x.left = true
	case err == nil && share > 0 && share <= 1:
		x.share = share
	default:
		return want(wantHoppers, guess(text, []string{full, asLeft}))
	}
	return nil
}

func (*hoppersAt) number() {}

// trackAt is whether what was on the track is still there.
type trackAt bool

func (x *trackAt) read(text string) error {
	if *x = text == asLeft; *x || text == emptied {
		return nil
	}
	return errors.New(meant(text, []string{emptied, asLeft}))
}

func (b *begins) decode(r *reader, n *node, key string) {
	r.inside(n, key, b)
	if r.spoilt(n) {
		return
	}
	left := b.Hoppers != nil && b.Hoppers.left
	switch {
	case bool(or(b.Track, false)) && !left:
		r.note(child(n, "track"), "the track is as left, and the hoppers are not: want hoppers: as left too")
	case b.After != nil && !left:
		r.note(child(n, "after"), "after says how long the line has worked before, and nothing is as left: give hoppers: as left")
	case b.After != nil && !(*b.After > 0):
		r.note(child(n, "after"), "after is %s, want more than 0 s", shown(child(n, "after")))
	}
}

// beginning returns how a shift of a length begins.
func (b *begins) beginning(shift sim.Seconds) model.Begins {
	if b == nil || b.Hoppers == nil {
		return model.Begins{}
	}
	if !b.Hoppers.left {
		return model.Begins{Level: b.Hoppers.share}
	}
	return model.Begins{Before: sim.Seconds(or(b.After, seconds(shift))), Track: bool(or(b.Track, false))}
}

// ofJobs returns how jobs begin that a line does one after the other: as work says, if it is nil.
func (x *hoppersAt) ofJobs(s *Shop) model.Begins {
	lines := s.lines()
	switch {
	case x != nil:
		return model.Begins{Level: x.share, Kept: x.left}
	case len(lines) == 0:
		return model.Begins{}
	}
	return lines[0].Begins.OfJobs()
}

// begun notes what cannot be together with a beginning.
func (r *reader) begun(w *work, tree *node) {
	at := child(tree, "begins")
	if w == nil || w.Begins == nil || at == nil || r.spoilt(at) || w.Begins.Hoppers == nil || !w.Begins.Hoppers.left {
		return
	}
	if w.Sets != nil {
		r.note(at, "a job begins with an empty track and its own pieces: only a shift begins as the one before left things")
	}
}

func (hoppersAt) JSONSchema() *jsonschema.Schema {
	s := mixed(fmt.Sprintf("^(%s|%s|%s)$", full, asLeft, ratioPattern[2:len(ratioPattern)-2]), wantHoppers, 1)
	s.Examples = slices.Clone([]any{full, asLeft, "60%"})
	return s
}

func (trackAt) JSONSchema() *jsonschema.Schema { return choice(emptied, asLeft) }
