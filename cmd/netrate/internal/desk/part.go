package desk

import (
	"errors"
	"strconv"
	"strings"
)

// Part is a flag that is a small part of a whole, such as 2/1e6, 0.0002% or 0.000002.
type Part struct {
	Text  string // as it was given
	Value float64
}

// Set reads a part of 0 or more and below 1: a ratio, in percent or as a number.
func (p *Part) Set(text string) error {
	of, over := strings.TrimSpace(text), "1"
	if above, below, ratio := strings.Cut(of, "/"); ratio {
		of, over = above, below
	} else if number, percent := strings.CutSuffix(of, "%"); percent {
		of, over = number, "100"
	}
	x, errOf := strconv.ParseFloat(strings.TrimSpace(of), 64)
	y, errOver := strconv.ParseFloat(strings.TrimSpace(over), 64)
	value := x / y
	if errOf != nil || errOver != nil || !(y > 0) || !(value >= 0 && value < 1) {
		return errors.New("want a part such as 2/1e6, 0.0002% or 0, below 1")
	}
	p.Text, p.Value = text, value
	return nil
}

// String returns the part as it was given.
func (p *Part) String() string { return p.Text }

// Type returns what the help calls the value.
func (p *Part) Type() string { return "PART" }
