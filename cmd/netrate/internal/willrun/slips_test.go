package willrun

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/scenarios"
)

// What is possible and surely a slip is a note; nothing in the examples is one.
func TestSlipNotes(t *testing.T) {
	text, err := os.ReadFile("../../testdata/small.yaml")
	require.NoError(t, err)
	for name, c := range map[string]struct{ old, slip, want string }{
		"a rate":        {"misfeed: 1/500", "misfeed: 1/5", "note: stations.letter.misfeed is 20 %, one in 5: is that meant?"},
		"clearing":      {"clear: 40 s", "clear: 40 min", "note: stations.card.clear takes 40 min on average"},
		"walking":       {"walk: 10 s", "walk: 31 min", "note: crew.walk takes 31 min on average"},
		"a short shift": {"shift: 4 h", "shift: 4 min", "note: the shift is 4 min long"},
		"a hopper that is never filled in time": {
			"hopper: {pieces: 400, warn: 100,", "hopper: {pieces: 400, warn: 10,",
			"note: stations.letter calls an operator when 10 are left, but 75 are used in the",
		},
		// 0.9 over the sum of its odds; 0.02 × (60/2.18 − 21.54) = 0.120.
		"lots as bad as an attempt cannot be": {
			"misfeed: 1/500", "lots: {of: 1000, bad: 2%, times: 60}\n      misfeed: 4%",
			"note: stations.letter: in its worst lots, or on the worst days, it would fail more often than an attempt can. That is cut off at 21.54 times its rates, so that it has 12.0 % fewer faults",
		},
		"the speed": {"restart: 4 s", "restart: 4 s\n  speed: 90000/h", "note: 90,000 an hour are asked for, and no station is rated for more than 10,000"},
	} {
		t.Run(name, func(t *testing.T) {
			require.Contains(t, string(text), c.old)
			sc, err := scenarios.Load("x.yaml", []byte(strings.Replace(string(text), c.old, c.slip, 1)))
			require.NoError(t, err)
			assert.Contains(t, strings.Join(strings.Fields(slips(sc)), " "), c.want)
			assert.Equal(t, 1, strings.Count(slips(sc), "note: "))
		})
	}
	x, err := scenarios.ExampleNamed("divert-or-stop")
	require.NoError(t, err)
	base, _, _ := strings.Cut(string(x.Data), "\nvariants:")
	silent := regexp.MustCompile("(?m)^policy: .*$").ReplaceAllString(base, "")
	require.NotEqual(t, base, silent)
	sc, err := scenarios.Load("x.yaml", []byte(silent))
	require.NoError(t, err)
	assert.Equal(t, "note: the file states no policy, so every fault stops the line, and track gate and exit gate take nothing out. See netrate help responses.",
		strings.Join(strings.Fields(slips(sc)), " "))
	x, err = scenarios.ExampleNamed("small-shop") // a station of it is to stop, which is no use of a gate
	require.NoError(t, err)
	silent = regexp.MustCompile("(?m)^policy: .*$").ReplaceAllString(string(x.Data), "")
	require.Contains(t, silent, "policy: {misfeed: stop}")
	sc, err = scenarios.Load("x.yaml", []byte(silent))
	require.NoError(t, err)
	assert.Contains(t, strings.Join(strings.Fields(slips(sc)), " "), "so every fault stops the line, and exit tray takes nothing out.")
	for _, x := range scenarios.Examples() {
		sc, err := scenarios.Load(x.Name, x.Data)
		require.NoError(t, err)
		assert.Empty(t, slips(sc), x.Name)
	}
}
