package scenarios

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseRange(t *testing.T) {
	for _, c := range []struct {
		text, path, unit string
		values           []RangeValue
	}{
		{"crew.operators=1:4:4", "crew.operators", "", []RangeValue{{"1", 1}, {"2", 2}, {"3", 3}, {"4", 4}}},
		{"stations.a=b.at=10:30:3", "stations.a=b.at", "", []RangeValue{{"10", 10}, {"20", 20}, {"30", 30}}},
		{"line.speed=12000/h:20000/h:5", "line.speed", "/h", []RangeValue{{"12000/h", 12000}, {"14000/h", 14000}, {"16000/h", 16000}, {"18000/h", 18000}, {"20000/h", 20000}}},
		{"line.speed=200/min:300/min:3", "line.speed", "/h", []RangeValue{{"200/min", 12000}, {"250/min", 15000}, {"300/min", 18000}}},
		{"crew.walk=5 s:30 s:6", "crew.walk", "s", []RangeValue{{"5 s", 5}, {"10 s", 10}, {"15 s", 15}, {"20 s", 20}, {"25 s", 25}, {"30 s", 30}}},
		{"crew.walk = 30 s : 2 min : 3", "crew.walk", "s", []RangeValue{{"30 s", 30}, {"75 s", 75}, {"2 min", 120}}},
		{"crew.walk=0 s:1 s:4", "crew.walk", "s", []RangeValue{{"0 s", 0}, {"0.333333 s", 0.333333}, {"0.666667 s", 0.666667}, {"1 s", 1}}},
		{"stations.x.hopper.stack=10 mm:2 cm:3", "stations.x.hopper.stack", "mm", []RangeValue{{"10 mm", 10}, {"15 mm", 15}, {"2 cm", 20}}},
		{"stations.x.misfeed=1/5000:1/1000:3", "stations.x.misfeed", "", []RangeValue{{"1/5000", 1.0 / 5000}, {"1/1666.67", 1 / 1666.67}, {"1/1000", 1.0 / 1000}}},
		{"stations.x.misfeed=1 in 5000:1 in 1000:3", "stations.x.misfeed", "", []RangeValue{{"1 in 5000", 1.0 / 5000}, {"1 in 1666.67", 1 / 1666.67}, {"1 in 1000", 1.0 / 1000}}},
		{"stations.x.misfeed=0/1:1/10:3", "stations.x.misfeed", "", []RangeValue{{"0/1", 0}, {"1/20", 0.05}, {"1/10", 0.1}}},
		{"stations.x.caught=50%:99%:3", "stations.x.caught", "", []RangeValue{{"50%", 0.5}, {"74.5%", 0.745}, {"99%", 0.99}}},
		{"stations.x.growth=1.0:2.0:3", "stations.x.growth", "", []RangeValue{{"1.0", 1}, {"1.5", 1.5}, {"2.0", 2}}},
		{"policy.misfeed=stop,divert,outsort", "policy.misfeed", "", []RangeValue{{"stop", 0}, {"divert", 1}, {"outsort", 2}}},
		{"crew.attends=most urgent, first come", "crew.attends", "", []RangeValue{{"most urgent", 0}, {"first come", 1}}},
		{"crew.walk=5 s,1 min,10 s", "crew.walk", "s", []RangeValue{{"5 s", 5}, {"1 min", 60}, {"10 s", 10}}},
		{"crew.operators=1,2,4", "crew.operators", "", []RangeValue{{"1", 1}, {"2", 2}, {"4", 4}}},
		{"stations.x.misfeed=1/5000,0.1%", "stations.x.misfeed", "", []RangeValue{{"1/5000", 1.0 / 5000}, {"0.1%", 0.001}}},
	} {
		t.Run(c.text, func(t *testing.T) {
			r, err := ParseRange(c.text)
			require.NoError(t, err)
			assert.Equal(t, c.path, r.Path)
			assert.Equal(t, c.unit, r.Unit)
			require.Len(t, r.Values, len(c.values))
			for i, v := range r.Values {
				assert.Equal(t, c.values[i].Text, v.Text)
				assert.InDelta(t, c.values[i].Number, v.Number, 1e-12*c.values[i].Number)
			}
		})
	}
}

func TestParseRangeRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":                                "not a range, want PATH=LOW:HIGH:STEPS or PATH=a,b,c",
		"=1:4:4":                          "not a range",
		"crew.operators":                  "not a range",
		"crew.operators=":                 "want from 2 to 200 values",
		"crew.operators=1":                "want from 2 to 200 values",
		"crew.operators=1:4":              "crew.operators: want LOW:HIGH:STEPS, such as 1:4:4",
		"crew.operators=1:4:4:4":          "want LOW:HIGH:STEPS",
		"crew.operators=1:4:1":            `the number of steps is "1", want a whole number from 2 to 200`,
		"crew.operators=1:4:201":          "want a whole number from 2 to 200",
		"crew.operators=1:4:2.5":          "want a whole number from 2 to 200",
		"crew.operators=1:4:3":            "3 steps from 1 to 4 do not fall on whole numbers: want another number of them, such as 2,",
		"crew.operators=4:1:4":            "from 4 to 1 is descending",
		"crew.operators=4:4:2":            "from 4 to 4 is descending",
		"crew.operators=-1:4:4":           "it cannot be negative",
		"crew.operators=1:.nan:4":         "that is not a number",
		"crew.operators=1::4":             "is not a value of a range",
		"crew.operators=1:4.0:4":          "1 is a whole number and 4.0 is a number: want all of one kind",
		"line.speed=12000/h:20000:9":      "12000/h is a speed and 20000 is a whole number",
		"line.speed=12000/h:20 s:9":       "12000/h is a speed and 20 s is a time",
		"line.speed=12,000/h:20,000/h:9":  "leave out the comma",
		"line.speed=12000 cph:2000 cph:9": "is not a value of a range",
		"policy.misfeed=stop:divert:2":    "nothing lies between stop and divert: want a list such as stop,divert",
		"policy.misfeed=stop,divert,stop": "stop is given twice",
		"policy.misfeed=stop,,divert":     "is not a value of a range",
		"crew.walk=60 s,1 min":            "1 min is given twice",
		"crew.walk=60 s,1":                "60 s is a time and 1 is a whole number",
		"crew.walk={constant: 4 s},5 s":   "a range has plain values",
		"stations.x.jam=0/1:1/1e308:9":    "too small",
		"crew.walk=1000000 s:1000001 s:9": "too small: six digits do not tell them apart",
		"crew.walk=" + strings.Repeat("1 s,", maxValuesOfRange) + "1 s": "want from 2 to 200 values",
	} {
		t.Run(text, func(t *testing.T) {
			r, err := ParseRange(text)
			require.ErrorContains(t, err, want)
			assert.Zero(t, r)
		})
	}
}

// Between its ends a range rises in equal steps, but for the rounding, and its numbers are
// what a file would make of its texts.
func TestRangesAreEven(t *testing.T) {
	kinds := map[string]quantity{"%": new(probability), "/h": new(speed), "/min": new(speed), " s": new(seconds), " h": new(seconds), " mm": new(length), ".5": new(factor), "": new(count)}
	value := func(q quantity) float64 {
		switch q := q.(type) {
		case *probability:
			return float64(*q)
		case *speed:
			return float64(*q)
		case *seconds:
			return float64(*q)
		case *length:
			return float64(*q)
		case *factor:
			return float64(*q)
		case *count:
			return float64(*q)
		}
		panic("no such quantity")
	}
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]string{"%", "/h", "/min", " s", " h", " mm", ".5", ""}).Draw(t, "unit")
		low := rapid.IntRange(1, 50).Draw(t, "low")
		steps := rapid.IntRange(2, 40).Draw(t, "steps")
		high := low + rapid.IntRange(1, 50).Draw(t, "span")
		if unit == "" {
			high = low + (high-low)*(steps-1)
		}
		r, err := ParseRange(fmt.Sprintf("x=%d%s:%d%s:%d", low, unit, high, unit, steps))
		require.NoError(t, err)
		require.Len(t, r.Values, steps)
		even := (r.Values[steps-1].Number - r.Values[0].Number) / float64(steps-1)
		for i, v := range r.Values {
			q := kinds[unit]
			require.NoError(t, q.read(v.Text))
			assert.InDelta(t, value(q), v.Number, 0, v.Text)
			assert.InDelta(t, r.Values[0].Number+float64(i)*even, v.Number, 1e-5*v.Number)
		}
	})
}

// Every value of a range can be had by With, as far as the path can have it.
func TestRangeWith(t *testing.T) {
	s, err := Load("good.yaml", []byte(goodFile(t)))
	require.NoError(t, err)
	for _, text := range []string{
		"crew.operators=1:4:4", "line.speed=12000/h:20000/h:9", "stations.letter.misfeed=1/5000:1/500:8", "crew.walk=5 s:30 s:6",
		"stations.letter.caught=50%:99%:5", "policy.misfeed=stop,divert,outsort", "stations.letter.preset=rotary,friction", "stations.letter.growth=0.5:2.5:7",
	} {
		r, err := ParseRange(text)
		require.NoError(t, err)
		for _, v := range r.Values {
			line, err := s.With(r.Path, v.Text)
			require.NoError(t, err, text)
			require.Empty(t, line.Check())
		}
	}
}
