package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is outside several limits is counted under each of them, and once among all; at a limit it is inside.
func TestDesignLimitsOneByOne(t *testing.T) {
	defective, pitches, operators := 0.001, 16, 2
	l := DesignLimits{Defective: &defective, Pitches: &pitches, Operators: &operators}
	assert.Nil(t, l.broken(16, 2, 0.001))
	assert.Nil(t, (&DesignLimits{}).broken(1e9, 1e9, 1))
	assert.Equal(t, designLimits, l.broken(17, 3, 0.0011))
	var c DesignCounts
	c.outside(l.broken(17, 2, 0))
	c.outside(l.broken(16, 2, 1))
	c.outside(l.broken(20, 2, 1))
	assert.Equal(t, 3, c.Limits)
	assert.Equal(t, []DesignOutside{{DesignPitches, 2, 1}, {DesignDefective, 2, 1}}, c.Outside)
	assert.Equal(t, "no design is left: of 3 combinations 0 are against the rules or too dear, 0 cannot be, 3 are outside the other limits: 2 have too many pitches, 2 have too many defective envelopes on paper",
		(&DesignNone{Counts: DesignCounts{Combinations: 3, Limits: c.Limits, Outside: c.Outside}}).Error())
}

// After Z the letters begin anew, two at a time.
func TestDesignLetters(t *testing.T) {
	for number, want := range map[int]string{1: "A", 2: "B", 26: "Z", 27: "AA", 28: "AB", 52: "AZ", 53: "BA", 702: "ZZ", 703: "AAA"} {
		assert.Equal(t, want, designLetters(number))
	}
}
