package model

import "fmt"

// Bounds are the least and the most of a length in mm; 0 for no bound.
type Bounds struct{ Least, Most float64 }

// Allow reports whether a length is within the bounds. One that is not known, 0, is.
func (b Bounds) Allow(x float64) bool {
	return x == 0 || x >= b.Least && (b.Most == 0 || x <= b.Most)
}

// Takes is what a feeder or an inserter can take, in mm.
type Takes struct {
	Height, Length Bounds
	Thickness      Bounds // of a piece in a feeder, of the whole set in an inserter
}

// SizeGroup is the envelopes of an inserter up to a size, with the speed it can run them at.
type SizeGroup struct {
	Name           string
	Height, Length float64 // the largest, in mm
	Speed          float64 // cycles an hour
}

// String returns the bounds in words, in mm.
func (b Bounds) String() string {
	switch {
	case b == Bounds{}:
		return "anything"
	case b.Most == 0:
		return fmt.Sprintf("%s mm or more", Millimetres(b.Least))
	case b.Least == 0:
		return fmt.Sprintf("up to %s mm", Millimetres(b.Most))
	}
	return fmt.Sprintf("%s to %s mm", Millimetres(b.Least), Millimetres(b.Most))
}

// EitherWay reports whether a piece can be taken as it is or turned by a quarter.
func (t *Takes) EitherWay(height, length float64) bool {
	return t.Height.Allow(height) && t.Length.Allow(length) ||
		t.Height.Allow(length) && t.Length.Allow(height)
}

// Millimetres returns a length to four digits, "?" if it is not known.
func Millimetres(x float64) string {
	if x == 0 {
		return "?"
	}
	return fmt.Sprintf("%.4g", x)
}
