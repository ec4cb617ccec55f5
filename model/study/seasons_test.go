package study

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/scenarios"
	"netrate/sim"
)

// ofSeasons returns a configuration and what it came to: seasons of two weeks that are in time or
// not, as said.
func ofSeasons(name string, operators, late, all int, hours float64) (SeasonsConfiguration, *seasons.SeasonStudy) {
	study := &seasons.SeasonStudy{Done: all, Hours: hours, Weeks: make([]seasons.SeasonWeek, 2)}
	for r := range all {
		left := 0.0
		if r < late {
			left = 100
		}
		for i, backlog := range []float64{0, left} {
			w := &study.Weeks[i]
			w.Backlog, w.Work, w.Overtime = append(w.Backlog, backlog), append(w.Work, 30), append(w.Overtime, 0)
		}
	}
	season := &seasons.Season{
		Line:     &model.Line{Crew: model.Crew{Operators: operators}},
		Calendar: &seasons.Calendar{Days: 5, Shifts: []seasons.ShiftTime{{Length: 8 * 3600}}},
		Weeks:    make([]seasons.Week, 2),
	}
	study.Season = season
	return SeasonsConfiguration{Name: name, Season: season}, study
}

func TestSeasonsService(t *testing.T) {
	type of struct {
		name            string
		operators, late int
		hours           float64
	}
	for name, c := range map[string]struct {
		lines                     []of
		smallest, cheapest, other int
		open                      []int
	}{
		"fewest operators":          {[]of{{"base", 1, 300, 40}, {"three", 3, 0, 40}, {"two", 2, 2, 40}}, 2, 2, 2, nil},
		"first in order of equals":  {[]of{{"base", 1, 300, 40}, {"a", 1, 4, 40}, {"b", 1, 0, 40}}, 1, 1, 1, nil},
		"none":                      {[]of{{"base", 1, 300, 40}, {"two", 2, 200, 40}}, -1, -1, 1, nil},
		"not settled":               {[]of{{"base", 1, 22, 40}, {"two", 2, 18, 40}}, 1, 1, 1, []int{0, 1}},
		"a larger one is no matter": {[]of{{"base", 1, 0, 40}, {"two", 2, 18, 40}}, 0, 0, 0, nil},
		// A small crew in many shifts may be paid for more hours than a larger one in few.
		"more people in fewer shifts": {[]of{{"base", 3, 0, 35}, {"three shifts", 2, 0, 105}}, 1, 0, 1, nil},
	} {
		t.Run(name, func(t *testing.T) {
			q := &Seasons{Service: 0.95}
			var studies []*seasons.SeasonStudy
			for _, x := range c.lines {
				configuration, study := ofSeasons(x.name, x.operators, x.late, 400, x.hours)
				study.Ending = sim.AtMost
				q.Configurations, studies = append(q.Configurations, configuration), append(studies, study)
			}
			a := q.answer(studies, make([]seasonsChangeovers, len(studies)))
			assert.EqualValues(t, c.smallest, a.Service.Smallest)
			assert.EqualValues(t, c.cheapest, a.Service.Cheapest)
			assert.Equal(t, c.other, a.Other)
			assert.Equal(t, c.open, a.Service.Open)
		})
	}
}

// A season is late if any of its weeks is, and each counts once.
func TestSeasonsInTimeOfAllWeeks(t *testing.T) {
	_, study := ofSeasons("base", 1, 3, 10, 40)
	study.Weeks[0].Backlog[0], study.Weeks[0].Backlog[9] = 5, 5
	assert.InDelta(t, 0.6, float64((&SeasonsLine{Study: study}).inTime().Share), 1e-12)
}

// By hand, for two days of 08:00 to 16:00 with a break from 12:00 to 13:00.
func TestSeasonsMoment(t *testing.T) {
	c := &seasons.Calendar{Days: 2, Shifts: []seasons.ShiftTime{{Start: 8 * 3600, Length: 8 * 3600}}, Breaks: []seasons.Break{{After: 4 * 3600, Length: 3600}}}
	for worked, want := range map[float64]string{
		0: "Mon 08:00 of week 1", 3.5: "Mon 11:30 of week 1", 4.25: "Mon 13:15 of week 1", 7: "Mon 16:00 of week 1",
		7.5: "Tue 08:30 of week 1", 14: "Tue 16:00 of week 1", 14.1: "Mon 08:06 of week 2", 29: "Mon 09:00 of week 3",
	} {
		t.Run(want, func(t *testing.T) { assert.Equal(t, want, SeasonsMomentOf(c.Clock(), worked).String()) })
	}
}

// By hand: the break of a night shift, after midnight.
func TestSeasonsPauses(t *testing.T) {
	c := &seasons.Calendar{Days: 1, Shifts: []seasons.ShiftTime{{Start: 22 * 3600, Length: 8 * 3600}}, Breaks: []seasons.Break{{After: 3 * 3600, Length: 1800}}}
	assert.Equal(t, []SeasonsStint{{From: 25, To: 25.5, Activity: SeasonsPausing}}, seasonsPauses(c))
}

// The answer so far is that of seasons that end there: of the base while it runs, and then of
// what is finished.
func TestSeasonsSoFar(t *testing.T) {
	text, err := os.ReadFile("../../cmd/netrate/testdata/jobs.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("jobs.yaml", text)
	require.NoError(t, err)
	ask := func(reps int, told func(Sofar[SeasonsAnswer])) *SeasonsAnswer {
		q := Seasons{Plan: sim.Plan{Seed: 3, Min: reps, Max: reps}, Configurations: []SeasonsConfiguration{
			{Name: "base", Season: sc.Season}, {Name: sc.Variants[0].Name, Season: sc.Variants[0].Season},
		}}
		a, err := q.Ask(t.Context(), told)
		require.NoError(t, err)
		return a
	}
	var early, late *SeasonsAnswer
	all := ask(3, func(so Sofar[SeasonsAnswer]) {
		assert.Equal(t, 6, so.Most)
		switch so.Done {
		case 2:
			early = so.Answer()
		case 5:
			late = so.Answer()
		}
	})
	assert.False(t, all.Settings.Partial)
	assert.True(t, early.Settings.Partial)
	assert.True(t, late.Settings.Partial)
	assert.Equal(t, encoded(t, ask(2, nil).Lines[:1]), encoded(t, early.Lines))
	assert.Equal(t, encoded(t, all.Lines[:1]), encoded(t, late.Lines), "the base is finished, the variant is not")
}

// By hand: of 40 remakes in 10 seasons, made at 8 an hour, 0.5 h are of each.
func TestSeasonsRemakesByHand(t *testing.T) {
	c, study := ofSeasons("base", 1, 3, 10, 40)
	study.Total.Job.ByHand = 40
	assert.Zero(t, seasonsLine(&c, study, seasonsChangeovers{}).ByHand, "they are not closed")
	c.Season.Closing = model.Job{Closing: model.Beside, PerHour: 8}
	assert.InDelta(t, 0.5, float64(seasonsLine(&c, study, seasonsChangeovers{}).ByHand), 1e-12)
}
