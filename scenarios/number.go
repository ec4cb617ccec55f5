package scenarios

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// plainNumber matches a number as planners write it: decimal, no sign, no separators.
// What else YAML takes for a number (017, 0x10, 1_000, .inf) is refused.
var plainNumber = regexp.MustCompile(`^(0|[1-9][0-9]*|0?\.[0-9]+|0\.[0-9]+|[1-9][0-9]*\.[0-9]+)([eE][+-]?[0-9]+)?$`)

// leastNumber is above all that computers make 0 of, also where two numbers are multiplied.
const leastNumber = 1e-100

// parseNumber returns a number from 0 up, finite, or why the text is none.
func parseNumber(text string) (float64, error) {
	if !plainNumber.MatchString(text) {
		return 0, numberFault(text)
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0, fmt.Errorf("too large a number")
	}
	if mantissa, _, _ := strings.Cut(strings.ToLower(text), "e"); x < leastNumber && strings.ContainsAny(mantissa, "123456789") {
		return 0, fmt.Errorf("too small a number")
	}
	return x, nil
}

var faults = []struct {
	sign *regexp.Regexp
	hint string
}{
	{regexp.MustCompile(`(?i)^[-+.]*(nan|inf)`), "that is not a number"},
	{regexp.MustCompile(`^-[\d.]`), "it cannot be negative"},
	{regexp.MustCompile(`^\+`), "leave out the +"},
	{regexp.MustCompile(`^0[xX]`), "hexadecimal numbers are not read"},
	{regexp.MustCompile(`^0[oO0-9]`), "leave out the leading zero, which makes a number octal"},
	{regexp.MustCompile(`^\d[\d_]*_\d`), "leave out the underscore"},
	{regexp.MustCompile(`^\d{1,3}(,\d{3})+(\D|$)`), "leave out the comma"},
	{regexp.MustCompile(`^\d+,\d`), "write a point for the comma"},
}

// numberFault returns what may be wrong with a number, as a hint that ends a sentence.
func numberFault(text string) error {
	for _, f := range faults {
		if f.sign.MatchString(text) {
			return fmt.Errorf("%s", f.hint)
		}
	}
	return errNoNumber
}

var errNoNumber = fmt.Errorf("no number")

// want returns what is wanted, with a hint at what was wrong if there is one.
func want(wanted string, why error) error {
	if why == nil || errors.Is(why, errNoNumber) {
		return fmt.Errorf("want %s", wanted)
	}
	return fmt.Errorf("want %s: %w", wanted, why)
}

// unit is a unit of measurement: its size in the base unit, and other words for it.
type unit struct {
	name string
	size float64
	also string
}

// measure is a kind of quantity that has units.
type measure struct {
	wanted string // with examples
	most   float64
	mostIs string
	least  float64 // of what is not 0; 0 for any

	leastIs string
	units   []unit
	glue    string // between number and unit: a regular expression without groups
	bare    string // how to write a number without its unit, with %s for it

	parts *regexp.Regexp // texts of several numbers with their units, which are added; nil for none
}

// leading splits a text after its number, right or wrong.
var leading = regexp.MustCompile(`^([-+]?[0-9.][0-9.,_]*(?:[eE][-+]?[0-9]+)?)(.*)$`)

// read returns the value of a text such as "2 min" in the measure's base unit.
func (m *measure) read(text string) (float64, error) {
	parts := leading.FindStringSubmatch(text)
	if parts == nil {
		return 0, want(m.wanted, numberFault(text))
	}
	x, err := parseNumber(parts[1])
	if err != nil {
		return 0, want(m.wanted, err)
	}
	name := strings.TrimLeft(parts[2], m.glue)
	if sum, unit := m.sum(text); unit.size > 0 {
		return sum, m.beyond(sum)
	}
	if parts[2] == "" {
		return 0, fmt.Errorf("say the unit: "+m.bare, parts[1])
	}
	for _, u := range m.units {
		if name == u.name {
			x *= u.size
			if err := m.beyond(x); err != nil {
				return 0, err
			}
			return x, nil
		}
	}
	if err := m.asOne(x, name); err != nil {
		return 0, err
	}
	return 0, want(m.wanted, m.unitFault(name))
}

