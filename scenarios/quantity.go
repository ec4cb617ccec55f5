package scenarios

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"netrate/model"
)

// maxDays is the longest time in a scenario, in days.
const maxDays = 31

var (
	times = measure{
		wanted: "a time such as 45 s, 2 min, 8 h or 5 h 30 min", parts: severalTimes, most: maxDays * 24 * 3600, mostIs: "744 h (31 days)", glue: " ", bare: "%s s, min or h",
		units: []unit{{"s", 1, "sec secs second seconds"}, {"min", 60, "m mins minute minutes"}, {"h", 3600, "hr hrs hour hours"}},
	}
	speeds = measure{
		wanted: "a speed such as 18000/h, 300/min or 5/s", most: 1e6, mostIs: "1000000/h", least: 1, leastIs: "1/h", glue: " /", bare: "%s/h, /min or /s",
		units: []unit{{"h", 1, "hr hour"}, {"min", 60, "m minute"}, {"s", 3600, "sec second"}},
	}
	rates = measure{
		wanted: "a number an hour, such as 36000/h, 600/min or 10/s", most: speeds.most, mostIs: speeds.mostIs, glue: speeds.glue, bare: speeds.bare, units: speeds.units,
	}
	lengths = measure{
		wanted: "a length such as 400 mm, 2 cm or 0.25 in", most: 10_000, mostIs: "10000 mm", glue: " ", bare: "%s mm, cm or in",
		units: []unit{{"mm", 1, "millimetre millimetres"}, {"cm", 10, "centimetre centimetres"}, {"in", 25.4, "inch inches \""}},
	}
)

// seconds is a time, such as 45 s.
type seconds float64

func (x *seconds) read(text string) error { return times.into((*float64)(x), text) }

// speed is in cycles an hour, such as 18000/h.
type speed float64

func (x *speed) read(text string) error {
	if err := speeds.into((*float64)(x), text); err != nil {
		return err
	}
	if *x == 0 {
		return errors.New("want more than 0")
	}
	return nil
}

// ParseSpeed reads a speed as a scenario has it, such as 18000/h, in cycles an hour.
func ParseSpeed(text string) (float64, error) {
	var x speed
	err := x.read(text)
	return float64(x), err
}

// rate is how many of something come an hour, such as 36000/h.
type rate float64

func (x *rate) read(text string) error {
	if err := rates.into((*float64)(x), text); err != nil {
		return err
	}
	if *x == 0 {
		return errors.New("want more than 0")
	}
	return nil
}

// length is in millimetres, such as 0.1 mm.
type length float64

func (x *length) read(text string) error { return lengths.into((*float64)(x), text) }

func (m *measure) into(x *float64, text string) (err error) {
	*x, err = m.read(text)
	return err
}

// probability is from 0 to 1, such as 1/2500, 1 in 2500, 0.04% or 0.0004.
type probability float64

const wantProbability = "a probability from 0 to 1, such as 1/2500, 1 in 2500, 0.04% or 0.0004"

func (x *probability) read(text string) error {
	p, err := ratio(text)
	switch {
	case err != nil:
		return want(wantProbability, err)
	case p > 1 && p <= 100 && plainNumber.MatchString(text):
		return want(wantProbability, fmt.Errorf("did you mean %s%%?", text))
	case !(p <= 1):
		return want(wantProbability, nil)
	}
	*x = probability(p)
	return nil
}

// ratio returns the value of a number, a percentage or a fraction.
func ratio(text string) (float64, error) {
	if percent, ok := strings.CutSuffix(text, "%"); ok {
		p, err := parseNumber(strings.TrimRight(percent, " "))
		return p / 100, err
	}
	over, under, ok := strings.Cut(text, "/")
	if !ok {
		over, under, ok = strings.Cut(text, " in ") // as people say it: 1 in 2500
	}
	if !ok {
		return parseNumber(text)
	}
	a, err := parseNumber(strings.TrimSpace(over))
	if err != nil {
		return 0, err
	}
	b, err := parseNumber(strings.TrimSpace(under))
	if err == nil && b == 0 {
		err = fmt.Errorf("nothing can be divided by 0")
	}
	return a / b, err
}

// factor is a number without a unit, from 0 up.
type factor float64

func (x *factor) read(text string) (err error) {
	if *(*float64)(x), err = parseNumber(text); err != nil {
		return want("a number from 0 up, such as 1.5", err)
	}
	return nil
}

func (x *factor) number() {}

// IntegerDistribution numbers, each with the range that keeps a mistake from filling the memory.
type (
	count        int64  // pieces, or places in a bin or on a belt
	pitch        int    // place on the track
	buffer       int    // for documents in a buffer
	tries        int    // to recover
	replications int    // of a run
	seed         uint64 // any number
)

const (
	maxCount        = 1_000_000_000
	maxPitch        = 10_000
	maxPlaces       = 10_000
	maxTries        = 1000
	maxOperators    = 1000
	minReplications = 2 // one alone has no spread
	maxReplications = 10_000_000
)

func (x *count) read(text string) error  { return whole(x, text, 0, maxCount) }
func (x *pitch) read(text string) error  { return whole(x, text, 0, maxPitch) }
func (x *buffer) read(text string) error { return whole(x, text, 1, maxPlaces) }
func (x *tries) read(text string) error  { return whole(x, text, 1, maxTries) }
func (x *seed) read(text string) error   { return whole(x, text, 0, 1<<64-1) }
func (x *replications) read(text string) error {
	return whole(x, text, minReplications, maxReplications)
}

func (*count) number()        {}
func (*pitch) number()        {}
func (*buffer) number()       {}
func (*tries) number()        {}
func (*replications) number() {}
func (*seed) number()         {}

// whole reads a whole number from least to most.
func whole[T ~int | ~int64 | ~uint64](x *T, text string, least, most uint64) error {
	wanted := fmt.Sprintf("a whole number from %d to %d", least, most)
	if _, err := parseNumber(text); err != nil {
		return want(wanted, err)
	}
	n, err := strconv.ParseUint(text, 10, 64)
	if err != nil || n < least || n > most {
		return want(wanted, nil)
	}
	*x = T(n)
	return nil
}

// answer is the response to a fault.
type answer model.Response

func (x *answer) read(text string) error {
	response, err := model.ResponseOf(text)
	if err != nil {
		return want(model.OneOf(model.Responses()), guess(text, model.Responses()))
	}
	*x = answer(response)
	return nil
}

// guess returns the nearest name as a hint, or nil.
func guess(word string, names []string) error {
	if name := Nearest(word, names); name != "" {
		return fmt.Errorf("did you mean %s?", name)
	}
	return nil
}

// attention is which stock a crew sees to first.
type attention model.Order

func (x *attention) read(text string) error {
	order, err := model.OrderOf(text)
	if err != nil {
		return fmt.Errorf("%s", meant(text, model.Orders()))
	}
	*x = attention(order)
	return nil
}

// exhausted is where a stock that is used up waits for the crew.
type exhausted model.Exhausted

func (x *exhausted) read(text string) error {
	i := slices.Index(model.ExhaustedNames(), text)
	if i < 0 {
		return fmt.Errorf("%s", meant(text, model.ExhaustedNames()))
	}
	*x = exhausted(i)
	return nil
}
