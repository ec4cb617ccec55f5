package page

import (
	"fmt"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/sim"
)

// Operators returns how many people a crew is: “2 operators”, “1.5 operators”, “2 operators, 1 from
// 6 h on”.
func Operators(c *model.Crew) string {
	var parts []string
	for i, p := range c.Stages() {
		if i == 0 {
			parts = append(parts, People(float64(p.Operators)+p.Part))
			continue
		}
		parts = append(parts, fmt.Sprintf("%s from %s on", number(float64(p.Operators)+p.Part), span(p.After)))
	}
	return strings.Join(parts, ", ")
}

// People returns a number of operators, which may be there for part of the time.
func People(n float64) string {
	if n == float64(int(n)) {
		return say.Plural(int(n), "operator")
	}
	return number(n) + " operators"
}

// Skills returns what each of a crew may do, and whether they help; nothing where all may do all alone.
func Skills(c *model.Crew) (lines []string) {
	for i := range c.People {
		p := &c.People[i]
		text := fmt.Sprintf("%s, %s: %s", p.Name, People(float64(p.Operators)), p.Only)
		if p.Lines != nil {
			text += " on " + say.List(p.Lines)
		}
		if p.Stations != nil {
			text += " at " + say.List(p.Stations)
		}
		if p.Stays != "" {
			text += ", stays at " + p.Stays
		}
		if p.Elsewhere {
			text += ", also elsewhere"
		}
		lines = append(lines, text)
	}
	if c.Help > 0 {
		lines = append(lines, fmt.Sprintf("two at one fault are %s times as fast as one", number(c.Help)))
	}
	return lines
}

// Technicians returns how many there are.
func Technicians(c *model.Crew) string {
	if c.Technicians == 0 {
		return "as many technicians as are needed"
	}
	return say.Plural(c.Technicians, "technician")
}

// span returns a time of the shift: 15 min, 2 h.
func span(t sim.Seconds) string {
	if t >= 60 && t < 3600 {
		return say.Exact(float64(t)/60) + " min"
	}
	return Hours(t)
}

// number returns a number of people, to hundredths.
func number(n float64) string {
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(n, 'f', 2, 64), "0"), ".")
}

// Breaks returns the breaks of a crew; "" if it has none.
func Breaks(c *model.Crew) string {
	var all []string
	for _, b := range c.Breaks {
		line := "the line runs on"
		if b.Stands {
			line = "the line stands"
		}
		if b.Remain > 0 {
			line += ", " + strconv.Itoa(b.Remain) + " of the crew remaining"
		}
		all = append(all, fmt.Sprintf("%s after %s (%s)", span(b.Length), span(b.After), line))
	}
	if all == nil {
		return ""
	}
	return "breaks: " + strings.Join(all, "; ")
}
