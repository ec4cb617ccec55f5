package present

import (
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// mostNamed is how many jobs are named for which a line is not taken.
const mostNamed = 3

// notTaken says which lines are not taken for which jobs, and why.
func notTaken(all []study.PlansNotTaken) (text string) {
	for _, x := range all {
		text += say.Capital(x.Line) + " is not taken for " + say.Or(fewOf(x.Jobs, "other job")) + ": nobody who is ever there may " + say.Or(x.Lacks) + ". "
	}
	return text
}

// fewOf returns some names, and of the rest how many they are.
func fewOf(names []string, rest string) []string {
	if more := len(names) - mostNamed; more > 1 {
		return append(names[:mostNamed:mostNamed], say.Plural(more, rest))
	}
	return names
}

// notKept says that the plan made before cannot go on in its order; nothing where it can.
func (s Plans) notKept() string {
	if s.NotKept == "" {
		return ""
	}
	return " The order as it was cannot hold: " + s.NotKept + "."
}
