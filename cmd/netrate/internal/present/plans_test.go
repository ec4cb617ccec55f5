package present

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	ics "github.com/arran4/golang-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/plots"
	"netrate/scenarios"
	"netrate/sim"
)

// nineJobs returns the plan of the example.
func nineJobs(t *testing.T) Plans {
	t.Helper()
	for _, x := range scenarios.Examples() {
		if x.Name != "nine-jobs" {
			continue
		}
		s, err := scenarios.Load(x.Name, x.Data)
		require.NoError(t, err)
		plan := sim.Plan{Seed: 1, Min: 10, Max: 10}
		q := study.Plans{Configurations: []study.PlansConfiguration{{Name: "base", Plan: s.Plan.Plan}}, Plan: plan}
		a, err := q.Ask(context.Background(), nil)
		require.NoError(t, err)
		zone, err := time.LoadLocation(s.Plan.Zone)
		require.NoError(t, err)
		y, m, d := s.Plan.Starts.Date()
		return Plans{PlansAnswer: a, Origin: page.Origin{Scenario: s, Text: x.Data}, Plan: plan, Starts: time.Date(y, m, d, 0, 0, 0, 0, zone), Made: time.Date(2026, 3, 20, 15, 0, 0, 0, zone)}
	}
	t.Fatal("there is no such example")
	return Plans{}
}

// The calendar file is read back by a library, and has each job at its time on the wall, before and
// after the changes to summer time on 29 March 2026 and from it on 25 October: in the European Union at 01:00 UTC
// on the last Sundays of March and October (Directive 2000/84/EC).
func TestPlanCalendar(t *testing.T) {
	s := nineJobs(t)
	planCalendar(t, s)
	s.Starts = time.Date(2026, 10, 19, 0, 0, 0, 0, s.Starts.Location())
	planCalendar(t, s)
}

func planCalendar(t *testing.T, s Plans) {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, s.WriteCalendar(&b))
	var again bytes.Buffer
	require.NoError(t, s.WriteCalendar(&again))
	assert.Equal(t, b.String(), again.String(), "the same plan is the same file")
	for line := range strings.SplitSeq(b.String(), "\r\n") {
		assert.LessOrEqual(t, len(line), 75, "RFC 5545, section 3.1: a line has 75 octets at most")
	}
	cal, err := ics.ParseCalendar(&b)
	require.NoError(t, err)
	jobs := map[string]*study.PlansJob{}
	for _, j := range s.shown().Jobs() {
		jobs[j.Name] = j
	}
	require.Len(t, cal.Events(), len(jobs))
	summer, ids := 0, map[string]bool{}
	for _, e := range cal.Events() {
		_, name, _ := strings.Cut(e.GetProperty(ics.ComponentPropertySummary).Value, ": ")
		j := jobs[name]
		require.NotNil(t, j, name)
		assert.False(t, ids[e.Id()], "RFC 5545, section 3.8.4.7: no two are alike")
		ids[e.Id()] = true
		end, err := e.GetEndAt()
		require.NoError(t, err)
		_, _, hour, minute := j.Finished.P50.Parts()
		local := end.In(s.Starts.Location())
		assert.Equal(t, [2]int{hour, minute}, [2]int{local.Hour(), local.Minute()}, name)
		if _, offset := local.Zone(); offset == 2*3600 {
			summer++
		}
		assert.Equal(t, time.UTC, end.Location())
	}
	assert.Positive(t, summer, "a plan that ends before the change shows nothing")
	assert.Less(t, summer, len(jobs))
}

