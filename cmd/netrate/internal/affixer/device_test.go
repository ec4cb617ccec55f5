package affixer

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/drawing"
	"netrate/cmd/netrate/internal/learn"
	"netrate/cmd/netrate/internal/lines"
	"netrate/cmd/netrate/internal/sweeps"
	"netrate/cmd/netrate/internal/tracing"
	"netrate/cmd/netrate/internal/weeks"
	"netrate/cmd/netrate/internal/willrun"
)

const cards = "testdata/cards.yaml"

// Every verb is right about a device, on a line that has slow cycles of all kinds too.
func TestVerbsKnowDevices(t *testing.T) {
	for name, c := range map[string]struct {
		verb desk.Verb
		args []string
		want []string
	}{
		"run":         {lines.RunVerb(), nil, []string{`incidents a year .*cards, misfeed`, `of it, for slow cycles`}},
		"costs":       {lines.CompareVerb(), nil, []string{`Money, EUR`, `cards are put on by hand +4,\d+ ±`, `starting slowly`, `slowed down by the crew`}},
		"sweep":       {sweeps.SweepVerb(), []string{"--vary", "stations.cards.misfeed=1/800,1/20", "--reps", "10"}, []string{`1/20 `}},
		"sensitivity": {sweeps.SensitivityVerb(), []string{"--all", "--reps", "10"}, []string{`cards, refilling time +90 s`, `cards, clearing time, jam +50 s`, `cards, jams +1/6000`, `all 5 refilling and emptying times`}},
		"strategy":    {lines.StrategyVerb(), []string{"--reps", "20"}, []string{`its defective envelopes come from cards, misfeed unnoticed 2\d`}},
		"rules":       {willrun.CheckVerb(), []string{"--rules"}, []string{`set by: cards`, `device cards +misfeed +possible +no \d +CHOSEN +possible jam +always +no \d +no \d +no \d`}},
		"trace":       {tracing.TraceVerb(), nil, []string{`cards +jam +15 +68 +1`}},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.Join(strings.Fields(said(t, c.verb, append([]string{cards}, c.args...)...)), " ")
			for _, want := range c.want {
				assert.Regexp(t, want, text)
			}
		})
	}
}

// The drawing and the film show the device by its name.
func TestDevicesAreDrawn(t *testing.T) {
	written := func(verb desk.Verb) []byte {
		out := filepath.Join(t.TempDir(), "out")
		said(t, verb, cards, "--out", out)
		text, err := os.ReadFile(out)
		require.NoError(t, err)
		return text
	}
	assert.Regexp(t, `>cards</`, string(written(drawing.DrawVerb())))
	packed := regexp.MustCompile(`data-film>([^<]+)<`).FindSubmatch(written(tracing.FilmVerb()))
	require.Len(t, packed, 2)
	film, err := gzip.NewReader(base64.NewDecoder(base64.StdEncoding, bytes.NewReader(packed[1])))
	require.NoError(t, err)
	data, err := io.ReadAll(film)
	require.NoError(t, err)
	assert.Contains(t, string(data), `"cards"`)
}

// A season passes the device in every job.
func TestSeasonsHaveDevices(t *testing.T) {
	text, err := os.ReadFile(cards)
	require.NoError(t, err)
	before, after, found := strings.Cut(string(text), "costs:\n")
	require.True(t, found)
	_, after, found = strings.Cut(after, "run:")
	require.True(t, found)
	own := filepath.Join(t.TempDir(), "season.yaml")
	season := strings.Replace(before, "work: {shift: 8 h}\n", "", 1) + "run:" + after +
		"jobs: [{name: letters, envelope: C5, inserts: [{name: letter, size: A4, fold: half, paper: 80 g/m2}]}]\n" +
		"calendar: {days: 5, shifts: [{start: \"06:00\", length: 8 h}]}\n" +
		"season: {weeks: [{name: one, sets: {letters: 50000}}]}\n"
	require.NoError(t, os.WriteFile(own, []byte(season), 0o600))
	assert.Contains(t, said(t, weeks.SeasonVerb(), own, "--reps", "4"), "letters")
}

// What a log says of the device is written into its scenario.
func TestFitLearnsDevices(t *testing.T) {
	log, counts := logged(t)
	for _, name := range []string{log, counts} {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(name, []byte(strings.NewReplacer("stamps", "cards", "roll empty", "stock used up").Replace(string(text))), 0o600))
	}
	own := filepath.Join(t.TempDir(), "fitted.yaml")
	said(t, learn.FitVerb(), log, "--counts", counts, "--into", cards, "--out", own, "--draws", "0")
	text, err := os.ReadFile(own)
	require.NoError(t, err)
	assert.Contains(t, string(text), "misfeed: {seen: 12, of: 9000}")
	assert.Contains(t, string(text), "jam: {seen: 4, of: 9000}")
}
