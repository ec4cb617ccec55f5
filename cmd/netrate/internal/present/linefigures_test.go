package present

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/sim"
)

// Titles are computed sentences: what they say is true of the figures.
func TestTitles(t *testing.T) {
	l := lineOfFile(t, "../../testdata/small.yaml")
	s, err := runs.Run(t.Context(), l, sim.Plan{Seed: 1, Min: 200, Max: 200}, nil)
	require.NoError(t, err)
	_, losses, _ := s.Losses()
	largest := losses[1]
	for _, one := range losses[1:] { // the first is the speed asked for
		if one.PerHour > largest.PerHour {
			largest = one
		}
	}
	figure, err := waterfall("Small", "200 shifts", s)
	require.NoError(t, err)
	assert.Contains(t, figure.Title, "the largest loss is "+largest.Name+", "+say.Rounded(largest.PerHour, 0))
}

// What a line delivers has the same digits in the headline, in the tables and in the figure.
func TestNetRateIsRoundedAlike(t *testing.T) {
	s, err := runs.Run(t.Context(), lineOfFile(t, "../../testdata/small.yaml"), sim.Plan{Seed: 5, Min: 30, Max: 30}, nil)
	require.NoError(t, err)
	e := s.NetRates().Interval(say.Level)
	rate, _ := say.Measured(e.Mean, e.Half)
	require.NotEqual(t, say.Rounded(e.Mean, 0), rate, "the case must tell them apart")
	assert.True(t, strings.HasPrefix(netRateFact(s).says[0], rate+" ± "), netRateFact(s).says[0])
	rows := lossesTable([]study.LineAnswer{{Name: "small", Study: s}}).Rows
	assert.Equal(t, rate, rows[len(rows)-1][1].Shown)
	figure, err := waterfall("Small", "30 shifts", s)
	require.NoError(t, err)
	assert.Contains(t, figure.Title, ", "+rate+" arrive good;")
	drawn, err := figure.SVG()
	require.NoError(t, err)
	assert.Contains(t, string(drawn), ">"+rate+"<")
}

// The shares of a crew of two are of the time of both: half of what one has to do is a half
// of one, and a quarter of two.
func TestCrewShares(t *testing.T) {
	l := lineOfFile(t, "../../testdata/small.yaml")
	l.Crew.Operators = 2
	s, err := runs.Run(t.Context(), l, sim.Plan{Seed: 1, Min: 20, Max: 20}, nil)
	require.NoError(t, err)
	crew := s.Total.Crew()
	time := 2 * 20 * float64(l.Shift)
	faults, stocks := float64(crew.Clearing.Busy())/time, float64(crew.Stock.Busy())/time
	rows := timeTable(s).Rows
	busyRow, faultsRow := rows[len(rows)-2], rows[len(rows)-1]
	assert.Equal(t, "crew of 2, busy", busyRow[0].Text)
	assert.InDelta(t, faults+stocks, busyRow[1].Number, 0.002)
	assert.InDelta(t, faults, faultsRow[1].Number, 1e-12)
	assert.InDelta(t, faults*float64(l.Shift)/60, faultsRow[2].Number, 1e-9)
	// Both together are what the crew is busy, as the line above says.
	busy := s.Sample(func(s *runs.Shift) float64 { return s.CrewBusy }).Mean() / (2 * float64(l.Shift))
	assert.InDelta(t, busy, faults+stocks, 0.002)
}
