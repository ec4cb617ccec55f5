package money

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
)

// 15 of 148 and none of 20: Newcombe, Statistics in Medicine 17 (1998) 857–872, Table I,
// .0578 to .1617 and 0 to .1684. A value of 0 is no gain.
func TestChanceOfGainCounts(t *testing.T) {
	sample := make(sim.Sample, 148)
	for i := range 15 {
		sample[i] = 1
	}
	p := ChanceOfGain(sample, 0.95)
	assert.Equal(t, 15.0/148, p.Share)
	assert.True(t, prints(p.Low, ".0578") && prints(p.High, ".1617"), "%+v", p)

	p = ChanceOfGain(make(sim.Sample, 20), 0.95)
	assert.Zero(t, p.Share)
	assert.Zero(t, p.Low)
	assert.True(t, prints(p.High, ".1684"), "%+v", p)

	assert.Panics(t, func() { ChanceOfGain(nil, 0.95) })
	assert.Panics(t, func() { ChanceOfGain(sim.Sample{1, math.NaN()}, 0.95) })
	assert.Panics(t, func() { ChanceOfGain(sim.Sample{1}, 95) })
}
