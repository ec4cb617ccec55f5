package present

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/sim"
)

func TestProbability(t *testing.T) {
	for p, want := range map[float64]string{1: "1.00", 0.5: "0.50", 0.0951: "0.10", 0.0499: "0.050", 2.0 / 401: "0.005", 0.0004: "<0.001"} {
		assert.Equal(t, want, probability(p))
	}
	assert.Equal(t, "P\u00a0=\u00a00.005", withP(0.005))
	assert.Equal(t, "P\u00a0<\u00a00.001", withP(0.0001))
}

// How much more or less a log has is said in percent, and from twice on in times.
func TestFold(t *testing.T) {
	of := func(log float64) string {
		return fold(runs.RecordTest{Log: log, Simulated: sim.Sample{90, 110}}, "as many stops as", "more stops than", "fewer stops than")
	}
	for log, want := range map[float64]string{
		0: "100 % fewer stops than", 73: "27 % fewer stops than", 99.5: "0.50 % fewer stops than", 100: "0 % fewer stops than",
		135: "35 % more stops than", 199: "99 % more stops than", 199.6: "2.0 times as many stops as", 214: "2.1 times as many stops as",
	} {
		assert.Equal(t, want, of(log))
	}
	assert.Equal(t, "any number of times as many", fold(runs.RecordTest{Log: 3, Simulated: sim.Sample{0, 0}}, "as many", "more", "fewer"))
}

// What the log is too short to show stands beside the verdict: 0 to 200 about 100 are
// ± 95 % between their 2.5th and 97.5th percentiles, and 900 to 1,100 about 1,000 ± 9.5 %.
func TestVerdictSaysWhatItCannotShow(t *testing.T) {
	x := Replay{ReplayAnswer: &study.ReplayAnswer{Period: "day", Periods: make([]study.ReplayPeriod, 3), Drawn: make([]runs.Replica, 999)}}
	var stops, seconds sim.Sample
	for i := range 201 {
		stops, seconds = append(stops, float64(i)), append(seconds, 900+float64(i))
	}
	x.Tests = []runs.RecordTest{{Figure: runs.AllStops, Log: 100, Simulated: stops, P: 1}, {Figure: runs.AllSeconds, Log: 1000, Simulated: seconds, P: 1}}
	assert.Equal(t, "The log does not contradict the model: it is out of line in none of the two tests. "+
		"Three days can show a difference of some 95 % in stops, or of 9.5 % in seconds, and hardly a smaller one.", x.verdict())
	x.Periods = x.Periods[:1]
	assert.Contains(t, x.verdict(), " One day can show ")
	x.Tests[0].Simulated = sim.Sample{0, 0, 0}
	assert.NotContains(t, x.verdict(), "can show")
}

// What periods ran at a speed of their own is said, and what ran at several.
func TestReplaySaysSpeeds(t *testing.T) {
	line := &model.Line{Speed: 10_000, Stations: []model.Station{&model.Delivery{Place: model.Place{Rated: 10_000}}}}
	slow := study.ReplayPeriod{Period: runs.Period{Speed: 8000}, Said: []float64{8000}, Work: []study.ReplayWork{{Speed: 8000, Sets: 1}}}
	fast := study.ReplayPeriod{Period: runs.Period{Speed: 12_000}, Said: []float64{12_000}, Work: []study.ReplayWork{{Speed: 12_000, Sets: 1}}}
	mixed := study.ReplayPeriod{Said: []float64{8000, 9000}}
	x := Replay{ReplayAnswer: &study.ReplayAnswer{Line: line, Period: "day", Periods: []study.ReplayPeriod{{}, slow, mixed, fast, {}}}}
	assert.Equal(t, " 2 days at a speed of their own, 1 no faster than the stations are rated. "+
		"1 day had several speeds, each part simulated at its own.", x.speeds())
	x.Periods = []study.ReplayPeriod{mixed, mixed, fast}
	assert.Equal(t, " 1 day at a speed of its own, 1 no faster than the stations are rated. "+
		"2 days had several speeds, each part simulated at its own.", x.speeds())
}

// What is only on one side is left out on both, and said.
func TestReplaySaysWhatIsLeftOut(t *testing.T) {
	line := &model.Line{Stations: []model.Station{&model.Feeder{Place: model.Place{Name: "letter"}}, &model.Feeder{Place: model.Place{Name: "card"}}}}
	log := Log{Log: &study.Log{}}
	log.AddStop(study.LogStop{Station: "letter", Cause: study.LogOther, Called: "lunch"})
	x := Replay{Log: log, ReplayAnswer: &study.ReplayAnswer{
		Line: line, Period: "day", Out: []bool{false, true},
		Left: study.ReplayLeftOut{Uncounted: 1, Others: 2, Strangers: map[string]int{"folder": 1, "stacker": 0}},
	}}
	said := strings.Join(x.leftOutNotes(), " ")
	for _, want := range []string{
		"Left out on both sides, as their feeds are not counted: card.", "Not in the scenario, and left out: folder (1 stop) and stacker (no stop).",
		"The log has no stops for stocks used up, so these are left out on both sides.",
		"1 stop at stations whose feeds are not counted; 2 stops for what is no fault or stock of such a station.", `"lunch" (1)`,
	} {
		assert.Contains(t, said, want)
	}
	x.Stocks = true
	assert.Equal(t, "stops, with stocks", x.testName(runs.AllStops))
}
