package scenarios

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sourced is a file in which some numbers have a source, and some have none. It is invented.
const sourced = `name: Sources
line:
  speed: 9000/h
  restart: 4 s
  source: the tender
  stations:
    - kind: feeder
      name: letter
      at: 0
      source: the log of May
      rated: 12000/h
      hopper: {pieces: 3000, warn: 20%, refill: 25 s}
      misfeed: {seen: 12, of: 40000}
      double: 1/9000
      jam: 1/15000
      clear: {lognormal: {mean: 60 s, cv: 0.8}}
      policy: {double: stop}
    - {kind: feeder, name: card, at: 2, preset: rotary, misfeed: {same as: stations.inserter.jam}, hopper: {pieces: 3000, warn: 20%, refill: 25 s}}
    - {kind: inserter, name: inserter, at: 4, rated: 14000/h, hopper: {pieces: 1500, warn: 500, refill: 20 s}, envelope_misfeed: 1/4000, flap: 1/1500, jam: 1/5000, clear: 60 s}
    - {kind: delivery, name: delivery, at: 6}
crew: {operators: 1, walk: 10 s, source: the foreman}
work: {shift: 8 h}
costs: {currency: EUR, life: 8, rate: 8%, price: 100000, volume: 4000000, source: the offer of March}
variants:
  - name: faster
    changes:
      - {set: stations.letter.misfeed, to: 1/2000}
      - {set: stations.letter.double, times: 0.5, source: the seller}
      - {set: stations.letter.clear.lognormal.mean, to: 45 s, source: a guess}
      - {set: stations.letter.name, to: head}
      - {set: line.speed, to: 11000/h}
      - {set: crew.operators, to: 2, source: the union}
      - {set: costs.price, to: 150000}
      - {set: costs.pieces.card, to: 0.01, source: the printer}
      - {set: stations.card.clear.lognormal.mean, to: 30 s}
      - {set: stations.inserter.flap, to: {same as: stations.head.jam}}
      - {set: policy, to: {misfeed: stop}, source: the foreman}
      - {add: {kind: feeder, name: voucher, at: 3, preset: friction, rated: 15000/h, hopper: {pieces: 900, warn: 20%, refill: 15 s}}, after: card, source: the seller}
  - name: again
    builds_on: faster
    changes:
      - {set: stations.head.clear.lognormal.cv, to: 1}
`

func sourcesOf(all []Statement) map[string]string {
	of := map[string]string{}
	for _, s := range all {
		key := s.Key
		if s.Station != "" {
			key = s.Station + "." + key
		}
		of[key] = s.Source
	}
	return of
}

// A source is of the numbers that it was given with, and never of those that a change puts in their
// place: the rate that a variant set was once said to be from the log of the base.
func TestSourceIsNotInherited(t *testing.T) {
	s, err := Load("sourced.yaml", []byte(sourced))
	require.NoError(t, err)
	for _, of := range []struct {
		name string
		has  map[string]string
		want map[string]string
	}{
		{"base", sourcesOf(s.Stated()), map[string]string{
			"letter.misfeed": "the log of May", "letter.hopper": "the log of May", "letter.policy.double": "",
			"card.misfeed": "as the jam of inserter", "card.hopper": "", "card.jam": "preset rotary, illustrative",
			"line.speed": "the tender", "crew.operators": "the foreman", "work.shift": "", "costs.price": "the offer of March",
		}},
		{"faster", sourcesOf(s.Variants[0].Stated()), map[string]string{
			"head.misfeed": "", "head.double": "the seller", "head.jam": "the log of May",
			"head.clear": "lognormal.mean: a guess; the rest: the log of May", "line.speed": "", "line.restart": "the tender",
			"crew.operators": "the union", "crew.walk": "the foreman", "costs.price": "", "costs.life": "the offer of March",
			"costs.pieces": "the printer", "card.clear": "lognormal.mean: not stated; lognormal.cv: preset rotary, illustrative",
			"inserter.flap": "as the jam of head", "policy.misfeed": "the foreman",
			"voucher.rated": "the seller", "voucher.jam": "preset friction, illustrative",
		}},
		{"again", sourcesOf(s.Variants[1].Stated()), map[string]string{
			"head.misfeed": "", "head.clear": "lognormal.mean: a guess; lognormal.cv: not stated", "crew.operators": "the union",
		}},
	} {
		for key, want := range of.want {
			got, is := of.has[key]
			assert.True(t, is, "%s has no %s", of.name, key)
			assert.Equal(t, want, got, "%s: %s", of.name, key)
		}
	}
	assert.Contains(t, s.Variants[0].Changes, "crew.operators: 1 → 2 (source: the union)")
}

// What is set for one answer is not what the file has a source for, nor is that of a variant which
// is taken for the file.
func TestSourceOfASetting(t *testing.T) {
	s, err := Load("sourced.yaml", []byte(sourced))
	require.NoError(t, err)
	set, err := s.Set([]Setting{{"stations.letter.jam", "1/20000"}, {"crew.walk", "8 s"}})
	require.NoError(t, err)
	of := sourcesOf(set.Stated())
	assert.Equal(t, "set for this answer", of["letter.jam"])
	assert.Equal(t, "set for this answer", of["crew.walk"])
	assert.Equal(t, "the log of May", of["letter.double"])
	assert.Equal(t, "set for this answer", sourcesOf(set.Variants[0].Stated())["head.jam"])
	assert.Equal(t, "the log of May", sourcesOf(s.Stated())["letter.jam"], "the scenario stays as it is")

	as, err := s.As("faster")
	require.NoError(t, err)
	assert.Empty(t, sourcesOf(as.Stated())["head.misfeed"])
}
