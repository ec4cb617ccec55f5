package model

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
