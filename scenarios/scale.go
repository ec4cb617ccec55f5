package scenarios

import (
	"errors"
	"fmt"
	"math"
	"strconv"
)

// scaled returns a value a number of times as large, as if it stood at a place in the file. Of a
// rate that was counted the trials are more or fewer, so that it is known as well as before;
// of a time the cv stays.
func scaled(n *node, times float64, place *node) (*node, error) {
	switch n.Kind {
	case scalarNode:
		f, x, err := formOf(n.Value)
		if err != nil || f.valueKind == wordKind {
			return nil, fmt.Errorf("%s is not a number that could be %g times as large", brief(n), times)
		}
		if x == 0 {
			return moved(n, place), nil
		}
		v := f.value(x * times)
		if v.Text == "" {
			return nil, fmt.Errorf("%s cannot be %g times as large", brief(n), times)
		}
		return scalar(v.Text, place), nil
	case sequenceNode:
		return scaledBelow(n, times, place, 1)
	case mappingNode:
		return scaledBelow(n, times, place, 2)
	default:
		return nil, errors.New("a value that is used twice cannot be scaled")
	}
}

// scaledBelow scales the items of a list (each is 1) or the values of a mapping (each is 2).
func scaledBelow(n *node, times float64, place *node, each int) (*node, error) {
	c := moved(n, place)
	for i := each - 1; i < len(n.Content); i += each {
		key := ""
		if each == 2 {
			key = n.Content[i-1].Value
		}
		var err error
		switch key {
		case "cv", "seen":
			continue
		case "of", "counted":
			c.Content[i], err = trialsFor(n.Content[i], times, place)
		default:
			c.Content[i], err = scaled(n.Content[i], times, place)
		}
		if err != nil {
			return nil, err
		}
	}
	return c, nil
}

// trialsFor returns the trials in which as many would have been seen of a rate a number of
// times as large.
func trialsFor(of *node, times float64, place *node) (*node, error) {
	var n count
	if err := n.read(of.Value); err != nil {
		return moved(of, place), nil //nolint:nilerr // it is looked at where it is read
	}
	x := math.Round(float64(n) / times)
	if !(x >= 1 && x <= maxCount) {
		return nil, fmt.Errorf("a rate %[2]g times as large is not possible with %[1]d trials", n, times)
	}
	return scalar(strconv.Itoa(int(x)), place), nil
}
