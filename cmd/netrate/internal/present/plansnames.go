package present

import (
	"cmp"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// called returns the name of a job as it stands in a sentence: in quotes if it has a comma in it, as those of a week
// that comes several times have.
func called(name string) string {
	if strings.Contains(name, ",") {
		return "“" + name + "”"
	}
	return name
}

// listed returns names of jobs in a sentence.
func listed(names []string) string { return say.List(allCalled(names)) }

// listedFew returns a few of them, and how many others there are.
func listedFew(names []string) string {
	const few = 3
	all := allCalled(names)
	if more := len(all) - few; more > 0 {
		all = append(all[:few], say.Plural(more, "other job"))
	}
	return say.List(all)
}

// allCalled returns the names of jobs: all in quotes if one has to be.
func allCalled(names []string) []string {
	all := slices.Clone(names)
	if slices.ContainsFunc(names, func(name string) bool { return called(name) != name }) {
		for i, name := range names {
			all[i] = "“" + name + "”"
		}
	}
	return all
}

// inOrder returns the jobs of a plan as sentences name them: line by line, those of a season week by week, as in its
// file.
func inOrder(x *study.PlansPlan) []*study.PlansJob {
	all := x.Jobs()
	if len(x.Weeks) > 0 {
		slices.SortStableFunc(all, func(a, b *study.PlansJob) int { return cmp.Compare(a.Index, b.Index) })
	}
	return all
}
