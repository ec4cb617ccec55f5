package learn

import (
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
)

// against is a log beside what a scenario makes of the same work.
type against struct {
	*scenarios.Scenario
	source  []byte     // the file itself
	line    model.Line // of the scenario; without its doubts if they are not to be drawn
	records *records
	plan    sim.Plan
	again   string

	word    string      // for a period: day, or period
	worker  string      // the station whose feeds are the work
	periods []logPeriod // those with work, in order
	out     []bool      // of each station of the line: its feeds are not counted, so its faults are left out
	stocks  bool        // the log has stops for stocks
	log     model.Replica
	left    leftOutStops

	drawn  []model.Replica
	ending sim.Ending
	tests  []model.RecordTest
}

// logPeriod is what the counts say of one period.
type logPeriod struct {
	model.Period
	begins time.Time
	said   []float64 // speeds that are written for it, each once, in rising order
	idle   bool      // nothing was made
}

// leftOutStops are stops of the log that are not compared, and why.
type leftOutStops struct {
	before, idle, uncounted, others int
	strangers                       map[string]int // of each station that the scenario does not have
	cut                             int            // stops that are compared, and were cut off
}

// arrange divides the log into the periods of its counts and puts it beside the line.
func (x *against) arrange(dayStarts dayTime) error {
	if err := x.divide(dayStarts); err != nil {
		return err
	}
	x.choose()
	if err := x.work(); err != nil {
		return err
	}
	for _, s := range x.line.Stations {
		_, faults, _ := page.KindOf(s)
		x.out = append(x.out, len(faults) > 0 && x.records.feedsOf(s.Where().Name) == 0)
	}
	return x.count()
}

// replay returns the record to be simulated.
func (x *against) replay() *model.Replay {
	r := &model.Replay{Line: &x.line, Counts: x.counted}
	for _, p := range x.periods {
		r.Periods = append(r.Periods, p.Period)
	}
	return r
}
