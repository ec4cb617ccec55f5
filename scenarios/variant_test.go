package scenarios

import (
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
)

func goodFile(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("testdata/good.yaml")
	require.NoError(t, err)
	return string(data)
}

// varied returns the good file with one variant.
func varied(t *testing.T, changes ...string) *Scenario {
	t.Helper()
	text := goodFile(t) + "variants:\n  - name: other\n    note: one of many\n    changes:"
	if len(changes) == 0 {
		text += " []"
	}
	for _, c := range changes {
		text += "\n      - " + c
	}
	s, err := Load("good.yaml", []byte(text+"\n"))
	require.NoError(t, err)
	require.Len(t, s.Variants, 1)
	assert.Equal(t, "other", s.Variants[0].Name)
	assert.Equal(t, "one of many", s.Variants[0].Note)
	return s
}

const voucher = "{kind: feeder, name: voucher, at: 1, preset: friction, hopper: {pieces: 900, warn: 20%, refill: 15 s}}"

// Each row holds changes, what they are in words, and the same changes made by hand to
// the line of the base.
func TestChanges(t *testing.T) {
	feeder := func(l *model.Line, i int) *model.Feeder { return l.Stations[i].(*model.Feeder) }
	lognormal, err := sim.NewLognormal(45, 0.8)
	require.NoError(t, err)
	longer, err := sim.NewLognormal(60, 0.8)
	require.NoError(t, err)
	friction := ratesOf("friction")
	added := func() model.Station {
		return &model.Feeder{
			Place: model.Place{Name: "voucher", At: 1, Rated: float64(*friction.Rated)}, Hopper: model.Stock{Capacity: 900, Warn: 180, Work: sim.Constant(15)},
			Misfeed: float64(*friction.Misfeed), Double: float64(*friction.Double), Jam: float64(*friction.Jam), Growth: float64(*friction.Growth),
			Material: 1, Noticed: 1, Caught: 1, Share: 1, OnMisfeed: model.Divert, OnDouble: model.Divert, Clear: friction.Clear.Others.time(),
		}
	}
	for _, c := range []struct {
		name    string
		changes []string
		words   []string
		byHand  func(l *model.Line)
	}{
		{
			"value of the crew",
			[]string{"{set: crew.operators, to: 2}"},
			[]string{"crew.operators: 1 → 2"},
			func(l *model.Line) { l.Crew.Operators = 2 },
		}, {
			"the last change wins",
			[]string{"{set: crew.operators, to: 2}", "{set: crew.operators, to: 3}"},
			[]string{"crew.operators: 1 → 2", "crew.operators: 2 → 3"},
			func(l *model.Line) { l.Crew.Operators = 3 },
		}, {
			"values of the line, the shift and the policy",
			[]string{"{set: line.speed, to: 250/min}", "{set: line.restart, to: 6 s}", "{set: work.shift, to: 6 h}", "{set: policy.misfeed, to: stop}", "{set: crew.attends, to: first come}"},
			[]string{"line.speed: 18000/h → 250/min", "line.restart: 4 s → 6 s", "work.shift: 8 h → 6 h", "policy.misfeed: divert → stop", "crew.attends: not given → first come"},
			func(l *model.Line) {
				l.Speed, l.Restart, l.Shift, l.Crew.Order = 15000, sim.Constant(6), 21600, model.FirstCome
				feeder(l, 0).OnMisfeed = model.Stop
			},
		}, {
			"value of a station",
			[]string{"{set: stations.letter.misfeed, to: 1/4000}", "{set: stations.inserter.hopper.pieces, to: 3000}"},
			[]string{"stations.letter.misfeed: 1/2500 → 1/4000", "stations.inserter.hopper.pieces: 1500 → 3000"},
			func(l *model.Line) {
				feeder(l, 0).Misfeed = 1.0 / 4000
				l.Stations[2].(*model.Inserter).Hopper.Capacity = 3000
			},
		}, {
			"values that were not given",
			[]string{"{set: stations.letter.share, to: 60%}", "{set: stations.letter.policy.double, to: stop}", "{set: stations.exit gate.bin, to: {envelopes: 40, warn: 10, empty: 20 s}}"},
			[]string{"stations.letter.share: not given → 60%", "stations.letter.policy.double: not given → stop", "stations.exit gate.bin: not given → {envelopes: 40, warn: 10, empty: 20 s}"},
			func(l *model.Line) {
				feeder(l, 0).Share, feeder(l, 0).OnDouble = 0.6, model.Stop
				l.Stations[3].(*model.ExitGate).Bin = model.Stock{Capacity: 40, Warn: 10, Work: sim.Constant(20)}
			},
		}, {
			"part of a value",
			[]string{"{set: stations.letter.clear, to: {lognormal: {mean: 45 s, cv: 0.8}}}", "{set: stations.letter.clear.lognormal.mean, to: 1 min}"},
			[]string{"stations.letter.clear: 45 s → {lognormal: {mean: 45 s, cv: 0.8}}", "stations.letter.clear.lognormal.mean: 45 s → 1 min"},
			func(l *model.Line) { feeder(l, 0).Clear = longer },
		}, {
			"values made some times as large",
			[]string{
				"{set: stations.letter.misfeed, times: 0.5}", "{set: stations.letter.clear, times: 2}",
				"{set: line.speed, times: 0.9}", "{set: stations.letter.jam, to: {seen: 4, of: 30000}}", "{set: stations.letter.jam, times: 0.5}",
			},
			[]string{
				"stations.letter.misfeed: 1/2500 → 1/5000", "stations.letter.clear: 45 s → 90 s",
				"line.speed: 18000/h → 16200/h", "stations.letter.jam: 1/12000 → {seen: 4, of: 30000}", "stations.letter.jam: {seen: 4, of: 30000} → {seen: 4, of: 60000}",
			},
			func(l *model.Line) {
				l.Speed = 16200
				feeder(l, 0).Misfeed, feeder(l, 0).Jam, feeder(l, 0).Clear = 1.0/5000, 4.0/60000, sim.Constant(90)
				l.UncertainInputs = []model.UncertainInput{{Station: "letter", Name: "jam", Of: output.Counted{Seen: 4, Of: 60_000}, Owner: "other"}}
			},
		}, {
			"station added after another",
			[]string{"{add: " + voucher + ", after: letter}"},
			[]string{"feeder voucher added after letter"},
			func(l *model.Line) { l.Stations = inserted(l.Stations, 1, added()) },
		}, {
			"station added before another, which makes room",
			[]string{"{shift: track gate, by: 3}", "{add: " + voucher + ", before: track gate}", "{set: stations.voucher.at, to: 4}"},
			[]string{"track gate and all after it moved on by 3 pitches", "feeder voucher added before track gate", "stations.voucher.at: 1 → 4"},
			func(l *model.Line) {
				move(l.Stations[1:], 3)
				l.Stations = inserted(l.Stations, 1, added())
				feeder(l, 1).At = 4
			},
		}, {
			"values of a preset",
			[]string{"{add: " + voucher + ", after: letter}", "{set: stations.voucher.misfeed, to: 1/900}", "{set: stations.voucher.clear.lognormal.mean, to: 45 s}"},
			[]string{"feeder voucher added after letter", "stations.voucher.misfeed: 1/1200 (preset friction) → 1/900", "stations.voucher.clear.lognormal.mean: 40 s (preset friction) → 45 s"},
			func(l *model.Line) {
				l.Stations = inserted(l.Stations, 1, added())
				feeder(l, 1).Misfeed, feeder(l, 1).Clear = 1.0/900, lognormal
			},
		}, {
			"station removed, the rest moved back",
			[]string{"{remove: track gate}", "{set: policy, to: {flap: outsort}}", "{shift: inserter, by: -1}"},
			[]string{"track gate removed", "policy: {misfeed: divert, double: divert, flap: outsort} → {flap: outsort}", "inserter and all after it moved back by 1 pitch"},
			func(l *model.Line) {
				l.Stations = append(l.Stations[:1:1], l.Stations[2:]...)
				move(l.Stations[1:], -1)
				feeder(l, 0).OnMisfeed, feeder(l, 0).OnDouble = model.Stop, model.Stop
			},
		}, {
			"station renamed",
			[]string{"{set: stations.letter.name, to: v1.0 letter}", "{set: stations.v1.0 letter.jam, to: 0}"},
			[]string{"stations.letter.name: letter → v1.0 letter", "stations.v1.0 letter.jam: 1/12000 → 0"},
			func(l *model.Line) { feeder(l, 0).Name, feeder(l, 0).Jam = "v1.0 letter", 0 },
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := varied(t, c.changes...)
			want, err := Load("good.yaml", []byte(goodFile(t)))
			require.NoError(t, err)
			assert.Equal(t, want.Line, s.Line, "the base stays as it is")
			c.byHand(want.Line)
			assert.Equal(t, want.Line, s.Variants[0].Line)
			assert.Equal(t, c.words, s.Variants[0].Changes)
			assert.NotEqual(t, s.Line, s.Variants[0].Line, "every row changes something")
		})
	}
}

