package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/study"
)

func TestSweepPlace(t *testing.T) {
	for want, v := range map[string]study.SweepParameter{
		"4,520/h":  {Unit: "/h", Values: []study.SweepValue{{Text: "4000/h"}}},
		"4,520 s":  {Unit: "s", Values: []study.SweepValue{{Text: "5 s"}}},
		"452,000%": {Values: []study.SweepValue{{Text: "50%"}}},
		"4,520":    {Values: []study.SweepValue{{Text: "1.5"}}},
	} {
		assert.Equal(t, want, sweepPlace(&v, 4520, 30))
	}
	v := &study.SweepParameter{Values: []study.SweepValue{{Text: "1/500"}}}
	assert.Equal(t, "1/430", sweepPlace(v, 1.0/432, 0.0001))
	assert.Equal(t, "1/5,000", sweepPlace(v, 1.0/5000, 0.001), "no digit is left of what is near zero, but for its first")
}
