package plots

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// misfedLetter is what becomes of sets 4 and 5 when the letter of set 4 is misfed and
// the next set takes two. The line is invented.
func misfedLetter() RecoveryData {
	return RecoveryData{
		Head:     Head{Title: "One misfed letter costs two sets", Subtitle: "An invented line, cycle by cycle"},
		Stations: []string{"letters", "track gate"},
		Cycles: []Cycle{
			{"cycle 4", []Pocket{{"set 4", "letter missing", Faulty}, {"set 3", "", Normal}}, "letters misfed: set 4 lacks its letter"},
			{"cycle 5", []Pocket{{"set 5", "letters 4 and 5", CatchUp}, {"set 4", "", Gone}}, ""},
			{"cycle 6", []Pocket{{"set 6", "letter 6", Normal}, {"set 5", "", Gone}}, "set 6 is right again"},
			{"cycle 7", []Pocket{{}, {"", "", Empty}}, ""},
		},
	}
}

// Cycles go down, stations go right, and a line leads from each set to its next place.
func TestRecoveryGrid(t *testing.T) {
	f := made(t)(Recovery(misfedLetter()))
	fault := tipped(f, "cycle 4, letters: faulty, set 4, letter missing")[0]
	gone := tipped(f, "cycle 5, track gate: leaves the track, set 4")[0]
	catch := tipped(f, "cycle 5, letters: catch-up set, set 5")[0]
	assert.InDelta(t, fault.left, catch.left, 1e-9)
	assert.InDelta(t, catch.top, gone.top, 1e-9)
	assert.Greater(t, catch.top, fault.bottom)
	assert.Greater(t, gone.left, catch.right)
	assert.Len(t, tipped(f, "cycle 7"), 1, "a zero pocket is not drawn")

	var trails [][]point
	for _, m := range f.marks {
		if s, ok := m.(stroke); ok && s.pen.colour == muted && s.pen.width == 0.8 {
			trails = append(trails, s.points)
		}
	}
	middle := func(b box) float64 { return (b.left + b.right) / 2 }
	assert.Len(t, trails, 2, "of sets 4 and 5")
	assert.Equal(t, []point{{middle(fault), fault.bottom}, {middle(gone), gone.top}}, trails[0])
}

// Where the columns are narrow, notes stand below their rows.
func TestRecoveryNotes(t *testing.T) {
	for _, c := range []struct {
		stations int
		beside   bool
	}{{2, true}, {5, true}, {6, false}, {mostStations, false}} {
		t.Run(fmt.Sprint(c.stations, " stations"), func(t *testing.T) {
			d := recoveryOf(head, c.stations, func(int) string { return "words" })
			d.Cycles[0].Note = "letters misfed: set 4 lacks its letter, and two sets are lost"
			f := made(t)(Recovery(d))
			pocket := tipped(f, "cycle 1, ")[0]
			var note label
			for _, m := range f.marks {
				if l, ok := m.(label); ok && len(l.text) > 7 && l.text[:7] == "letters" {
					note = l
				}
			}
			require.NotEmpty(t, note.text)
			assert.Equal(t, c.beside, note.at.x > pocket.right && note.box().top < pocket.bottom)
			assert.Equal(t, !c.beside, note.box().top > pocket.bottom)
		})
	}
}

// Those who do not see the drawing are told its notes.
func TestRecoveryIsTold(t *testing.T) {
	svg, err := made(t)(Recovery(misfedLetter())).SVG()
	require.NoError(t, err)
	assert.Contains(t, string(svg), `aria-label="One misfed letter costs two sets. An invented line, cycle by cycle. `+
		`cycle 4: letters misfed: set 4 lacks its letter. cycle 6: set 6 is right again"`)
}

// Of what nothing is said, the condition is.
func TestPocketWording(t *testing.T) {
	for _, c := range []struct {
		name   string
		pocket Pocket
		want   wording
	}{
		{"set and text", Pocket{"set 4", "letter missing", Faulty}, wording{true, []string{"set 4", "letter missing"}}},
		{"set alone", Pocket{"set 4", "", Gone}, wording{true, []string{"set 4"}}},
		{"text alone", Pocket{"", "letter missing", Faulty}, wording{false, []string{"letter missing"}}},
		{"condition alone", Pocket{"", "", Empty}, wording{false, []string{"empty pocket"}}},
		{"nothing", Pocket{}, wording{}},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, c.pocket.wording(textFace, 90, 4)) })
	}
}

// Conditions differ in their signs, not in their colours alone, and what is written
// on them can be read.
func TestConditionsAreToldApart(t *testing.T) {
	signs := map[string]bool{}
	for k, look := range conditionLooks {
		signs[fmt.Sprint(look.sign)] = true
		assert.NotEmpty(t, look.name)
		assert.GreaterOrEqual(t, contrast(ink, look.fill), 7.0, look.name)
		for _, m := range Condition(k).draw(box{0, 0, 24, 11}, "") {
			b := m.box()
			assert.True(t, b.inside(box{-1, -1, 25, 12}), "%s: %+v", look.name, b)
		}
	}
	assert.Len(t, signs, int(conditions))
}
