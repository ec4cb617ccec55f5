package learn

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/scenarios/stoplog"
	"netrate/sim"
)

// misfeeds returns the head of a log and a number of misfeeds of a station.
func misfeeds(station string, n int) string {
	return "start,station,cause,duration (s)\n" + strings.Repeat("2026-03-02 06:10:00,"+station+",misfeed,30\n", n)
}

// Stations that the files write differently are named first, and what was not counted for them
// is not taken for no fault.
func TestNamesThatDoNotMatch(t *testing.T) {
	card := "2026-03-02 06:20:00,card,misfeed,30\n"
	for name, c := range map[string]struct{ logged, counted string }{
		"case":       {"Letter 1", "letter 1"},
		"blanks":     {"letter1", "letter 1"},
		"one letter": {"leter 1", "letter 1"},
		"underscore": {"letter_01", "letter 1"},
	} {
		t.Run(name, func(t *testing.T) {
			x := textsOf(t, misfeeds(c.logged, 12)+card, "station,feeds\ncard,900\n"+c.counted+",90000\n")
			want := `"` + c.logged + `" has 12 stops in stops.csv and no feeds in counts.csv: did you mean "` + c.counted + `", which has 90,000 feeds and 0 stops?`
			assert.Equal(t, want, x.hintless())
			assert.Contains(t, stoplog.Fragment(x.FitAnswer), "  # "+c.counted+": no rates, its stops are likely those of \""+c.logged+"\" in the log\n")
			assert.NotContains(t, stoplog.Fragment(x.FitAnswer), "of: 90000")
			x.Log.Find(c.counted).Kind = "feeder"
			again := learntOf(t, x.Log, true)
			assert.Contains(t, stoplog.Fragment(again.FitAnswer), "    # left out: all rates (its stops are likely those of")
			assert.NotContains(t, stoplog.Fragment(again.FitAnswer), "of: 90000")
		})
	}
	for name, counted := range map[string]string{"another number": "letter 2", "another name": "folder 1", "both have stops": "card"} {
		t.Run(name, func(t *testing.T) {
			x := textsOf(t, misfeeds("letter 1", 12)+card, "station,feeds\ncard,900\n"+counted+",90000\n")
			assert.NotContains(t, x.Finding(), "did you mean")
		})
	}
}

// One row that is misspelt is named too, though the station itself has stops.
func TestOneNameThatDoesNotMatch(t *testing.T) {
	log := misfeeds("letter", 12) + "2026-03-02 06:20:00,leter,misfeed,30\n"
	x := textsOf(t, log, "station,feeds\nletter,90000\n")
	assert.Equal(t, `"leter" has 1 stop in stops.csv and no feeds in counts.csv: did you mean "letter", which has 90,000 feeds and 12 stops?`, x.hintless())
	assert.Contains(t, stoplog.Fragment(x.FitAnswer), "misfeed: {seen: 12, of: 90000}", "the others are not left out for it")
	_, err := learntInto(t, plainLineText, log, "station,feeds\nletter,90000\n")
	assert.ErrorContains(t, err, "the estimates would be wrong, so they are not written into")
}

// hintless returns a finding as far as the caution about names goes.
func (x *fitting) hintless() string {
	first, _, _ := strings.Cut(x.Finding(), "? ")
	return strings.ReplaceAll(strings.ReplaceAll(first, x.Log.StopFile.Name, "stops.csv"), x.Log.CountFile.Name, "counts.csv") + "?"
}

// Stops of which nobody knows what they were are named first, from 1 % of all on, and what was
// never seen at their station is then no zero.
func TestCausesThatAreNotKnown(t *testing.T) {
	const odd = "2026-03-02 07:00:00,letter,"
	counts := "station,feeds\nletter,90000\ncard,9000\n"
	card := "2026-03-02 08:00:00,card,misfeed,30\n"
	x := textsOf(t, misfeeds("letter", 197)+card+odd+"hm,5\n"+odd+"coffee,5\n", counts)
	assert.NotContains(t, x.Finding(), "not known", "2 of 200 are 1 % and not more")
	x = textsOf(t, misfeeds("letter", 194)+card+odd+"hm,5\n"+strings.Repeat(odd+"coffee,5\n", 3)+odd+"tea,5\n", counts)
	assert.True(t, strings.HasPrefix(x.Finding(), `5 of 200 stops (2.5 %) have causes that are not known, most often "coffee" (3) and "hm" (1): --cause says what a word means. `), x.Finding())
	fragment := stoplog.Fragment(x.FitAnswer)
	assert.Contains(t, fragment, "    # left out: double and jam (none seen, but what \"coffee\" (3) and \"hm\" (1) was is not known)\n")
	assert.Contains(t, fragment, "    misfeed: {seen: 194, of: 90000}")
	assert.NotContains(t, fragment, "{seen: 0, of: 90000}")
	assert.Contains(t, fragment, "    source: '194 misfeeds in 90,000 feeds, stops.csv'\n")
	assert.Contains(t, fragment, "    double: {seen: 0, of: 9000}", "of card all is known")
	assert.Contains(t, fragment, "'1 misfeed, 0 doubles and 0 jams in 9,000 feeds, stops.csv'")
}

// The comparison says both too, before its verdict.
func TestAgainstSaysCautions(t *testing.T) {
	log := sixStops + "2026-03-02 06:30:00,card_1,hm,5\n"
	logFile, countFile := writtenFiles(t, log, "Day,Station,Feeds\n2026-03-02,inserter,5000\n2026-03-02,letter,5000\n2026-03-02,Card 1,5000\n")
	said := replayOf(t, plainScenario(t), logFile, countFile, sim.Plan{Seed: 1, Min: 1, Max: 19}).Finding()
	assert.True(t, strings.HasPrefix(said, `"card_1" has 1 stop in `), said)
	assert.Contains(t, said, `did you mean "Card 1", which has 5,000 feeds and 0 stops?`)
	assert.Contains(t, said, "3 stops of "+logFile+" left out, of 2026-03-03 to 2026-03-09: ")
	assert.Contains(t, said, `1 of 4 stops (25.0 %) have causes that are not known, most often "hm" (1)`)
}
