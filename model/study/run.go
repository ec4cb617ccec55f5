package study

import (
	"context"
	"errors"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// Run asks how many good envelopes an hour one line delivers, and where the rest goes.
type Run struct {
	Alternative Alternative // a single line
	Plan        sim.Plan
	Draws       int        // of what is uncertain; 0 for none, else [UncertaintyLeast] or more
	Scenes      bool       // the answer has them, too
	Kept        *RunAnswer // an earlier answer to the question, whose replications are kept; nil for none
}

// RunAnswer is what a line came to. All figures but the net rate are means of a shift or, of a
// job, of all that it took.
type RunAnswer struct {
	Settings    Settings       `json:"settings"`
	Basis       Basis          `json:"rests_on"` // what all figures rest on, but the sum on paper and what says that it is at nominal values
	NetRate     NetRate        `json:"net_rate"`
	Target      *TargetMet     `json:"target,omitempty"`                     // nil without one
	AtNominal   *NetRate       `json:"net_rate_at_nominal_values,omitempty"` // where draws lead
	OnPaper     OnPaper        `json:"on_paper"`
	Time        RunTime        `json:"time"`
	Sets        RunSets        `json:"sets"`
	Stations    []RunStation   `json:"stations"`
	Crew        RunCrew        `json:"crew"`
	Exposure    *Exposure      `json:"exposure"`
	Remakes     *Mean          `json:"remakes,omitempty"`        // of a personalised line
	Job         *RunJob        `json:"job,omitempty"`            // nil of a shift
	Notable     *NotableShifts `json:"notable_shifts,omitempty"` // at nominal values, by the numbers that [Trace] takes; nil of a job
	Uncertainty *Uncertainty   `json:"uncertainty,omitempty"`    // nil if nothing is uncertain, or it was not drawn

	Scenes *Scenes `json:"scenes,omitempty"` // if they are asked for; not in an answer so far

	Line    *model.Line            `json:"-"`
	Study   *runs.Study            `json:"-"` // that leads: of the draws, or else at nominal values
	Nominal *runs.Study            `json:"-"` // the replications at nominal values
	Draws   *runs.UncertaintyStudy `json:"-"`
}

// RunTime is where the time of a line goes, in seconds.
type RunTime struct {
	Shift      Number `json:"shift_s"`
	Running    Mean   `json:"running_s"`
	Waiting    Mean   `json:"waiting_s"` // for an operator
	Working    Mean   `json:"working_s"`
	Restarting Mean   `json:"restarting_s"`
	Starved    Mean   `json:"channel_too_slow_s"`
	Breaks     *Mean  `json:"breaks_s,omitempty"` // that the line stands for; of a crew that has such

	Slow *RunSlow `json:"slow_cycles_s,omitempty"` // of the running time, on a line that has them
}

// RunSlow is what slow cycles take beyond others, in seconds.
type RunSlow struct {
	All      Mean   `json:"all"`
	Starting Number `json:"starting"`
	AfterJam Number `json:"after_jam"`
	Repeated Number `json:"repeated"` // while the crew lets the line run slower
}

// runSlow returns what slow cycles took in a replication; nil on a line without them.
func runSlow(s *runs.Study) *RunSlow {
	if !s.Line.Slow.Given() {
		return nil
	}
	n, t := sim.Seconds(len(s.Shifts)), &s.Total.Time.Slow
	return &RunSlow{
		All:      MeanIn(s, func(s *runs.Shift) float64 { return s.Slow }),
		Starting: Number(t.Starting / n), AfterJam: Number(t.AfterJam / n), Repeated: Number(t.Repeated / n),
	}
}

// RunSets is where the sets go.
type RunSets struct {
	CanBeDefective bool `json:"can_be_defective"`
	Defective      Mean `json:"defective"` // but delivered
	Diverted       Mean `json:"diverted"`
	Good           Mean `json:"good"`
	OnLine         Mean `json:"on_line"`
	Outsorted      Mean `json:"outsorted"`
	Spoiled        Mean `json:"spoiled"`
	Started        Mean `json:"started"`
}

// RunJob is how a job was brought to its end, means but for the quantiles.
type RunJob struct {
	Sets    int64  `json:"sets"`
	Closing string `json:"remakes_closed"` // open, second pass, by hand or beside the line
	Finish  Mean   `json:"finish_h"`
	P5      Number `json:"finish_p5_h"`
	P50     Number `json:"finish_p50_h"`
	P95     Number `json:"finish_p95_h"`
	Passes  Number `json:"passes"`
	ByHand  Number `json:"by_hand"` // remakes
	Setup   Number `json:"setup_s"`
	Hand    Number `json:"by_hand_s"` // once the line is done
}

// Ask runs the replications, and draws what is uncertain. After each replication and each draw it
// calls told, if there is one.
//
// When ctx is cancelled the answer is of what was done by then; it is nil if no replication was.
// The answer is the same bit for bit for any number of workers.
func (q Run) Ask(ctx context.Context, told func(Sofar[RunAnswer])) (*RunAnswer, error) {
	if q.Alternative.Line == nil || q.Alternative.Group != nil {
		return nil, errors.New("a run is of one line; several with one crew are a group run")
	}
	all := []*tried{{Alternative: &q.Alternative}}
	if q.Kept != nil {
		if err := all[0].keep(q.Kept.Nominal, q.Plan.Seed); err != nil {
			return nil, err
		}
	}
	a, err := askAlone(ctx, all, q.Plan, q.Draws, told, runAnswer)
	if a == nil || err != nil {
		return a, err
	}
	if err := a.Target.winBack(ctx, a.Study, a.Basis, q.Alternative.Line, q.Plan.Workers); err != nil || !q.Scenes {
		return a, err
	}
	x, err := scenes(a.Study)
	if err != nil {
		return nil, err
	}
	a.Scenes = &x
	return a, nil
}

func runAnswer(t *tried) *RunAnswer {
	a := RunAnswerOf(t.study, t.draws)
	a.Target = metBy(a.Study, t.Target)
	if t.Costs != nil {
		a.Exposure.at(t.Costs.Volume.Mean())
	}
	return a
}

// RunAnswerOf returns what a line came to: its study at nominal values, with a replication at
// least, and what was drawn of it; nil if nothing was.
func RunAnswerOf(nominal *runs.Study, draws *runs.UncertaintyStudy) *RunAnswer {
	s := nominal
	if draws != nil {
		s = draws.Study
	}
	of := func(figure func(*runs.Shift) float64) Mean { return MeanIn(s, figure) }
	a := &RunAnswer{
		Settings: SettingsOf(nominal.Plan, len(nominal.Shifts), nominal.Ending).leadBy(draws),
		Basis:    basisOf(OnNominal, s.Line).drawn(draws),
		NetRate:  NetRateOf(s),
		OnPaper:  OnPaperOf(s.Line),
		Time: RunTime{
			Shift:      Number(s.Line.Shift),
			Running:    of(func(s *runs.Shift) float64 { return s.Running }),
			Waiting:    of(func(s *runs.Shift) float64 { return s.Waiting }),
			Working:    of(func(s *runs.Shift) float64 { return s.Working }),
			Restarting: of(func(s *runs.Shift) float64 { return s.Restarting }),
			Starved:    of(func(s *runs.Shift) float64 { return s.Starved }),
		},
		Sets: RunSets{
			CanBeDefective: s.Line.CanLeak() || s.Total.Sets.Defective > 0, // whatever its stations say
			Defective:      of(func(s *runs.Shift) float64 { return s.Defective }),
			Diverted:       of(func(s *runs.Shift) float64 { return s.Diverted }),
			Good:           of(func(s *runs.Shift) float64 { return s.Good }),
			OnLine:         of(func(s *runs.Shift) float64 { return s.OnLine }),
			Outsorted:      of(func(s *runs.Shift) float64 { return s.Outsorted }),
			Spoiled:        of(func(s *runs.Shift) float64 { return s.Spoiled }),
			Started:        of(Started),
		},
		Exposure: ExposureOf(s), Crew: runCrew(s), Uncertainty: UncertaintyOf(draws),
		Line: s.Line, Study: s, Nominal: nominal, Draws: draws,
	}
	a.OnPaper.Difference = PaperGapOf(nominal)
	if draws != nil {
		a.AtNominal = new(NetRateOf(nominal))
	}
	a.Time.Slow = runSlow(s)
	if s.Line.Crew.StandsForBreaks() {
		a.Time.Breaks = new(of(func(s *runs.Shift) float64 { return s.Breaks }))
	}
	if s.Line.Personalised() {
		a.Remakes = new(of(func(s *runs.Shift) float64 { return s.Remakes }))
	}
	if s.Line.Job.Sets > 0 {
		a.Job = runJob(s)
	} else {
		a.Notable = new(NotableShiftsOf(nominal))
	}
	for i := range s.Total.Stations {
		a.Stations = append(a.Stations, runStation(s, i))
	}
	return a
}

func runJob(s *runs.Study) *RunJob {
	n, j, times := replications(len(s.Shifts)), &s.Total.Job, s.Sample(Finish)
	return &RunJob{
		s.Line.Job.Sets, s.Line.Job.Closing.String(), MeanOf(s.IntervalOf(times, Level)),
		Number(times.Quantile(0.05)), Number(times.Quantile(0.5)), Number(times.Quantile(0.95)),
		n.of(j.Passes), n.of(j.ByHand), n.time(j.Setup), n.time(j.Hand),
	}
}
