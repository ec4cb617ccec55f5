package plots

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func monday() WeekData {
	return WeekData{
		Head: head, Axis: "hours", Length: 10,
		Lanes: []Roster{{"Monday", "8,000 sets", []float64{8}, []Stint{
			{0, 1, ChangingOver, "bank letter", false},
			{1, 4, Producing, "bank letter", false},
			{4, 4.01, Remaking, "bank letter", false},
			{4.5, 4.6, Producing, "magazine", false},
			{5, 6, Pausing, "magazine", false},
			{6, 10, Producing, "payslips", true},
		}}},
	}
}

// Bars stand in the proportion of their hours, and the shift's end at its own.
func TestWeekBars(t *testing.T) {
	f := made(t)(Week(monday()))
	bank, over := tipped(f, "Monday: running, bank letter")[0], tipped(f, "Monday: running, payslips, overtime")[0]
	assert.InDelta(t, 4.0/3, over.width()/bank.width(), 1e-9)
	hour := bank.width() / 3
	assert.InDelta(t, 5*hour, over.left-bank.left, 1e-9)
	assert.InDelta(t, narrowest, tipped(f, "Monday: remakes")[0].width(), 1e-9, "short, but seen")
	var ends, overlines []box
	for _, m := range f.marks {
		if s, ok := m.(stroke); ok && s.pen.colour == ink && s.pen.dashes == nil {
			switch s.pen.width {
			case 1.4:
				ends = append(ends, around(s.points, 0))
			case 2:
				overlines = append(overlines, around(s.points, 0))
			}
		}
	}
	require.Len(t, ends, 2, "one in the legend")
	assert.InDelta(t, bank.left+7*hour, ends[1].left, 1e-9)
	require.Len(t, overlines, 2, "one in the legend")
	assert.InDelta(t, over.width(), overlines[1].width(), 1e-9)
	assert.Less(t, overlines[1].bottom, over.top)
}

// Each job has a letter in its bar, with its name where that has room, and below it where
// not even the letter has; all are listed once. Breaks are not named, and of bars of one
// job side by side only the widest is.
func TestWeekNames(t *testing.T) {
	d := monday()
	f := made(t)(Week(d))
	magazine, b := tipped(f, "Monday: running, magazine")[0], labelled(t, f, "b").box()
	assert.Greater(t, b.top, magazine.bottom)
	assert.InDelta(t, (magazine.left+magazine.right)/2, (b.left+b.right)/2, 1e-9)
	n := map[string]int{}
	for _, s := range texts(f) {
		n[s]++
	}
	for said, times := range map[string]int{
		"a  bank letter": 1, "a": 2, "bank letter": 1, // the changeover, and the list
		"b": 2, "magazine": 1, "c  payslips": 1, "c": 1, "payslips": 1, "d": 0, "end of a shift": 1, "overtime": 1, "idle": 0,
	} {
		assert.Equal(t, times, n[said], said)
	}
	pay, over := labelled(t, f, "c  payslips").box(), tipped(f, "Monday: running, payslips")[0]
	assert.True(t, pay.right < (over.left+over.right)/2 || pay.left > (over.left+over.right)/2, "off the shift's end, half way")
}

// Every bar in which a letter has room has one, also those beside the widest of their job.
func TestEveryWideBarIsLettered(t *testing.T) {
	for _, n := range []int{1, 3, 7} {
		d := weekOf(head, n, plainName)
		j := d.jobs()
		a := axis{scale: scale{0, d.Length, 0, 300}}
		for _, l := range d.Lanes {
			lettered := map[int]bool{}
			for _, s := range l.signs(a, j) {
				lettered[s.stint] = true
			}
			for i, s := range l.Stints {
				if from, to := l.clear(s, a); s.named() != "" && to-from >= smallFace.width(letter(j.index(s.Job)))+4 {
					assert.True(t, lettered[i], "%d jobs, stint %d", n, i)
				}
			}
		}
	}
}

