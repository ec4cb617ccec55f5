package plots

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// crewed is the Monday of week_test with three people.
func crewed() WeekData {
	d := monday()
	d.People = []Attendance{
		{Name: "operator 1", Note: "10 h", Breaks: []float64{5}, Shifts: []Attended{{From: 0, To: 8}, {From: 8, To: 10, Presence: Chosen, By: "late", Extra: true}}},
		{Name: "operator 2", Shifts: []Attended{{From: 0, To: 8, Presence: Absent, By: "one is sick"}}},
		{Name: "operator 3", Shifts: []Attended{{From: 4, To: 8, Presence: BeyondCrew, By: "fair"}}},
	}
	return d
}

// The bars of people stand by the axis of the lines, below them; a break and an extra shift are marked, and
// why somebody is absent stands on the bar.
func TestPeopleByTheAxisOfLines(t *testing.T) {
	f := made(t)(Week(crewed()))
	bank := tipped(f, "Monday: running, bank letter")[0]
	hour := bank.width() / 3
	crew, absent := tipped(f, "operator 1: there, of the crew")[0], tipped(f, "operator 2: absent (one is sick)")[0]
	assert.InDelta(t, 8*hour, crew.width(), 1e-9)
	assert.InDelta(t, bank.left-hour, crew.left, 1e-9)
	assert.Greater(t, crew.top, bank.bottom)
	assert.Greater(t, absent.top, crew.bottom)
	sick := labelled(t, f, "one is sick").box()
	assert.InDelta(t, (absent.left+absent.right)/2, (sick.left+sick.right)/2, 1e-9)
	late := tipped(f, "operator 1: there, optional and chosen (late), extra shift")[0]
	over, rests := 0, 0
	for _, m := range f.marks {
		s, is := m.(stroke)
		switch {
		case is && s.pen.width == 2 && s.pen.colour == ink && math.Abs(s.points[0].x-late.left) < 1e-9 && s.points[0].y > bank.bottom:
			over++
		case is && s.pen.width == 2.2 && math.Abs(s.points[0].x-(crew.left+5*hour)) < 1e-9:
			rests++
		}
	}
	assert.Equal(t, [2]int{1, 1}, [2]int{over, rests})
	n := map[string]int{}
	for _, s := range texts(f) {
		n[s]++
	}
	for _, look := range presenceLooks {
		assert.Equal(t, 1, n[look.name], look.name)
	}
	for _, said := range []string{"extra shift", "break, no time on the axis", "10 h"} {
		assert.Equal(t, 1, n[said], said)
	}
	assert.Contains(t, strings.Join(f.told, ". "), "operator 2: absent in 1 of 1 shifts, one is sick")
	assert.NotContains(t, texts(made(t)(Week(monday()))), "absent", "without people there is no legend of them")
}

// A break that one has while the others work on is a gap of its length in the bar, with a lower edge and a legend.
func TestOwnBreakIsAGap(t *testing.T) {
	d := crewed()
	assert.NotContains(t, texts(made(t)(Week(d))), "break, the others work on")
	d.People[0].Own = []Span{{From: 2, To: 3}}
	f := made(t)(Week(d))
	crew, gap := tipped(f, "operator 1: there, of the crew")[0], tipped(f, "operator 1: break, the others work on")
	require.Len(t, gap, 1)
	hour := crew.width() / 8
	assert.InDelta(t, crew.left+2*hour, gap[0].left, 1e-9)
	assert.InDelta(t, hour, gap[0].width(), 1e-9)
	assert.Contains(t, texts(f), "break, the others work on")
	assert.Contains(t, strings.Join(f.told, ". "), "operator 1: there, of the crew in 1 of 2 shifts; there, optional and chosen in 1 of 2 shifts, late; one break while the others work on; 10 h")
	d.People[0].Own[0].To = 11
	_, err := Week(d)
	assert.ErrorContains(t, err, "operator 1: a break from 2 to 11, in a lane of 10")
}

// No two presences have one pattern, whatever their colours: what is drawn without colour differs, and a
// hollow bar is hollow.
func TestPresencesAreToldApartInGrey(t *testing.T) {
	seen := map[string]Presence{}
	for p := range presences {
		marks := p.draw(box{0, 0, 40, presenceHigh}, "")
		var w svgWriter
		for _, m := range marks[1:] {
			s := m.(stroke)
			s.pen.colour = ink
			s.svg(&w)
		}
		before, twice := seen[w.String()]
		assert.False(t, twice, "%s looks like %s", presenceLooks[p].name, presenceLooks[before].name)
		seen[w.String()] = p
		assert.Equal(t, p == Absent, marks[0].(area).fill == paper, presenceLooks[p].name)
		if len(marks) > 1 {
			assert.GreaterOrEqual(t, lightness(marks[0].(area).fill)-lightness(night), 40.0, presenceLooks[p].name)
		}
	}
}

// On a narrow page the lanes are there too, with letters of 11 pixels and within the drawing.
func TestNarrowPeople(t *testing.T) {
	f := made(t)(Week(crewed()))
	require.NotNil(t, f.slim)
	for _, m := range f.slim.marks {
		if l, ok := m.(label); ok {
			assert.GreaterOrEqual(t, l.face.size*(360-40)/(f.slim.width-margin), 11.0, l.text)
			assert.LessOrEqual(t, l.box().right, f.slim.width, l.text)
		}
	}
	assert.Contains(t, texts(f.slim), "operator 3")
	assert.Contains(t, texts(f.slim), "10 h")
}

// Shifts too narrow to be told apart are drawn as one where they are alike, without breaks; nobody has to find out
// what is between them.
func TestNarrowShiftsAreJoined(t *testing.T) {
	for _, c := range []struct{ shifts, bars, rests int }{{10, 10, 1}, {30, 30, 0}, {60, 3, 0}} {
		d := monday()
		a := Attendance{Name: "operator 1", Breaks: []float64{1}}
		for i := range c.shifts {
			s := Attended{From: 10 * float64(i) / float64(c.shifts), To: 10 * float64(i+1) / float64(c.shifts)}
			if i == c.shifts/2 {
				s.Presence = Absent
			}
			a.Shifts = append(a.Shifts, s)
		}
		d.People = []Attendance{a}
		f := made(t)(Week(d))
		assert.Len(t, tipped(f, "operator 1: "), c.bars, "%d shifts", c.shifts)
		assert.Equal(t, c.rests, strings.Count(strings.Join(texts(f), "\n"), "break, no time on the axis"), "%d shifts", c.shifts)
	}
}
