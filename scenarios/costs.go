package scenarios

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"netrate/model/money"
	"netrate/model/worth"
)

// costs is what the line costs to have and to run, as it is written.
type costs struct {
	Currency       *name        `yaml:"currency" jsonschema_description:"a label such as EUR; nothing is converted"`
	Price          *sum         `yaml:"price,omitempty" jsonschema_description:"paid for the line now; 0, for what is there already, if not given"`
	Life           *years       `yaml:"life,omitempty" jsonschema_description:"useful life in years; it goes with a volume, and must be given with one"`
	Residual       *sum         `yaml:"residual,omitempty" jsonschema_description:"got for it at the end of its life; 0 if not given"`
	Rate           *interest    `yaml:"rate,omitempty" jsonschema_description:"rate of return a year, such as 8%; it goes with a volume, and must be given with one"`
	Upkeep         *sum         `yaml:"upkeep,omitempty" jsonschema_description:"a year, however much is made; 0 if not given, as for all that follow"`
	LineHour       *sum         `yaml:"line_hour,omitempty" jsonschema_description:"an hour of the line, its operators apart; of several lines, of each"`
	OperatorHour   *sum         `yaml:"operator_hour,omitempty" jsonschema_description:"an hour of one operator"`
	TechnicianCall *sum         `yaml:"technician_call,omitempty" jsonschema_description:"each breakdown for which a technician comes"`
	TechnicianHour *sum         `yaml:"technician_hour,omitempty" jsonschema_description:"an hour of a technician, from when he sets off until he has repaired"`
	Overtime       *overtime    `yaml:"overtime,omitempty" jsonschema_description:"higher pay of operators: in a year beyond a number of hours of the line; in a season and a plan in the hours that are beyond their calendar or their crew; none if not given"`
	Insert         *sum         `yaml:"insert,omitempty" jsonschema_description:"a piece of any feeder"`
	Envelope       *sum         `yaml:"envelope,omitempty" jsonschema_description:"an envelope"`
	Pieces         *piecePrices `yaml:"pieces,omitempty" jsonschema_description:"a piece of single stations, such as {letter: 0.02}; a document costs nothing but this"`
	Remake         *sum         `yaml:"remake,omitempty" jsonschema_description:"a personalised set that is made again, its pieces and the line apart"`
	Spoiled        *sum         `yaml:"spoiled,omitempty" jsonschema_description:"a set destroyed in a jam or in clearing, its pieces apart"`
	Defective      *sum         `yaml:"defective,omitempty" jsonschema_description:"an envelope that is delivered defective"`
	Volume         *sum         `yaml:"volume,omitempty" jsonschema_description:"good envelopes a year, if all work is of one kind, of several lines all together; else give volumes. Neither is needed where there is a season or a plan, which say what is made: without, it is not said what a year costs"`
	Volumes        *jobVolumes  `yaml:"volumes,omitempty" jsonschema_description:"good envelopes a year of each job, such as {Letters: 4000000}; a job that is not named is not made. Of several lines: of each line"`
	Source         *sentence    `yaml:"source,omitempty" jsonschema_description:"where the costs and the volumes come from"`
}

// overtime is pay beyond the usual hours, as it is written.
type overtime struct {
	Beyond *factor `yaml:"beyond,omitempty" jsonschema_description:"hours of the line a year, which a volume of a year needs; a season and a plan go by their calendar and their staff, and need none"`
	Factor *factor `yaml:"factor" jsonschema_description:"1 or more, such as 1.5"`
}