// Twenty-five jobs differ in tint or pattern, neighbours in both; a letter can be read on
// each, and their bars stay within their place.
func TestJobsAreToldApart(t *testing.T) {
	var j jobs
	place, seen := box{10, 20, 72, 35}, map[string]int{}
	pattern := func(i int) string { // without its colours
		var w svgWriter
		for _, m := range j.draw(i, place, "") {
			if s, ok := m.(stroke); ok {
				s.pen.colour = ink
				s.svg(&w)
			}
			inside := m.box()
			assert.GreaterOrEqual(t, inside.top, place.top-1, "job %d", i)
			assert.LessOrEqual(t, inside.bottom, place.bottom+1, "job %d", i)
			assert.LessOrEqual(t, inside.right, place.right+1, "job %d", i)
		}
		return w.String()
	}
	for i := range 25 {
		ground, lines := tintOf(i)
		assert.GreaterOrEqual(t, contrast(textOn(ground), ground), 7.0, "job %d", i)
		assert.GreaterOrEqual(t, lightness(ground)-lightness(lines), 12.0, "the pattern of job %d", i)
		before, _ := tintOf(i + 1)
		assert.NotEqual(t, ground, before)
		assert.NotEqual(t, pattern(i), pattern(i+1))
		look := coloured("fill", ground) + pattern(i)
		assert.Zero(t, seen[look], "job %d looks like one before it", i)
		seen[look]++
	}
	ground, _ := tintOf(25)
	assert.Equal(t, 1, seen[coloured("fill", ground)+pattern(25)], "the looks come again")
}

// Letters below the bars stand clear of each other and within the lane, in their order.
func TestLettersApart(t *testing.T) {
	var crowd []sign
	for i := range 20 {
		crowd = append(crowd, sign{stint: i, says: letter(i), below: true, at: 95 + float64(i)/10})
	}
	signs := apart(crowd, 0, 100+smallFace.width("t")/2)
	assert.Less(t, len(signs), 20, "some have no room")
	assert.Greater(t, len(signs), 10)
	last := 0.0
	for _, s := range signs {
		half := smallFace.width(s.says) / 2
		assert.GreaterOrEqual(t, s.at-half, last-1e-9, s.says)
		last = s.at + half
	}
	assert.LessOrEqual(t, last, 100+smallFace.width("t")/2+1e-9)
	assert.Equal(t, []sign{{at: 50, says: "a", below: true}}, apart([]sign{{at: 50, says: "a", below: true}}, 0, 100), "alone")
}

func TestWeekIsTold(t *testing.T) {
	svg, err := made(t)(Week(monday())).SVG()
	require.NoError(t, err)
	assert.Contains(t, string(svg), "Monday: bank letter, magazine, payslips; 8,000 sets")
}

// Activities are told apart in grey print or by their height, and names on them can be
// read.
func TestActivitiesAreToldApart(t *testing.T) {
	for i, a := range activityLooks {
		if Activity(i).bearsJob() {
			assert.GreaterOrEqual(t, contrast(textOn(a.fill), a.fill), 3.4, a.name)
		}
		for _, b := range activityLooks[:i] {
			outlined := (a.fill.A == 0) != (b.fill.A == 0)
			assert.True(t, outlined || math.Abs(lightness(a.fill)-lightness(b.fill)) >= 9, "%s and %s", a.name, b.name)
		}
	}
}

// The clear part of a bar is the widest between the ends of shifts; of bars of one job,
// one after the other, the one with the widest clear part is named.
func TestWhereJobsAreNamed(t *testing.T) {
	a := axis{scale: scale{0, 10, 0, 100}}
	l := Roster{Ends: []float64{6, 3}, Stints: []Stint{
		{0, 1, ChangingOver, "x", false},
		{1, 7, Producing, "x", false},
		{7, 8, Remaking, "x", false},
		{8, 9, Pausing, "x", false},
		{9, 10, Producing, "x", true},
	}}
	from, to := l.clear(l.Stints[1], a)
	assert.InDeltaSlice(t, []float64{30, 60}, []float64{from, to}, 1e-9, "neither from 10 to 30 nor from 60 to 70")
	widest, next := l.run(0, a)
	assert.Equal(t, []int{1, 3}, []int{widest, next})
	var named []int
	a.to *= 3 // room for names
	for _, s := range l.signs(a, WeekData{Lanes: []Roster{l}}.jobs()) {
		if s.says == "a  x" {
			named = append(named, s.stint)
		}
	}
	assert.Equal(t, []int{1, 4}, named, "once before the break and once after it")
}

// What stands beside a chart can have the letters of the jobs, and then the chart need not list them.
func TestWeekLetters(t *testing.T) {
	d := monday()
	listed := made(t)(Week(d))
	d.NoList = true
	f := made(t)(Week(d))
	assert.Equal(t, []string{"a", "b", "c", ""}, []string{d.Letter("bank letter"), d.Letter("magazine"), d.Letter("payslips"), d.Letter("none")})
	labelled(t, f, "b")
	assert.Contains(t, texts(listed), "magazine")
	assert.NotContains(t, texts(f), "magazine")
	assert.Less(t, f.height, listed.height)
}
