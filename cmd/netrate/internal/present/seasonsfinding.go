package present

import (
	"fmt"
	"math"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// SeasonsFinding returns what seasons came to, in a sentence or a few.
func SeasonsFinding(a *study.SeasonsAnswer) string {
	return seasonsDone(a) + seasonsTightest(seasonsNamed(a)) + seasonsCost(a) + seasonsUnattended(a)
}

// seasonsNamed returns the configuration that is looked at first: the one that was found, or the one that comes
// nearest where none was, or else the base.
func seasonsNamed(a *study.SeasonsAnswer) *study.SeasonsLine {
	if s := a.Service; s != nil || a.Lines[a.Other].InTime.Share == 0 {
		return &a.Lines[a.Other]
	}
	return &a.Lines[0]
}

// seasonsTightest names the week that is in time least often, and says how much is late; nothing where all is
// in time.
func seasonsTightest(x *study.SeasonsLine) string {
	if x.InTime.Share == 1 {
		return ""
	}
	w := &x.Weeks[x.Tightest]
	text := fmt.Sprintf(" With %s the tightest week is %s, in time in %s of the seasons", seasonsCall(x), seasonsWeekNamed(x, x.Tightest), SeasonsOften(w.InTime))
	if w.Overtime.Mean > 0 {
		text += fmt.Sprintf("; its own work needs %s h of overtime, in the mean", hours(w.Overtime.Mean).Shown)
	}
	text += "."
	var most *study.SeasonsJob
	for i := range x.Jobs {
		if most == nil || x.Jobs[i].LateSets > most.LateSets {
			most = &x.Jobs[i]
		}
	}
	if most == nil || most.LateSets == 0 {
		return text
	}
	if most.LateSets == x.LateSets {
		return text + fmt.Sprintf(" Without overtime %s are late, not done when their week ends, in the mean, all of %s in week %d.", fewSets(x.LateSets), most.Name, most.Week)
	}
	return text + fmt.Sprintf(" Without overtime %s are late, not done when their week ends, in the mean; the most, %s, of %s in week %d.",
		fewSets(x.LateSets), countOf(most.LateSets), most.Name, most.Week)
}

// seasonsWeekNamed returns what a week, from 0, is called in a sentence.
func seasonsWeekNamed(x *study.SeasonsLine, week int) string {
	text := fmt.Sprintf("week %d", week+1)
	if name := x.Weeks[week].Name; name != text && name != "" {
		text += ", “" + name + "”"
	}
	return text
}

// fewSets says a mean number of sets.
func fewSets(n study.Number) string {
	if n > 0 && n < 0.5 {
		return "fewer than 1 set"
	}
	if n < 100 {
		return say.Plural(int(math.Round(float64(n))), "set")
	}
	return say.Rounded(float64(n), max(0, say.Magnitude(float64(n))-2)) + " sets"
}

// lacking says how many envelopes fewer are delivered than sets are ordered, and of which job most; nothing where
// none are.
func lacking(all, sets study.Number, most string, of study.Number) string {
	if all == 0 {
		return ""
	}
	text := fmt.Sprintf(" Of %s sets in all %s have no envelope that is delivered, in the mean: what is lost is not made again", say.Thousands(int64(sets)), countOf(all))
	if of < all {
		text += fmt.Sprintf("; the most, %s, of %s", countOf(of), most)
	}
	return text + "."
}

// countOf says a mean number of few digits.
func countOf(n study.Number) string {
	text, _, _ := strings.Cut(fewSets(n), " set")
	return text
}

// seasonsLacking says how many envelopes fewer a season delivers.
func seasonsLacking(x *study.SeasonsLine) string {
	most, sets := &x.Jobs[0], study.Number(0)
	for i := range x.Jobs {
		sets += study.Number(x.Jobs[i].Sets)
		if x.Jobs[i].Lacks > most.Lacks {
			most = &x.Jobs[i]
		}
	}
	return lacking(x.Lacks, sets, fmt.Sprintf("%s in week %d", most.Name, most.Week), most.Lacks)
}

// seasonsDone says what is done in time.
func seasonsDone(a *study.SeasonsAnswer) string {
	if a.Service != nil {
		return seasonsService(a)
	}
	base, best := &a.Lines[0], &a.Lines[a.Other]
	text := fmt.Sprintf("%s gets all weeks done in time in %s of the seasons.", say.Capital(seasonsCall(base)), seasonsInTime(base))
	switch {
	case len(a.Lines) == 1:
		return text
	case best.InTime.Share == 0:
		return text + " No variant does so in any. " + seasonsNearest(best)
	case a.Other == 0:
		return text + " No variant does so more often."
	case len(a.MostOften) == 1:
		return text + fmt.Sprintf(" %s does so most often, in %s.", say.Capital(seasonsCall(best)), seasonsInTime(best))
	}
	return text + fmt.Sprintf(" %s do so most often, in %s.", say.Capital(seasonsCalls(a, a.MostOften)), seasonsInTime(best))
}

// seasonsService names the smallest configuration that is in time often enough.
func seasonsService(a *study.SeasonsAnswer) string {
	s := a.Service
	asked, open := say.Exact(100*float64(s.Asked))+" %", ""
	if s.Open != nil {
		open = " This number of seasons does not settle it for " + seasonsCalls(a, s.Open) + ": raise --reps."
	}
	if s.Smallest < 0 {
		best := &a.Lines[a.Other]
		if best.InTime.Share == 0 {
			text := "No configuration gets all weeks done in time in any of the seasons."
			if len(a.Lines) > 1 {
				text += " " + seasonsNearest(best)
			}
			return text + open
		}
		return fmt.Sprintf("No configuration gets all weeks done in time in %s of the seasons; %s comes closest, with %s.%s",
			asked, seasonsCall(best), seasonsInTime(best), open)
	}
	x, fewer, shifts := &a.Lines[s.Smallest], "", "in each shift"
	if x.Staffed {
		shifts = "in the mean"
	}
	if s.Cheapest != s.Smallest { // more people in fewer shifts
		least := &a.Lines[s.Cheapest]
		fewer = fmt.Sprintf(" It takes %s operator hours a week; %s takes %s, the fewest.", say.Exact(float64(x.Paid)), seasonsCall(least), say.Exact(float64(least.Paid)))
	}
	return fmt.Sprintf("The smallest configuration that gets all weeks done in time in %s of the seasons is %s, with %s %s: it does so in %s.%s%s",
		asked, seasonsCall(x), page.People(float64(x.Operators)), shifts, seasonsInTime(x), fewer, open)
}

// seasonsNearest names what comes nearest where nothing is ever in time.
func seasonsNearest(x *study.SeasonsLine) string {
	return fmt.Sprintf("%s comes nearest: it needs the least overtime, %s h in the mean.", say.Capital(seasonsCall(x)), hours(x.Overtime.Mean).Shown)
}

// seasonsInTime returns how often all weeks are done in time, with its interval.
func seasonsInTime(x *study.SeasonsLine) string {
	t := x.InTime
	return fmt.Sprintf("%s (%s)", SeasonsOften(t.Share), say.Between(float64(t.Low), float64(t.High)))
}

// SeasonsOften returns a share of the seasons: what is neither none nor all of them is told from both.
func SeasonsOften[T study.Number | float64](share T) string {
	if share == 0 || share == 1 {
		return say.Exact(100*float64(share)) + " %"
	}
	return say.ShareOf(float64(share), 0, "under ", "over ")
}

// seasonsCall returns what a configuration is called in a sentence.
func seasonsCall(x *study.SeasonsLine) string {
	if x.Name == page.BaseName {
		return "the base"
	}
	return "“" + x.Name + "”"
}

func seasonsCalls(a *study.SeasonsAnswer, lines []int) string {
	var all []string
	for _, i := range lines {
		all = append(all, seasonsCall(&a.Lines[i]))
	}
	return say.List(all)
}

// SeasonsWeek returns what a week, from 0, is called, with its number.
func SeasonsWeek(x *study.SeasonsLine, week int) string {
	number := fmt.Sprintf("week %d", week+1)
	if name := x.Weeks[week].Name; name != number && name != "" {
		return fmt.Sprintf("%d %s", week+1, name)
	}
	return number
}

// SeasonsChangeovers says what changeovers take, and what the order is worth.
func SeasonsChangeovers(x *study.SeasonsLine) string {
	text := fmt.Sprintf("Changeovers (%s): %s h a week, before %s jobs.", x.Name, say.Exact(say.ToDecimals(float64(x.Changing), 2)), say.Exact(say.ToDecimals(float64(x.Changeovers), 1)))
	saved := float64(x.ChangesGiven - x.ChangesBest)
	switch {
	case saved < 0.005:
		return text + " The best order of the jobs in each week takes no less than that of the file."
	case x.Order == "best":
		return text + fmt.Sprintf(" That is in the best order, which is used; the order of the file would take %s h more in the whole season.", say.Exact(say.ToDecimals(saved, 2)))
	}
	return text + fmt.Sprintf(" The best order would take %s h less in the whole season: --order best.", say.Exact(say.ToDecimals(saved, 2)))
}
