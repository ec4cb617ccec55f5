package scenarios

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// everything is a file with every key of the format that speaks of a line and its shift.
const everything = "\ufeff" + `name: Everything
question: Is it all read?
target: 250/min
line:
  speed: 300/min
  restart: 4 s
  slow:
    starting: {cycles: 20, at: 50%}
    after_jam: {cycles: 200, at: 70%}
    stopping: {cycles: 10, at: 50%}
    repeated: {stops: 4, within: 15 min, at: 80%, for: 10 min, until: refill}
  source: a plate on the machine
  stations:
    - kind: feeder
      name: letter
      at: 0
      preset: friction
      source: illustrative, from memory
      rated: 20000/h
      hopper: {pieces: 4000, warn: 20%, refill: 25 s}
      misfeed: 1/2500
      double: 0.0125%
      jam: 1/12000
      growth: 1.5
      material: 1.25
      caught: 99%
      false_calls: 1/50000
      streak: {again: 20%, stop_after: 3}
      share: 60%
      clear: {constant: 60 s}
      policy: {misfeed: outsort, jam: stop}
    - {kind: feeder, name: thick, at: 2, preset: shuttle, double: 1/500, hopper: {stack: 400 mm, thickness: 0.1 mm, warn: 80 mm, refill: 1 min}}
    - {kind: track gate, name: track gate, at: 12, bin: {sets: 60, warn: 15, empty: 20 s}}
    - kind: inserter
      name: inserter
      at: 14
      rated: 18000/h
      hopper: {pieces: 1500, warn: 500, refill: 20 s}
      envelope_misfeed: 1/4000
      flap: 1/1500
      jam: 1/5000
      growth: 2
      clear: 90 s
      policy: {flap: stop, envelope_misfeed: stop, jam: stop}
    - kind: device
      name: stamps
      at: 15
      does: affix a stamp
      rated: 22000/h
      misfeed: 1/4000
      jam: 1/9000
      noticed: 97%
      growth: 1
      stock: {pieces: 3000, warn: 10%, refill: 40 s}
      clear: {misfeed: 20 s, jam: 50 s}
      policy: {misfeed: stop, jam: stop}
    - {kind: exit gate, name: exit gate, at: 17, bin: {envelopes: 40, warn: 25%, empty: 20 s}}
    - {kind: delivery, name: delivery, at: 18, belt: {envelopes: 800, warn: 300, sweep: 30 s}}
policy: {misfeed: divert, double: divert, flap: outsort, never: [double=ship, no_read=ship], source: the shift leader}
crew: {operators: 2, walk: 15 s, attends: first come, exhausted: in turn, source: counted steps}
work: {shift: 8 h, begins: {hoppers: as left, track: as left, after: 16 h}, source: the shift plan}
run: {seed: 18446744073709551615, precision: 1%, min: 10, max: 200}
variants:
  - name: one more
    note: with room for it
    changes:
      - {shift: track gate, by: 2}
      - {add: {kind: feeder, name: voucher, at: 12, preset: friction, hopper: {pieces: 900, warn: 20%, refill: 15 s}}, after: thick}
      - {set: stations.voucher.clear.lognormal.mean, to: 30 s, source: a guess}
      - {set: crew, to: {operators: 3, walk: 10 s}}
  - name: one less
    changes:
      - {remove: thick}
      - {add: {kind: exit gate, name: second, at: 16}, before: exit gate}
`