func inserted(list []model.Station, i int, s model.Station) []model.Station {
	return append(list[:i:i], append([]model.Station{s}, list[i:]...)...)
}

// move moves stations along the track.
func move(list []model.Station, by int64) {
	for _, s := range list {
		at := reflect.ValueOf(s).Elem().FieldByName("At")
		at.SetInt(at.Int() + by)
	}
}

func TestVariantWithoutChanges(t *testing.T) {
	texts := map[string]string{"good": goodFile(t), "everything": everything, "personal": personal, "seasonal": seasonal, "hall": groupFile}
	for _, x := range Examples() {
		texts[x.Name] = string(x.Data)
	}
	for name, text := range texts {
		t.Run(name, func(t *testing.T) {
			text, _, _ := strings.Cut(text, "\nvariants:")
			s, err := Load(name, []byte(text+"\nvariants: [{name: same, changes: []}]\n"))
			require.NoError(t, err)
			require.Len(t, s.Variants, 1)
			assert.Equal(t, s.Shop, s.Variants[0].Shop)
			assert.NotSame(t, s.Line, s.Variants[0].Line)
			assert.Empty(t, s.Variants[0].Changes)
		})
	}
}

// Wherever the key stands in the file, and as JSON on one line.
func TestVariantsFirst(t *testing.T) {
	list := "variants: [{name: two, changes: [{set: crew.operators, to: 2}]}]\n"
	last, err := Load("x", []byte(goodFile(t)+list))
	require.NoError(t, err)
	first, err := Load("x", []byte(list+goodFile(t)))
	require.NoError(t, err)
	assert.Equal(t, last.Variants[0].Stated(), first.Variants[0].Stated())
	for _, s := range []*Scenario{last, first} {
		s.Variants[0].tree, s.Variants[0].sources = nil, nil // which know their lines in the file
	}
	assert.Equal(t, last.Variants, first.Variants)
	assert.Equal(t, last.Line, first.Line)
}

