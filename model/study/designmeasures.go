package study

// DesignMeasure is a figure by which designs are set against their price.
type DesignMeasure string

// The measures.
const (
	DesignByRate    DesignMeasure = "net_rate"          // the more the better
	DesignByCost    DesignMeasure = "cost_per_thousand" // with the price in it; the less the better
	DesignByDefects DesignMeasure = "defective"         // in a million delivered; the less the better
)

// DesignForPrice is which of the designs that were compared are best for their money in a measure: each is shown to
// be better than all that are no dearer.
type DesignForPrice struct {
	Measure   DesignMeasure `json:"measure"`
	Finalists []int         `json:"finalists"` // by rising price
}

// forPrices returns which finalists are best for their money in each measure; in money where there are costs.
func (a *DesignAnswer) forPrices() []DesignForPrice {
	all := []DesignForPrice{{DesignByRate, a.leadingBy(
		func(i int) float64 { return float64(a.Comparison.Lines[i].NetRate.Mean) },
		func(of, from int) bool { return a.Comparison.Compared[from][of].Difference.Low() > 0 },
	)}}
	if m := a.Comparison.Money; m != nil {
		all = append(all, DesignForPrice{DesignByCost, a.leadingBy(
			func(i int) float64 { return -float64(m.Lines[i].AllIn.Mean) },
			func(of, from int) bool {
				return aheadOf(m.Worth.AllInPerThousand(from), m.Worth.AllInPerThousand(of)).Low > 0
			},
		)})
	}
	defects := make([]Defects, len(a.Finalists))
	for i := range defects {
		defects[i] = DefectsOf(a.Comparison.Lines[i].Study)
	}
	return append(all, DesignForPrice{DesignByDefects, a.leadingBy(
		func(i int) float64 { return -defects[i].PerMillion },
		func(of, from int) bool { return defects[of].High() < defects[from].Low() },
	)})
}

// leadingBy returns the finalists that are best for their money by a figure, the larger the better, if one is shown
// to be better than another.
func (a *DesignAnswer) leadingBy(figure func(int) float64, shown func(of, from int) bool) []int {
	points := make([]moneyPoint, len(a.Finalists))
	for i := range points {
		points[i] = moneyPoint{price: float64(a.Finalists[i].Price), figure: figure(i), asItIs: i == 0}
	}
	return frontierOf(points, 0, shown)
}
