package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// groupFile is a file with every key of the format that speaks of several lines.
const groupFile = `name: Hall
lines:
  - name: letters
    speed: 12000/h
    restart: 4 s
    stations:
      - {kind: feeder, name: letter, at: 0, preset: rotary, source: guessed, hopper: {pieces: 3000, warn: 20%, refill: 25 s}}
      - {kind: track gate, name: track gate, at: 2}
      - {kind: inserter, name: inserter, at: 4, rated: 15000/h, hopper: {pieces: 1000, warn: 300, refill: 20 s}, envelope_misfeed: 1/3000, flap: 1/1200, jam: 1/4000, clear: 70 s}
      - {kind: exit gate, name: exit gate, at: 6}
      - {kind: delivery, name: delivery, at: 7}
  - name: v1.0 flats
    restart: 5 s
    stations:
      - {kind: feeder, name: letter, at: 0, preset: shuttle, hopper: {pieces: 900, warn: 20%, refill: 25 s}, source: measured}
      - {kind: inserter, name: inserter, at: 4, rated: 8000/h, hopper: {pieces: 600, warn: 300, refill: 20 s}, envelope_misfeed: 1/1500, flap: 1/800, jam: 1/2000, clear: 80 s}
      - {kind: exit gate, name: exit gate, at: 6}
      - {kind: delivery, name: delivery, at: 7}
    policy: {double: outsort}
policy: {misfeed: divert, flap: outsort}
crew: {operators: 3, walk: 10 s, attends: first come}
work: {shift: 6 h}
variants:
  - name: other
    changes:
      - {set: lines.letters.speed, to: 10000/h}
      - {set: lines.v1.0 flats.stations.inserter.rated, to: 7000/h}
      - {set: lines.v1.0 flats.policy.double, to: stop}
      - {add: {kind: feeder, name: second, at: 2, preset: friction, hopper: {pieces: 900, warn: 20%, refill: 25 s}}, line: v1.0 flats, after: letter}
      - {shift: inserter, line: v1.0 flats, by: 2}
      - {remove: exit gate, line: letters}
      - {set: lines.letters.policy, to: {misfeed: divert}}
      - {set: crew.operators, to: 2}
`

func TestLineGroup(t *testing.T) {
	s, err := Load("group.yaml", []byte(groupFile))
	require.NoError(t, err)
	h := s.LineGroup
	require.Len(t, h.Lines, 2)
	assert.Same(t, s.Line, h.Lines[0])
	assert.Empty(t, h.Check())
	assert.Equal(t, model.Crew{Operators: 3, Walk: sim.Constant(10), Order: model.FirstCome}, h.Crew)
	for i, want := range []struct {
		name              string
		speed             float64
		restart           sim.Duration
		onMisfeed, double model.Response
		onFlap            model.Response
	}{
		{"letters", 12_000, sim.Constant(4), model.Divert, model.Stop, model.Outsort},
		{"v1.0 flats", 8000, sim.Constant(5), model.Stop, model.Outsort, model.Stop},
	} {
		l := h.Lines[i]
		f := l.Stations[0].(*model.Feeder)
		n := l.Stations[len(l.Stations)-3].(*model.Inserter)
		assert.Equal(t, want.name, l.Name)
		assert.Equal(t, want.speed, l.RunSpeed())
		assert.Equal(t, want.restart, l.Restart)
		assert.Equal(t, sim.Seconds(6*3600), l.Shift)
		assert.Equal(t, [3]model.Response{want.onMisfeed, want.double, want.onFlap}, [3]model.Response{f.OnMisfeed, f.OnDouble, n.OnFlap})
	}
	var of []string
	for _, x := range s.Stated() {
		if x.Key == "hopper" && x.Station == "letter" {
			of = append(of, x.Line+": "+x.Source)
		}
	}
	assert.Equal(t, []string{"letters: guessed", "v1.0 flats: measured"}, of)
}