// Problems of one line of a file are still told apart by their column.
func TestProblemsOnOneLine(t *testing.T) {
	base := `{name: x, line: {speed: 5/s, restart: 0 s, stations: [` +
		`{kind: inserter, name: i, at: 0, rated: 5/s, hopper: {pieces: 9, warn: 1, refill: 1 s}, envelope_misfeed: 0, flap: 0, jam: 0, clear: 1 s},` +
		`{kind: delivery, name: d, at: 1}]}, crew: {operators: 1, walk: 0 s}, work: {shift: 1 h}, variants: [{name: v, changes: [`
	changes := []string{"{set: crew.walk, to: 1 s}, ", "{shift: i, by: 1}, ", "{set: stations.d.at, to: 1}"}
	_, err := Load("x", []byte(base+strings.Join(changes, "")+"]}]}"))
	var problems Problems
	require.ErrorAs(t, err, &problems)
	require.Len(t, problems, 1)
	assert.Equal(t, len(base)+len(changes[0]+changes[1])+len("{set: stations.d.at, to: 1"), problems[0].Column)
	assert.Equal(t, `variant "v": d stands at pitch 1, want more than 1, where i stands before it`, problems[0].Text)

	changes[1] = "{set: stations.i.at, to: 1}, " // the problem is then at the delivery, and found at the change
	_, err = Load("x", []byte(base+strings.Join(changes[:2], "")+"]}]}"))
	require.ErrorAs(t, err, &problems)
	require.Len(t, problems, 1)
	assert.Equal(t, len(base)+len(changes[0])+1, problems[0].Column)
	assert.Equal(t, `variant "v": d stands at pitch 1, want more than 1, where i stands before it (line 1)`, problems[0].Text)
}

