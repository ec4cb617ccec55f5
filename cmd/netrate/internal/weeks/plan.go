package weeks

import (
	"errors"
	"regexp"
	"strconv"
	"time"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// PlanVerb returns the verb plan.
func PlanVerb() desk.Verb {
	return desk.Verb{
		Name: "plan", Takes: "FILE", About: "say which line does which job, in which order, and how likely each date is",
		Simulates: true,
		More: `The jobs under plan are given to the lines of the file, put in order, and simulated with
the crew that is there. Up to 9 jobs the plan is the best on paper; of more it is searched
for, and a lower bound says how far off it can be. Each variant has a plan of its own. An
order that stands under plan is kept, and set against a plan without it.

--service 90% tries all combinations of what is optional under staff, and names the
cheapest with which each date is kept as often; what it costs is what is chosen and
lateness in the mean. Of what is paid by the day or shift, days that are not needed are
then left out.

--choose NAME plans with an item of what is optional in force, counts what it costs, and sets
the plan against the one without; it can be given several times.

--done takes a file of what is done, with the columns job, sets, line, where a line is at
the job, and remakes, where some of it lie at the bench; --now says when. What is left is
planned anew, and set against going on in the order as it was.

--promised takes the plan that holds until then: what --json wrote of it. What was chosen
in it for a service that it has stays chosen, its order is the one as it was, and its dates
are set against the new.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action { return newPlanFlags(flags).run },
	}
}

// planFlags is the command line of a plan.
type planFlags struct {
	*desk.LineFlags
	service             desk.Share
	done, now, calendar string
	promised            string
	choose              []string
}

func newPlanFlags(flags *pflag.FlagSet) *planFlags {
	o := &planFlags{LineFlags: &desk.LineFlags{
		Inputs:  desk.NewInputs("plan", flags, "use the example called `NAME` instead of a file", ""),
		Outputs: &desk.Outputs{},
	}}
	o.PlanFlags = desk.NewFixedPlanFlags(flags, "simulate exactly this number of replications of each plan (default 400)")
	flags.Var(&o.service, "service", "find the cheapest choice with which each date is kept with this probability: 90%")
	flags.StringArrayVar(&o.choose, "choose", nil, "plan with the optional item of staff called `NAME`; can be given several times")
	flags.StringVar(&o.done, "done", "", "plan what is left: a CSV `FILE` with the columns job, sets and line says what is done")
	flags.StringVar(&o.now, "now", "", "plan from this `TIME` on: \"2026-03-25 10:00\", or \"week 1 day 3 10:00\"")
	flags.StringVar(&o.promised, "promised", "", "set it against an earlier plan, whose choices stay: a `FILE` that plan --json wrote")
	flags.StringVar(&o.calendar, "calendar", "", "write the plan as an iCalendar `FILE`")
	desk.Reads(flags, "done", "promised")
	desk.Writes(flags, "calendar")
	o.AddJSON(flags, "print all figures as JSON instead")
	o.AddData(flags, "csv", "write a row for each job to `FILE`; - prints them instead")
	o.AddFiles(flags)
	return o
}

func (o *planFlags) run(e desk.Env, args []string) error {
	about, err := o.Subject(e, args)
	switch {
	case err != nil:
		return err
	case about.Plan == nil:
		return desk.Wrong("%s has no plan: add jobs under plan, or try netrate plan --example nine-jobs", desk.ShownFile(about.File))
	}
	return o.answer(e, about, func(s *scenarios.Shop) *scenarios.Plan { return s.Plan })
}

// answer makes the plans that are those of the base and its variants, and tells what they come to.
func (o *planFlags) answer(e desk.Env, about desk.Subject, of func(*scenarios.Shop) *scenarios.Plan) error {
	base := of(&about.Shop)
	starts, err := o.starts(base)
	if err != nil {
		return err
	}
	plan, err := o.Fixed(e, about.Run, desk.UsualReps)
	if err != nil {
		return err
	}
	question := newPlans(about, of, plan, float64(o.service))
	if err := o.chosen(question); err != nil {
		return err
	}
	if err := o.whatIsDone(e, base, question); err != nil {
		return err
	}
	if o.promised != "" {
		if question.Promised, err = readPromised(e, o.promised); err != nil {
			return err
		}
	}
	if err := question.Check(); err != nil {
		return desk.WrongPlan(about.Scenario, err)
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	var file *desk.OutFile
	if o.calendar != "" {
		if file, err = desk.Create(e, "calendar", o.calendar); err != nil {
			return err
		}
		defer file.Drop()
	}
	answer, ended := desk.Asked(e, "replication", question.Ask, func(a *study.PlansAnswer) study.Settings { return a.Settings })
	if answer == nil {
		return ended
	}
	s := present.Plans{PlansAnswer: answer, Origin: page.OriginOf(about), Plan: plan, Starts: starts, Made: e.Now(), Command: about.Again + o.said()}
	if to := o.Rows(); to != nil { // of a season, whose rows grow
		t := s.Rows()
		_ = t.WriteCSV(to) // delivering says it
	}
	errs := []error{ended, page.Tell(e, o.Outputs, s)}
	if file != nil {
		errs = append(errs, desk.Fill(file, s.WriteCalendar))
	}
	return errors.Join(errs...)
}

// said returns the flags that are not of how it is run.
func (o *planFlags) said() (text string) {
	if o.service > 0 {
		text += " --service " + o.service.String()
	}
	for _, name := range o.choose {
		text += " --choose " + desk.Quoted(name)
	}
	if o.done != "" {
		text += " --done " + desk.Quoted(o.done)
	}
	if o.now != "" {
		text += " --now " + desk.Quoted(o.now)
	}
	if o.promised != "" {
		text += " --promised " + desk.Quoted(o.promised)
	}
	return text
}

// starts returns when the first week begins, in its zone; the zero time if the file does not say.
func (o *planFlags) starts(p *scenarios.Plan) (time.Time, error) {
	switch {
	case o.calendar != "" && p.Starts.IsZero():
		return time.Time{}, desk.Wrong("--calendar wants dates: say under plan when week 1 starts")
	case o.calendar != "" && p.Zone == "":
		return time.Time{}, desk.Wrong("--calendar wants a time zone: say under plan which zone its times are in, such as zone: Europe/Paris")
	}
	return p.Midnight()
}

// newPlans returns the question for a scenario that has a plan.
func newPlans(about desk.Subject, of func(*scenarios.Shop) *scenarios.Plan, plan sim.Plan, service float64) *study.Plans {
	q := &study.Plans{Plan: plan, Service: service}
	add := func(name string, changes []string, shop *scenarios.Shop) {
		c := study.PlansConfiguration{Name: name, Changes: changes, Plan: of(shop).Plan, Costs: shop.Prices}
		q.Configurations = append(q.Configurations, c)
	}
	add(scenarios.BaseName, nil, &about.Shop)
	for i := range about.Variants {
		if v := &about.Variants[i]; of(&v.Shop) != nil {
			add(v.Name, v.Changes, &v.Shop)
		}
	}
	return q
}

// chosen puts what is chosen in force in the base, which is called by it.
func (o *planFlags) chosen(q *study.Plans) error {
	switch {
	case len(o.choose) == 0:
		return nil
	case o.service > 0:
		return desk.Wrong("--choose says what is chosen, and --service finds it: want one of them")
	case o.promised != "" || o.done != "" || o.now != "":
		return desk.Wrong("--choose is of the whole plan, and goes with none of --promised, --done and --now")
	}
	both, err := q.Configurations[0].With(o.choose)
	if err != nil {
		return desk.Wrong("--choose: %v", err)
	}
	q.Configurations = append(both, q.Configurations[1:]...)
	return nil
}

// whatIsDone adds what is done, and by when.
func (o *planFlags) whatIsDone(e desk.Env, p *scenarios.Plan, q *study.Plans) (err error) {
	if o.now != "" {
		if q.Now, err = timeOf(o.now, p); err != nil {
			return err
		}
	}
	if o.done == "" && o.now != "" {
		return desk.Wrong("--now says when, and --done is to say what is done by then: a CSV file with the columns job, sets and line, and no row if nothing is")
	}
	if o.done == "" {
		return nil
	}
	if o.now == "" {
		return desk.Wrong("--done says what is done, and --now is to say when: --now \"week 1 day 3 10:00\"")
	}
	var rows []int
	if q.Done, rows, err = readDone(e, o.done); err != nil {
		return err
	}
	return wrongDone(o.done, rows, q)
}

var weekTime = regexp.MustCompile(`^week (\d{1,3}) day ([1-7]) ([01]?\d|2[0-3]):([0-5]\d)$`)

// timeOf returns a time of a plan, in seconds from the start of its first week.
func timeOf(text string, p *scenarios.Plan) (sim.Seconds, error) {
	if m := weekTime.FindStringSubmatch(text); m != nil {
		var n [4]int
		for i := range n {
			n[i], _ = strconv.Atoi(m[i+1])
		}
		if n[0] >= 1 && n[0] <= seasons.MostWeeks {
			return sim.Seconds((((n[0]-1)*7+n[1]-1)*24+n[2])*3600 + n[3]*60), nil
		}
		return 0, desk.Wrong("--now is %q, want a week from 1 to %d", text, seasons.MostWeeks)
	}
	at, err := p.Moment(text)
	if err != nil {
		return 0, desk.Wrong("--now %v; week, day and time are written \"week 1 day 3 10:00\"", err)
	}
	return at, nil
}
