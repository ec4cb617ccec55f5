package tape

import (
	"bytes"
	"context"
	"errors"
	"math"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// thing is a result with one of each.
type thing struct {
	Count int64
	Time  float64
	Name  string
	Rates []float64
	Parts []thing
}

func (t *thing) Values(v *Values) {
	v.Int(&t.Count)
	v.Float(&t.Time)
	v.Text(&t.Name)
	Slice(v, &t.Rates, v.Float)
	Slice(v, &t.Parts, func(p *thing) { p.Values(v) })
}

func things(deep int) *rapid.Generator[thing] {
	return rapid.Custom(func(t *rapid.T) thing {
		x := thing{
			Count: rapid.OneOf(rapid.Just(int64(0)), rapid.Int64()).Draw(t, "count"),
			Time:  rapid.OneOf(rapid.Just(0.0), rapid.Just(math.Copysign(0, -1)), rapid.Just(math.Inf(1)), rapid.Float64()).Draw(t, "time"),
			Name:  rapid.SampledFrom([]string{"", "3", "in\xffserter", "a\x00b"}).Draw(t, "name"),
			Rates: rapid.SliceOfN(rapid.Float64(), 1, 4).Draw(t, "rates"),
		}
		if deep > 0 {
			x.Parts = rapid.SliceOfN(things(deep-1), 1, 3).Draw(t, "parts")
		}
		return x
	})
}

// recorded returns the file of a shard with one segment of results for each of the lists.
func recorded(t require.TestingT, lists ...[]thing) []byte {
	var file bytes.Buffer
	w := NewWriter(&file, []byte("head"))
	of, first := Shard(func(tp *Tape) error { tp.RecordsPart(1, 1, w); return nil }), 0
	ctx := of.With(context.Background())
	for _, list := range lists {
		s, err := Begin(ctx, "things")
		require.NoError(t, err)
		record := s.Record(first, first+len(list))
		for i := range list {
			record(&list[i])
		}
		require.NoError(t, s.Recorded())
	}
	require.NoError(t, w.Close())
	return file.Bytes()
}

// played reads a file as recorded has written it.
func played(data []byte, lists ...[]thing) error {
	f, err := Open("x", bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return err
	}
	ctx := Player([]*File{f}).With(context.Background())
	for _, list := range lists {
		s, err := Begin(ctx, "things")
		if err != nil {
			return err
		}
		if err := plays(s, list); err != nil {
			return err
		}
	}
	return nil
}

// plays reads the blocks of a stage, each twice: what was read before does not show through.
func plays(s *Stage, list []thing) error {
	blocks, err := s.Blocks(0)
	if err != nil {
		return err
	}
	var from Reader
	var got [blockRecords]thing
	read := 0
	for _, b := range blocks {
		n := 0
		for range 2 {
			if n, err = from.Read(b, func(i int) Recorded { return &got[i] }); err != nil {
				return err
			}
		}
		for i := range n {
			if read+i >= len(list) || !same(list[read+i], got[i]) {
				return errOther
			}
		}
		read += n
		if err := b.Ends(read); err != nil {
			return err
		}
	}
	if read != len(list) {
		return errors.New("not recorded")
	}
	return nil
}

// same reports whether two are equal, bit by bit.
func same(a, b thing) bool {
	bits := func(x, y float64) bool { return math.Float64bits(x) == math.Float64bits(y) }
	return a.Count == b.Count && bits(a.Time, b.Time) && a.Name == b.Name &&
		slices.EqualFunc(a.Rates, b.Rates, bits) && slices.EqualFunc(a.Parts, b.Parts, same)
}

var errOther = errors.New("another result")

// What is recorded is read as it was, all its bits, and memory that is used again does not show through.
func TestRecordedIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		one := rapid.SliceOfN(things(2), 1, 20).Draw(t, "one")
		two := rapid.SliceOfN(things(0), 1, 20).Draw(t, "two")
		require.NoError(t, played(recorded(t, one, two), one, two))
	})
}

// Results of more than a block are read across blocks.
func TestBlocks(t *testing.T) {
	many := make([]thing, 60_000)
	for i := range many {
		many[i] = thing{Count: int64(i), Time: 1 / float64(i+1), Name: "n", Rates: []float64{float64(i)}, Parts: []thing{}}
	}
	data := recorded(t, many)
	require.NoError(t, played(data, many))
	assert.Greater(t, bytes.Count(data, []byte{blockChunk}), 1)
}

// A file that is cut anywhere, or of which any byte is another, is an error and never another result.
func TestDamage(t *testing.T) {
	list := []thing{{Count: 7, Time: 0.1, Name: "a", Rates: []float64{1, 0, 0, 2}, Parts: []thing{}}, {Name: "a", Rates: []float64{3}, Parts: []thing{}}}
	data := recorded(t, list, list[:1])
	require.NoError(t, played(data, list, list[:1]))
	for n := range data {
		var broken *Broken
		require.ErrorAs(t, played(data[:n], list, list[:1]), &broken, "cut after %d bytes", n)
		for _, x := range []byte{1, 0x80, 0xff} {
			other := bytes.Clone(data)
			other[n] ^= x
			require.ErrorAs(t, played(other, list, list[:1]), &broken, "byte %d", n)
		}
	}
	require.ErrorContains(t, played(append(data, 0), list), "is damaged")
	require.ErrorContains(t, played([]byte("net_rate,good\n"), list), "is not the file of a shard")
}

// Whatever a file holds, reading it ends, in an error or with results.
func FuzzOpen(f *testing.F) {
	list := []thing{{Count: 7, Name: "a", Rates: []float64{1}, Parts: []thing{{Name: "b"}}}}
	f.Add(recorded(f, list))
	f.Add([]byte(magic))
	f.Fuzz(func(_ *testing.T, data []byte) {
		if err := played(data, list); errors.Is(err, errOther) {
			return // a file of other results, whose sums are right
		}
	})
}

// Whatever a block holds, its values end.
func FuzzValues(f *testing.F) {
	f.Add([]byte{0, 200, 1, 2, 3})
	f.Fuzz(func(t *testing.T, data []byte) {
		v := &Values{reading: true, data: data}
		var x thing
		for v.err == nil && v.at < len(data) {
			x.Values(v)
		}
		assert.LessOrEqual(t, v.at, len(data))
	})
}

// The parts of all shards are the whole, in order but for where they begin, and differ by one at most.
func TestParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shards, first, n := rapid.IntRange(1, 40).Draw(t, "shards"), rapid.IntRange(0, 9).Draw(t, "first"), rapid.IntRange(0, 200).Draw(t, "n")
		stage := rapid.IntRange(1, 9).Draw(t, "stage")
		ran, least, most := make([]int, n), n, 0
		for k := 1; k <= shards; k++ {
			s := &Stage{tape: &Tape{shard: k, shards: shards}, name: strconv.Itoa(stage)}
			from, to := s.Part(first, first+n)
			least, most = min(least, to-from), max(most, to-from)
			for i := from; i < to; i++ {
				ran[i-first]++
			}
		}
		assert.LessOrEqual(t, most-least, 1)
		for _, times := range ran {
			assert.Equal(t, 1, times)
		}
	})
}
