package model

import (
	"fmt"
	"strings"

	"netrate/sim"
	"netrate/sim/output"
)

// UncertainInput is one number of a line that is not known for certain. The line itself has it as it
// is given; [Line.Drawn] has it as it may be.
type UncertainInput struct {
	Line    string // in a line group, whose it is; else, and of the crew, ""
	Station string // "" for the line and its crew
	Name    string // of a rate or a duration, in the words of a scenario file: misfeed, clear, hopper.refill, crew.walk
	Part    Part   // of a duration
	Of      output.Prior

	// Which unknown the number is. Two numbers that are one unknown are the same in every draw, or
	// as high each within its prior; two unknowns are drawn independently.
	Owner  string // the variant or the file that sets the number; "" for the first file without its variants
	SameAs string // the path of the number that it is the same as; "" for its own
	Common bool   // other files may have it: their owners do not set it apart
}

// Bounded returns a prior without the values that a line cannot have for a number, where that is an
// estimate whose tail reaches beyond them. A range that somebody states stays as it is: whether it is
// possible, [Line.Check] says.
func Bounded(name string, of output.Prior) output.Prior {
	about, estimated := of.(output.About)
	if !estimated {
		return of
	}
	most := map[string]float64{"growth": MostGrowth, "lots.cv": MostCV, "line.days.cv": MostCV}[name]
	if most >= about.Mean { // else the number itself is wrong, and is said to be
		about.Most = most
	}
	return about
}

// Unknown is what is drawn: the path of a number, and whose it is.
type Unknown struct{ Path, Owner string }

// Unknown returns which unknown the number is.
func (d UncertainInput) Unknown() Unknown {
	u := Unknown{d.SameAs, d.Owner}
	if u.Path == "" {
		u.Path = d.Path()
	}
	if d.Common {
		u.Owner = ""
	}
	return u
}

// Part is which number of a duration is uncertain.
type Part int

// The parts.
const (
	NoPart   Part = iota // a rate or another number, which has no parts
	MeanPart             // mean of a duration, which keeps its shape
	CVPart               // coefficient of variation of a duration, which keeps its mean
)

var partNames = [...]string{"", "mean", "cv"}

func (p Part) String() string { return partNames[p] }

// Path returns how the number is referred to, such as stations.letter.misfeed,
// stations.letter.clear.mean or lines.north.restart.mean.
func (d UncertainInput) Path() string {
	var parts []string
	name := d.Name
	if d.Line != "" {
		parts = append(parts, "lines", d.Line)
		name = strings.TrimPrefix(name, "line.")
	}
	if d.Station != "" {
		parts = append(parts, "stations", d.Station)
	}
	parts = append(parts, name)
	if d.Part != NoPart {
		parts = append(parts, d.Part.String())
	}
	return strings.Join(parts, ".")
}

// Drawn returns a copy of the line as it may be, and the value that each of its uncertain inputs has
// there. Each unknown has random numbers of its own, named by its path and its owner: two lines
// that share an unknown find it to be the same. What it returns may be impossible, such as faults
// that come to more than 1; its Check says so.
func (l *Line) Drawn(seed uint64, number int) (*Line, []float64) {
	values := drawnOf(l.UncertainInputs, seed, number)
	return l.with(l.UncertainInputs, values), values
}

// AtMeans returns a copy of the line with each uncertain input at the mean of its prior, where
// nothing is uncertain any more; the line itself if nothing is. It is what stands for the line
// where nothing is drawn: the likeliest value of a skewed range would lean to one side.
func (l *Line) AtMeans() *Line {
	if len(l.UncertainInputs) == 0 {
		return l
	}
	values := make([]float64, len(l.UncertainInputs))
	for i, d := range l.UncertainInputs {
		values[i] = d.Of.Expected()
	}
	return l.with(l.UncertainInputs, values)
}

// with returns a copy of the line in which what is uncertain has the given values.
func (l *Line) with(uncertain []UncertainInput, values []float64) *Line {
	settled := l.Clone()
	settled.UncertainInputs = nil
	numbers := settled.numbers()
	for i, d := range uncertain {
		find(numbers, d).set(d.Part, values[i])
	}
	return settled
}

// ImpossibleDraw is the error of a line whose uncertain inputs may be what no line can have,
// such as faults that come to more than 1.
type ImpossibleDraw struct {
	Line string
	Draw int   // from 1; 0 for the means of what may be
	Why  error // what [Line.Check] has against it
}

// Error returns which draw it was and what is wrong with it.
func (d *ImpossibleDraw) Error() string {
	if d.Draw == 0 {
		return fmt.Sprintf("%s: an uncertain input reaches too far: at the means %v", d.Line, d.Why)
	}
	return fmt.Sprintf("%s: an uncertain input reaches too far: in draw %d %v", d.Line, d.Draw, d.Why)
}

// Unwrap returns what is wrong with the draw.
func (d *ImpossibleDraw) Unwrap() error { return d.Why }

// drawnOf returns one draw of what is uncertain.
func drawnOf(uncertain []UncertainInput, seed uint64, number int) []float64 {
	values := make([]float64, len(uncertain))
	for i, d := range uncertain {
		unknown := d.Unknown()
		purpose := unknown.Path
		if unknown.Owner != "" {
			purpose += "\x00" + unknown.Owner
		}
		random := sim.NewStream("doubt", purpose)
		random.Seed(seed, number)
		values[i] = d.Of.Quantile(random.Uniform())
	}
	return values
}