// costs returns the costs of the model, and notes what is wrong with them; nil if none are
// given.
func (x *costs) costs(r *reader, tree *node, tracks []track) *worth.Costs {
	if x == nil {
		return nil
	}
	n := child(tree, "costs")
	o := or(x.Overtime, overtime{})
	c := &worth.Costs{
		Currency: string(or(x.Currency, "")), Life: int(or(x.Life, 0)), Rate: float64(or(x.Rate, 0)),
		Price: x.Price.value(), Residual: x.Residual.value(), Upkeep: x.Upkeep.value(),
		LineHour: x.LineHour.value(), OperatorHour: x.OperatorHour.value(),
		TechnicianCall: x.TechnicianCall.value(), TechnicianHour: x.TechnicianHour.value(),
		Overtime: worth.Overtime{Beyond: float64(or(o.Beyond, 0)), Factor: float64(or(o.Factor, 0))},
		Insert:   x.Insert.value(), Envelope: x.Envelope.value(), Pieces: x.Pieces.values(r, tracks),
		Remake: x.Remake.value(), Spoiled: x.Spoiled.value(), Defective: x.Defective.value(),
		Volume: x.Volume.value(), Volumes: x.Volumes.values(r, tree),
	}
	x.oneVolume(r, n, tree)
	yearly := !ofWeeks(tree) || child(n, "volume") != nil || child(n, "volumes") != nil
	if n.Kind == mappingNode && yearly {
		for _, key := range []string{"life", "rate"} {
			if !hinted(n, key) {
				r.note(n, "costs has no %s", key)
			}
		}
	}
	if at := child(n, "overtime"); at != nil && yearly && at.Kind == mappingNode && !hinted(at, "beyond") {
		r.note(at, "overtime has no beyond: a year wants the hours of the line from which on it is paid, such as {beyond: 1700, factor: 1.5}; a season and a plan need none if no volume is given")
	}
	if at := child(child(n, "overtime"), "factor"); at != nil && !r.spoilt(at) && !(c.Overtime.Factor >= 1 && c.Overtime.Factor <= maxPay) {
		r.note(at, "factor is %s, want from 1 to %d", shown(at), maxPay)
	}
	if at := child(n, "volume"); at != nil && !r.spoilt(at) && !(c.Volume.Low >= 1) {
		r.note(at, "volume is less than 1, want the number of good envelopes a year")
	}
	if r.spoilt(n) {
		return c
	}
	check := c.CheckPrices
	if yearly {
		check = c.Check
	}
	if err := check(); err != nil {
		r.note(n, "costs are not possible: %v", err)
	}
	return c
}

// ofWeeks reports whether the file says what is made week by week, so that costs need no volume of a year.
func ofWeeks(tree *node) bool { return hinted(tree, "season") || hinted(tree, "plan") }

// oneVolume notes volumes where there are none, or two kinds of them, or nothing to make them
// of.
func (x *costs) oneVolume(r *reader, n, tree *node) {
	volume, volumes := child(n, "volume"), child(n, "volumes")
	switch {
	case n.Kind != mappingNode: // noted
	case volume == nil && volumes == nil:
		if hinted(n, "volume") || hinted(n, "volumes") || ofWeeks(tree) { // noted, or not needed
			return
		}
		r.note(n, "costs has no volume and no volumes: give good envelopes a year, of all work or of each job")
	case volumes == nil:
	case volume != nil:
		r.note(volumes, "costs has volumes as well as volume: give one of them")
	case child(tree, "lines") != nil:
	case !hinted(tree, "jobs"):
		r.note(volumes, "volumes goes with jobs, which is not given")
	case child(child(tree, "work"), "sets") != nil:
		r.note(volumes, "volumes of jobs are made in shifts, and work is a number of sets: give work a shift, such as 8 h")
	}
}

// maxPay is how many times the usual pay overtime can have.
const maxPay = 100

// sum is a sum of money or another figure that may be uncertain: a plain number, or the
// least, the likeliest and the most that it may be.
type sum struct {
	Low    *amount `yaml:"low" jsonschema_description:"the least it may be"`
	Likely *amount `yaml:"likely" jsonschema_description:"the likeliest"`
	High   *amount `yaml:"high" jsonschema_description:"the most it may be"`
}

func (x *sum) decode(r *reader, n *node, key string) {
	if n.Kind != mappingNode {
		plain := new(amount)
		var read quantity = plain
		if key == "price" {
			read = (*outlay)(plain)
		}
		r.quantity(n, key, read)
		x.Low, x.Likely, x.High = plain, plain, plain
		return
	}
	if sameKeys(n, []string{"low", "high"}) {
		r.note(n, noLikely, key)
		return
	}
	if r.inside(n, key, x); r.spoilt(n) {
		return
	}
	if !(*x.Low <= *x.Likely && *x.Likely <= *x.High) {
		r.note(n, "%s has low, likely and high out of order: want the least first", key)
	}
}

func (x *sum) value() money.Value {
	v := or(x, sum{})
	return money.Value{Low: float64(or(v.Low, 0)), Likely: float64(or(v.Likely, 0)), High: float64(or(v.High, 0))}
}

// amount is a number from 0 up to what the model takes.
type amount float64

const wantAmount = "a number from 0 to 1000000000, or {low: 1, likely: 2, high: 3}"

func (x *amount) read(text string) error {
	v, err := parseNumber(text)
	if err == nil && !(v <= worth.MostMoney) {
		err = errNoNumber
	}
	if err != nil {
		return want(wantAmount, err)
	}
	*x = amount(v)
	return nil
}
func (*amount) number() {}

// outlay is money paid at once. A rate of some money an hour or a piece may well have three decimals.
type outlay amount

// pointed is how 26 thousand are written where a point stands between pointed.
var pointed = regexp.MustCompile(`^[1-9]\d{0,2}\.\d{3}$`)