func TestLoad(t *testing.T) {
	s, err := Load("all.yaml", []byte(everything))
	require.NoError(t, err)
	assert.Equal(t, "Everything", s.Name)
	assert.Equal(t, "Is it all read?", s.Question)
	assert.Equal(t, "all.yaml", s.File)
	assert.Equal(t, []model.Forbidden{{Fault: model.Double, Response: model.Ship}, {Fault: model.NoRead, Response: model.Ship}}, s.Never)
	assert.Equal(t, Settings{Seed: 1<<64 - 1, Precision: 0.01, Min: 10, Max: 200}, s.Run)
	assert.Equal(t, fmt.Sprintf("%x", sha256.Sum256([]byte(everything))), s.Digest)

	rates := presetRates(t, "shuttle")
	line := &model.Line{
		Name: "Everything", Speed: 18000, Shift: 8 * 3600, Begins: model.Begins{Before: 16 * 3600, Track: true}, Restart: sim.Constant(4),
		Slow: model.Slow{
			Starting: model.Slowly{Cycles: 20, Share: 0.5}, AfterJam: model.Slowly{Cycles: 200, Share: 0.7}, Stopping: model.Slowly{Cycles: 10, Share: 0.5},
			Repeated: model.Repeated{Stops: 4, Within: 900, Share: 0.8, For: 600, Refill: true},
		},
		Crew: model.Crew{Operators: 2, Walk: sim.Constant(15), Order: model.FirstCome, Exhausted: model.InTurn},
		Stations: []model.Station{
			&model.Feeder{
				Place:   model.Place{Name: "letter", At: 0, Rated: 20000},
				Hopper:  model.Stock{Capacity: 4000, Warn: 800, Work: sim.Constant(25)},
				Misfeed: 1.0 / 2500, Double: 1.25e-4, Jam: 1.0 / 12000, Growth: 1.5, Material: 1.25, Noticed: 1,
				Caught: 0.99, FalseCalls: 1.0 / 50000, Share: 0.6,
				Streak:    model.Streak{Given: true, Again: 0.2, StopAfter: 3},
				OnMisfeed: model.Outsort, OnDouble: model.Divert, Clear: sim.Constant(60),
			},
			&model.Feeder{
				Place:   model.Place{Name: "thick", At: 2, Rated: float64(*rates.Rated)},
				Hopper:  model.Stock{Capacity: 4000, Warn: 800, Work: sim.Constant(60)},
				Misfeed: float64(*rates.Misfeed), Double: 1.0 / 500, Jam: float64(*rates.Jam), Growth: float64(*rates.Growth),
				Material: 1, Noticed: 1, Caught: 1, Share: 1, Stack: 400,
				OnMisfeed: model.Divert, OnDouble: model.Divert, Clear: rates.Clear.Others.time(),
			},
			&model.TrackGate{Place: model.Place{Name: "track gate", At: 12}, Bin: model.Stock{Capacity: 60, Warn: 15, Work: sim.Constant(20)}},
			&model.Inserter{
				Place:           model.Place{Name: "inserter", At: 14, Rated: 18000},
				Hopper:          model.Stock{Capacity: 1500, Warn: 500, Work: sim.Constant(20)},
				EnvelopeMisfeed: 1.0 / 4000, Flap: 1.0 / 1500, Jam: 1.0 / 5000, Growth: 2,
				OnFlap: model.Stop, Clear: sim.Constant(90),
			},
			&model.Device{
				Place: model.Place{Name: "stamps", At: 15, Rated: 22000}, Does: "affix a stamp",
				Misfeed: 1.0 / 4000, Jam: 1.0 / 9000, Noticed: 0.97, Growth: 1,
				Stock:     model.Stock{Capacity: 3000, Warn: 300, Work: sim.Constant(40)},
				Clearings: model.Clearings{model.Misfeed: sim.Constant(20), model.Jam: sim.Constant(50)},
			},
			&model.ExitGate{Place: model.Place{Name: "exit gate", At: 17}, Bin: model.Stock{Capacity: 40, Warn: 10, Work: sim.Constant(20)}},
			&model.Delivery{Place: model.Place{Name: "delivery", At: 18}, Belt: model.Stock{Capacity: 800, Warn: 300, Work: sim.Constant(30)}},
		},
	}
	assert.Equal(t, line, s.Line)
}

func presetRates(t *testing.T, name string) feederRates {
	t.Helper()
	require.Contains(t, presetNames(), name)
	return ratesOf(name)
}

func TestDefaults(t *testing.T) {
	data, err := os.ReadFile("testdata/good.yaml")
	require.NoError(t, err)
	s, err := Load("good.yaml", data)
	require.NoError(t, err)
	assert.Equal(t, Settings{Seed: 1, Precision: 0.005, Min: 1000, Max: 20000}, s.Run)
	f := s.Line.Stations[0].(*model.Feeder)
	assert.Equal(t, [5]float64{0, 1, 1, 0, 1}, [5]float64{f.Growth, f.Material, f.Caught, f.FalseCalls, f.Share})
	assert.Equal(t, model.Streak{}, f.Streak)
	assert.Zero(t, s.Line.Stations[1].(*model.TrackGate).Bin, "without a bin it is never full")

	text := strings.Replace(string(data), "policy: {misfeed: divert, double: divert, flap: outsort}\n", "", 1)
	s, err = Load("good.yaml", []byte(text))
	require.NoError(t, err)
	f = s.Line.Stations[0].(*model.Feeder)
	assert.Equal(t, [2]model.Response{model.Stop, model.Stop}, [2]model.Response{f.OnMisfeed, f.OnDouble})
}

