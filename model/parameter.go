package model

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"netrate/sim"
)

// Parameter is one rate or duration of a line that one may want to know the worth of, or another
// number that may be uncertain.
type Parameter struct {
	Line    string // of several with one crew, which it is of; "" of the only line, and of the crew
	Station string // "" for the line and its crew
	Name    string // in the words of a scenario file: misfeed, clear, hopper.refill
	Value   string // as it is, with its unit; of a feeder’s rate, times the factor of its material

	index int
	fault *Fault   // whose probability in each attempt it is; nil for another number
	stock bool     // it is the operator's work at a stock
	share bool     // it is a probability
	rate  *float64 // of the line that listed it; nil for a duration
	time  *sim.Duration
}

// Path returns the parameter as scenario files address it, such as stations.letter.misfeed.
func (v Parameter) Path() string {
	path := v.Name
	if v.Station != "" {
		path = "stations." + v.Station + "." + v.Name
	}
	if v.Line == "" {
		return path
	}
	return "lines." + v.Line + "." + strings.TrimPrefix(path, "line.")
}

// OnLine returns the parameter as its line addresses it.
func (v Parameter) OnLine() Parameter {
	v.Line = ""
	return v
}

// Fault returns the fault whose probability in each attempt it is; false for another number.
func (v Parameter) Fault() (f Fault, is bool) {
	if v.fault == nil {
		return 0, false
	}
	return *v.fault, true
}

// Probability reports whether it is one, which is written as one in so many.
func (v Parameter) Probability() bool { return v.share }

// Stock reports whether it is how long an operator fills or empties a stock.
func (v Parameter) Stock() bool { return v.stock }

// Size returns the rate, the factor of its material left out, or the mean of the duration in
// seconds.
func (v Parameter) Size() float64 {
	if v.rate != nil {
		return *v.rate
	}
	return float64((*v.time).Mean())
}

// Parameters returns every rate and duration of the line that is not zero: those of the line
// and its crew, then those of the stations in order.
func (l *Line) Parameters() []Parameter { return l.list(false) }

// numbers returns all numbers of the line that may be uncertain: its parameters, the rates that are
// zero, and what else faults depend on.
func (l *Line) numbers() []Parameter { return l.list(true) }

func (l *Line) list(whole bool) []Parameter {
	all := Parameters{whole: whole}
	all.Duration("line.restart", &l.Restart)
	all.Duration(CrewWalk, &l.Crew.Walk)
	all.dayNumbers(&l.Days)
	all.slowNumbers(&l.Slow)
	all.Rate("crew.wrong_repair", &l.Crew.WrongRepair)
	all.Rate("crew.wrong_realign", &l.Crew.WrongRealign)
	for i := range l.Attributes {
		a := &l.Attributes[i]
		all.Beside("line.attributes."+a.Name+".share", &a.Share, true)
	}
	for _, s := range l.Stations {
		all.station = s.Where().Name
		all.stationed(s)
	}
	return all.list
}

// stationed adds the numbers of a station: its own, and those of its lots and its breakdowns.
func (v *Parameters) stationed(s Station) {
	s.Parameters(v)
	if lots := LotsOf(s); lots != nil {
		v.lotNumbers(lots)
	}
	if b := s.Downtime(); b.Every > 0 {
		v.add(Parameter{Name: "breakdowns.every", Value: fmt.Sprintf("%.4g h", float64(b.Every)/3600), rate: (*float64)(&b.Every)})
		v.Duration("breakdowns.comes", &b.Comes)
		v.Duration("breakdowns.repair", &b.Repair)
	}
}

// Parameter returns the parameter of a path; false if the line has none.
func (l *Line) Parameter(path string) (Parameter, bool) {
	for _, v := range l.Parameters() {
		if v.Path() == path {
			return v, true
		}
	}
	return Parameter{}, false
}

// Moved returns a copy of the line with the value of one of its parameters multiplied by a
// factor above 0. What is then impossible, such as a probability above 1, its Check says.
func (l *Line) Moved(v Parameter, factor float64) *Line {
	moved := l.Clone()
	if own := moved.Parameters()[v.index]; own.rate != nil {
		*own.rate *= factor
	} else {
		*own.time = sim.Scaled(*own.time, factor)
	}
	return moved
}

