package worth

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"netrate/model/money"
	"netrate/sim"
)

// Costs is what a line costs to have and to run. All sums are in one currency, and each may
// be a range.
//
// Of lines that share a crew they are those of all of them: what is paid once, for the lines
// or a year, is for all together, an hour of the line is one of each, and a piece costs the same on
// all. The crew is paid once.
type Costs struct {
	Currency       string      // a label such as EUR; nothing is ever converted
	Price          money.Value // paid for the line now; 0 for what is there already
	Life           int         // years, from 1 to 100
	Residual       money.Value // got for it at the end of its life
	Rate           float64     // of return, a year, as a share from 0 to 1
	Upkeep         money.Value // a year, however much is made
	LineHour       money.Value // of the line, its operators apart
	OperatorHour   money.Value // of one operator
	TechnicianCall money.Value // each breakdown for which a technician comes
	TechnicianHour money.Value // of a technician, from when he sets off until he has repaired
	Overtime       Overtime
	Insert         money.Value            // a piece that a feeder has fed
	Envelope       money.Value            // from the inserter's hopper or an envelope feeder
	Pieces         map[string]money.Value // a piece of the station so named, where it is another price; documents cost nothing but this
	Remake         money.Value            // of a personalised set, its pieces and the time of the line apart; so are the next two
	Spoiled        money.Value            // each set spoiled in a jam or in clearing
	Defective      money.Value            // each envelope delivered defective
	Volume         money.Value            // good envelopes a year, of one kind of work
	Volumes        map[string]money.Value // or of each job, by its name; a job without a volume is not made. Of lines that share a crew: of each line
}

// Overtime is work beyond the usual hours of a year: operators are paid more for it.
type Overtime struct {
	Beyond float64 // hours a year of each operator; there is no overtime if Factor is 0
	Factor float64 // of an operator's hour, 1 or more
}

// The largest of what costs may say: what follows from them can then be written in cents.
const (
	MostMoney  = 1e9 // a sum
	MostVolume = 1e9 // envelopes a year
	MostLife   = 100 // years
)

// Check returns everything that is wrong with the costs.
func (c *Costs) Check() error {
	errs := []error{c.CheckPrices()}
	if len(c.Volumes) > 0 && c.Volume != (money.Value{}) {
		errs = append(errs, errors.New("there is a volume as well as volumes of jobs"))
	}
	for _, name := range c.volumeNames() {
		if v := c.value(name); !(v.Low >= 1) {
			errs = append(errs, fmt.Errorf("%s is %g at least, want 1 or more", name, v.Low))
		}
	}
	if !(c.Life >= 1 && c.Life <= MostLife) {
		errs = append(errs, fmt.Errorf("life is %d years, want from 1 to %d", c.Life, MostLife))
	}
	return errors.Join(errs...)
}

// CheckPrices returns what is wrong with all but the life and the volumes, which the work of some weeks has no need
// of: see [Costs.Spent].
func (c *Costs) CheckPrices() error {
	var errs []error
	for _, x := range c.Values() {
		if err := x.Of.Check(); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", x.Name, err))
		} else if !(x.Of.Low >= 0 && x.Of.High <= MostMoney) {
			errs = append(errs, fmt.Errorf("%s is from %g to %g, want from 0 to %g", x.Name, x.Of.Low, x.Of.High, MostMoney))
		}
	}
	if c.Currency == "" {
		errs = append(errs, errors.New("there is no currency"))
	}
	if !(c.Rate >= 0 && c.Rate <= 1) {
		errs = append(errs, fmt.Errorf("rate is %g, want a share from 0 to 1", c.Rate))
	}
	if o := c.Overtime; o != (Overtime{}) && !(o.Beyond >= 0 && o.Factor >= 1 && o.Factor <= MostMoney) {
		errs = append(errs, fmt.Errorf("overtime is %g times the pay beyond %g hours, want 1 or more beyond 0 or more", o.Factor, o.Beyond))
	}
	return errors.Join(errs...)
}

// CostValue is a value of the costs, by its name in a scenario, which names its random numbers too.
type CostValue struct {
	Name string
	Of   money.Value
}

// Values returns all values, those of stations last, in the order of their names.
func (c *Costs) Values() []CostValue {
	all := []CostValue{
		{"price", c.Price},
		{"residual", c.Residual},
		{"upkeep", c.Upkeep},
		{"line_hour", c.LineHour},
		{"operator_hour", c.OperatorHour},
		{"technician_call", c.TechnicianCall},
		{"technician_hour", c.TechnicianHour},
		{"insert", c.Insert},
		{"envelope", c.Envelope},
		{"remake", c.Remake},
		{"spoiled", c.Spoiled},
		{"defective", c.Defective},
	}
	for _, name := range c.volumeNames() {
		all = append(all, CostValue{name, c.value(name)})
	}
	for _, station := range slices.Sorted(maps.Keys(c.Pieces)) {
		all = append(all, CostValue{piecesOf + station, c.Pieces[station]})
	}
	return all
}

// HasRanges reports whether a value is known only within a range.
func (c *Costs) HasRanges() bool {
	return slices.ContainsFunc(c.Values(), func(x CostValue) bool { return x.Of.Low < x.Of.High })
}

// piecesOf is what the names of the prices of single stations' pieces begin with.
const piecesOf = "pieces."

// volumesOf is what the names of the volumes of jobs begin with.
const volumesOf = "volumes."

// volumeNames returns the names of the volumes, as a scenario has them: those of jobs in the
// order of their names.
func (c *Costs) volumeNames() []string {
	if len(c.Volumes) == 0 {
		return []string{"volume"}
	}
	var names []string
	for _, job := range slices.Sorted(maps.Keys(c.Volumes)) {
		names = append(names, volumesOf+job)
	}
	return names
}

// value returns a volume by its name.
func (c *Costs) value(name string) money.Value {
	if job, of := strings.CutPrefix(name, volumesOf); of {
		return c.Volumes[job]
	}
	return c.Volume
}

// Shares returns the jobs that have a volume, in the order of their names, and the share that
// each has of all good envelopes of a year, in the mean.
func (c *Costs) Shares() (jobs []string, shares []float64) {
	jobs = slices.Sorted(maps.Keys(c.Volumes))
	all := 0.0
	for _, job := range jobs {
		mean := c.Volumes[job].Mean()
		shares, all = append(shares, mean), all+mean
	}
	for i := range shares {
		shares[i] /= all
	}
	return jobs, shares
}

// Envelopes returns how many good envelopes are made a year, of all jobs: the mean of what is known of
// it.
func (c *Costs) Envelopes() float64 {
	all := c.Volume.Mean()
	for _, job := range slices.Sorted(maps.Keys(c.Volumes)) {
		all += c.Volumes[job].Mean()
	}
	return all
}

// draw returns the costs as they may turn out. Each value has random streams of its own, so that the
// same value of two lines is as high in its range in both.
func (c *Costs) draw(seed uint64, number int) map[string]float64 {
	drawn := map[string]float64{}
	for _, x := range c.Values() {
		random := sim.NewStream("costs", x.Name)
		random.Seed(seed, number)
		drawn[x.Name] = x.Of.Draw(random)
	}
	return drawn
}
