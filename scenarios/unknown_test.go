package scenarios

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
)

// unknownsOf returns the uncertain inputs of lines with the unknowns that they are, one a line of
// text.
func unknownsOf(uncertain []model.UncertainInput) string {
	var b strings.Builder
	for _, d := range uncertain {
		u := d.Unknown()
		fmt.Fprintf(&b, "%s %v: %q of %q\n", d.Path(), d.Of, u.Path, u.Owner)
	}
	return b.String()
}

const sharedFile = `name: Shared
line:
  restart: 4 s
  stations:
    - {kind: feeder, name: letter, at: 0, rated: 9000/h, hopper: {pieces: 3000, warn: 600, refill: 20 s}, misfeed: {seen: 20, of: 20000}, double: 1/9000, jam: {low: 1/9000, likely: 1/8000, high: 1/5000}, clear: {lognormal: {mean: {about: 60 s, se: 8 s}, cv: 0.8}}}
    - {kind: feeder, name: card, at: 1, rated: 9000/h, hopper: {pieces: 3000, warn: 600, refill: 20 s}, misfeed: {same as: stations.letter.misfeed}, double: {same as: stations.letter.double}, jam: 1/9000, clear: {same as: stations.letter.clear}}
    - {kind: inserter, name: inserter, at: 3, rated: 9000/h, hopper: {pieces: 1500, warn: 500, refill: 20 s}, envelope_misfeed: 1/4000, flap: 1/1500, jam: 1/5000, clear: 60 s}
    - {kind: delivery, name: delivery, at: 5}
policy: {misfeed: stop, double: stop}
crew: {operators: 1, walk: {constant: {low: 5 s, likely: 10 s, high: 30 s, same as: crew.walk.constant}}}
work: {shift: 8 h}
variants:
  - name: other maker
    changes:
      - {set: stations.letter.misfeed, to: {seen: 20, of: 20000}}
      - {set: stations.letter.jam, times: 0.5}
  - name: one more
    changes:
      - {add: {kind: feeder, name: folder, at: 2, rated: 9000/h, hopper: {pieces: 3000, warn: 600, refill: 20 s}, misfeed: {same as: stations.letter.misfeed}, double: 1/9000, jam: {seen: 2, of: 8000}, clear: 30 s}, after: card}
`

// A variant has a number as an unknown of its own where it sets it, though it be the same in the
// same words; not where it leaves it, makes it some times as large, or says what it is the same as.
func TestUnknowns(t *testing.T) {
	s, err := Load("shared.yaml", []byte(sharedFile))
	require.NoError(t, err)
	base := `stations.letter.misfeed {20 20000 0}: "stations.letter.misfeed" of ""
stations.letter.jam {0.00011111111111111112 0.000125 0.0002}: "stations.letter.jam" of ""
stations.letter.clear.mean {60 8 0}: "stations.letter.clear.mean" of ""
stations.card.misfeed {20 20000 0}: "stations.letter.misfeed" of ""
stations.card.clear.mean {60 8 0}: "stations.letter.clear.mean" of ""
crew.walk.mean {5 10 30}: "crew.walk.mean" of ""
`
	assert.Equal(t, base, unknownsOf(s.Line.UncertainInputs))
	card := s.Line.Stations[1].(*model.Feeder)
	assert.Equal(t, s.Line.Stations[0].(*model.Feeder).Clear, card.Clear)
	assert.Equal(t, [2]float64{20.0 / 20000, 1.0 / 9000}, [2]float64{card.Misfeed, card.Double})

	other := unknownsOf(s.Variants[0].Line.UncertainInputs)
	assert.Contains(t, other, `stations.letter.misfeed {20 20000 0}: "stations.letter.misfeed" of "other maker"`)
	assert.Contains(t, other, `stations.card.misfeed {20 20000 0}: "stations.letter.misfeed" of "other maker"`)
	assert.Contains(t, other, `stations.letter.jam {5.555555555555556e-05 6.25e-05 0.0001}: "stations.letter.jam" of ""`)
	assert.Contains(t, other, `stations.card.clear.mean {60 8 0}: "stations.letter.clear.mean" of ""`)

	more := unknownsOf(s.Variants[1].Line.UncertainInputs)
	for line := range strings.Lines(base) {
		assert.Contains(t, more, line)
	}
	assert.Contains(t, more, `stations.folder.misfeed {20 20000 0}: "stations.letter.misfeed" of ""`)
	assert.Contains(t, more, `stations.folder.jam {2 8000 0}: "stations.folder.jam" of "one more"`)

	t.Run("draws", func(t *testing.T) {
		drawn := func(l *model.Line, path string) float64 {
			_, values := l.Drawn(1, 7)
			for i, d := range l.UncertainInputs {
				if d.Path() == path {
					return values[i]
				}
			}
			t.Fatal(path)
			return 0
		}
		mine, theirs := s.Line, s.Variants[0].Line
		assert.Equal(t, drawn(mine, "stations.letter.misfeed"), drawn(mine, "stations.card.misfeed"))
		assert.NotEqual(t, drawn(mine, "stations.letter.misfeed"), drawn(theirs, "stations.letter.misfeed"), "two guesses are drawn as one")
		assert.InEpsilon(t, drawn(mine, "stations.letter.jam"), 2*drawn(theirs, "stations.letter.jam"), 1e-12)
		assert.Equal(t, drawn(mine, "crew.walk.mean"), drawn(theirs, "crew.walk.mean"))
	})
	t.Run("a sweep takes a reference away", func(t *testing.T) {
		line, err := s.With("stations.card.misfeed", "1/500")
		require.NoError(t, err)
		assert.Len(t, line.UncertainInputs, len(s.Line.UncertainInputs)-1)
	})
}