// CrewWalk names how far operators walk.
const CrewWalk = "crew.walk"

// OfCrew reports whether a number is one of the crew's, which lines with one crew share.
func OfCrew(station, name string) bool { return station == "" && strings.HasPrefix(name, "crew.") }

// Parameters collects the numbers of a line.
type Parameters struct {
	station string
	whole   bool // rates that are zero are listed too, and what is no parameter
	list    []Parameter
	odd     []string // durations whose means are no times
	absent  []string // durations that are pointers to nothing
}

// add adds a parameter of the station at hand.
func (v *Parameters) add(x Parameter) {
	x.Station, x.index = v.station, len(v.list)
	v.list = append(v.list, x)
}

// Rate adds a probability.
func (v *Parameters) Rate(name string, p *float64) {
	if *p > 0 || v.whole {
		v.add(Parameter{Name: name, Value: oneIn(*p), share: true, rate: p})
	}
}

// Beside adds a number that is no parameter: a probability, if share says so.
func (v *Parameters) Beside(name string, x *float64, share bool) {
	if v.whole {
		v.add(Parameter{Name: name, Value: strconv.FormatFloat(*x, 'g', 4, 64), share: share, rate: x})
	}
}

// number adds a number that is no probability, written as the format says.
func (v *Parameters) number(name string, x *float64, format string) {
	if *x > 0 {
		v.add(Parameter{Name: name, Value: fmt.Sprintf(format, *x), rate: x})
	}
}

// Fault adds the probability of a fault in each attempt of the station.
func (v *Parameters) Fault(f Fault, name string, p *float64) {
	n := len(v.list)
	if v.Rate(name, p); len(v.list) > n {
		v.list[n].fault = &f
	}
}

// Fed adds the probability of a fault in each attempt that the material of the insert
// multiplies, which its value says.
func (v *Parameters) Fed(f Fault, name string, p *float64, material float64) {
	v.Fault(f, name, p)
	if *p > 0 && material != 1 && !v.whole {
		v.list[len(v.list)-1].Value += fmt.Sprintf(" × %.4g", material)
	}
}

// Duration adds a duration.
func (v *Parameters) Duration(name string, d *sim.Duration) {
	if *d == nil {
		return
	}
	if p := reflect.ValueOf(*d); p.Kind() == reflect.Pointer && p.IsNil() {
		v.absent = append(v.absent, name)
		return
	}
	if mean := (*d).Mean(); !(mean >= 0) || math.IsInf(float64(mean), 0) {
		v.odd = append(v.odd, name)
	} else if mean > 0 {
		v.add(Parameter{Name: name, Value: fmt.Sprintf("%.4g s", float64((*d).Mean())), time: d})
	}
}

// Stock adds the operator's work at a stock, in the word for it.
func (v *Parameters) Stock(name string, k *Stock) {
	if n := len(v.list); k.Capacity > 0 {
		v.Duration(name, &k.Work)
		for i := range v.list[n:] {
			v.list[n+i].stock = true
		}
	}
}

// oneIn returns a probability as the trade writes it.
func oneIn(p float64) string {
	if p > 0.02 {
		return fmt.Sprintf("%.3g %%", 100*p)
	}
	return "1/" + strconv.FormatFloat(math.Round(1/p), 'f', -1, 64)
}

// FaultRate is a fault of a station whose probability in each attempt is one of its numbers.
type FaultRate struct {
	Fault Fault
	Name  string // of the number, in the words of a scenario file
}

// FaultRates returns the faults of a station that come at a rate per attempt, with the names
// of their probabilities: what can be learnt by counting both.
func FaultRates(s Station) (rates []FaultRate) {
	all := Parameters{whole: true}
	s.Parameters(&all)
	for _, v := range all.list {
		if v.fault != nil {
			rates = append(rates, FaultRate{*v.fault, v.Name})
		}
	}
	return rates
}

// HasNumber reports whether a station has a number of a name, in the words of a scenario file.
func HasNumber(s Station, name string) bool {
	all := Parameters{whole: true}
	all.stationed(s)
	return slices.ContainsFunc(all.list, func(v Parameter) bool { return v.Name == name })
}
