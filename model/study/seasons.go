package study

import (
	"context"
	"errors"
	"fmt"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/model/worth"
	"netrate/sim"
	"netrate/sim/tape"
)

// Seasons asks whether the work of each week of a season is done when the week ends, in each of
// some configurations, with common random numbers.
type Seasons struct {
	Configurations []SeasonsConfiguration // the first is the base
	Service        float64                // the share of the seasons in which all weeks shall be done in time; 0 if it is not asked for
	Plan           sim.Plan               // of the base; the others run as many seasons as it did
}

// SeasonsConfiguration is one way to do the work.
type SeasonsConfiguration struct {
	Name    string
	Changes []string // from the base, in words
	Season  *seasons.Season
	Costs   *worth.Costs // what its season costs is part of the answer; nil if it is not
}

// Check returns what is wrong with the seasons, all of it.
func (q *Seasons) Check() error {
	if len(q.Configurations) == 0 {
		return errors.New("no season is asked about")
	}
	var errs []error
	for _, c := range q.Configurations {
		if err := c.Season.Check(); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", c.Name, err))
		}
	}
	return errors.Join(errs...)
}

// mostJobs is how many jobs of all seasons and configurations are kept: 0.8 GB.
const mostJobs = 25_000_000

// within returns an error if the seasons have more jobs than can be kept.
func (q *Seasons) within() error {
	jobs := 0
	for _, c := range q.Configurations {
		for _, w := range c.Season.Weeks {
			for _, sets := range w.Sets {
				jobs += min(1, int(sets)) // never below 0, which Check sees
			}
			if c.Costs != nil { // what it uses is kept too, and what it costs
				jobs += 3
			}
		}
	}
	return sim.AtMostKept(mostJobs, jobs, "job", q.Plan.Max, "season")
}

// Ask runs the base as long as the plan asks, and then as many seasons of each other
// configuration. It calls told, if there is one, after each season. When ctx is done first, the
// answer holds the configurations that were finished, and the base as far as it came; if it has
// no season at all, there are none.
func (q *Seasons) Ask(ctx context.Context, told func(Sofar[SeasonsAnswer])) (*SeasonsAnswer, error) {
	if err := q.Check(); err != nil {
		return nil, err
	}
	if err := q.within(); err != nil {
		return nil, err
	}
	r := &seasonsRun{question: q, told: told}
	for i := range q.Configurations {
		c, err := changeoversOf(&q.Configurations[i])
		if err != nil {
			return nil, err
		}
		r.changeovers = append(r.changeovers, c)
	}
	plan := q.Plan
	var elsewhere tape.Elsewhere
	for i := range q.Configurations {
		season := *q.Configurations[i].Season
		season.Draws = true
		if costs := q.Configurations[i].Costs; costs != nil {
			season.Priced = costs.Piece
		}
		study, err := seasons.RunSeason(elsewhere.Next(ctx), &season, plan, r.watch())
		if plan.Precision == 0 { // else the base decides how many seasons the others have
			err = elsewhere.Keep(err)
		}
		switch {
		case err == nil && study == nil:
			continue
		case err != nil:
			return nil, err
		case i > 0 && study.Ending == sim.Cancelled: // it could not be set against the others
			return q.answer(r.studies, r.changeovers), nil
		}
		r.studies = append(r.studies, study)
		r.before += study.Done
		if study.Ending == sim.Cancelled {
			break
		}
		plan.Min, plan.Max, plan.Precision = study.Done, study.Done, 0
	}
	if err := elsewhere.Err(); err != nil {
		return nil, err
	}
	return q.answer(r.studies, r.changeovers), nil
}

// basis returns what the answer rests on: each season is a draw.
func (q *Seasons) basis(done int) Basis {
	var lines []*model.Line
	for _, c := range q.Configurations {
		lines = append(lines, &model.Line{UncertainInputs: c.Season.Uncertain()})
	}
	b := basisOf(OnDraws, lines...)
	if b.Inputs > 0 {
		b.Draws, b.Each = done, 1
	}
	return b
}

// seasonsRun is a question while it is worked on.
type seasonsRun struct {
	question    *Seasons
	changeovers []seasonsChangeovers
	studies     []*seasons.SeasonStudy // finished
	before      int                    // their seasons
	told        func(Sofar[SeasonsAnswer])
}

// watch returns what is called after each season of the configuration at hand.
func (r *seasonsRun) watch() func(int, *seasons.SeasonStudy) {
	if r.told == nil {
		return nil
	}
	q := r.question
	return func(replication int, soFar *seasons.SeasonStudy) {
		r.told(Sofar[SeasonsAnswer]{
			Done: r.before + replication + 1, Most: q.Plan.Max * len(q.Configurations),
			Answer: func() *SeasonsAnswer {
				studies := r.studies
				if len(studies) == 0 {
					studies = []*seasons.SeasonStudy{soFar.Kept()}
				}
				return q.answer(studies, r.changeovers)
			},
			Season: func() []SeasonsRow {
				return q.rows(len(r.studies), soFar, replication)
			},
		})
	}
}

// seasonsChangeovers is how long the changeovers of a season take on the average.
type seasonsChangeovers struct {
	given, best sim.Seconds // in the order given and in the best
}

func changeoversOf(c *SeasonsConfiguration) (t seasonsChangeovers, err error) {
	ordered := *c.Season
	ordered.Best = false
	if t.given, err = ordered.ChangeTime(); err != nil {
		return t, fmt.Errorf("%s: %w", c.Name, err)
	}
	ordered.Best = true
	if t.best, err = ordered.ChangeTime(); err != nil {
		return t, fmt.Errorf("%s: %w", c.Name, err)
	}
	return t, nil
}
