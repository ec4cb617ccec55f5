package sim

import (
	"fmt"
	"math/rand/v2"

	"netrate/sim/portable"
)

// Stream is a sequence of random numbers with a name. Streams of different names
// are independent for all practical purposes, and the same name always gives the
// same numbers, so that two configurations can be compared on common random numbers. A
// Stream is a [rand.Source].
//
// The zero Stream is not ready: call Seed first.
type Stream struct {
	pcg    rand.PCG
	next   uint64 // drawn ahead: who asks for a number need not wait for it
	rand   *rand.Rand
	hash   uint64
	seeded bool
}

// NewStream returns a stream for one purpose of one owner, such as "faults" of
// "feeder 3". It must be seeded before use.
func NewStream(owner, purpose string) *Stream {
	s := &Stream{hash: fnv(fnv(fnvBasis, owner), "\x00"+purpose)}
	s.rand = rand.New(s)
	return s
}

// Seed puts the stream at the start of the sequence named by (seed, replication,
// owner, purpose). It allocates nothing.
func (s *Stream) Seed(seed uint64, replication int) {
	h := mix(seed ^ mix(uint64(replication)+1))
	s.pcg.Seed(mix(h^s.hash), mix(h+s.hash))
	s.next, s.seeded = s.pcg.Uint64(), true
}

// Uint64 returns the next 64 random bits. It panics on a stream never seeded.
func (s *Stream) Uint64() uint64 {
	if !s.seeded {
		panic("sim: a stream was used before it was seeded")
	}
	u := s.next
	s.next = s.pcg.Uint64()
	return u
}

// Uniform returns a number in [0, 1), the one that a rand.Rand on the stream would give.
func (s *Stream) Uniform() float64 { return float64(float64(s.Uint64()<<11>>11) / (1 << 53)) }

// Chance reports true with probability p.
func (s *Stream) Chance(p float64) bool { return s.Uniform() < p }

// maxGap stands for "not within any run": more trials than a float64 can count.
const maxGap = 1 << 53

// Gap draws the number of trials up to and including the next success.
type Gap struct {
	mean float64 // -1/log(1-p): the mean of the exponential whose whole part is the gap
}

// NewGap returns the gap between successes of probability p: 1, 2, 3, …, with mean
// 1/p. It panics unless p is in [0, 1], so also for NaN.
func NewGap(p float64) Gap {
	if !(p >= 0 && p <= 1) {
		panic(fmt.Sprintf("sim: a gap with probability %v", p))
	}
	return Gap{mean: -1 / portable.Log1p(-p)}
}

// Draw returns a gap. One of 2⁵³ trials or more is returned as 2⁵³, longer than
// any run, and so is every gap for p = 0.
//
// For the same random numbers a smaller p never gives a smaller gap, so that two
// lines that differ in p alone share their random numbers.
//
// Source: inversion of the geometric distribution, Devroye, Non-Uniform Random
// Variate Generation (1986), section X.2 (from memory).
func (g Gap) Draw(s *Stream) int64 {
	x := s.Exponential() * g.mean
	if !(x < maxGap) {
		return maxGap
	}
	return 1 + int64(x)
}

const fnvBasis = 14695981039346656037

// fnv continues the 64-bit FNV-1a hash h over text. The hash is written out here
// because it names streams: it must never change.
func fnv(h uint64, text string) uint64 {
	for i := 0; i < len(text); i++ {
		h = (h ^ uint64(text[i])) * 1099511628211
	}
	return h
}

// mix is the finaliser of SplitMix64 (Steele, Lea and Flood 2014, from memory):
// every bit of x changes about half of the bits of the result.
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}
