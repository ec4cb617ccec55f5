package learn

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/scenarios/stoplog"
)

const asideCounts = "day,feeder 1,Gutmenge\n2026-03-02,8000,7900\n"

// A stop that is planned is of the line, and needs no station; another does.
func TestPlannedStopsNeedNoStation(t *testing.T) {
	x := textsOf(t, logHead+"2026-03-02 06:10,feeder 1,misfeed,40\n2026-03-02 08:00,,break,1800\n2026-03-02 09:00,,lunch,600\n2026-03-02 10:00,feeder 1,technician,2880\n", "station,feeds\nfeeder 1,8000\n")
	assert.Equal(t, []string{"feeder 1"}, x.Log.Names())
	notes := strings.Join(x.Notes(), "\n")
	assert.Contains(t, notes, "2 planned stops, a break, a changeover or the like, for 40 min: set apart: break 1 × in 30 min, lunch 1 × in 10 min.")
	assert.Contains(t, notes, "1 stop for stocks, other causes or what is no fault of such a station: not in the rates: technician 1 × in 48 min.")

	log, counts := writtenFiles(t, logHead+"2026-03-02 06:10,,misfeed,40\n", asideCounts)
	var says strings.Builder
	_, err := (&mappingFlags{}).read(desk.Env{Err: &says}, log, counts, new(dayTime))
	require.Error(t, err)
	assert.Contains(t, says.String(), "station is empty")
}

// A cause that is an empty cell can be mapped, and a column of the counts left out that is no station.
func TestEmptyCausesAndOtherColumns(t *testing.T) {
	log, counts := writtenFiles(t, logHead+"2026-03-02 06:10,feeder 1,,40\n", asideCounts)
	o := &mappingFlags{causes: []string{"=jam"}, kinds: []string{"Gutmenge=none"}}
	l, err := o.read(desk.Env{}, log, counts, new(dayTime))
	require.NoError(t, err)
	assert.Equal(t, []string{"feeder 1"}, l.Names())
	assert.Equal(t, stoplog.Jam, l.Find("feeder 1").Stops[0].Cause)

	o = &mappingFlags{countColumns: []string{"good=Gutmenge"}}
	l, err = o.read(desk.Env{}, log, counts, new(dayTime))
	require.NoError(t, err)
	assert.Equal(t, []string{"feeder 1"}, l.Names())
	assert.Equal(t, int64(7900), l.Find("feeder 1").Counts[0].Good)

	_, err = (&mappingFlags{kinds: []string{"=none"}}).read(desk.Env{}, log, counts, new(dayTime))
	require.ErrorContains(t, err, "want two words with = between")

	_, err = (&mappingFlags{causes: []string{"no cause at all=other"}}).read(desk.Env{}, log, counts, new(dayTime))
	require.EqualError(t, err, `--cause 'no cause at all=other': an empty cell has nothing before the =, as in --cause "=planned"; in the file of --map its word is ''`)
}

// What the counts say was good is set beside the forecast: 7900 in an hour of which ten minutes were
// planned. How the files were read keeps what was left out.
func TestNetRateOfTheLog(t *testing.T) {
	log, counts := writtenFiles(t, logHead+"2026-03-02 06:10,feeder 1,misfeed,40\n2026-03-02 06:30,,break,600\n",
		"day,hour,feeder 1,spare,good\n2026-03-02,6,8000,5,7900\n2026-03-02,7,8000,5,7800\n")
	o := &mappingFlags{kinds: []string{"spare=none"}}
	l, err := o.read(desk.Env{}, log, counts, new(dayTime))
	require.NoError(t, err)
	out := l.Output(0)
	require.Len(t, out, 1)
	assert.InEpsilon(t, 15_700/(2-1./6), out[0].Rate(), 1e-12)
	assert.Contains(t, o.mapText(l, 0), "spare: none")
	assert.Contains(t, o.mapText(l, 0), "good: good")
}
