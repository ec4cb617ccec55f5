package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// named returns a file whose first station has a name.
func named(station string) string {
	return strings.Replace(small, "name: letter", "name: "+station, 1)
}

// Names that look alike are the same name, however they are written: they cannot be given
// twice, and a path finds them.
func TestNamesThatLookAlike(t *testing.T) {
	sc, err := Load("x.yaml", []byte(named("caf\u0065\u0301")))
	require.NoError(t, err)
	assert.Equal(t, "caf\u00e9", sc.Line.Stations[0].Where().Name)
	_, err = sc.With("stations.caf\u00e9.jam", "0")
	require.NoError(t, err)

	twice := named("caf\u0065\u0301")
	twice = strings.Replace(twice, "name: inserter", "name: caf\u00e9", 1)
	_, err = Load("x.yaml", []byte(twice))
	require.ErrorContains(t, err, "caf\u00e9")

	edited, err := Edited("x.yaml", []byte(named("caf\u0065\u0301")), []Edit{{"stations.caf\u00e9.jam", "1/77", ""}})
	require.NoError(t, err)
	assert.Contains(t, string(edited), "1/77")
}

// What nobody sees is refused, with its place.
func TestUnseenCharacters(t *testing.T) {
	for _, c := range []rune{0x3164, 0x115f, 0xffa0, 0x2800, 0xfe0f, 0x034f, 0xe0100} {
		_, err := Load("x.yaml", []byte(named("let"+string(c)+"ter")))
		require.Error(t, err)
		assert.Regexp(t, `^x\.yaml:\d+:\d+: name holds the character U\+[0-9A-F]+, which nobody sees`, err.Error())
	}
	for _, c := range []rune{0x200b, 0x202e, 0x2066, 0xad} { // those that are not to be printed at all
		_, err := Load("x.yaml", []byte(named("let"+string(c)+"ter")))
		require.ErrorContains(t, err, "is not printable")
	}
}

// A file is called in messages what a terminal can show.
func TestFileNamesInMessages(t *testing.T) {
	_, err := Load("a\x1b[2Jb.yaml", nil)
	require.ErrorContains(t, err, `"a\x1b[2Jb.yaml":1:1: the file is empty`)
}

// What is not 0 does not pass as 0, and no number is so small that another becomes infinite.
func TestNumbersTooSmall(t *testing.T) {
	for _, c := range [][3]string{
		{"rated: 9000/h", "rated: 1e-320/h", "too small a number"},
		{"rated: 9000/h", "rated: 0.5/h", "want at least 1/h"},
		{"misfeed: 1/500", "misfeed: 1e-400", "too small a number"},
		{"misfeed: 1/500", "misfeed: 1e-320", "too small a number"},
		{"shift: 4 h", "shift: 1e-400 h", "too small a number"},
	} {
		require.Contains(t, small, c[0])
		_, err := Load("x.yaml", []byte(strings.Replace(small, c[0], c[1], 1)))
		require.ErrorContains(t, err, c[2], c[1])
	}
	_, err := Load("x.yaml", []byte(strings.Replace(small, "misfeed: 1/500", "misfeed: 0.0e-400", 1)))
	require.NoError(t, err, "0 is 0")
}

// A sum that is too large is printed with as many digits as show it.
func TestSumsAboveOne(t *testing.T) {
	text := strings.Replace(small, "misfeed: 1/500", "misfeed: 0.9982223", 1) // 1/900 + 1/1500 = 0.0017778
	_, err := Load("x.yaml", []byte(text))
	require.ErrorContains(t, err, "come to 1.0000001, want at most 1")
}

// small is a line of two inserts.
const small = `name: Small
line:
  restart: 4 s
  stations:
    - {kind: feeder, name: letter, at: 0, rated: 9000/h, hopper: {pieces: 400, warn: 100, refill: 20 s}, misfeed: 1/500, double: 1/900, jam: 1/1500, caught: 90%, clear: 60 s}
    - {kind: inserter, name: inserter, at: 5, rated: 9000/h, hopper: {pieces: 500, warn: 100, refill: 25 s}, envelope_misfeed: 1/1000, flap: 1/800, jam: 1/1200, clear: 50 s}
    - {kind: delivery, name: belt, at: 8, belt: {envelopes: 500, warn: 150, sweep: 30 s}}
policy: {misfeed: stop}
crew: {operators: 1, walk: 10 s}
work: {shift: 4 h}
`
