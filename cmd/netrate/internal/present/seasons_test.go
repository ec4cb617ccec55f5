package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// By hand: a night shift goes on after midnight on the next day, and after Sunday.
func TestSeasonsDays(t *testing.T) {
	c := &seasons.Calendar{Days: 1, Shifts: []seasons.ShiftTime{{Start: 22 * 3600, Length: 8 * 3600}}}
	stints := []study.SeasonsStint{{From: 22, To: 25, Job: "a"}, {From: 25.5, To: 30, Job: "b"}, {From: 167, To: 169, Job: "c"}}
	assert.Equal(t, []plots.Roster{
		{Name: "Mon", Stints: []plots.Stint{{From: 22, To: 24, Job: "a"}}},
		{Name: "Tue", Ends: []float64{6}, Stints: []plots.Stint{{From: 0, To: 1, Job: "a"}, {From: 1.5, To: 6, Job: "b"}}},
		{Name: "Sun", Stints: []plots.Stint{{From: 23, To: 24, Job: "c"}}},
		{Name: "after Sun", Stints: []plots.Stint{{From: 0, To: 1, Job: "c"}}},
	}, seasonsDays(c, stints))
}

// seasonsLine is a configuration with its share of seasons in time.
func seasonsLine(name string, operators int, paid float64, share, low, high study.Number) study.SeasonsLine {
	x := study.SeasonsLine{Name: name, Operators: study.Number(operators), Paid: study.Number(paid), InTime: study.SeasonsInTime{Share: share, Low: low, High: high}}
	x.Weeks = []study.SeasonsWeek{{Name: "week 1", InTime: 1}, {Name: "flats", InTime: share, Overtime: study.SeasonsSpread{Mean: 2.5}}}
	x.Overtime.Mean, x.Tightest = 2.5, 1
	x.LateSets, x.Jobs = 4210, []study.SeasonsJob{{Week: 1, Name: "bills"}, {Week: 2, Name: "cards", LateSets: 3000}, {Week: 2, Name: "bills", LateSets: 1210}}
	return x
}

func TestSeasonsFinding(t *testing.T) {
	base := seasonsLine("base", 1, 40, 0.25, 0.21, 0.3)
	two := seasonsLine("two", 2, 80, 0.995, 0.982, 0.999)
	late := seasonsLine("two", 2, 80, 0.5, 0.45, 0.55)
	for want, a := range map[string]study.SeasonsAnswer{
		"The base gets all weeks done in time in 25.0 % (21 % to 30 %) of the seasons.": {
			Lines: []study.SeasonsLine{base}, MostOften: []int{0},
		},
		"of the seasons. “two” does so most often, in 99.5 % (98.2 % to 99.9 %).": {
			Lines: []study.SeasonsLine{base, two}, MostOften: []int{1}, Other: 1,
		},
		"of the seasons. No variant does so more often.": {
			Lines: []study.SeasonsLine{two, base}, MostOften: []int{0},
		},
		"The smallest configuration that gets all weeks done in time in 95 % of the seasons is “two”, with 2 operators in each shift: it does so in 99.5 % (98.2 % to 99.9 %).": {
			Lines: []study.SeasonsLine{base, two}, Other: 1,
			Service: &study.SeasonsService{Asked: 0.95, Smallest: 1, Cheapest: 1},
		},
		" It takes 80 operator hours a week; “few shifts” takes 60, the fewest. This number of seasons does not settle it for “two”: raise --reps.": {
			Lines: []study.SeasonsLine{base, two, seasonsLine("few shifts", 3, 60, 1, 0.99, 1)}, Other: 1,
			Service: &study.SeasonsService{Asked: 0.95, Smallest: 1, Cheapest: 2, Open: []int{1}},
		},
		"No configuration gets all weeks done in time in 95 % of the seasons; “two” comes closest, with 50.0 % (45 % to 55 %).": {
			Lines: []study.SeasonsLine{base, late}, Other: 1,
			Service: &study.SeasonsService{Asked: 0.95, Smallest: -1, Cheapest: -1},
		},
		"No configuration gets all weeks done in time in any of the seasons. With the base the tightest week is week 2, “flats”, in time in 0 % of the seasons; its own work needs 2.5 h of overtime, in the mean. " +
			"Without overtime 4,210 sets are late, not done when their week ends, in the mean; the most, 3,000, of cards in week 2.": {
			Lines:   []study.SeasonsLine{seasonsLine("base", 1, 40, 0, 0, 0.01)},
			Service: &study.SeasonsService{Asked: 0.95, Smallest: -1, Cheapest: -1},
		},
		"No variant does so in any. “two” comes nearest: it needs the least overtime, 2.5 h in the mean. With “two” the tightest week": {
			Lines: []study.SeasonsLine{seasonsLine("base", 1, 40, 0, 0, 0.01), seasonsLine("two", 2, 80, 0, 0, 0.01)}, Other: 1,
		},
	} {
		t.Run(want, func(t *testing.T) { assert.Contains(t, SeasonsFinding(&a), want) })
	}
}

// A mean that a few seasons draw out of the range of nine in ten is said to be outside of it.
func TestCostsRangeSaysWhatLiftsTheMean(t *testing.T) {
	costs := func(all study.SeasonsMoney) *study.SeasonsCosts {
		return &study.SeasonsCosts{All: all, Sums: sim.Sample{74_100, 74_130, 74_160, 78_000}}
	}
	assert.NotContains(t, costsRange(costs(study.SeasonsMoney{Mean: 75_000, P5: 70_000, P95: 80_000}), "seasons"), "mean")
	assert.Contains(t, costsRange(costs(study.SeasonsMoney{Mean: 79_000, P5: 70_000, P95: 74_000}), "seasons"), " in nine of ten seasons; a few far dearer ones lift the mean above that)")
	assert.Contains(t, costsRange(costs(study.SeasonsMoney{Mean: 60_000, P5: 70_000, P95: 74_000}), "seasons"), "a few far cheaper ones draw the mean below that)")
}