func TestVariantOfALineGroup(t *testing.T) {
	s, err := Load("group.yaml", []byte(groupFile))
	require.NoError(t, err)
	v := s.Variants[0]
	assert.Equal(t, []string{
		"lines.letters.speed: 12000/h → 10000/h",
		"lines.v1.0 flats.stations.inserter.rated: 8000/h → 7000/h",
		"lines.v1.0 flats.policy.double: outsort → stop",
		"v1.0 flats: feeder second added after letter",
		"v1.0 flats: inserter and all after it moved on by 2 pitches",
		"letters: exit gate removed",
		"lines.letters.policy: not given → {misfeed: divert}",
		"crew.operators: 3 → 2",
	}, v.Changes)
	letters, flats := v.LineGroup.Lines[0], v.LineGroup.Lines[1]
	assert.Same(t, v.Line, letters)
	assert.Equal(t, [2]float64{10_000, 7000}, [2]float64{letters.RunSpeed(), flats.RunSpeed()})
	assert.Equal(t, 2, v.LineGroup.Crew.Operators)
	assert.Len(t, letters.Stations, 4)
	assert.Len(t, flats.Stations, 5)
	assert.Equal(t, model.Place{Name: "inserter", At: 6, Rated: 7000}, *flats.Stations[2].Where())
	assert.Equal(t, 3, s.LineGroup.Crew.Operators, "the base stays as it is")
	assert.Len(t, s.LineGroup.Lines[1].Stations, 4)
}

func TestSetOfALineGroup(t *testing.T) {
	s, err := Load("x", []byte(groupFile))
	require.NoError(t, err)
	shop, err := s.ShopWith([]Setting{{"lines.v1.0 flats.stations.letter.misfeed", "1/50"}, {"lines.letters.name", "quick"}, {"lines.quick.restart", "9 s"}})
	require.NoError(t, err)
	assert.Equal(t, 0.02, shop.LineGroup.Lines[1].Stations[0].(*model.Feeder).Misfeed)
	assert.Equal(t, "quick", shop.LineGroup.Lines[0].Name)
	assert.Equal(t, sim.Constant(9), shop.Line.Restart)

	for _, c := range []struct{ path, value, want string }{
		{"line.speed", "5/s", "there are several lines: want lines.NAME.KEY or lines.NAME.stations.NAME.KEY"},
		{"stations.letter.jam", "0", "there are several lines: want lines.NAME.KEY or lines.NAME.stations.NAME.KEY"},
		{"lines", "[]", "the lines as a whole cannot be set: want lines.NAME.KEY or lines.NAME.stations.NAME.KEY"},
		{"lines.leters.speed", "5/s", `no line is named "leters": did you mean letters?`},
		{"lines.letters", "5/s", "letters is a whole line: say which key of it, such as lines.letters.speed"},
		{"lines.letters.stations", "[]", "want lines.letters.stations.NAME.KEY"},
		{"lines.letters.stations.leter.jam", "0", `no station is named "leter": did you mean letter?`},
		{"lines.letters.stations.letter", "0", "letter is a whole station: say which key of it, such as lines.letters.stations.letter.at"},
		{"lines.letters.name", "v1.0 flats", `two lines are named "v1.0 flats", the first in line`},
		{"lines.letters.stations.exit gate.at", "7", "delivery stands at pitch 7, want more than 7, where exit gate stands before it"},
		{"work.sets", "7", "work has sets as well as shift"},
		{"work", "{sets: 7}", "work has sets: lines that share a crew work for a shift"},
	} {
		_, err := s.ShopWith([]Setting{{c.path, c.value}})
		require.ErrorContains(t, err, "x: "+c.path+": "+c.want)
	}
}

// A file that is refused for its responses is shown the line with one.
func TestRefusedLineGroup(t *testing.T) {
	bad := strings.Replace(groupFile, "double: outsort", "double: divert", 1)
	l := Refused("x", []byte(bad))
	require.NotNil(t, l)
	assert.Equal(t, "v1.0 flats", l.Name)
	assert.Nil(t, Refused("x", []byte(groupFile)))
	assert.Nil(t, Refused("x", []byte(strings.Replace(bad, "name: track gate, at: 2", "name: track gate, at: 9", 1))), "another line has another fault")
}