func (x *outlay) read(text string) error {
	if err := twoWays(text); err != nil {
		return err
	}
	return (*amount)(x).read(text)
}
func (*outlay) number() {}

// twoWays returns why a sum with three decimals is asked about; nil for any other.
func twoWays(text string) error {
	if !pointed.MatchString(text) {
		return nil
	}
	few := strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if pointed.MatchString(few) {
		few = text[:len(text)-1]
	}
	return fmt.Errorf("which can be read in two ways: write %s or %s", few, strings.Replace(text, ".", "", 1))
}

// piecePrices are prices of pieces by the names of their stations.
type piecePrices struct {
	stations []*node
	prices   []sum
}

func (x *piecePrices) decode(r *reader, n *node, key string) {
	r.byName(n, key, "the prices of pieces by their stations, such as {letter: 0.02}", func(k, v *node) {
		var price sum
		if v != nil {
			price.decode(r, v, "the price of a piece of "+shown(k))
		}
		x.stations, x.prices = append(x.stations, k), append(x.prices, price)
	})
}

// values returns the prices by the names, and notes names that no station with pieces has.
// A variant that takes a station out need not say anything of its price.
func (x *piecePrices) values(r *reader, tracks []track) map[string]money.Value {
	var names []string
	for _, t := range tracks {
		for _, s := range t.Stations {
			if s.Piece().Fed {
				names = append(names, s.Where().Name)
			}
		}
	}
	known := append(slices.Clone(names), r.priced...)
	if r.priced == nil {
		r.priced = names
	}
	if x == nil {
		return nil
	}
	prices := map[string]money.Value{}
	for i, at := range x.stations {
		if !slices.Contains(known, at.Value) && len(names) > 0 {
			r.note(at, "no station with pieces is named %q: %s", at.Value, r.meant(at.Value, names))
		}
		prices[at.Value] = x.prices[i].value()
	}
	return prices
}

// jobVolumes are yearly volumes by the names of their jobs.
type jobVolumes struct {
	jobs    []*node
	volumes []sum
}

func (x *jobVolumes) decode(r *reader, n *node, key string) {
	r.byName(n, key, "good envelopes a year by the names of their jobs, such as {Letters: 4000000}", func(k, v *node) {
		var volume sum
		if v != nil {
			volume.decode(r, v, "the volume of "+shown(k))
		}
		x.jobs, x.volumes = append(x.jobs, k), append(x.volumes, volume)
	})
	if n.Kind == mappingNode && len(n.Content) == 0 {
		r.note(n, "%s names no job, want good envelopes a year of at least one", key)
	}
}

// values returns the volumes by the names, and notes names that no job has and volumes of
// nothing.
func (x *jobVolumes) values(r *reader, tree *node) map[string]money.Value {
	if x == nil {
		return nil
	}
	list, one := child(tree, "jobs"), "job"
	if lines := child(tree, "lines"); lines != nil {
		list, one = lines, "line"
	}
	var names []string
	if list != nil && list.Kind == sequenceNode && !r.bad[list] && !r.misnamed(list) {
		names = namesIn(list)
	}
	volumes := map[string]money.Value{}
	for i, at := range x.jobs {
		v := x.volumes[i].value()
		switch value := child(child(child(tree, "costs"), "volumes"), at.Value); {
		case len(names) > 0 && !slices.Contains(names, at.Value):
			r.note(at, "no %s is named %q: %s", one, at.Value, r.meant(at.Value, names))
		case value != nil && !r.spoilt(value) && !(v.Low >= 1):
			r.note(value, "the volume of %s is less than 1, want the number of good envelopes a year: leave out a job that is not made", shown(at))
		}
		volumes[at.Value] = v
	}
	for _, name := range names {
		if _, given := volumes[name]; one == "line" && !given {
			r.note(child(child(tree, "costs"), "volumes"), "the line %q has no volume: each line that shares the crew has one, or give volume for all together", name)
		}
	}
	return volumes
}

// years is a useful life.
type years int

func (x *years) read(text string) error {
	if whole(x, text, 1, worth.MostLife) != nil {
		return fmt.Errorf("want whole years, from 1 to %d", worth.MostLife)
	}
	return nil
}
func (*years) number() {}

// interest is a rate of return a year, as a share.
type interest float64

const wantInterest = "a rate of return a year, such as 8%"

func (x *interest) read(text string) error {
	if err := (*probability)(x).read(text); err != nil {
		_, why := ratio(text)
		if plainNumber.MatchString(text) {
			why = fmt.Errorf("did you mean %s%%?", text)
		}
		return want(wantInterest, why)
	}
	return nil
}
