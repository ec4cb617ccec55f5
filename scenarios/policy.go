package scenarios

import "netrate/model"

// linePolicy is the responses to faults anywhere on the line.
type linePolicy struct {
	feederPolicy
	readerPolicy
	Match           *recovery `yaml:"match,omitempty" jsonschema_description:"recovery of all that is matched, the misfeeds and doubles of streams and the mismatches that readers find: by hand stops the line, in line diverts the sets; it wins over misfeed, double and mismatch of the line"`
	Flap            *answer   `yaml:"flap,omitempty" jsonschema_description:"response to an envelope whose flap stays shut: stop or outsort"`
	EnvelopeMisfeed *forced   `yaml:"envelope_misfeed,omitempty" jsonschema_description:"always stop: without an envelope the set can go nowhere"`

	Source *sentence `yaml:"source,omitempty" jsonschema_description:"who says that the line is run so"`

	Never []forbidden `yaml:"never,omitempty" jsonschema_description:"responses that no station may have and that strategy does not look at, such as [double=ship, no_read=ship]" jsonschema:"maxItems=20"`
}

type feederPolicy struct {
	Misfeed *answer `yaml:"misfeed,omitempty" jsonschema_description:"response to a misfeed"`
	Double  *answer `yaml:"double,omitempty" jsonschema_description:"response to a double that is noticed, or to a false call"`
	Jam     *forced `yaml:"jam,omitempty" jsonschema_description:"always stop: a jam stops the line by itself"`
}

type readerPolicy struct {
	NoRead   *answer `yaml:"no_read,omitempty" jsonschema_description:"response where a reader reads nothing"`
	Mismatch *answer `yaml:"mismatch,omitempty" jsonschema_description:"response where a reader finds pieces that do not belong to one set, or takes them for such: stop, divert or outsort"`
}

type inserterPolicy struct {
	Flap            *answer `yaml:"flap,omitempty" jsonschema_description:"response to an envelope whose flap stays shut: stop or outsort"`
	EnvelopeMisfeed *forced `yaml:"envelope_misfeed,omitempty" jsonschema_description:"always stop: without an envelope the set can go nowhere"`
	Jam             *forced `yaml:"jam,omitempty" jsonschema_description:"always stop: a jam stops the line by itself"`
}

// feeding returns the responses to misfeeds and doubles of a station with a policy of its
// own and a stream, or without.
func (p linePolicy) feeding(given *feederPolicy, carried *stream) (onMisfeed, onDouble model.Response) {
	own, match := or(given, feederPolicy{}), (*answer)(p.Match)
	if carried == nil {
		match = nil
	}
	return first(own.Misfeed, match, p.Misfeed), first(own.Double, match, p.Double)
}

// first returns the first response that is given, or else stop.
func first(answers ...*answer) model.Response {
	for _, a := range answers {
		if a != nil {
			return model.Response(*a)
		}
	}
	return model.Stop
}

// recovery is the response to all faults of what is matched.
type recovery model.Response

// recoveries lists the ways to recover, each with the response that it is.
var recoveries = []struct {
	name     string
	response model.Response
}{{"by hand", model.Stop}, {"in line", model.Divert}}

func recoveryNames() []string {
	var names []string
	for _, x := range recoveries {
		names = append(names, x.name)
	}
	return names
}

func (x *recovery) read(text string) error {
	for _, way := range recoveries {
		if way.name == text {
			*x = recovery(way.response)
			return nil
		}
	}
	return want(model.OneOf(recoveryNames()), guess(text, recoveryNames()))
}

// recovers reports whether the line's recovery decides about a fault of a station that
// has no response of its own to it.
func recovers(s model.Station, field string) bool {
	own, kind := s.Carries(), s.Kind().Role
	return own != nil && (own.Name != "" || kind == model.Gathers) || kind == model.Reads && field == "policy.mismatch"
}

// forced is the response to a fault that has no other than stop.
type forced struct{}

func (forced) decode(r *reader, n *node, key string) {
	var response answer
	r.quantity(n, key, &response)
	fault := model.Jam
	if key == "envelope_misfeed" {
		fault = model.EnvelopeMisfeed
	}
	if why := fault.OnlyStops(); why != "" && model.Response(response) != model.Stop {
		r.note(n, "%s cannot have the response %s: %s", key, shown(n), why)
	}
}

// forbidden is a response that no station may have to a fault.
type forbidden model.Forbidden

func (x *forbidden) read(text string) error {
	one, err := model.ForbiddenOf(text)
	*x = forbidden(one)
	return err
}

// forbids returns what no station may answer.
func (p *linePolicy) forbids() []model.Forbidden {
	var all []model.Forbidden
	for _, x := range or(p, linePolicy{}).Never {
		all = append(all, model.Forbidden(x))
	}
	return all
}

// keep notes what is forbidden where a line does not keep to it.
func (r *reader) keep(never []model.Forbidden, t track, tree *node) {
	at, stated := find(tree, "policy.never")
	if !stated || r.spoilt(at) {
		return
	}
	if why := t.Breach(never); why != "" {
		r.note(at, "never cannot be kept to: %s", why)
	}
}
