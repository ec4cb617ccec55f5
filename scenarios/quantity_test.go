package scenarios

import (
	"fmt"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestQuantities(t *testing.T) {
	read := func(q quantity, value func() float64) func(string) (float64, error) {
		return func(text string) (float64, error) { err := q.read(text); return value(), err }
	}
	var (
		p probability
		s seconds
		v speed
		l length
		f factor
		n count
		o rate
		w weight
		g pageCount
	)
	kinds := map[string]func(string) (float64, error){
		"probability": read(&p, func() float64 { return float64(p) }),
		"time":        read(&s, func() float64 { return float64(s) }),
		"speed":       read(&v, func() float64 { return float64(v) }),
		"length":      read(&l, func() float64 { return float64(l) }),
		"factor":      read(&f, func() float64 { return float64(f) }),
		"count":       read(&n, func() float64 { return float64(n) }),
		"rate":        read(&o, func() float64 { return float64(o) }),
		"weight":      read(&w, func() float64 { return float64(w) }),
		"page count":  read(&g, func() float64 { return float64(g) }),
	}
	for _, c := range []struct {
		kind, text string
		want       float64
	}{
		{"probability", "1/2500", 0.0004},
		{"probability", "1 in 2500", 0.0004},
		{"probability", "3 in  10000", 0.0003},
		{"probability", "1 / 2500", 0.0004},
		{"probability", "0.04%", 0.0004},
		{"probability", "0.04 %", 0.0004},
		{"probability", "0.0004", 0.0004},
		{"probability", ".0004", 0.0004},
		{"probability", "4e-4", 0.0004},
		{"probability", "2/1e6", 0.000002},
		{"probability", "0", 0},
		{"probability", "1", 1},
		{"probability", "100%", 1},
		{"probability", "99%", 0.99},
		{"time", "45 s", 45},
		{"time", "45s", 45},
		{"time", "2 min", 120},
		{"time", "1.5 h", 5400},
		{"time", "8 h", 28800},
		{"time", "5 h 30 min", 19800},
		{"time", "1h20min", 4800},
		{"time", "1 h 5 min 10 s", 3910},
		{"time", "0 h 5 min", 300},
		{"time", "2 min 7.5 s", 127.5},
		{"time", "1 h 30 s", 3630},
		{"time", "90 min 30 s", 5430},
		{"time", "743 h 59 min 59 s", 2678399},
		{"time", "744 h", 2678400},
		{"time", "0 s", 0},
		{"speed", "18000/h", 18000},
		{"speed", "300/min", 18000},
		{"speed", "5/s", 18000},
		{"speed", "5 / s", 18000},
		{"length", "3 mm", 3},
		{"length", "0.1 mm", 0.1},
		{"length", "2 cm", 20},
		{"length", "0.25 in", 6.35}, // an inch is 25.4 mm exactly: ISO 31-1 (from memory)
		{"factor", "1.5", 1.5},
		{"factor", "0", 0},
		{"count", "4000", 4000},
		{"count", "0", 0},
		{"count", "1000000000", 1e9},
		{"rate", "36000/h", 36_000},
		{"rate", "10/s", 36_000},
		{"weight", "250", 250},
		{"weight", "60%", 0.6},
		{"weight", "3/2", 1.5},
		{"weight", "0", 0},
		{"page count", "1", 1},
		{"page count", "10000", 10_000},
	} {
		t.Run(c.kind+" "+c.text, func(t *testing.T) {
			got, err := kinds[c.kind](c.text)
			require.NoError(t, err)
			assert.InDelta(t, c.want, got, 1e-15*(1+c.want))
		})
	}
	bad := map[string][]string{
		"probability": {"", "-1", "1.1", "101%", "2/1", "1/0", "0/0", "1/", "/2500", "1/2/3", "1:2500", "1 in", "1 in 0", "in 2500", "1 on 2500", "1 in 2 in 3", "nan", ".inf", "5%%", "%5", "1/2500%", "1e400", "١/٢"},
		"time":        {"", "45", "45 sec", "s", "-5 s", "1,5 h", "12:30", "1e400 s", "745 h", "32 d", "NaN s", "inf s", "45 s s", "4 5 s"},
		"speed":       {"", "18000", "18000 cph", "18,000/h", "0/h", "1000001/h", "300/fortnight", "/h", "-1/h"},
		"length":      {"", "3", "3 m", "3 ft", "20000 mm", "-1 mm"},
		"factor":      {"", "-1", "1/2", "50%", "017", "0x10", "1_000", "nan", ".inf", "1e999", "+1", "1.", "e5", "."},
		"rate":        {"", "36000", "0/h", "-1/h", "1000001/h", "60 sheets/h"},
		"weight":      {"", "-1", "some", "1/0", "nan", ".inf", "1e10", "1e400"},
		"page count":  {"", "0", "-1", "1.5", "01", "10001", "one"},
		"count":       {"", "-1", "4000.5", "4e3", "4,000", "4_000", "04000", "0x10", "1000000001", "99999999999999999999999"},
	}
	for kind, texts := range bad {
		for _, text := range texts {
			t.Run(fmt.Sprintf("not a %s %q", kind, text), func(t *testing.T) {
				_, err := kinds[kind](text)
				require.Error(t, err)
			})
		}
	}
}

// Every finite number that Go prints in its shortest form is read as the same bits, with
// each unit of size 1.
func TestQuantitiesRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		form := rapid.SampledFrom([]byte("feg")).Draw(t, "form")
		text := func(most float64) (float64, string) {
			x := rapid.Float64Range(0, most).Draw(t, "x")
			if x > 0 && x < leastNumber {
				_, err := parseNumber(strconv.FormatFloat(x, form, -1, 64))
				require.ErrorContains(t, err, "too small")
				x = 0
			}
			return x, strconv.FormatFloat(x, form, -1, 64)
		}
		x, s := text(1)
		var p probability
		require.NoError(t, p.read(s))
		assert.Equal(t, probability(x), p)

		x, s = text(times.most)
		var d seconds
		require.NoError(t, d.read(s+" s"))
		assert.Equal(t, seconds(x), d)

		x, s = text(lengths.most)
		var l length
		require.NoError(t, l.read(s+" mm"))
		assert.Equal(t, length(x), l)

		n := rapid.Int64Range(0, maxCount).Draw(t, "n")
		var c count
		require.NoError(t, c.read(strconv.FormatInt(n, 10)))
		assert.Equal(t, count(n), c)

		u := rapid.Uint64().Draw(t, "seed")
		var sd seed
		require.NoError(t, sd.read(strconv.FormatUint(u, 10)))
		assert.Equal(t, seed(u), sd)
	})
}