// Names may have all that means something in a calendar file, or takes several octets: RFC 5545, section 3.3.11, and
// 3.1, by which a line may be folded within a character; none is here, as not all programs mend that.
func TestPlanCalendarNames(t *testing.T) {
	s := nineJobs(t)
	var names []string
	for i, odd := range []string{
		"club, members", "gas; \"second\" notice", "back\\slash, \\n and \\; too", "BEGIN:VEVENT", strings.Repeat("ä", 60), strings.Repeat("日本", 30), "=1+1", "a: b", "Ł" + strings.Repeat("x", 59),
	} {
		s.shown().Jobs()[i].Name = odd
		names = append(names, odd)
	}
	s.shown().Lines[0].Name = "Größe, Linie; 1"
	var b bytes.Buffer
	require.NoError(t, s.WriteCalendar(&b))
	for line := range strings.SplitSeq(b.String(), "\r\n") {
		assert.LessOrEqual(t, len(line), 75)
		assert.True(t, utf8.ValidString(line), line)
		assert.NotContains(t, line, "\n")
	}
	cal, err := ics.ParseCalendar(&b)
	require.NoError(t, err)
	var read []string
	for i, e := range cal.Events() {
		line := e.GetProperty(ics.ComponentPropertyLocation).Value
		assert.Equal(t, i < len(s.shown().Lines[0].Jobs), line == "Größe, Linie; 1", line)
		read = append(read, strings.TrimPrefix(e.GetProperty(ics.ComponentPropertySummary).Value, line+": "))
	}
	assert.Equal(t, names, read)
}

// The calendar names a last remake of those jobs alone of which any are made.
func TestPlanCalendarNamesRemakes(t *testing.T) {
	s := nineJobs(t)
	x := s.shown()
	x.NotRemade = nil
	for _, j := range x.Jobs() {
		free := j.Finished.P50
		if j.Free = &free; len(x.NotRemade) < 4 {
			x.NotRemade = append(x.NotRemade, j.Name)
		}
	}
	var b bytes.Buffer
	require.NoError(t, s.WriteCalendar(&b))
	unfolded := strings.ReplaceAll(b.String(), "\r\n ", "")
	assert.Equal(t, len(x.Jobs())-4, strings.Count(unfolded, "Its last remake is made by"))
}

// Where a line is down the chart shows it as that, not as running.
func TestPlanDownIsDrawn(t *testing.T) {
	run := plots.Stint{From: 1, To: 5, Activity: plots.Producing, Job: "a"}
	assert.Equal(t, []plots.Stint{
		{From: 1, To: 2, Activity: plots.Producing, Job: "a"}, {From: 2, To: 3, Activity: plots.Broken}, {From: 3, To: 5, Activity: plots.Producing, Job: "a"},
	}, withoutDown(run, [][2]float64{{0, 0.5}, {2, 3}, {7, 8}}))
	assert.Equal(t, []plots.Stint{run}, withoutDown(run, nil))
	assert.Equal(t, []plots.Stint{{From: 1, To: 5, Activity: plots.Broken}}, withoutDown(run, [][2]float64{{0, 9}}))
}

// Of dates that are alike none is the least sure; a slip says whether its date is kept.
func TestPlansSayWhatIsAlike(t *testing.T) {
	s := nineJobs(t)
	x := s.shown()
	var dated []*study.PlansJob
	for _, j := range x.Jobs() {
		if j.InTime != nil {
			dated = append(dated, j)
			*j.InTime = study.PlansOften{Share: 1, Low: 0.7, High: 1}
		}
	}
	assert.Contains(t, s.Finding(), "Late, not done at their date, are ")
	x.AllInTime, x.LateSets = *dated[0].InTime, 0
	assert.Contains(t, s.Finding(), "of the replications, in 10 of 10. The last job")
	dated[0].InTime.Share, dated[1].InTime.Share = 0.9, 0.9
	assert.Contains(t, s.Finding(), "The dates least sure are those of "+dated[0].Name+" and "+dated[1].Name+", each kept in 90.0 %")
	kept, is := study.Number(1), study.PlansMoment{At: 7200}
	job := study.PlansPromisedJob{Name: "a", Was: study.PlansMoment{At: 3600}, Is: &is, Later: 1, Kept: &kept, State: study.PlansLeft}
	s.Promised = &study.PlansPromised{Jobs: []study.PlansPromisedJob{job}}
	assert.Contains(t, s.promised(), "none is shown to be finished later")
	s.Promised.Jobs[0].Slips = true
	assert.Contains(t, s.promised(), "1 slip by more than chance explains, a most")
	assert.Contains(t, s.promised(), "and its date is kept in 100 %")
}

