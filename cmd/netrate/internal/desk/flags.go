package desk

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/say"
)

// NewFlags returns an empty set of flags, for one verb.
func NewFlags(verb string) *pflag.FlagSet {
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
		return Wrong("%s has no flag %s%s", verb, found, Meant(name, names, "--"))
	case errors.As(err, &valueless):
		return Wrong("--%s wants a value", valueless.GetSpecifiedName())
	case errors.As(err, &invalid):
		return Wrong("--%s is %q, %v", invalid.GetFlag().Name, invalid.GetValue(), invalid.Unwrap())
	}
	return Wrong("%v", err)
}

// fromEnvironment sets the named flags that the command line did not set from variables:
// --seed from NETRATE_SEED.
func (e Env) fromEnvironment(flags *pflag.FlagSet, names ...string) error {
	for _, name := range names {
		variable := "NETRATE_" + strings.ToUpper(name)
		value := e.variable(variable)
		if value == "" || flags.Changed(name) {
			continue
		}
		if err := flags.Set(name, value); err != nil {
			if invalid, ok := errors.AsType[*pflag.InvalidValueError](err); ok {
				err = invalid.Unwrap()
			}
			return Wrong("%s is %q, %v", variable, value, err)
		}
	}
	return nil
}

// Count is a flag that is a whole number.
type Count struct {
	Value       int
	least, Most int
}

// Set reads a whole number within the bounds.
func (c *Count) Set(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < c.least || n > c.Most {
		return fmt.Errorf("want a whole number from %d to %s", c.least, say.Grouped(strconv.Itoa(c.Most)))
	}
	c.Value = n
	return nil
}

// String returns the number as the command line has it.
func (c *Count) String() string { return strconv.Itoa(c.Value) }

// Type returns what the help calls the value.
func (c *Count) Type() string { return "N" }

// Seed is a flag that is any number of 64 bits.
type Seed uint64

// Set reads a whole number of 64 bits.
func (s *Seed) Set(text string) error {
	n, err := strconv.ParseUint(text, 10, 64)
	if err != nil {
		return fmt.Errorf("want a whole number from 0 to %d", uint64(math.MaxUint64))
	}
	*s = Seed(n)
	return nil
}

// String returns the seed as the command line has it.
func (s *Seed) String() string { return strconv.FormatUint(uint64(*s), 10) }

// Type returns what the help calls the value.
func (s *Seed) Type() string { return "N" }

// Confidence is a flag that is how sure a choice is, such as 95%.
type Confidence Share

// Set reads a share from a half to below 1: less is no confidence, as a coin has as much.
func (c *Confidence) Set(text string) error {
	if err := (*Share)(c).Set(text); err != nil {
		return err
	}
	if *c < 0.5 {
		return errors.New("want 50% or more, such as 95%")
	}
	return nil
}

func (c *Confidence) String() string { return (*Share)(c).String() }

// Type is what stands in the help.
func (c *Confidence) Type() string { return (*Share)(c).Type() }

// Share is a flag that is a part of a whole, such as 0.5% or 0.005.
type Share float64

// Set reads a share above 0 and below 1, in percent or as a number. Where a number from 1 up is given,
// it says what that is in percent.
func (s *Share) Set(text string) error {
	number, percent := strings.CutSuffix(text, "%")
	x, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if percent {
		x /= 100
	}
	if err == nil && !percent && x >= 1 && x < 100 {
		return fmt.Errorf("want a share above 0 and below 100%%, such as %s%% or %s", number, strconv.FormatFloat(x/100, 'g', 4, 64))
	}
	if err != nil || !(x > 0 && x < 1) {
		return errors.New("want a share such as 0.5% or 0.005, above 0 and below 100%")
	}
	*s = Share(x)
	return nil
}

// String returns the share in percent.
func (s *Share) String() string { return strconv.FormatFloat(float64(*s)*100, 'g', -1, 64) + "%" }

// Type returns what the help calls the value.
func (s *Share) Type() string { return "SHARE" }
