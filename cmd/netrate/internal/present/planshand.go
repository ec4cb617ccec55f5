package present

import (
	"fmt"
	"math"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// What makes the bench worth a sentence of the headline.
const (
	mostMissedUnsaid = 0.005 // of the replications in which a date is missed there
	longAtBench      = 0.5   // h for which the last job waits there after the last line is free
)

// bench says where the bench at which remakes are made decides; nothing where it does not.
func (s Plans) bench(x *study.PlansPlan) (text string) {
	if x.Hand == nil || !x.Hand.Beside {
		return ""
	}
	if busiest := busiestLine(x); busiest != nil && x.Hand.Hours.Mean > busiest.Busy.Mean {
		text += fmt.Sprintf("The bottleneck is the bench at which remakes are made: it has work for %s h, in the mean, and %s, of the lines the busiest, for %s h. ",
			say.Rounded(float64(x.Hand.Hours.Mean), -1), plansLine(busiest.Name), say.Rounded(float64(busiest.Busy.Mean), -1))
	}
	var missed *study.PlansJob
	for _, j := range inOrder(x) {
		if missed == nil || j.AtBench > missed.AtBench {
			missed = j
		}
	}
	if missed != nil && missed.AtBench >= mostMissedUnsaid {
		text += fmt.Sprintf("The date of %s is missed at the bench in %s of the replications: its line is free in time, its remakes are made too late. ", called(missed.Name), SeasonsOften(missed.AtBench))
	}
	if x.Hand.After >= longAtBench {
		text += fmt.Sprintf("The last remake is made %s h of working time after the last line is free, in the median. ", say.Rounded(float64(x.Hand.After), -1))
	}
	return text + s.lieThere(x.Hand.OnBench)
}

// lieThere says what lies at the bench when the plan begins, and by when it is made.
func (s Plans) lieThere(all []study.PlansOnBench) string {
	var parts []string
	for _, b := range all {
		text := fmt.Sprintf("%s of %s, made by %s", say.Plural(int(b.Remakes), "remake"), called(b.Name), s.Moment(b.Made))
		if b.Late > 0 {
			text += fmt.Sprintf(" (due %s: late)", s.Moment(*b.Due))
		}
		parts = append(parts, text)
	}
	if len(parts) == 0 {
		return ""
	}
	return "At the bench there are " + strings.Join(parts, "; ") + ". "
}

func busiestLine(x *study.PlansPlan) (busiest *study.PlansLine) {
	for i := range x.Lines {
		if busiest == nil || x.Lines[i].Busy.Mean > busiest.Busy.Mean {
			busiest = &x.Lines[i]
		}
	}
	return busiest
}

func plansLine(name string) string {
	if name == "" {
		return "the line"
	}
	return name
}

// handNotes says what remakes made by hand take, and what is not remade.
func handNotes(x *study.PlansPlan) (text string) {
	if h := x.Hand; h != nil {
		hours := say.Rounded(float64(h.Hours.Mean), -1) + " h, in the mean, of somebody who is not of the crew"
		if h.Beside {
			text = " A line begins its next job while remakes of the one before are made by hand beside it; a job is finished when its last one is made, at one bench for all lines, " +
				"first come, first served. They take " + hours + ". Paper counts all that work, and for each job that on its own remakes; what jobs wait there for each other is in the dates alone."
		} else {
			text = " Remakes are made by hand while their line waits. They take " + hours + "."
		}
	}
	return text + notRemade(x.NotRemade) + plansLacking(x)
}

// notRemade says of what nothing is made again, where remakes of other jobs are; nothing of none.
func notRemade(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return " Remakes are of personalised sets alone: of " + listedFew(names) + " nothing is made again."
}

// plansLacking says how many envelopes fewer a plan delivers.
func plansLacking(x *study.PlansPlan) string {
	most, sets := &study.PlansJob{}, study.Number(0)
	for _, j := range inOrder(x) {
		if sets += study.Number(j.Sets); j.Lacks > most.Lacks {
			most = j
		}
	}
	return lacking(x.Lacks, sets, called(most.Name), most.Lacks)
}

// work returns how long lines, people and bench have to do, and are there.
func (s Plans) work(x *study.PlansPlan) plots.Table {
	t := plots.Table{
		Name: "Work", Names: 1, Caption: "Hours of work, in the mean, changeovers and stops included, and of working time until the last job is finished, of lines both without that in which they are down; of operators the hours of their shifts until it is 9 times in 10, not how busy they are",
		Columns: []plots.Column{{Title: "Who"}, {Title: "Work", Unit: "h", Kind: plots.Number, Decimals: 1}, {Title: "There", Unit: "h", Kind: plots.Number, Decimals: 1}, {Title: "Busy", Kind: plots.Share}},
	}
	row := func(who string, work, there study.Number) {
		share := plots.Entry{Number: float64(work / there), Shown: SeasonsOften(work / there)}
		t.Rows = append(t.Rows, []plots.Entry{page.Words(who), hours(work), hours(there), share})
	}
	for _, line := range x.Lines {
		row(plansLine(line.Name), line.Busy.Mean, line.There)
	}
	if x.Hand != nil {
		who := "remakes by hand"
		if x.Hand.Beside {
			who = "bench, for remakes"
		}
		row(who, x.Hand.Hours.Mean, x.Hours)
	}
	there := study.Number(0)
	for i := range x.People {
		there += x.People[i].There
	}
	t.Rows = append(t.Rows, []plots.Entry{page.Words(say.Plural(len(x.People), "operator")), {Number: math.NaN()}, hours(there), {Number: math.NaN()}})
	return t
}

// weekly returns a row for each week of a season.
func (s Plans) weekly(x *study.PlansPlan) plots.Table {
	t := plots.Table{
		Name: "Weeks", Names: 1, Caption: "The weeks: how often all jobs of each are finished when it ends, when the last of them is, and the working time beyond its end until then, in the mean",
		Columns: []plots.Column{
			{Title: "Week"},
			{Title: "Jobs", Kind: plots.Number},
			{Title: "Sets", Kind: plots.Number},
			{Title: "In time", Unit: "of replications", Kind: plots.Share, Decimals: 1},
			{Title: "Last ends"},
			{Title: "9 in 10 by"},
			{Title: "Over", Unit: "h", Kind: plots.Number, Decimals: 1},
		},
	}
	for _, w := range x.Weeks {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(w.Name), page.Value(float64(w.Jobs)), page.Value(float64(w.Sets)),
			{Number: float64(w.InTime.Share), Shown: plansOften(w.InTime)},
			page.Words(s.Moment(w.Finished.P50)), page.Words(s.Moment(w.Finished.P90)), plansHours(w.Over),
		})
	}
	return t
}
