package scenarios

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rowText is a file of which the row of stations is edited.
const rowText = `name: Rows # ½
line:
  restart: 4 s
  stations:
    # the first
    - {kind: feeder, name: letter, at: 0, preset: rotary, hopper: {pieces: 900, warn: 10%, refill: 9 s}}  # own
    - kind: feeder   # in a block
      name: card
      at: 2          # pitches
      preset: rotary
      hopper: {pieces: 900, warn: 10%, refill: 9 s}

    # the last feeder
    - {kind: feeder, name: slip, at: 4, preset: rotary, hopper: {pieces: 900, warn: 10%, refill: 9 s}}
    - {kind: inserter, name: inserter, at: 6, rated: 9000/h, hopper: {pieces: 1000, warn: 10%, refill: 5 s}, envelope_misfeed: 1/900, flap: 1/700, jam: 1/800, clear: 9 s}
    - {kind: delivery, name: delivery, at: 8, belt: {envelopes: 100, warn: 10, sweep: 30 s}}
crew: {operators: 1, walk: 12 s}
work: {shift: 8 h}
`

func TestEditedRow(t *testing.T) {
	const card = "    - kind: feeder   # in a block\n      name: card\n      at: 2          # pitches\n      preset: rotary\n      hopper: {pieces: 900, warn: 10%, refill: 9 s}\n"
	const slip = "    - {kind: feeder, name: slip, at: 4, preset: rotary, hopper: {pieces: 900, warn: 10%, refill: 9 s}}\n"
	const keys = "kind: feeder, preset: friction, hopper: {pieces: 90, warn: 10%, refill: 9 s}"
	added := func(name string, at int) string {
		return fmt.Sprintf("    - {%s, name: %s, at: %d}\n", keys, name, at)
	}
	for _, c := range []struct {
		name string
		edit RowEdit
		old  []string // and what is there instead, in pairs
	}{
		{
			"added at the end of the feeders, all behind it pushed on",
			RowEdit{Add: &RowStation{keys, "flyer", "slip"}},
			[]string{slip, slip + added("flyer", 6), "name: inserter, at: 6", "name: inserter, at: 8", "name: delivery, at: 8", "name: delivery, at: 10"},
		},
		{
			"added behind a block, under its last line",
			RowEdit{Add: &RowStation{keys, "a: b, c", "card"}},
			[]string{card, card + added("'a: b, c'", 4), "slip, at: 4", "slip, at: 6", "name: inserter, at: 6", "name: inserter, at: 8", "name: delivery, at: 8", "name: delivery, at: 10"},
		},
		{
			"added first",
			RowEdit{Add: &RowStation{keys, "flyer", ""}},
			[]string{
				"    - {kind: feeder, name: letter, at: 0", added("flyer", 0) + "    - {kind: feeder, name: letter, at: 2", "at: 2          #", "at: 4          #",
				"slip, at: 4", "slip, at: 6", "name: inserter, at: 6", "name: inserter, at: 8", "name: delivery, at: 8", "name: delivery, at: 10",
			},
		},
		{"taken out", RowEdit{Remove: "slip"}, []string{slip, ""}},
		{"a block taken out", RowEdit{Remove: "card"}, []string{card, ""}},
		{"moved", RowEdit{Move: &RowPlace{"slip", 5}}, []string{"slip, at: 4", "slip, at: 5"}},
		{"moved past one", RowEdit{Move: &RowPlace{"slip", 1}}, []string{slip, "", card, strings.Replace(slip, "at: 4", "at: 1", 1) + card}},
		{"a block moved past one", RowEdit{Move: &RowPlace{"card", 5}}, []string{card, "", slip, slip + strings.Replace(card, "at: 2", "at: 5", 1)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			after := rowText
			for i := 0; i < len(c.old); i += 2 {
				require.Equal(t, 1, strings.Count(after, c.old[i]), c.old[i])
				after = strings.Replace(after, c.old[i], c.old[i+1], 1)
			}
			for _, ending := range []string{"\n", "\r\n"} {
				in := strings.NewReplacer("\n", ending)
				got, err := EditedRow("x.yaml", []byte("\ufeff"+in.Replace(rowText)), c.edit)
				require.NoError(t, err)
				assert.Equal(t, "\ufeff"+in.Replace(after), string(got))
			}
		})
	}
	for want, e := range map[string]RowEdit{
		"no station is named":      {Remove: "slipp"},
		"did you mean":             {Move: &RowPlace{"slipp", 3}},
		"want more than 2":         {Move: &RowPlace{"slip", 2}},
		"want a whole number":      {Move: &RowPlace{"slip", -1}},
		"two stations are named":   {Add: &RowStation{keys, "slip", "slip"}},
		"is no station":            {Add: &RowStation{keys + "}\n- {", "x", "slip"}},
		"there is one line":        {Line: "A", Remove: "slip"},
		"the last station is slip": {Remove: "nothing"},
	} {
		_, err := EditedRow("x.yaml", []byte(rowText), e)
		if want == "the last station is slip" {
			require.Error(t, err)
			continue
		}
		require.ErrorContains(t, err, want)
	}
}

func TestEditedWithout(t *testing.T) {
	for _, c := range []struct{ name, path, old, now string }{
		{"in a block", "stations.card.hopper.warn", "warn: 10%, refill: 9 s}\n\n", ""}, // needed: refused below
		{"a line of a mapping", "stations.x", "", ""},
	} {
		_, err := EditedWithout("x.yaml", []byte(rowText), c.path)
		require.Error(t, err, c.name)
	}
	text := strings.Replace(rowText, "      preset: rotary\n", "      preset: rotary\n      streak: {again: 20%, stop_after: 3}  # seen\n      misfeed: 1/900\n", 1)
	for _, c := range []struct{ path, old, now string }{
		{"stations.card.misfeed", "      misfeed: 1/900\n", ""},
		{"stations.card.streak.again", "again: 20%, ", ""},
		{"stations.card.streak.stop_after", ", stop_after: 3", ""},
		{"stations.card.streak", "      streak: {again: 20%, stop_after: 3}  # seen\n", ""},
	} {
		got, err := EditedWithout("x.yaml", []byte(text), c.path)
		require.NoError(t, err, c.path)
		assert.Equal(t, strings.Replace(text, c.old, c.now, 1), string(got), c.path)
	}
	one, err := EditedWithout("x.yaml", []byte(strings.Replace(text, "again: 20%, ", "", 1)), "stations.card.streak.stop_after")
	require.NoError(t, err)
	assert.NotContains(t, string(one), "streak", "a mapping of which nothing is left goes too")
	x, err := ExampleNamed("seventh-feeder")
	require.NoError(t, err)
	plain, err := EditedWithout("x.yaml", x.Data, "variants")
	require.NoError(t, err)
	assert.Equal(t, string(x.Data)[:len(plain)], string(plain), "what stands before them is as it was")
	assert.NotContains(t, string(plain), "voucher")
	_, err = EditedWithout("x.yaml", []byte(text), "stations.card.jam")
	require.ErrorContains(t, err, "it is not given")
}
