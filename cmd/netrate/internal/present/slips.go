package present

import (
	"fmt"
	"math"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// SlipNotes returns a line for each thing that is surely not meant.
func SlipNotes(slips []study.Slip) string {
	var b strings.Builder
	for i := range slips {
		b.WriteString(say.Hanging("  note: ", slipWords(&slips[i]), say.Prose()) + "\n")
	}
	return b.String()
}

func slipWords(x *study.Slip) string {
	switch x.What {
	case study.SlipShift:
		return fmt.Sprintf("the shift is %s min long: is that meant?", say.Exact(x.Size/60))
	case study.SlipRate:
		return fmt.Sprintf("%s is %s, one in %s: is that meant?", x.Path, x.Value, say.Exact(1/x.Size))
	case study.SlipTime:
		return fmt.Sprintf("%s takes %s min on average: is that meant?", x.Path, say.Exact(x.Size/60))
	case study.SlipSpeed:
		return fmt.Sprintf("%s an hour are asked for, and no station is rated for more than %s", say.Exact(x.Size), say.Exact(x.Most))
	case study.SlipGates:
		return gatesUnused(x)
	case study.SlipDry:
		return fmt.Sprintf("%s calls an operator when %s are left, but %s are used in the %s s in which he walks there and works: even if he is free, the line stops (%s). Warn at %s or more",
			x.Path, say.Exact(x.Size), say.Exact(math.Ceil(x.Most)), say.Exact(x.Time), x.Value, say.Exact(math.Ceil(x.Most)))
	case study.SlipCut:
		return cutWords(x)
	}
	panic(fmt.Sprintf("present: a slip %d", x.What))
}

// cutWords says how much a station is better than its rates say, as no lot and no day can be worse
// than so many times as bad.
func cutWords(x *study.Slip) string {
	return fmt.Sprintf("%s: in its worst lots, or on the worst days, it would fail more often than an attempt can. That is cut off at %s times its rates, so that it has %s %% fewer faults than they say. Give lower rates, or lots and days that differ less",
		x.Path, say.Exact(x.Most), say.Rounded(100*x.Size, -1))
}

// CutNote says, in a report, where faults of the worst lots and days are cut off; "" where none are
// that matter.
func CutNote(slips []study.Slip) string {
	var notes []string
	for i := range slips {
		if slips[i].What == study.SlipCut {
			notes = append(notes, " "+cutWords(&slips[i])+".")
		}
	}
	return strings.Join(notes, "")
}

// gatesUnused says that gates take nothing out, and how they would.
func gatesUnused(x *study.Slip) string {
	verb := "takes"
	if len(x.Gates) > 1 {
		verb = "take"
	}
	return fmt.Sprintf("the file states no policy, so every fault stops the line, and %s %s nothing out. See netrate help responses.", say.List(x.Gates), verb)
}

// PolicyNote says, below the answer of a run, that gates take nothing out; "" where there are none,
// or a policy is stated.
func PolicyNote(slips []study.Slip) string {
	for i := range slips {
		if slips[i].What == study.SlipGates {
			return say.Hanging("Note: ", gatesUnused(&slips[i]), say.Prose()) + "\n"
		}
	}
	return ""
}