// UncertainInputs returns what is uncertain of a line group: of its crew once, and of each line by its name.
func (h *LineGroup) UncertainInputs() []UncertainInput {
	var all []UncertainInput
	for i, l := range h.Lines {
		for _, d := range l.UncertainInputs {
			switch {
			case !OfCrew(d.Station, d.Name):
				d.Line = l.Name
				all = append(all, d)
			case i == 0:
				all = append(all, d)
			}
		}
	}
	return all
}

// Drawn returns a copy of the line group as it may be, as [Line.Drawn] does.
func (h *LineGroup) Drawn(seed uint64, number int) (*LineGroup, []float64) {
	uncertain := h.UncertainInputs()
	values := drawnOf(uncertain, seed, number)
	drawn := &LineGroup{Crew: h.Crew}
	for i, l := range h.Lines {
		var own []UncertainInput
		var to []float64
		for k, d := range uncertain {
			if d.Line == l.Name || d.Line == "" {
				own, to = append(own, d), append(to, values[k])
			}
		}
		line := l.AttendedBy(h.Crew).with(own, to)
		if drawn.Lines = append(drawn.Lines, line); i == 0 {
			drawn.Crew = line.Crew
		}
	}
	return drawn, values
}

// AtMeans returns the same line group with each uncertain input at the mean of its prior.
func (h *LineGroup) AtMeans() *LineGroup {
	if len(h.UncertainInputs()) == 0 {
		return h
	}
	means := &LineGroup{Crew: h.Crew}
	for i, l := range h.Lines {
		line := l.AttendedBy(h.Crew).AtMeans()
		if means.Lines = append(means.Lines, line); i == 0 {
			means.Crew = line.Crew
		}
	}
	return means
}

// Has reports whether the line has the number that is uncertain.
func (l *Line) Has(d UncertainInput) bool { return find(l.numbers(), d) != nil }

// Set gives the number that an uncertain input is, but for its part, another value; false if the
// line has no such number.
func (l *Line) Set(d UncertainInput, x float64) bool {
	v := find(l.numbers(), d)
	if v != nil {
		v.set(d.Part, x)
	}
	return v != nil
}

// usualSpread is the coefficient of variation of a time that is said to be always the same, where
// single ones are to be timed: that people vary by so much is common practice, no source.
const usualSpread = 0.5

// CVOf returns the coefficient of variation of the duration of which an uncertain input is a part.
func (l *Line) CVOf(d UncertainInput) float64 {
	v := find(l.numbers(), d)
	if v == nil || v.time == nil {
		return 0
	}
	random := sim.NewStream("measurement", d.Path())
	random.Seed(1, 0)
	times := make(sim.Sample, 2000)
	for i := range times {
		times[i] = float64((*v.time).Draw(random))
	}
	if cv := times.SD() / times.Mean(); cv > 0 {
		return cv
	}
	return usualSpread
}

// find returns the number that an uncertain input is; nil if there is none.
func find(numbers []Parameter, d UncertainInput) *Parameter {
	for i := range numbers {
		if v := &numbers[i]; v.Station == d.Station && v.Name == d.Name && (v.rate == nil) == (d.Part != NoPart) {
			return v
		}
	}
	return nil
}

// set gives a number, or a part of a duration, another value.
func (v *Parameter) set(part Part, x float64) {
	switch part {
	case NoPart:
		*v.rate = x
	case MeanPart:
		*v.time = sim.Scaled(*v.time, x/float64((*v.time).Mean()))
	case CVPart:
		*v.time, _ = sim.Spread(*v.time, x)
	}
}

// checkUncertainInputs checks what is said to be uncertain.
func (l *Line) checkUncertainInputs(c *Checks) {
	numbers := l.numbers()
	for _, d := range l.UncertainInputs {
		v := find(numbers, d)
		if v == nil {
			c.Require(false, d.Path(), "%s cannot be uncertain: it is not a number of the line", d.Path())
			continue
		}
		err := d.Of.Check()
		c.Require(err == nil, d.Path(), "%s is not possible: %v", d.Path(), err)
		if err == nil {
			err = v.canBe(d.Part, d.Of)
			c.Require(err == nil, d.Path(), "%s is not possible: %v", d.Path(), err)
		}
	}
}

// surely is the probability of the ends at which an uncertain input is checked.
const surely = 1e-9

// canBe returns why a number cannot have all the values that its prior gives it.
func (v *Parameter) canBe(part Part, of output.Prior) error {
	low, high := of.Quantile(surely), of.Quantile(1-surely)
	switch {
	case !(low >= 0):
		return fmt.Errorf("it may be as low as %.3g", low)
	case part == MeanPart && !(low > 0 && high <= 1e9*min(1, v.Size())): // it is scaled, by 10⁹ at most
		return fmt.Errorf("it may be from %.3g to %.3g s, want more than 0 and no more than %.3g", low, high, 1e9*min(1, v.Size()))
	case part == CVPart:
		return v.canSpread(of)
	case part == NoPart && v.share && !(high <= 1):
		return fmt.Errorf("it may be as high as %.3g, want a probability", high)
	}
	return nil
}

// canSpread returns why a duration cannot have the cv that is given, or the ends of a range of
// it. What is estimated may well be beyond what a duration can have: it is then the nearest.
func (v *Parameter) canSpread(of output.Prior) error {
	if _, err := sim.Spread(*v.time, of.Nominal()); err != nil || of.FromData() {
		return err
	}
	for _, end := range []float64{of.Quantile(0), of.Quantile(1)} {
		if _, err := sim.NewGamma(1, end); err != nil {
			return err
		}
	}
	return nil
}
