package present

import (
	"math"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// Money of a plan, of a season's too, is said by one rule, in sentences and in tables: a price of the file, and what
// such prices add up to, is exact, to the cent; lateness, wages and what has some of them in it are means, to whole
// units. Only what all costs together, and its parts that are no choice and no lateness, is rounded to two digits of
// its spread from replication to replication.

// exactSum returns a sum of prices of the file.
func exactSum(x float64) string {
	text := strconv.FormatFloat(x, 'f', 2, 64)
	return say.Grouped(strings.TrimSuffix(text, ".00"))
}

// meanSum returns a sum in the mean.
func meanSum(x float64) string {
	if x > 0 && x < 0.5 {
		return "less than 1"
	}
	return say.Rounded(x, 0)
}

// chosenSum returns what the choices of a plan cost, of which wages are a mean.
func chosenSum(x *study.PlansPlan) string {
	if x.Wages > 0 {
		return meanSum(float64(x.Cost))
	}
	return exactSum(float64(x.Cost))
}

// allSum returns what a plan costs with its lateness.
func allSum(x *study.PlansPlan) string {
	if math.IsNaN(float64(x.LateCost)) || x.LateCost == 0 {
		return chosenSum(x)
	}
	return meanSum(x.All())
}

// withUnit returns a sum with the currency of the file, if it names one.
func (s Plans) withUnit(text string) string {
	if unit := s.currency(); unit != "money" {
		text += " " + unit
	}
	return text
}
