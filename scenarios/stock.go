package scenarios

import "netrate/model"

// hopper is what a feeder or an inserter takes its pieces from: a number of pieces, or a
// stack of some height of pieces of one thickness.
type hopper struct {
	Pieces    *capacity   `yaml:"pieces,omitempty" jsonschema_description:"capacity in pieces; or give stack and thickness"`
	Stack     *length     `yaml:"stack,omitempty" jsonschema_description:"height of the full stack, such as 400 mm"`
	Thickness *length     `yaml:"thickness,omitempty" jsonschema_description:"thickness of one piece, such as 0.1 mm"`
	Warn      *stackLevel `yaml:"warn" jsonschema_description:"an operator is called when this much is left: pieces, a share of the capacity such as 20%, or a length of stack"`
	Refill    *duration   `yaml:"refill" jsonschema_description:"an operator's time for filling it up, after the walk"`

	stock model.Stock
}

// trackBin takes the sets of a track gate.
type trackBin struct {
	Sets  *capacity `yaml:"sets" jsonschema_description:"capacity in sets"`
	Warn  *level    `yaml:"warn" jsonschema_description:"an operator is called when there is room for this many more sets, or for this share of the capacity"`
	Empty *duration `yaml:"empty" jsonschema_description:"an operator's time for emptying it, after the walk"`
}

// exitBin takes the envelopes of an exit gate.
type exitBin struct {
	Envelopes *capacity `yaml:"envelopes" jsonschema_description:"capacity in envelopes"`
	Warn      *level    `yaml:"warn" jsonschema_description:"an operator is called when there is room for this many more envelopes, or for this share of the capacity"`
	Empty     *duration `yaml:"empty" jsonschema_description:"an operator's time for emptying it, after the walk"`
}

// belt takes the envelopes of the delivery.
type belt struct {
	Envelopes *capacity `yaml:"envelopes" jsonschema_description:"capacity in envelopes"`
	Warn      *level    `yaml:"warn" jsonschema_description:"an operator is called when there is room for this many more envelopes, or for this share of the capacity"`
	Sweep     *duration `yaml:"sweep" jsonschema_description:"an operator's time for clearing it into trays, after the walk"`
}

// documentHopper is the paper of a document channel.
type documentHopper struct {
	Documents *capacity `yaml:"documents" jsonschema_description:"capacity in documents"`
	Warn      *level    `yaml:"warn" jsonschema_description:"an operator is called when this many documents are left, or this share of the capacity"`
	Refill    *duration `yaml:"refill" jsonschema_description:"an operator's time for filling it up, after the walk"`
}

func (b *trackBin) stock() model.Stock {
	if b == nil {
		return model.Stock{}
	}
	return counted(b.Sets, b.Warn, b.Empty)
}

func (b *exitBin) stock() model.Stock {
	if b == nil {
		return model.Stock{}
	}
	return counted(b.Envelopes, b.Warn, b.Empty)
}

func (b *belt) stock() model.Stock {
	if b == nil {
		return model.Stock{}
	}
	return counted(b.Envelopes, b.Warn, b.Sweep)
}

func (h *documentHopper) stock() model.Stock {
	if h == nil {
		return model.Stock{}
	}
	return counted(h.Documents, h.Warn, h.Refill)
}

// counted returns a stock whose level is counted in pieces or places.
func counted(capacity *capacity, warn *level, work *duration) model.Stock {
	n := int64(or(capacity, 0))
	return model.Stock{Capacity: n, Warn: or(warn, level{}).pieces(n, 0), Work: work.time()}
}

