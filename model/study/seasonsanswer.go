package study

import (
	"netrate/model/seasons"
	"netrate/sim"
	"netrate/sim/output"
)

// SeasonsAnswer is what seasons came to. Where it names a configuration it gives its index among
// the lines.
type SeasonsAnswer struct {
	Basis    Basis    `json:"rests_on"`
	Settings Settings `json:"settings"` // of the base; partial also if other configurations are missing

	Service *SeasonsService `json:"service,omitempty"` // nil if it is not asked for
	Lines   []SeasonsLine   `json:"lines"`             // of each configuration that was simulated, the base first

	MostOften []int `json:"most_often_in_time"` // those that have all weeks done in time most often
	Other     int   `json:"set_against_base"`   // what is set against the base: the smallest with the service, else the first that is in time most often; where none ever is, the one that needs least overtime
	Asked     int   `json:"configurations"`     // configurations that were asked about

	Cheapest *Index `json:"cheapest,omitempty"` // the line whose season costs least in the mean; nil unless all have costs in one currency
}

// SeasonsService is which configurations have all weeks done in time as often as asked.
type SeasonsService struct {
	Asked Number `json:"asked"`              // share of the seasons
	Name  string `json:"smallest,omitempty"` // of the smallest; "" if none has it

	Smallest Index `json:"smallest_line"`              // the one with the fewest operators, the first of equals
	Cheapest Index `json:"fewest_operator_hours_line"` // of those that have it
	Open     []int `json:"open_lines,omitempty"`       // those for which as many seasons do not settle it: the smallest, and smaller ones
}

// SeasonsLine is what the season came to in one configuration.
type SeasonsLine struct {
	Name         string        `json:"name"`
	Changes      []string      `json:"changes,omitempty"` // from the base, in words
	Operators    Number        `json:"operators"`         // in the mean
	Staffed      bool          `json:"staffed_by_shift"`  // they are not as many in all shifts
	Order        string        `json:"order"`             // of the jobs of a week: given or best
	JobsBegin    string        `json:"jobs_begin"`        // with what
	Hours        Number        `json:"working_time_h"`    // of a week
	Work         SeasonsSpread `json:"work_h"`            // of all weeks
	InTime       SeasonsInTime `json:"all_weeks_in_time"`
	ChangesGiven Number        `json:"changeovers_as_given_h"` // of the whole season, in the mean
	ChangesBest  Number        `json:"changeovers_in_best_order_h"`
	Weeks        []SeasonsWeek `json:"weeks"`
	Jobs         []SeasonsJob  `json:"jobs"` // in the order in which they are done

	Paid        Number               `json:"operator_h"`            // operator hours of a week
	Overtime    SeasonsSpread        `json:"overtime_h"`            // of all weeks
	Changing    Number               `json:"changeover_h_per_week"` // in the mean
	Changeovers Number               `json:"changeovers_per_week"`
	ByHand      Number               `json:"remakes_by_hand_h"`    // hours of people, not of the crew, in the whole season, in the mean
	NotRemade   []string             `json:"not_remade,omitempty"` // jobs without remakes, being not personalised, where those of others are made again
	Tightest    int                  `json:"tightest_week"`        // the week that is in time least often, and of equals the one with most work
	Fullest     Index                `json:"fullest_week"`         // the week at whose end most is left in the median; none if nothing is
	Unattended  []SeasonsUnattended  `json:"unattended,omitempty"` // by shift: what nobody may do who is there
	Median      int                  `json:"median_season"`        // the replication whose work is nearest to the median
	LateSets    Number               `json:"late_sets"`            // of all jobs, not done when their week ends, without overtime, in the mean
	Lacks       Number               `json:"not_delivered"`        // sets of which no envelope is delivered, good or not, in the mean: what is lost and not made again
	Waits       Number               `json:"waits_h,omitempty"`    // of the work of all weeks, for somebody who may change over, in the mean
	Standing    Number               `json:"standing_h"`           // of the work of all weeks, while remakes are made by hand and the line waits, in the mean
	Costs       *SeasonsCosts        `json:"costs,omitempty"`      // nil if the file has none
	Study       *seasons.SeasonStudy `json:"-"`
}

