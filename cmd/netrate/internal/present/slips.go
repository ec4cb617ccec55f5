package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// SlipNotes returns a line for each value that is surely not meant.
func SlipNotes(slips []study.Slip) string {
	var b strings.Builder
	for i := range slips {
		b.WriteString(say.Hanging("  note: ", slipWords(&slips[i]), rulesWidth) + "\n")
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
		return fmt.Sprintf("%s takes %s min in the mean: is that meant?", x.Path, say.Exact(x.Size/60))
	case study.SlipSpeed:
		return fmt.Sprintf("%s an hour are asked for, and no station is rated for more than %s", say.Exact(x.Size), say.Exact(x.Most))
	}
	panic(fmt.Sprintf("present: a slip %d", x.What))
}