// A plan that is made anew has the same events, whatever line its jobs are on by then, and says that it
// is later.
func TestPlanCalendarAnew(t *testing.T) {
	s := nineJobs(t)
	events := func() map[string]*ics.VEvent {
		var b bytes.Buffer
		require.NoError(t, s.WriteCalendar(&b))
		cal, err := ics.ParseCalendar(&b)
		require.NoError(t, err)
		all := map[string]*ics.VEvent{}
		for _, e := range cal.Events() {
			all[e.Id()] = e
		}
		return all
	}
	before := events()
	x := &s.Plans[0]
	x.Lines[0].Jobs, x.Lines[1].Jobs = x.Lines[1].Jobs, x.Lines[0].Jobs
	s.Made, s.Revision = s.Made.Add(time.Hour), 1
	for id, e := range events() {
		require.Contains(t, before, id)
		was, err := before[id].GetDtStampTime()
		require.NoError(t, err)
		is, err := e.GetDtStampTime()
		require.NoError(t, err)
		assert.Equal(t, time.Hour, is.Sub(was), "RFC 5545, section 3.8.7.2: with a METHOD, when the file was made")
		assert.Equal(t, [2]string{"0", "1"}, [2]string{before[id].GetProperty(ics.ComponentPropertySequence).Value, e.GetProperty(ics.ComponentPropertySequence).Value}, "section 3.8.7.4")
		assert.NotEqual(t, before[id].GetProperty(ics.ComponentPropertyLocation).Value, e.GetProperty(ics.ComponentPropertyLocation).Value)
	}
}

// What is not finished has no end, in no form.
func TestPlanIsNotFinished(t *testing.T) {
	s := nineJobs(t)
	x := &s.Plans[0]
	j := &x.Lines[0].Jobs[0]
	never := study.PlansMoment{At: sim.Seconds(math.Inf(1))}
	j.Unfinished, j.Finished, x.Last = 1, study.PlansSpread{P50: never, P90: never}, study.PlansSpread{P50: never, P90: never}
	x.Late.Mean, x.LateCost = study.Number(math.Inf(1)), study.Number(math.Inf(1))
	assert.Contains(t, s.Finding(), j.Name+" is not finished: ")
	assert.NotContains(t, s.Finding(), "The last job is finished")
	assert.Equal(t, "no end", s.overview().Rows[0][2].Text)
	for _, row := range s.Rows().Rows {
		if row[2].Shown == j.Name {
			assert.Empty(t, row[9].Shown)
			assert.Empty(t, row[10].Shown)
		}
	}
	var b bytes.Buffer
	require.NoError(t, s.WriteCalendar(&b))
	assert.Equal(t, len(x.Jobs())-1, strings.Count(b.String(), "BEGIN:VEVENT"))
	_, err := s.Report("test")
	require.NoError(t, err)
	j.Unfinished = 0.25
	assert.Contains(t, s.Finding(), j.Name+" is not finished in 25.0 % of the replications: ")
}

// A difference is said the way it goes, with its interval, and that none is shown where none is.
func TestPlansDiffer(t *testing.T) {
	for want, d := range map[string]study.Mean{
		"8.4 ± 0.1 later": {Mean: -8.41, Half: 0.08}, "2.0 ± 0.5 sooner": {Mean: 2, Half: 0.5}, "1.0 sooner": {Mean: 1, Half: 0.01},
		"the end is not shown to move": {Mean: 2, Half: 2.5},
	} {
		assert.Equal(t, want, differs(d, "%s sooner", "%s later", "the end is not shown to move"))
	}
	assert.Equal(t, "none", differs(study.Mean{Mean: 0.04}, "%s sooner", "%s later", "none"), "nobody sees three minutes")
}

