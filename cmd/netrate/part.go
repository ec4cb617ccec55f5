package main

import (
	"errors"
	"strconv"
	"strings"
)

// part is a flag that is a small part of a whole, such as 2/1e6, 0.0002% or 0.000002.
type part struct {
	text  string // as it was given
	value float64
}

func (p *part) Set(text string) error {
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
	p.text, p.value = text, value
	return nil
}

func (p *part) String() string { return p.text }
func (p *part) Type() string   { return "PART" }