// A preset is copied for each feeder, never written to.
func TestPresetIsNotChanged(t *testing.T) {
	before := Presets()
	rates := *presetRates(t, "shuttle").Double
	_, err := Load("all.yaml", []byte(everything))
	require.NoError(t, err)
	assert.Equal(t, rates, *presetRates(t, "shuttle").Double)
	assert.Equal(t, before, Presets())
}

// Files from other systems and the JSON form are the same scenario.
func TestOtherWaysToWriteAFile(t *testing.T) {
	data, err := os.ReadFile("testdata/good.yaml")
	require.NoError(t, err)
	plain, err := Load("x", data)
	require.NoError(t, err)
	for name, text := range map[string]string{
		"byte order mark": "\ufeff" + string(data),
		"Windows":         strings.ReplaceAll(string(data), "\n", "\r\n"),
		"document marks":  "---\n" + string(data) + "...\n",
		"no last newline": strings.TrimSuffix(string(data), "\n"),
		"keys in quotes":  strings.ReplaceAll(string(data), "name:", `"name":`),
	} {
		t.Run(name, func(t *testing.T) {
			s, err := Load("x", []byte(text))
			require.NoError(t, err)
			assert.Equal(t, plain.Line, s.Line)
			assert.NotEqual(t, plain.Digest, s.Digest)
		})
	}
}

// What is too large for a file of its own is made here.
func TestTooLarge(t *testing.T) {
	data, err := os.ReadFile("testdata/good.yaml")
	require.NoError(t, err)
	good := string(data)
	for _, c := range []struct{ name, text, want string }{
		{"file", good + strings.Repeat("#", maxBytes), "x:1:1: the file is too large, want at most 1 MiB (1048576 bytes)"},
		{"empirical", strings.Replace(good, "clear: 45 s", "clear: {empirical: ["+strings.Repeat("1 s,", maxValues+1)+"]}", 1), "x:14:14: clear has 100001 values, want at most 100000"},
		{"lists never closed", "name: " + strings.Repeat("[", 400_000), "x:1:27: nested far too deep"},
		{"keys", strings.Repeat("a: 1\n", 100_000), "… and 99954 more\n100004 problems"},
		{"problems on one line", "line: {stations: [" + strings.Repeat("~,", 100_000) + "]}", "x:1:19: item 1 of stations has no value"},
		{"one line", "name: " + strings.Repeat("x", 900_000), "name is too long"},
		{"word", strings.Repeat("x", 900) + ": 1", `unknown key "xxx`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Load("x", []byte(c.text))
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.want)
			assert.Less(t, len(err.Error()), 30_000)
		})
	}
}

func TestMostThatIsRead(t *testing.T) {
	data, err := os.ReadFile("testdata/good.yaml")
	require.NoError(t, err)
	text := strings.Replace(string(data), "clear: 45 s", "clear: {empirical: ["+strings.Repeat("1 s,", maxValues)+"]}", 1)
	_, err = Load("x", []byte(text))
	require.NoError(t, err)
}

func TestRead(t *testing.T) {
	s, err := Read("-", strings.NewReader(everything))
	require.NoError(t, err)
	assert.Equal(t, "standard input", s.File)

	_, err = Read("-", strings.NewReader("x"))
	var problems Problems
	require.ErrorAs(t, err, &problems)
	assert.Equal(t, "standard input", problems[0].File)

	broken := errors.New("broken")
	_, err = Read("a.yaml", iotest.ErrReader(broken))
	require.ErrorIs(t, err, broken)
	assert.NotErrorAs(t, err, &problems)

	_, err = Read("-", endless{})
	require.ErrorAs(t, err, &problems)
	assert.Contains(t, err.Error(), "too large")
}

// endless is a file without an end.
type endless struct{}

func (endless) Read(p []byte) (int, error) { return len(p), nil }
