package film

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// sample returns a small film that has everything.
func sample() *Film {
	return &Film{
		Title: "a <line> & more", About: []string{"One.", "Two."}, Clock: 21600, Operators: 2,
		Fates: []string{"good", "diverted", "on line"},
		Reels: []Reel{{
			Name: "pass 1", Lasts: 100,
			Lines: []Line{{
				Name: "A", Started: 300,
				Stations: []Station{
					{Name: "Æ 1", Kind: "feeder", Look: Hopper, Capacity: 500, Warning: 50, UsedUp: "hopper empty"},
					{Name: "gate", Kind: "track gate", Look: Gate, At: 2, Capacity: 20, Warning: 2, Bin: true, UsedUp: "bin full"},
				},
				Runs:   []Run{{0, 20.25, 0, 80, 0.25}, {100.0 / 3, 100, 80, 300, 0.25}},
				Stood:  []Stretch{{20.25, 33.333, 0, "misfeed", "waiting"}, {90, 95, Nowhere, "break", "break"}},
				Stops:  []Stop{{20.25, 30, 0, "misfeed", 80}},
				Sets:   []Set{{79, "diverted", 1, 81, 79, 80}, {299, "on line", 0, Never, Never, Never}},
				Notes:  []Note{{79, 79, 0, "double"}, {79, 80, 0, "condemned, to leave at gate"}},
				Levels: []Level{{0, 20, 80, 421, 0}, {0, 30.5, 80, 500, 79}},
			}},
			Tasks:   []Task{{0, 0, "clear", 20.25, 21, 25, 30, 1}, {0, 1, "stock", 50, 100, 100, 100, Nobody}},
			Present: []Present{{0, 2}, {50, 1}},
		}},
	}
}

// What was packed is unpacked: times to a ms, starts of runs to the last bit.
func TestPackAndUnpack(t *testing.T) {
	f := sample()
	data, err := f.Pack()
	require.NoError(t, err)
	back, err := Unpack(data)
	require.NoError(t, err)
	assert.Equal(t, f, back)
	again, err := sample().Pack()
	require.NoError(t, err)
	assert.Equal(t, data, again, "the same film has the same bytes")
}

func TestPackAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := sample()
		l := &f.Reels[0].Lines[0]
		whole := rapid.Int64Range(-1<<50, 1<<50)
		moment := rapid.Map(rapid.Int64Range(0, 1e12), func(ms int64) float64 { return float64(ms) / 1000 })
		l.Levels = rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Level {
			return Level{rapid.IntRange(0, 60).Draw(t, "station"), moment.Draw(t, "at"), whole.Draw(t, "cycle"), whole.Draw(t, "left"), whole.Draw(t, "filled")}
		}), 1, 50).Draw(t, "levels")
		l.Notes = rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Note {
			return Note{whole.Draw(t, "set"), whole.Draw(t, "cycle"), 1, rapid.String().Draw(t, "text")}
		}), 1, 50).Draw(t, "notes")
		for i := range l.Notes { // JSON has no other text
			l.Notes[i].Text = strings.ToValidUTF8(l.Notes[i].Text, "?")
		}
		l.Runs[0].From = rapid.Float64().Draw(t, "from")
		data, err := f.Pack()
		require.NoError(t, err)
		back, err := Unpack(data)
		require.NoError(t, err)
		require.Equal(t, f, back)
	})
}

// Data that are no film are an error, wherever they are cut or changed.
func TestUnpackRefuses(t *testing.T) {
	data, err := sample().Pack()
	require.NoError(t, err)
	z, err := gzip.NewReader(bytes.NewReader(data))
	require.NoError(t, err)
	var plain bytes.Buffer
	_, err = plain.ReadFrom(z)
	require.NoError(t, err)
	packer, err := gzip.NewWriterLevel(nil, gzip.NoCompression)
	require.NoError(t, err)
	zip := func(b []byte) []byte {
		var w bytes.Buffer
		z := packer
		z.Reset(&w)
		_, _ = z.Write(b)
		_ = z.Close()
		return w.Bytes()
	}
	for n := range plain.Len() {
		_, err := Unpack(zip(plain.Bytes()[:n]))
		require.Error(t, err, "cut at %d", n)
	}
	_, err = Unpack(zip(append(plain.Bytes(), 0)))
	assert.ErrorContains(t, err, "after the last column")
	_, err = Unpack(zip(binary.AppendUvarint(nil, math.MaxUint64)))
	assert.Error(t, err)
	_, err = Unpack([]byte("no film"))
	assert.Error(t, err)
}

func FuzzUnpack(f *testing.F) {
	data, err := sample().Pack()
	require.NoError(f, err)
	f.Add(data)
	f.Fuzz(func(_ *testing.T, data []byte) { _, _ = Unpack(data) })
}
