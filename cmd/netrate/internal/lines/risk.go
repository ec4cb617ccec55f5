package lines

import (
	"math"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// riskText returns a risk for a table.
func riskText(r *study.Risk) string {
	if at := float64(r.PerMillion); r.FromCount && !math.IsInf(r.High, 1) {
		return say.Rough(at, max(r.High-at, at-r.Low))
	}
	return say.FewDigits(float64(r.PerMillion))
}
