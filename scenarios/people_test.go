package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// staffed is a file with every key of the format that speaks of people.
const staffed = `name: Staffed
line:
  speed: 12000/h
  restart: 5 s
  stations:
    - {kind: feeder, name: letter, at: 0, preset: rotary, hopper: {pieces: 3000, warn: 20%, refill: 25 s}, breakdowns: {every: {about: 40 h, se: 8 h}, comes: 20 min, repair: {lognormal: {mean: {low: 30 min, likely: 45 min, high: 2 h}, cv: 1}}}}
    - {kind: inserter, name: inserter, at: 4, rated: 15000/h, hopper: {pieces: 1000, warn: 300, refill: 20 s}, envelope_misfeed: 1/3000, flap: 1/1200, jam: 1/4000, clear: 70 s}
    - {kind: exit gate, name: exit gate, at: 6}
    - {kind: delivery, name: delivery, at: 7, breakdowns: {every: 100 h, comes: 0 s, repair: 2 h}}
policy: {flap: outsort}
crew:
  operators: 1.5
  blocks: 30 min
  walk: 10 s
  technicians: 2
  people:
    - {name: setter, does: clearing}
    - {name: at the inserter, stays: inserter, elsewhere: true, stations: [inserter, letter]}
    - {name: loader, operators: 1, does: filling}
  help: {faster: 1.6}
  later: [{after: 4 h, operators: 0}, {after: 6 h, operators: 2.25}]
  breaks:
    - {after: 2 h, length: 15 min, line: runs on}
    - {after: 5 h, length: 30 min, line: stands, remain: 1}
work: {shift: 8 h}
`

func TestStaffed(t *testing.T) {
	s, err := Load("x", []byte(staffed))
	require.NoError(t, err)
	assert.Equal(t, model.Crew{
		Operators: 1, Part: 0.5, Block: 1800, Walk: sim.Constant(10), Technicians: 2, Help: 1.6,
		People: []model.Person{
			{Name: "setter", Operators: 1, Only: model.Clearing},
			{Name: "at the inserter", Operators: 1, Stays: "inserter", Elsewhere: true, Stations: []string{"inserter", "letter"}},
			{Name: "loader", Operators: 1, Only: model.Filling},
		},
		Later: []model.Presence{{After: 14_400}, {After: 21_600, Operators: 2, Part: 0.25}},
		Breaks: []model.Break{
			{After: 7200, Length: 900}, {After: 18_000, Length: 1800, Remain: 1, Stands: true},
		},
	}, s.Line.Crew)
	b := s.Line.Stations[0].Downtime()
	assert.Equal(t, [3]sim.Seconds{144_000, 1200, 2700}, [3]sim.Seconds{b.Every, b.Comes.Mean(), b.Repair.Mean()})
	assert.Len(t, s.Line.UncertainInputs, 2)
	assert.Zero(t, *s.Line.Stations[1].Downtime())

	l, err := s.With("stations.letter.breakdowns.every", "80 h")
	require.NoError(t, err)
	assert.Equal(t, sim.Seconds(288_000), l.Stations[0].Downtime().Every)
	drawn, _ := s.Line.Drawn(1, 7)
	assert.NotEqual(t, sim.Seconds(144_000), drawn.Stations[0].Downtime().Every, "what is uncertain is drawn")
	assert.Equal(t, sim.Seconds(144_000), s.Line.Stations[0].Downtime().Every, "and the line stays as it is")
}

// Of several lines with one crew a person may be for some, and a station is known by its name on each.
func TestStaffedLines(t *testing.T) {
	file, _, _ := strings.Cut(groupFile, "variants:")
	file = strings.Replace(file, "crew: {operators: 3, walk: 10 s, attends: first come}", `crew:
  operators: 2
  walk: 10 s
  people:
    - {name: all}
    - {name: at an inserter, lines: [v1.0 flats, letters], stays: inserter, elsewhere: true}`, 1)
	s, err := Load("x", []byte(file))
	require.NoError(t, err)
	require.Empty(t, s.LineGroup.Check())
	assert.Equal(t, model.Person{
		Name: "at an inserter", Operators: 1, Lines: []string{"v1.0 flats", "letters"}, Stays: "inserter", Elsewhere: true,
	}, s.LineGroup.Crew.People[1])
	for from, c := range map[string][2]string{
		"lines: [v1.0 flats, letters], ": {"", "have a station of that name: say at which line first"},
		"[v1.0 flats, letters]":          {"[flat]", `at an inserter works on a line "flat", and there is none of that name`},
		"stays: inserter":                {"stays: kettle", `has a station "kettle", and none of their lines has one of that name`},
	} {
		_, err := Load("x", []byte(strings.Replace(file, from, c[0], 1)))
		assert.ErrorContains(t, err, c[1])
	}
}

// What cannot be of people is refused at its place.
func TestStaffedWrong(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"  blocks: 30 min\n", "", "an operator is there for part of the time: give the length of the blocks"},
		{"operators: 1.5", "operators: 0", "operators is 0, want a number of people from 0.01 to 1000"},
		{"operators: 2.25", "operators: -1", "operators is -1, want a number of people from 0 to 1000"},
		{"after: 6 h, op", "after: 4 h, op", "the crew changes after 14400 s, want a time after the start of the shift and after the change before"},
		{"after: 5 h", "after: 2 h", "a break comes after 7200 s and lasts 1800 s, want one after the start of the shift, when the one before it is over"},
		{"line: runs on", "line: run on", "line is \"run on\", did you mean runs on?"},
		{"line: runs on", "remain: 1", "a break has no line"},
		{"technicians: 2", "technicians: 0", "technicians is 0, want a whole number from 1 to 1000"},
		{"every: 100 h", "every: 0 s", "it breaks down every 0 s, want more than 0"},
		{"every: 100 h, ", "", "breakdowns has no every"},
		{"name: loader, operators: 1", "name: loader, operators: 2", "people are 4 operators, and the crew has 3 at the most: want as many; change operators, or who is named"},
		{"does: filling", "does: fill", "does is fill, did you mean filling?"},
		{"stays: inserter", "stays: insertor", "at the inserter has a station \"insertor\", and the line has none of that name"},
		{"stays: inserter, ", "", "at the inserter goes elsewhere and stays at no station"},
		{"stations: [inserter, letter]", "stations: []", "at the inserter works at no station"},
		{"stations: [inserter, letter]", "lines: [staffed]", "at the inserter works on some lines only, and there is one"},
		{"faster: 1.6", "faster: 0.5", "two at one fault are 0.5 times as fast as one, want from 1 to 10"},
		{"name: loader, operators", "operators", "a person has no name"},
		{"shift: 8 h", "sets: 100", "a job does not know when it is done"},
	} {
		_, err := Load("x", []byte(strings.Replace(staffed, c.from, c.to, 1)))
		require.Error(t, err, c.to)
		assert.ErrorContains(t, err, c.want)
	}
}
