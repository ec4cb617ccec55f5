package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/sim"
)

// strategiesPrices says what each response that is forbidden would bring; "" where none is.
func strategiesPrices(a *study.StrategiesAnswer) string {
	var all []string
	for i := range a.Never {
		all = append(all, priceText(&a.Never[i]))
	}
	return strings.Join(all, " ")
}

func priceText(p *study.StrategiesPrice) string {
	if p.Price == nil {
		return fmt.Sprintf("Forbidding %s costs nothing on paper: the best strategy within the limit does without it.", p.Answer)
	}
	d := sim.Estimate{Mean: float64(p.Price.Mean), Half: float64(p.Price.Half), Level: float64(p.Price.Level), N: len(p.Study.Shifts)}
	with := fmt.Sprintf("allowed (%s), the line would deliver %s an hour, %s defective in a million", p.Otherwise, netRate(*p.NetRate), riskText(p.Defective))
	if p.ShipsUnread {
		with += ", which leaves out sets that could not be read or matched"
	}
	if !d.Shown() {
		return fmt.Sprintf("Forbidding %s is not shown to cost anything: %s.", p.Answer, with)
	}
	return fmt.Sprintf("Forbidding %s costs %s an hour: %s.", p.Answer, say.Size(d), with)
}

// pricesOnScreen returns that on lines of its own.
func pricesOnScreen(a *study.StrategiesAnswer) string {
	if len(a.Never) == 0 {
		return ""
	}
	return say.Wrapped(strategiesPrices(a), say.Prose())
}
