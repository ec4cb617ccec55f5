package seasons

import (
	"errors"
	"fmt"
	"slices"

	"netrate/model"
	"netrate/model/setup"
	"netrate/sim"
)

// checkStaff returns what is wrong with who is there.
func (s *Season) checkStaff() (errs []error) {
	if !s.byShift() {
		return s.Calendar.unknown(&s.Line.Crew)
	}
	errs = s.Calendar.unknown(&s.Line.Crew)
	for _, x := range s.Staff {
		if x.Operators < 1 && x.Operators != AsElse {
			errs = append(errs, fmt.Errorf("%s has %d operators, want 1 or more: a shift in which nobody works is left out of the calendar", x.Name, x.Operators))
		}
	}
	if len(errs) == 0 && len(s.Calendar.Check()) == 0 {
		s.Calendar.eachShift(min(len(s.Weeks), MostWeeks), func(of shiftOf, windows []Window) {
			there := present(&s.Line.Crew, s.Staff, of.Week, of.Day, of.Shift)
			switch {
			case len(errs) > 0:
			case there.there() == 0:
				errs = append(errs, fmt.Errorf("all are absent in week %d, day %d, shift %d: a shift in which nobody works is left out of the calendar", of.Week, of.Day, of.Shift))
			case !slices.Equal(attended(there.parts(windows, s.Calendar.rests(&s.Line.Crew, of))), windows):
				errs = append(errs, errAllRest(of))
			}
		})
	}
	if len(s.Weeks) > MostWeeks && s.StaffVaries() {
		errs = append(errs, fmt.Errorf("the season has %d weeks, and it is said who is there in some shifts, or who has a break alone, which is for at most %d", len(s.Weeks), MostWeeks))
	}
	if s.Line.Crew.Varies() {
		errs = append(errs, errors.New("the crew changes within a shift, or has breaks, or part of an operator: where it is said who is there by shift, or what each may do, say so under staff, and put breaks into the calendar, with who for those of one alone"))
	}
	return errs
}

// StaffVaries reports whether it depends on the time how many are there.
func (s *Season) StaffVaries() bool { return len(s.Staff) > 0 || s.Calendar.HasOwnBreaks() }

// byShift reports whether it depends on the shift who is there, or on the person what he does.
func (s *Season) byShift() bool { return len(s.Staff) > 0 || s.Line.Crew.People != nil }

// staffing returns who is there, by working time.
func (s *Season) staffing() []model.Staffing {
	return NewHorizon(s.Calendar, &s.Line.Crew, s.Staff, 0).staffing()
}

// OperatorHours returns the hours of all operators in the working time of all weeks.
func (s *Season) OperatorHours() float64 {
	if !s.StaffVaries() {
		return s.Line.Crew.Mean(0) * float64(s.Calendar.Working()) / 3600 * float64(len(s.Weeks))
	}
	sum := sim.Seconds(0)
	for _, hours := range s.staffed() {
		sum += hours
	}
	return float64(sum) / 3600
}

// OperatorHoursOf returns the hours of all operators in the working time of each week.
func (s *Season) OperatorHoursOf() []float64 {
	all := make([]float64, len(s.Weeks))
	for w := range all {
		all[w] = s.Line.Crew.Mean(0) * float64(s.Calendar.Working()) / 3600
	}
	if s.StaffVaries() {
		for w, hours := range s.staffed() {
			all[w] = float64(hours) / 3600
		}
	}
	return all
}

// staffed returns for how long operators are there in each week, where it depends on the shift how many.
func (s *Season) staffed() []sim.Seconds {
	all := make([]sim.Seconds, len(s.Weeks))
	windows, operators := NewHorizon(s.Calendar, &s.Line.Crew, s.Staff, 0).Windows(sim.Seconds(len(s.Weeks)) * week)
	for i, w := range windows {
		all[min(int(w.From/week), len(all)-1)] += sim.Seconds(sim.Seconds(operators[i]) * (w.To - w.From))
	}
	return all
}

// staffedRunner runs replications of a season in which it depends on the shift who is there: all its jobs
// in one go, since a shift may change within any. Each has the random numbers that it would have by itself.
type staffedRunner struct {
	plan  *seasonPlan
	seed  uint64
	sim   *model.GroupAtJobsSim
	items [][]setup.Item   // of the changeover before each job, as a crew takes them
	waits []Barred         // when nobody may do that; nil unless people are stated
	work  [][]model.JobRun // of the one line
}

func (p *seasonPlan) staffedRunner(seed uint64) *staffedRunner {
	r := &staffedRunner{plan: p, seed: seed, work: [][]model.JobRun{make([]model.JobRun, len(p.jobs))}}
	number, made := make([]int, len(p.setups)), 0
	for i := range p.setups {
		if p.setups[i] != nil {
			number[i], made = made, made+1
		}
	}
	from := -1
	for k, j := range p.jobs {
		r.work[0][k] = model.JobRun{
			Setup: number[j.Product], Sets: j.Sets, NotBefore: sim.Seconds(sim.Seconds(j.Week) * p.hours), Stays: p.stays[from+1][j.Product],
		}
		items := slices.Clone(p.items[from+1][j.Product])
		setup.LongestFirst(items)
		if p.Line.Crew.People != nil {
			r.work[0][k].ChangeAt = stationsOf(items)
			r.waits = append(r.waits, barredAt(&p.Line.Crew, p.staffing(), p.Line.Name, r.work[0][k].ChangeAt))
		}
		r.items, from = append(r.items, items), j.Product
	}
	return r
}

// make makes the line ready, with what is uncertain as a draw has it.
func (r *staffedRunner) make(draw int) (err error) {
	p := r.plan
	g := &model.GroupAtJobs{Names: []string{p.Line.Name}, Setups: make([][]*model.Line, 1), Crew: p.Line.Crew, Staff: p.staffing()}
	for _, made := range p.setups {
		if made != nil {
			line := p.drawn(made, r.seed, draw)
			g.Setups[0], g.Crew = append(g.Setups[0], line), line.Crew
			g.Crew.People = p.Line.Crew.People // of all stations
		}
	}
	r.sim, err = model.NewGroupAtJobs(g)
	return p.impossible(draw, err)
}

// run runs one replication.
func (r *staffedRunner) run(replication int, out *seasonRun) error {
	p := r.plan
	if p.varies {
		if err := r.make(replication); err != nil {
			return err
		}
	}
	for k, j := range p.jobs {
		x := &r.work[0][k]
		x.Replication = replication*len(p.Weeks) + j.Week
		x.Change, x.Automatic = x.Change[:0], 0
		for _, item := range r.items[k] {
			random := sim.NewStream(item.Name, "changeover")
			random.Seed(r.seed, replication*len(p.jobs)+k)
			if time := item.Time.Draw(random); item.Automatic {
				x.Automatic = max(x.Automatic, time)
			} else {
				x.Change = append(x.Change, time)
			}
		}
	}
	if err := r.sim.Run(r.seed, r.work); err != nil {
		return err
	}
	out.begin(p)
	for k := range r.work[0] {
		x := &r.work[0][k]
		out.change, out.length = append(out.change, x.First-x.Begun), append(out.length, x.Free-x.First)
		if r.waits != nil {
			_, before := r.waits[k].Waits(x.Begun, x.First)
			out.waits = append(out.waits, before)
		}
		if p.Closing.Closing == model.Beside {
			out.bench = append(out.bench, x.Finished-x.Free)
		}
		out.counts(p, k, &x.Outcome)
	}
	return nil
}
