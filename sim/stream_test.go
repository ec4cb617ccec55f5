package sim

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"
)

func seeded(purpose string) *Stream {
	s := NewStream("test", purpose)
	s.Seed(1, 0)
	return s
}

// A change of any number here changes every published figure. If it must be, say so
// in the message of the commit.
func TestStreamFirstDraws(t *testing.T) {
	first := func(owner, purpose string, seed uint64, replication int) []uint64 {
		s := NewStream(owner, purpose)
		s.Seed(seed, replication)
		return []uint64{s.Uint64(), s.Uint64()}
	}
	assert.Equal(t, []uint64{0x0eb6a7ce483aea10, 0xf1c66c4ca52cf9b7}, first("feeder 3", "faults", 1, 0))
	assert.Equal(t, []uint64{0x1d46f9b67eb4fb6f, 0x3f8ac7cae9f2c565}, first("feeder 3", "faults", 1, 1))
	assert.Equal(t, []uint64{0x8a0805a5761cbeb4, 0xdd5f1919e82ab436}, first("feeder 3", "faults", 2, 0))
	assert.Equal(t, []uint64{0xe081017ce26c0569, 0x7ac5cd4c7e5f8157}, first("feeder 3", "jams", 1, 0))
	assert.Equal(t, []uint64{0x91fcd036942ca690, 0x7f77743985985198}, first("", "", 0, 0))

	s := NewStream("feeder 3", "faults")
	s.Seed(1, 0)
	assert.InEpsilon(t, 0.7079841051811986, s.Uniform(), 1e-15)
	assert.InEpsilon(t, 0.6956549061642338, s.Exponential(), 1e-14)
	assert.Equal(t, int64(2020), NewGap(1e-4).Draw(s))
	assert.Equal(t, int64(1013), s.Binomial(4000, 0.25))
}

// Known answers of the generator, so that another toolchain cannot change the random numbers
// unseen. Source: Go 1.26.8, math/rand/v2/pcg_test.go.
func TestPCG(t *testing.T) {
	pcg := rand.NewPCG(1, 2)
	for i, want := range []uint64{
		0xc4f5a58656eef510, 0x9dcec3ad077dec6c, 0xc8d04605312f8088,
		0xcbedc0dcb63ac19a, 0x3bf98798cae97950, 0x0a8c6d7f8d485abc,
	} {
		assert.Equal(t, want, pcg.Uint64(), "draw %d", i)
	}
}

// Known answers of the hash: the 64-bit FNV-1a test vectors of Fowler, Noll and Vo
// for "", "a" and "foobar" (from memory), and the first three outputs of SplitMix64
// from state 0 (from memory; in the tests of many ports).
func TestHashes(t *testing.T) {
	assert.Equal(t, uint64(0xcbf29ce484222325), fnv(fnvBasis, ""))
	assert.Equal(t, uint64(0xaf63dc4c8601ec8c), fnv(fnvBasis, "a"))
	assert.Equal(t, uint64(0x85944171f73967e8), fnv(fnvBasis, "foobar"))
	const golden = 0x9e3779b97f4a7c15
	assert.Equal(t, uint64(0xe220a8397b1dcdaf), mix(0))
	assert.Equal(t, uint64(0x6e789e6aa1b965f4), mix(golden))
	assert.Equal(t, uint64(0x06c45d188009454f), mix(golden*2&math.MaxUint64))
}

func TestSeedStartsOver(t *testing.T) {
	s := seeded("again")
	first := []float64{s.Uniform(), s.Exponential(), s.Uniform()}
	s.Seed(1, 0)
	again := []float64{s.Uniform(), s.Exponential(), s.Uniform()}
	assert.Equal(t, first, again)
}

// Streams that differ in one part of the name must be independent: the correlation
// of n pairs of uniform numbers has a standard error of 1/√n.
func TestStreamsAreIndependent(t *testing.T) {
	const n, pairs = 20_000, 6
	stream := func(owner, purpose string, seed uint64, replication int) *Stream {
		s := NewStream(owner, purpose)
		s.Seed(seed, replication)
		return s
	}
	product := func(a, b *Stream) Sample {
		products := make(Sample, n)
		for i := range products {
			products[i] = 1 + 12*(a.Uniform()-0.5)*(b.Uniform()-0.5)
		}
		return products
	}
	base := func() *Stream { return stream("feeder 3", "faults", 1, 0) }
	for name, other := range map[string]*Stream{
		"owner":              stream("feeder 4", "faults", 1, 0),
		"purpose":            stream("feeder 3", "jams", 1, 0),
		"seed":               stream("feeder 3", "faults", 2, 0),
		"replication":        stream("feeder 3", "faults", 1, 1),
		"seed, replication":  stream("feeder 3", "faults", 0, 1),
		"letters that slide": stream("feeder 3f", "aults", 1, 0),
	} {
		t.Run(name, func(t *testing.T) { sees(t, product(base(), other), 1, 0.06, pairs) })
	}
	t.Run("the same name gives the same numbers", func(t *testing.T) {
		assert.False(t, agrees(product(base(), base()), 1, pairs))
	})
}

func TestStreamNeverSeeded(t *testing.T) {
	assert.Panics(t, func() { NewStream("a", "b").Uint64() })
	assert.Panics(t, func() { NewStream("a", "b").Uniform() })
	assert.Panics(t, func() { new(Stream).Uint64() })
	assert.Panics(t, func() { new(Stream).Uniform() })
}

func TestUniformAndExponential(t *testing.T) {
	s := seeded("shape")
	uniform, exponential := make([]float64, 50_000), make([]float64, 50_000)
	for i := range uniform {
		uniform[i], exponential[i] = s.Uniform(), s.Exponential()
	}
	assert.Less(t, ks(uniform, distuv.Uniform{Max: 1}.CDF), kolmogorov)
	assert.Greater(t, ks(uniform, distuv.Uniform{Max: 1.03}.CDF), kolmogorov)
	assert.Less(t, ks(exponential, distuv.Exponential{Rate: 1}.CDF), kolmogorov)
	assert.Greater(t, ks(exponential, distuv.Exponential{Rate: 1.03}.CDF), kolmogorov)
}

func TestChance(t *testing.T) {
	s := seeded("chance")
	hits := make(Sample, 40_000)
	for i := range hits {
		assert.False(t, s.Chance(0))
		assert.True(t, s.Chance(1))
		if s.Chance(0.3) {
			hits[i] = 1
		}
	}
	sees(t, hits, 0.3, 0.06, 1)
}

func TestStreamAllocatesNothing(t *testing.T) {
	s, gap := seeded("allocations"), NewGap(0.01)
	assert.Zero(t, testing.AllocsPerRun(1000, func() {
		s.Seed(3, 4)
		s.Uniform()
		s.Exponential()
		s.Chance(0.5)
		gap.Draw(s)
		s.Binomial(10, 0.3)
		s.Binomial(4000, 0.25)
		s.Binomial(4000, 1e-4)
	}))
}

func BenchmarkStream(b *testing.B) {
	s, gap := seeded("benchmark"), NewGap(1e-4)
	for name, draw := range map[string]func(){
		"draw=seed":     func() { s.Seed(1, 2) },
		"draw=uniform":  func() { s.Uniform() },
		"draw=gap":      func() { gap.Draw(s) },
		"draw=binomial": func() { s.Binomial(4000, 0.25) },
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				draw()
			}
		})
	}
}