// beyond says that a value is more or less than the measure takes; nil if it is not.
func (m *measure) beyond(x float64) error {
	if !(x <= m.most) {
		return fmt.Errorf("want at most %s", m.mostIs)
	}
	if x > 0 && x < m.least {
		return fmt.Errorf("want at least %s", m.leastIs)
	}
	return nil
}

// severalTimes are times of several units, the larger first, each once: after the first each is below 60, and the last
// alone may have a fraction.
var severalTimes = regexp.MustCompile(`^(0|[1-9][0-9]*) *(h *[0-5]?[0-9] *min *[0-5]?[0-9](\.[0-9]+)? *s|h *[0-5]?[0-9](\.[0-9]+)? *(min|s)|min *[0-5]?[0-9](\.[0-9]+)? *s)$`)

// aPart is a number with its unit among several.
var aPart = regexp.MustCompile(`([0-9.]+) *([a-z]+)`)

// sum returns the value of a text of several numbers with their units, and the last of these; the zero unit for any
// other text.
func (m *measure) sum(text string) (sum float64, last unit) {
	if m.parts == nil || !m.parts.MatchString(text) {
		return 0, unit{}
	}
	for _, part := range aPart.FindAllStringSubmatch(text, -1) {
		x, err := strconv.ParseFloat(part[1], 64)
		last = m.units[slices.IndexFunc(m.units, func(u unit) bool { return u.name == part[2] })]
		if sum += float64(x * last.size); err != nil {
			sum = math.Inf(1)
		}
	}
	return sum, last
}

const longestParts = 40 // characters of a quantity of two parts

// asOne says of a quantity of two parts, such as 5 h 30 min, how it is written as one: 330 min. It returns nil if it
// is none. It begins with x, and the rest is its unit and the other part.
func (m *measure) asOne(x float64, rest string) error {
	if m.glue != " " || len(rest) > longestParts { // a speed has no parts
		return nil
	}
	for _, u := range m.units {
		part, begins := strings.CutPrefix(rest, u.name)
		if !begins {
			continue
		}
		part = strings.TrimLeft(part, " ")
		y, err := m.read(part)
		if err != nil {
			continue
		}
		for _, of := range m.units {
			if strings.HasSuffix(part, of.name) {
				return fmt.Errorf("write it as one: %s %s", strconv.FormatFloat((float64(x*u.size)+y)/of.size, 'g', 6, 64), of.name)
			}
		}
	}
	return nil
}

func (m *measure) unitFault(name string) error {
	var names []string
	for _, u := range m.units {
		names = append(names, u.name)
		for word := range strings.FieldsSeq(u.also) {
			if strings.EqualFold(name, word) || strings.EqualFold(name, u.name) {
				return fmt.Errorf("the unit %q is written %s", name, u.name)
			}
		}
	}
	return fmt.Errorf("the unit %q is not known here, %s", name, meant(name, names))
}

// pattern returns the regular expression of the measure's texts, for the schema.
func (m *measure) pattern() string {
	var names []string
	for _, u := range m.units {
		names = append(names, u.name)
	}
	one := numberPattern + `[` + m.glue + `]*(` + strings.Join(names, "|") + `)`
	if m.parts == nil {
		return `^` + one + `$`
	}
	return `^(` + one + `|` + strings.Trim(m.parts.String(), "^$") + `)$`
}

const numberPattern = `(0|[1-9][0-9]*)?(\.[0-9]+)?([eE][-+]?[0-9]+)?`

// near returns the whole number below x, or the one it was meant to be: 400 mm hold
// 4000 pieces of 0.1 mm whatever the last bit says.
func near(x float64) float64 { return math.Floor(float64(x*(1+1e-12)) + 1e-9) }