// SeasonsInTime is how often the work is done in time.
type SeasonsInTime struct {
	Share Number `json:"share"`
	Low   Number `json:"low"` // its exact interval
	High  Number `json:"high"`
	Level Number `json:"level"`
}

// SeasonsWeek is one week.
type SeasonsWeek struct {
	Name     string        `json:"name"`
	Sets     int64         `json:"sets"`
	Work     SeasonsSpread `json:"work_h"`
	Standing Number        `json:"standing_h"` // of it, while remakes are made by hand and the line waits, in the mean
	InTime   Number        `json:"in_time"`    // share of the seasons
	Overtime SeasonsSpread `json:"overtime_h"`
	Backlog  SeasonsSpread `json:"backlog_sets"` // left at its end without overtime
}

// SeasonsJob is one job.
type SeasonsJob struct {
	Week     int           `json:"week"` // from 1
	Name     string        `json:"name"`
	Sets     int64         `json:"sets"`
	Change   SeasonsSpread `json:"changeover_h"`
	Waits    Number        `json:"waits_h,omitempty"` // of the line before that begins, for somebody who may change over, in the mean
	Run      SeasonsSpread `json:"run_h"`             // from its first set until it is finished, without standing
	Standing Number        `json:"standing_h"`        // of the line, while its remakes are made by hand, in the mean
	Finished SeasonsSpread `json:"finished_h"`        // of working time from the start of the season, without overtime
	Median   SeasonsMoment `json:"finished_median"`
	P90      SeasonsMoment `json:"finished_p90"`

	InTime   Number `json:"in_time"`       // share of the seasons in which it is finished in its week
	LateSets Number `json:"late_sets"`     // of it, not done when its week ends, without overtime, in the mean
	Lacks    Number `json:"not_delivered"` // sets of it of which no envelope is delivered, good or not, in the mean
}

// SeasonsSpread is the mean of a figure with the half-width of its interval, and percentiles of
// single seasons. Where what is uncertain is drawn the interval is that of 95 % of the seasons, chance
// included: that of the mean would be narrower than what is known.
type SeasonsSpread struct {
	Mean Number `json:"mean"`
	Half Number `json:"half"`
	P50  Number `json:"p50"`
	P90  Number `json:"p90"`
	P99  Number `json:"p99"`
}

// Estimate returns the mean with its interval.
func (s SeasonsSpread) Estimate() sim.Estimate {
	return sim.Estimate{Mean: float64(s.Mean), Half: float64(s.Half), Level: Level}
}

func seasonsSpread(s sim.Sample, drawn bool) SeasonsSpread {
	e := s.Interval(Level)
	if drawn {
		e.Half = (s.Quantile((1+Level)/2) - s.Quantile((1-Level)/2)) / 2
	}
	return SeasonsSpread{Number(e.Mean), Number(e.Half), Number(s.Quantile(0.5)), Number(s.Quantile(0.9)), Number(s.Quantile(0.99))}
}

// answer returns what the studies came to, the first of which is that of the base.
func (q *Seasons) answer(studies []*seasons.SeasonStudy, changeovers []seasonsChangeovers) *SeasonsAnswer {
	base := studies[0]
	a := &SeasonsAnswer{Asked: len(q.Configurations), Settings: SettingsOf(q.Plan, base.Done, base.Ending), Basis: q.basis(base.Done)}
	if a.Settings.Partial = a.Settings.Partial || len(studies) < a.Asked; base.Done == 0 {
		return a
	}
	for i, s := range studies {
		x := seasonsLine(&q.Configurations[i], s, changeovers[i])
		if x.Costs = q.seasonsCosts(&q.Configurations[i], s); i > 0 {
			x.Costs.against(a.Lines[0].Costs)
		}
		a.Lines = append(a.Lines, x)
	}
	if n := a.cheapest(); n >= 0 {
		a.Cheapest = &n
	}
	a.judge(q.Service)
	return a
}