// The longest list of changes is made, and a problem among them is found at the change
// that brought it about.
func TestManyChanges(t *testing.T) {
	var changes []string
	for i := range maxChanges {
		changes = append(changes, fmt.Sprintf("{set: crew.operators, to: %d}", 1+i%9))
	}
	s := varied(t, changes...)
	assert.Len(t, s.Variants[0].Changes, maxChanges)
	for _, k := range []int{0, 1, 17, 100, maxChanges - 1} {
		broken := append([]string{}, changes...)
		broken[k] = "{remove: track gate}"
		text := goodFile(t) + "variants:\n- name: many\n  changes:\n  - " + strings.Join(broken, "\n  - ")
		_, err := Load("x", []byte(text))
		var problems Problems
		require.ErrorAs(t, err, &problems)
		require.Len(t, problems, 1, "misfeed and double are one")
		want := strings.Count(text[:strings.Index(text, broken[k])], "\n") + 1
		assert.Equal(t, want, problems[0].Line)
	}
}

// In a very large file the change behind a problem elsewhere is not looked for: the
// variant is named all the same.
func TestProblemsOfALargeFile(t *testing.T) {
	text := goodFile(t) + strings.Repeat("# a long comment\n", searchedBytes/16) + "variants:\n- {name: v, changes: [{set: stations.exit gate.at, to: 7}]}\n"
	_, err := Load("x", []byte(text))
	var problems Problems
	require.ErrorAs(t, err, &problems)
	require.Len(t, problems, 1)
	assert.Equal(t, strings.Count(text, "\n"), problems[0].Line)
	assert.Equal(t, 3, problems[0].Column)
	assert.Contains(t, problems[0].Text, `variant "v": delivery stands at pitch 7`)
}

// What a variant makes a number of times as large is that much larger in the line.
func TestTimes(t *testing.T) {
	for _, c := range []struct{ value, times, want string }{
		{"1/2500", "0.5", "1/5000"},
		{"0.04%", "3", "0.12%"},
		{"0.0004", "2", "0.0008"},
		{"0", "5", "0"},
		{"{seen: 83, of: 102177}", "0.5", "{seen: 83, of: 204354}"},
		{"{low: 1/3000, likely: 1/2400, high: 1/2000}", "2", "{low: 1/1500, likely: 1/1200, high: 1/1000}"},
		{"45 s", "1.5", "67.5 s"},
		{"2 min", "0.25", "0.5 min"},
		{"{lognormal: {mean: {about: 40 s, se: 2 s}, cv: 0.8}}", "0.5", "{lognormal: {mean: {about: 20 s, se: 1 s}, cv: 0.8}}"},
		{"{triangular: {low: 1 s, mode: 2 s, high: 6 s}}", "2", "{triangular: {low: 2 s, mode: 4 s, high: 12 s}}"},
		{"{empirical: [1 s, 2 s]}", "3", "{empirical: [3 s, 6 s]}"},
	} {
		t.Run(c.value, func(t *testing.T) {
			path := "stations.letter.misfeed"
			if strings.Contains(c.value, "s") && !strings.Contains(c.value, "seen") || strings.Contains(c.value, "min") {
				path = "stations.letter.clear"
			}
			text := goodFile(t) + "\nvariants:\n  - name: more\n    changes:\n      - {set: " + path + ", to: " + c.value + "}\n      - {set: " + path + ", times: " + c.times + "}\n"
			s, err := Load("good.yaml", []byte(text))
			require.NoError(t, err)
			want, err := s.With(path, c.want)
			require.NoError(t, err)
			for i := range want.UncertainInputs {
				want.UncertainInputs[i].Owner = "more"
			}
			assert.Equal(t, want, s.Variants[0].Line)
			assert.Equal(t, path+": "+c.value+" → "+c.want, s.Variants[0].Changes[1])
		})
	}
}

// The file may say what its line is called beside the variants; none of them is called so.
func TestBaseHasAName(t *testing.T) {
	x, err := ExampleNamed("three-offers")
	require.NoError(t, err)
	s, err := Load("x", x.Data)
	require.NoError(t, err)
	assert.Equal(t, BaseName, s.Base)
	named := "base: Offer North\n" + string(x.Data)
	s, err = Load("x", []byte(named))
	require.NoError(t, err)
	assert.Equal(t, "Offer North", s.Base)
	_, err = Load("x", []byte(strings.Replace(named, "name: more crew", "name: Offer North", 1)))
	assert.ErrorContains(t, err, `no variant can be named "Offer North": base in line 1 calls the file without changes so`)
}
