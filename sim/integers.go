package sim

import (
	"fmt"
	"math"
)

// IntegerDistribution is the distribution of a whole number of 1 or more, such as the pages of a letter.
type IntegerDistribution interface {
	// Draw returns the next number.
	Draw(s *Stream) int64
	// Fill draws as many numbers as there is room for: those that Draw would return.
	Fill(s *Stream, numbers []int64)
	// Mean returns the mean.
	Mean() float64
	// Most returns the largest number there can be; ok is false if there is none.
	Most() (n int64, ok bool)
}

// Always is the same number every time; it must be 1 or more.
type Always int64

// Draw returns the number; it draws nothing.
func (n Always) Draw(*Stream) int64 { return int64(n) }

// Fill draws nothing.
func (n Always) Fill(_ *Stream, numbers []int64) {
	for i := range numbers {
		numbers[i] = int64(n)
	}
}

// Mean returns the number.
func (n Always) Mean() float64 { return float64(n) }

// Most returns the number.
func (n Always) Most() (int64, bool) { return int64(n), true }

type geometric struct {
	gap  Gap
	mean float64
}

// NewGeometric returns 1, 2, 3, … with probabilities that fall by the same factor from
// each to the next. The mean must be 1 or more.
func NewGeometric(mean float64) (IntegerDistribution, error) {
	switch {
	case !(mean >= 1) || math.IsInf(mean, 1):
		return nil, fmt.Errorf("the mean is %v, want 1 or more", mean)
	case mean == 1:
		return Always(1), nil
	}
	return geometric{NewGap(1 / mean), mean}, nil
}

func (g geometric) Draw(s *Stream) int64 { return g.gap.Draw(s) }
func (g geometric) Fill(s *Stream, numbers []int64) {
	for i := range numbers {
		numbers[i] = g.gap.Draw(s)
	}
}

func (g geometric) Mean() float64       { return g.mean }
func (g geometric) Most() (int64, bool) { return 0, false }

type table struct {
	values []int64
	upTo   []float64 // share of the values up to each
	mean   float64
	guide  [guides]int32 // where to begin to look for a share, by its first digits
}

// guides is into how many equal parts the shares are cut: a power of two.
const guides = 1024

// NewTable returns the given values, each 1 or more, with the given weights, each 0 or
// more and not all 0.
func NewTable(values []int64, weights []float64) (IntegerDistribution, error) {
	if len(values) == 0 || len(values) != len(weights) {
		return nil, fmt.Errorf("there are %d values and %d weights, want as many of both, at least one", len(values), len(weights))
	}
	sum := 0.0
	for i, w := range weights {
		if values[i] < 1 {
			return nil, fmt.Errorf("a value is %d, want 1 or more", values[i])
		}
		if !(w >= 0) || math.IsInf(w, 1) {
			return nil, fmt.Errorf("a weight is %v, want 0 or more", w)
		}
		sum += w
	}
	if !(sum > 0) || math.IsInf(sum, 1) {
		return nil, fmt.Errorf("the weights come to %v, want more than 0", sum)
	}
	t := &table{}
	below := 0.0
	for i, w := range weights {
		if w == 0 {
			continue
		}
		below += w
		t.values, t.upTo = append(t.values, values[i]), append(t.upTo, below/sum)
		t.mean += float64(values[i]) * w / sum
	}
	t.upTo[len(t.upTo)-1] = 1
	i := 0
	for g := range t.guide {
		for t.upTo[i] <= float64(g)/guides {
			i++
		}
		t.guide[g] = int32(i)
	}
	return t, nil
}

func (t *table) Draw(s *Stream) int64 { return t.at(s.Uniform()) }

// at returns the value that a share of all lies below.
func (t *table) at(u float64) int64 {
	i := t.guide[int(u*guides)]
	for u >= t.upTo[i] {
		i++
	}
	return t.values[i]
}

func (t *table) Fill(s *Stream, numbers []int64) {
	for i := range numbers {
		numbers[i] = t.at(s.Uniform())
	}
}

func (t *table) Mean() float64 { return t.mean }

func (t *table) Most() (int64, bool) {
	most := t.values[0]
	for _, v := range t.values[1:] {
		most = max(most, v)
	}
	return most, true
}