func TestHints(t *testing.T) {
	for _, c := range []struct {
		q          quantity
		text, hint string
	}{
		{new(probability), "5", "did you mean 5%?"},
		{new(probability), "0,04%", "write a point for the comma"},
		{new(probability), ".nan", "that is not a number"},
		{new(seconds), "45", "say the unit: 45 s, min or h"},
		{new(seconds), "5 h 90 min", "write it as one: 390 min"},
		{new(seconds), "30 min 5 h", "write it as one: 5.5 h"},
		{new(seconds), "1.5 h 20 min", "write it as one: 110 min"},
		{new(seconds), "5 h 60 s", "write it as one: 18060 s"},
		{new(seconds), "1 h 1 h 1 h", `the unit "h 1 h 1 h" is not known here`},
		{new(length), "1 cm 5 mm", "write it as one: 15 mm"},
		{new(seconds), "45 sec", `the unit "sec" is written s`},
		{new(seconds), "45 S", `the unit "S" is written s`},
		{new(speed), "18000", "say the unit: 18000/h, /min or /s"},
		{new(speed), "18,000/h", "leave out the comma"},
		{new(length), "3 inches", `the unit "inches" is written in`},
		{new(count), "017", "leave out the leading zero, which makes a number octal"},
		{new(count), "0x10", "hexadecimal numbers are not read"},
		{new(count), "1_000", "leave out the underscore"},
		{new(answer), "diverts", "did you mean divert?"},
		{new(presetName), "rotery", "did you mean rotary?"},
		{new(recovery), "by hands", "did you mean by hand?"},
		{new(outlay), "26.000", "write 26 or 26000"},
		{new(outlay), "26.500", "write 26.5 or 26500"},
		{new(outlay), "26.125", "write 26.12 or 26125"},
		{new(outlay), "26,000", "leave out the comma"},
		{new(rate), "36000", "say the unit: 36000/h, /min or /s"},
	} {
		t.Run(c.text, func(t *testing.T) {
			err := c.q.read(c.text)
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.hint)
		})
	}
}

// What is no price may have three decimals, and so may what is below 1.
func TestThreeDecimals(t *testing.T) {
	for text, q := range map[string]quantity{"1.250": new(amount), "0.045": new(outlay), "26.0": new(outlay), "26.00": new(outlay), "2600.000": new(outlay)} {
		assert.NoError(t, q.read(text), text)
	}
}

func TestLevels(t *testing.T) {
	for _, c := range []struct {
		text      string
		thickness float64
		want      int64
	}{
		{"800", 0, 800},
		{"20%", 0, 800},
		{"0.1%", 0, 4},
		{"0.03%", 0, 1}, // 1.2 pieces
		{"80 mm", 0.1, 800},
		{"8 cm", 0.1, 800},
		{"0.3 mm", 0.1, 3}, // 0.3/0.1 is 2.9999999999999996
		{"0.39 mm", 0.1, 3},
	} {
		t.Run(c.text, func(t *testing.T) {
			var x stackLevel
			require.NoError(t, x.read(c.text))
			assert.Equal(t, c.want, x.pieces(4000, c.thickness))
		})
	}
}
