package present

import (
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// notTaken says which lines are not taken for which jobs, and why.
func notTaken(all []study.PlansNotTaken) (text string) {
	for _, x := range all {
		text += say.Capital(x.Line) + " is not taken for " + listedFew(x.Jobs) + ": nobody who is ever there may " + say.Or(x.Lacks) + ". "
	}
	return text
}

// notKept says that the plan made before cannot go on in its order; nothing where it can.
func (s Plans) notKept() string {
	if s.NotKept == "" {
		return ""
	}
	return " The order as it was cannot hold: " + s.NotKept + "."
}