// A number that is the same as another is said as that, and as whose it is, not as a path.
func TestReferencesInWords(t *testing.T) {
	s, err := Load("shared.yaml", []byte(sharedFile+"      - {set: stations.inserter.jam, to: {same as: stations.letter.misfeed}}\n"+
		"      - {set: stations.letter.clear, to: {same as: line.restart}}\n"))
	require.NoError(t, err)
	assert.Contains(t, s.Variants[1].Changes, "stations.inserter.jam: 1/5000 → {seen: 20, of: 20000}, as the misfeed of letter")
	assert.Contains(t, s.Variants[1].Changes, "stations.letter.clear: {lognormal: {mean: {about: 60 s, se: 8 s}, cv: 0.8}} → 4 s, as line.restart")
	stated := map[string]string{}
	for _, x := range s.Stated() {
		stated[x.Station+" "+x.Key] = x.Value
	}
	assert.Equal(t, "{seen: 20, of: 20000}, as the misfeed of letter", stated["card misfeed"])
	assert.Equal(t, "1/9000, as the double of letter", stated["card double"])
}

// What is the same as a number of another line is one unknown with it.
func TestUnknownsOfSeveralLines(t *testing.T) {
	text := strings.NewReplacer("flap: 1/1200", "flap: {seen: 4, of: 4800}", "restart: 5 s", "restart: {constant: {low: 4 s, likely: 5 s, high: 6 s}}").Replace(groupFile)
	s, err := Load("lines.yaml", []byte(text))
	require.NoError(t, err)
	apart := unknownsOf(s.LineGroup.UncertainInputs())
	north, south := s.LineGroup.Lines[0].Name, s.LineGroup.Lines[1].Name
	assert.Contains(t, apart, fmt.Sprintf("lines.%s.stations.inserter.flap {4 4800 0}: \"lines.%[1]s.stations.inserter.flap\" of \"\"\n", north))

	s, err = Load("lines.yaml", []byte(strings.Replace(text, "flap: 1/800", "flap: {same as: lines."+north+".stations.inserter.flap}", 1)))
	require.NoError(t, err)
	assert.Contains(t, unknownsOf(s.LineGroup.UncertainInputs()), fmt.Sprintf("lines.%s.stations.inserter.flap {4 4800 0}: \"lines.%s.stations.inserter.flap\" of \"\"\n", south, north))
}

// A large value that is meant at very many places is refused before it fills the memory.
func TestUnknownsWithoutEnd(t *testing.T) {
	var b strings.Builder
	b.WriteString("name: Large\nline:\n  restart: {empirical: [1 s" + strings.Repeat(", 1 s", 50_000) + "]}\n  stations:\n")
	for i := range 12 {
		fmt.Fprintf(&b, "    - {kind: feeder, name: f%d, at: %d, preset: rotary, clear: {same as: line.restart}}\n", i, i)
	}
	_, err := Load("large.yaml", []byte(b.String()))
	assert.Equal(t, 3, strings.Count(err.Error(), "clear: too much is the same as what stands elsewhere"), "of twelve times 50,002 nodes the first ten are too many")
}