// What another order brings is said of the order alone, and that it is the same where it is; what it costs less says of what.
func TestPlansChangeInWords(t *testing.T) {
	s := nineJobs(t)
	s.Change = &study.PlansChange{Hours: study.Mean{Mean: 2, Half: 1}, Less: study.Mean{Mean: 285, Half: 105}}
	assert.Contains(t, s.change(), " Against the order as it was, the new plan moves no job to another line; the last job is finished 2.0 ± 1.0 h sooner")
	chosen := s.Plans[0]
	chosen.Name = "with overtime"
	s.Plans, s.Service, s.Chosen, s.Nearest, s.Cheapest = append(s.Plans, chosen), 0.9, 1, -1, -1
	assert.Contains(t, s.change(), " Against the order as it was, both with overtime, the new plan moves no job")
	assert.Contains(t, s.costsLess(s.Change, s.shown()), "the choices and lateness together, without other costs, cost 285 ± 105 less, in the mean")
	s.Change.Same = true
	assert.Equal(t, " The order stays as it was.", s.change())
	assert.Equal(t, "Planned anew, with the order that is given among those tried, no better one is found: it stays as it is.", PlansAnew(s.Change))
}

// A date that is over is named, and not the one least sure.
func TestPlansDatesOverInWords(t *testing.T) {
	s := nineJobs(t)
	assert.NotContains(t, s.Finding(), "set aside")
	var over *study.PlansJob
	for _, j := range s.Plans[0].Jobs() {
		if j.InTime != nil {
			over = j
		}
	}
	over.DateOver, over.InTime.Share = true, 0
	assert.Contains(t, s.Finding(), "The date of "+over.Name+", due "+s.Moment(*over.Due)+", is over when the plan begins. It is set aside: ")
	assert.Contains(t, s.Finding(), "All other dates are kept in ")
	assert.NotEqual(t, over.Name, s.worst(&s.Plans[0]).Name)
}

// A season takes no price of lateness, and is not advised to say one.
func TestSeasonsAreNotAdvisedAPriceOfLateness(t *testing.T) {
	s := nineJobs(t)
	s.Plans[0].Made.Plan.Late = 0
	assert.Equal(t, ", which has no price in this file: late says one", s.unpriced())
	s.Plans[0].Made.Plan.Weeks = []string{"week 1"}
	assert.Equal(t, ", which has no price in a season", s.unpriced())
}

// What is chosen for a service: whether it is certain, whether all was tried, and, if nothing has it, what
// comes nearest and what is cheapest.
func TestPlansChoiceInWords(t *testing.T) {
	s := nineJobs(t)
	s.Service, s.Chosen, s.Nearest, s.Cheapest = 0.9, 0, -1, -1
	var dated []*study.PlansJob
	for _, j := range s.Plans[0].Jobs() {
		if j.InTime != nil {
			dated = append(dated, j)
			*j.InTime = study.PlansOften{Share: 1, Low: 0.95, High: 1}
		}
	}
	assert.Contains(t, s.Finding(), "Each date is kept with a probability of 90 % without anything that is optional. All dates")
	s.Bought = []study.PlansPrice{{Name: "temp", Each: 210, Times: 3, Per: "day"}}
	assert.Contains(t, s.Finding(), "Temp was bought with the plan that was promised, and stays: 630, which no cost below has in it. "+
		"Each date is kept with a probability of 90 % with what is bought, without anything more that is optional. All dates")
	s.Bought, s.Open = nil, []string{"temp", "Saturday morning"}
	assert.Contains(t, s.Finding(), "No choice had the service in the plan that was promised: temp and Saturday morning, which came nearest, is not taken as bought, and what was promised is its base. "+
		"If it was bought, say so: --set plan.staff.temp.optional=false --set 'plan.staff.Saturday morning.optional=false'. Each date")
	s.Open = nil
	dated[0].InTime.Low = 0.85
	assert.Contains(t, s.Finding(), "With 10 replications that is not certain: the interval of "+dated[0].Name+" reaches below 90 %. ")
	s.Settings.Partial = true
	assert.Contains(t, s.Finding(), "Not all choices were tried, only the base. Of those that were, the cheapest choice that keeps each date with a probability of 90 % is the base: 0 for")
	s.Settings.Partial = false
	s.Chosen, s.Nearest, s.Cheapest = -1, 0, 0
	assert.Contains(t, s.Finding(), "No choice among those that are optional keeps each date with a probability of 90 %. None is shown to come nearer than the base, which is the cheapest: 0 for")
	more := s.Plans[0]
	more.Name = "with more"
	s.Plans, s.Nearest = append(s.Plans, more), 1
	assert.Contains(t, s.Finding(), "“with more” comes nearest: 0 for")
	assert.Contains(t, s.Finding(), "The cheapest is the base: 0 for")
	assert.Equal(t, "with more", s.shown().Name)
	s.Plans[1].Cost, s.Plans[1].Prices = 560, []study.PlansPrice{{Name: "temp", Each: 180, Times: 3, Per: "day"}, {Name: "night", Each: 20, Times: 1}}
	assert.Contains(t, s.Finding(), "comes nearest: 560 for what is chosen (temp, 3 days at 180; night, 20) and")
}

