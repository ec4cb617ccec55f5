package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/setup"
	"netrate/sim/output"
)

// cards is a file whose feeders are only for some customers.
const cards = `name: Cards for some customers
line:
  restart: 4 s
  attributes:
    - {name: gold, share: 20%}
    - {name: new, share: {low: 5%, likely: 10%, high: 30%}}
  stations:
    - {kind: feeder, name: letter, at: 0, preset: rotary, hopper: {pieces: 3000, warn: 20%, refill: 25 s}, clear: 45 s}
    - {kind: feeder, name: card, at: 2, only: gold, preset: rotary, hopper: {pieces: 3000, warn: 20%, refill: 25 s}, clear: 45 s}
    - {kind: feeder, name: voucher, at: 4, only: gold, preset: rotary, hopper: {pieces: 3000, warn: 20%, refill: 25 s}, clear: 45 s}
    - {kind: inserter, name: inserter, at: 6, rated: 16000/h, hopper: {pieces: 3000, warn: 20%, refill: 25 s}, envelope_misfeed: 1/4000, flap: 1/1500, jam: 1/5000, clear: 90 s}
    - {kind: delivery, name: delivery, at: 7}
crew: {operators: 1, walk: 10 s}
work: {shift: 8 h}
`

// only returns the attributes that the feeders of a line are only for.
func only(l *model.Line) (names []string) {
	for _, s := range l.Stations {
		if f, ok := s.(*model.Feeder); ok {
			names = append(names, f.Only)
		}
	}
	return names
}

// Attributes are read with what is not known of them, can be set, and are a number like others.
func TestLoadAttributes(t *testing.T) {
	s, err := Load("cards.yaml", []byte(cards))
	require.NoError(t, err)
	assert.Equal(t, []model.Attribute{{Name: "gold", Share: 0.2}, {Name: "new", Share: 0.1}}, s.Line.Attributes)
	assert.Equal(t, []string{"", "gold", "gold"}, only(s.Line))
	require.Len(t, s.Line.UncertainInputs, 1)
	assert.Equal(t, "line.attributes.new.share", s.Line.UncertainInputs[0].Path())
	assert.Equal(t, output.Between{Low: 0.05, Likely: 0.1, High: 0.3}, s.Line.UncertainInputs[0].Of)
	drawn, values := s.Line.Drawn(1, 1)
	assert.Equal(t, values[0], drawn.Attributes[1].Share)
	assert.NotEqual(t, 0.1, values[0])
	assert.Equal(t, 0.1, s.Line.Attributes[1].Share, "a draw changes the line itself")

	l, err := s.With("line.attributes.gold.share", "1/3")
	require.NoError(t, err)
	assert.InDelta(t, 1.0/3, l.Attributes[0].Share, 1e-15)
	l, err = s.With("stations.voucher.only", "new")
	require.NoError(t, err)
	assert.Equal(t, []string{"", "gold", "new"}, only(l))
	for path, want := range map[string][2]string{
		"line.attributes.gold.share":  {"0", "the share of the attribute gold is 0, want a share above 0, at most 1"},
		"stations.card.only":          {"silver", "card is only for silver, and the line has no such attribute"},
		"stations.card.share":         {"50%", "card is only for gold, and feeds a share of the sets: want one of them"},
		"stations.card.stream":        {"cards", "card carries a stream that only some sets have: want one besides that all sets have, for the addresses"},
		"line.attributes.glod.share":  {"50%", "no attribute is named \"glod\": did you mean gold?"},
		"line.attributes.gold.chance": {"50%", "chance"},
	} {
		_, err := s.With(path, want[0])
		assert.ErrorContains(t, err, want[1], path)
	}
}

// Each of several lines has attributes of its own.
func TestAttributesOfSeveralLines(t *testing.T) {
	line := cards[strings.Index(cards, "  restart"):strings.Index(cards, "crew:")]
	line = strings.ReplaceAll(line, "\n  ", "\n    ")
	text := "name: two\nlines:\n  - name: north\n  " + line + "- name: south\n  " + strings.Replace(line, "gold, share: 20%", "gold, share: 40%", 1)
	text = strings.ReplaceAll(text, "    - name: south", "  - name: south") + "\ncrew: {operators: 1, walk: 10 s}\nwork: {shift: 8 h}\n"
	text = strings.Replace(text, "- name: south", "\n  - name: south", 1)
	s, err := Load("two.yaml", []byte(text))
	require.NoError(t, err, text)
	assert.Equal(t, 0.2, s.LineGroup.Lines[0].Attributes[0].Share)
	assert.Equal(t, 0.4, s.LineGroup.Lines[1].Attributes[0].Share)
	assert.Equal(t, "lines.south.attributes.new.share", s.LineGroup.UncertainInputs()[1].Path())
}

// An insert of a job may be only for some sets; what the feeder says itself does not count then.
func TestInsertsOfAnAttribute(t *testing.T) {
	s, err := Load("jobs.yaml", []byte(cards+`jobs:
  - name: spring
    envelope: C5
    inserts:
      - {name: letter}
      - {name: magazine, only: new}
      - {name: leaflet, share: 50%}
`))
	require.NoError(t, err)
	fitted, fit := setup.Fitted(s.Line, s.Products[0])
	require.NotNil(t, fitted, "%v", fit)
	require.Empty(t, fitted.Check())
	assert.Equal(t, []string{"", "new", ""}, only(fitted))
}