// decode reads a hopper and turns lengths into pieces.
func (h *hopper) decode(r *reader, n *node, key string) {
	r.inside(n, key, h)
	if h.choose(r, n, key); r.spoilt(n) {
		return
	}
	if h.Pieces != nil {
		pieces := int64(*h.Pieces)
		if h.Warn.thick {
			at := child(n, "warn")
			r.note(at, "warn is %s, but the %s is given in pieces: want pieces, or a share such as 20%%", shown(at), key)
			return
		}
		h.stock = model.Stock{Capacity: pieces, Warn: h.Warn.pieces(pieces, 0), Work: h.Refill.time()}
		return
	}
	thickness := float64(*h.Thickness)
	if thickness == 0 {
		r.note(child(n, "thickness"), "thickness is 0, want more")
		return
	}
	pieces := near(float64(*h.Stack) / thickness)
	if !(pieces <= maxCount) {
		r.note(n, "%s would hold %.4g pieces, want at most %d", key, pieces, maxCount)
		return
	}
	h.stock = model.Stock{Capacity: int64(pieces), Warn: h.Warn.pieces(int64(pieces), thickness), Work: h.Refill.time()}
}

// choose notes a hopper that does not have its capacity in one of the two ways.
func (h *hopper) choose(r *reader, n *node, key string) {
	has := func(key string) bool { return child(n, key) != nil }
	switch {
	case n.Kind != mappingNode: // noted
	case has("pieces") && (has("stack") || has("thickness")):
		r.note(n, "%s has pieces as well as stack or thickness: give pieces, or else stack and thickness", key)
	case !has("pieces") && !(has("stack") && has("thickness")):
		r.note(n, "%s has no capacity: give pieces, or else stack and thickness", key)
	}
}

// filled returns the hopper as a stock of pieces; what could not be read is zero.
func (h *hopper) filled() model.Stock {
	if h == nil || h.stock.Work == nil {
		return model.Stock{Work: (*duration)(nil).time()}
	}
	return h.stock
}

// height returns the height of the full stack in mm; 0 if it is not given.
func (h *hopper) height() float64 { return float64(or(or(h, hopper{}).Stack, 0)) }

// capacity is how many pieces or places there are, at least one.
type capacity int64

func (x *capacity) read(text string) error { return whole(x, text, 1, maxCount) }
func (*capacity) number()                  {}

// some is a capacity as a number, which may be no whole one where it is uncertain.
type some float64

func (x *some) read(text string) error {
	var n capacity
	err := n.read(text)
	*x = some(n)
	return err
}

func (*some) number() {}

// level is a level at which an operator is called: a count, or a share of the capacity.
type level struct {
	amount float64 // pieces or places, or millimetres, or the share
	share  bool
	thick  bool // in millimetres
}

const wantLevel = "a whole number such as 300, or a share of the capacity such as 20%"

func (x *level) read(text string) error {
	if share, err := ratio(text); err == nil && text[len(text)-1] == '%' {
		if !(share <= 1) {
			return want(wantLevel, nil)
		}
		*x = level{amount: share, share: true}
		return nil
	}
	var n count
	if err := n.read(text); err != nil {
		_, why := parseNumber(text)
		return want(wantLevel, why)
	}
	*x = level{amount: float64(n)}
	return nil
}

// pieces returns the level in pieces or places.
func (x level) pieces(capacity int64, thickness float64) int64 {
	switch {
	case x.share:
		return int64(near(x.amount * float64(capacity)))
	case x.thick: // more than can be is as wrong as twice of it
		return int64(min(near(x.amount/thickness), 2*maxCount))
	}
	return int64(x.amount)
}

// stackLevel is a level of a hopper, which may also be a height of its stack.
type stackLevel struct{ level }

func (x *stackLevel) read(text string) error {
	var height length
	if height.read(text) == nil {
		x.level = level{amount: float64(height), thick: true}
		return nil
	}
	if err := x.level.read(text); err != nil {
		_, why := parseNumber(text)
		return want(wantLevel+", or a height of stack such as 80 mm", why)
	}
	return nil
}

// or returns what p points to, or the default if it was not given.
func or[T any](p *T, otherwise T) T {
	if p == nil {
		return otherwise
	}
	return *p
}