// A job without a date has no share of dates kept: no cell, no row and no figure says 100 %.
func TestPlansWithoutDate(t *testing.T) {
	s := nineJobs(t)
	undated := 0
	kept := map[string]float64{}
	for _, row := range s.Jobs(s.shown()).Rows {
		kept[row[1].Text] = row[10].Number
	}
	for _, j := range s.shown().Jobs() {
		if j.Due == nil {
			undated++
			assert.Nil(t, j.InTime)
			assert.True(t, math.IsNaN(kept[j.Name]), j.Name)
			text, err := json.Marshal(j)
			require.NoError(t, err)
			assert.NotContains(t, string(text), "date_kept")
		}
	}
	assert.Equal(t, 1, undated)
}

// A date that no plan can keep is called so, with why.
func TestPlansHopelessInWords(t *testing.T) {
	s := nineJobs(t)
	assert.NotContains(t, s.Finding(), "by any plan")
	p := s.Plans[0].Made.Plan
	for i := range p.Jobs {
		if math.IsInf(float64(p.Jobs[i].Due), 1) {
			continue
		}
		was := p.Jobs[i]
		p.Jobs[i].NotBefore = was.Due + 2*3600
		assert.Contains(t, s.Finding(), "The date of "+was.Name+" cannot be kept by any plan: it may not begin before "+s.Moment(study.PlansMoment{At: was.Due + 2*3600})+", and is due "+s.Moment(study.PlansMoment{At: was.Due})+". ")
		p.Jobs[i] = was
		p.Jobs[i].Sets = 10_000_000
		assert.Regexp(t, "The date of "+was.Name+" cannot be kept by any plan: at full speed, without a stop, the fastest line takes [0-9,.]+ h of working time for its sets, and there are [0-9.]+ h until ", s.Finding())
		return
	}
}

// Where no job has a date no service is said to be kept.
func TestPlansServiceWithoutDates(t *testing.T) {
	s := nineJobs(t)
	s.Service, s.Chosen, s.Nearest, s.Cheapest = 0.9, 0, -1, -1
	for _, j := range s.Plans[0].Jobs() {
		j.Due, j.InTime = nil, nil
	}
	text := s.Finding()
	assert.Contains(t, text, "No job has a date: none can be kept with a probability of 90 %, and nothing is chosen for it. ")
	assert.NotContains(t, text, "is kept with a probability")
}

// A sheet of paper has room for so much of a finding: the rest is in the appendix, and nothing is lost.
func TestPlansFindingOnSheet(t *testing.T) {
	finding := "All is well. " + strings.Repeat("This is one of many sentences. ", 40) + "The last job is finished."
	answer, rest := headAndBody(finding)
	head, body, _ := strings.Cut(answer, "\n\n")
	assert.LessOrEqual(t, len(head), mostHead)
	assert.LessOrEqual(t, len(body), mostBody+len(" More is in the appendix."))
	assert.Equal(t, finding, head+" "+strings.TrimSuffix(body, "More is in the appendix.")+rest)
	answer, rest = headAndBody("All dates are kept. The last job is finished by noon. It is so.")
	assert.Equal(t, "All dates are kept.\n\nThe last job is finished by noon. It is so.", answer)
	assert.Empty(t, rest)
	answer, _ = headAndBody("One sentence.")
	assert.Equal(t, "One sentence.", answer)
}
