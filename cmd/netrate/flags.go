package main

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/pflag"
)

// newFlags returns an empty set of flags, for one verb.
func newFlags(verb string) *pflag.FlagSet {
	flags := pflag.NewFlagSet(verb, pflag.ContinueOnError)
	flags.SortFlags = false
	flags.Usage = func() {} // what a flag error says is up to flagError
	return flags
}

// flagError puts an error of reading flags in our words.
func flagError(verb string, flags *pflag.FlagSet, err error) error {
	var unknown *pflag.NotExistError
	var valueless *pflag.ValueRequiredError
	var invalid *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		name, found := unknown.GetSpecifiedName(), "--"+unknown.GetSpecifiedName()
		if short := unknown.GetSpecifiedShortnames(); short != "" { // -seed for --seed
			name, found = short, "-"+short
		}
		var names []string
		flags.VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
		return wrong("%s has no flag %s%s", verb, found, meant(name, names, "--"))
	case errors.As(err, &valueless):
		return wrong("--%s wants a value", valueless.GetSpecifiedName())
	case errors.As(err, &invalid):
		return wrong("--%s is %q, %v", invalid.GetFlag().Name, invalid.GetValue(), invalid.Unwrap())
	}
	return wrong("%v", err)
}

// fromEnvironment sets the named flags that the command line did not set from variables:
// --seed from NETRATE_SEED.
func fromEnvironment(flags *pflag.FlagSet, getenv func(string) string, names ...string) error {
	for _, name := range names {
		variable := "NETRATE_" + strings.ToUpper(name)
		value := getenv(variable)
		if value == "" || flags.Changed(name) {
			continue
		}
		if err := flags.Set(name, value); err != nil {
			if invalid, ok := errors.AsType[*pflag.InvalidValueError](err); ok {
				err = invalid.Unwrap()
			}
			return wrong("%s is %q, %v", variable, value, err)
		}
	}
	return nil
}

// count is a flag that is a whole number.
type count struct {
	value       int
	least, most int
}

func (c *count) Set(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < c.least || n > c.most {
		return fmt.Errorf("want a whole number from %d to %s", c.least, grouped(strconv.Itoa(c.most)))
	}
	c.value = n
	return nil
}

func (c *count) String() string { return strconv.Itoa(c.value) }
func (c *count) Type() string   { return "N" }

// seed is a flag that is any number of 64 bits.
type seed uint64

func (s *seed) Set(text string) error {
	n, err := strconv.ParseUint(text, 10, 64)
	if err != nil {
		return fmt.Errorf("want a whole number from 0 to %d", uint64(math.MaxUint64))
	}
	*s = seed(n)
	return nil
}

func (s *seed) String() string { return strconv.FormatUint(uint64(*s), 10) }
func (s *seed) Type() string   { return "N" }

// share is a flag that is a part of a whole, such as 0.5% or 0.005.
type share float64

func (s *share) Set(text string) error {
	number, percent := strings.CutSuffix(text, "%")
	x, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if percent {
		x /= 100
	}
	if err != nil || !(x > 0 && x < 1) {
		return errors.New("want a share such as 0.5% or 0.005, above 0 and below 100%")
	}
	*s = share(x)
	return nil
}

func (s *share) String() string { return strconv.FormatFloat(float64(*s)*100, 'g', -1, 64) + "%" }
func (s *share) Type() string   { return "SHARE" }