func seasonsLine(c *SeasonsConfiguration, s *seasons.SeasonStudy, t seasonsChangeovers) SeasonsLine {
	x := SeasonsLine{
		Name: c.Name, Changes: c.Changes, Operators: Number(c.Season.Line.Crew.Mean(0)), Staffed: c.Season.StaffVaries(), Order: "given", Hours: Number(s.Hours),
		JobsBegin:    c.Season.Begins.String(),
		ChangesGiven: Number(t.given / 3600), ChangesBest: Number(t.best / 3600), Study: s, NotRemade: c.Season.NotRemade(), Unattended: seasonsUnattended(c.Season),
	}
	drawn := len(c.Season.Uncertain()) > 0
	if c.Season.Best {
		x.Order = "best"
	}
	if x.Paid = Number(float64(x.Operators) * s.Hours); x.Staffed {
		x.Paid = Number(c.Season.OperatorHours() / float64(len(c.Season.Weeks)))
		x.Operators = x.Paid / Number(s.Hours)
	}
	if rate := c.Season.Closing.PerHour; c.Season.Closing.Closing.Manual() {
		x.ByHand = Number(float64(s.Total.Job.ByHand) / rate / float64(s.Done))
	}
	x.Work = seasonsSpread(x.Works(), drawn)
	x.Overtime = seasonsSpread(x.sum(func(w *seasons.SeasonWeek) sim.Sample { return w.Overtime }), drawn)
	x.InTime = x.inTime()
	for i := range s.Weeks {
		w := &s.Weeks[i]
		week := SeasonsWeek{Name: c.Season.Weeks[i].Name, InTime: Number(w.InTime())}
		for _, sets := range c.Season.Weeks[i].Sets {
			week.Sets += sets
		}
		week.Work, week.Overtime, week.Backlog = seasonsSpread(w.Work, drawn), seasonsSpread(w.Overtime, drawn), seasonsSpread(w.Backlog, drawn)
		x.Weeks = append(x.Weeks, week)
	}
	clock := c.Season.Calendar.Clock()
	for _, j := range s.Jobs {
		one := seasonsJob(c.Season, clock, j, s.Hours, drawn)
		x.LateSets, x.Lacks, x.Standing = x.LateSets+one.LateSets, x.Lacks+one.Lacks, x.Standing+one.Standing
		x.Waits += one.Waits
		x.Weeks[j.Week].Standing += one.Standing
		x.Jobs = append(x.Jobs, one)
	}
	x.extremes()
	return x
}

func seasonsJob(s *seasons.Season, clock *seasons.Clock, j seasons.SeasonJob, hours float64, drawn bool) SeasonsJob {
	x := SeasonsJob{
		Week: j.Week + 1, Name: s.Products[j.Product].Name, Sets: j.Sets,
		Change: seasonsSpread(j.Change, drawn), Run: seasonsSpread(j.Running(), drawn), Finished: seasonsSpread(j.Finished, drawn),
		LateSets: Number(j.Late / float64(len(j.Finished))), Lacks: Number(j.Lacks / float64(len(j.Finished))),
	}
	if j.Waits != nil {
		x.Waits = Number(j.Waits.Mean())
	}
	if j.Stood != nil {
		x.Standing = Number(j.Stood.Mean())
	}
	x.Median, x.P90 = SeasonsMomentOf(clock, float64(x.Finished.P50)), SeasonsMomentOf(clock, float64(x.Finished.P90))
	due, in := float64(x.Week)*hours, 0
	for _, finished := range j.Finished {
		if finished <= due {
			in++
		}
	}
	x.InTime = Number(float64(in) / float64(len(j.Finished)))
	return x
}

// inTime returns the share of the seasons in which every week was done when it ended.
func (x *SeasonsLine) inTime() SeasonsInTime {
	n := 0
	for r := range x.Study.Done {
		late := false
		for _, w := range x.Study.Weeks {
			late = late || w.Backlog[r] > 0
		}
		if !late {
			n++
		}
	}
	low, high := output.ExactInterval(int64(n), int64(x.Study.Done), Level)
	return SeasonsInTime{Number(float64(n) / float64(x.Study.Done)), Number(low), Number(high), Level}
}

// Works returns the hours that the work of all weeks takes, season by season.
func (x *SeasonsLine) Works() sim.Sample {
	return x.sum(func(w *seasons.SeasonWeek) sim.Sample { return w.Work })
}

func (x *SeasonsLine) sum(of func(*seasons.SeasonWeek) sim.Sample) sim.Sample {
	all := make(sim.Sample, x.Study.Done)
	for i := range x.Study.Weeks {
		for r, hours := range of(&x.Study.Weeks[i]) {
			all[r] += hours
		}
	}
	return all
}
