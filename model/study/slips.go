package study

import (
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Slip is what is possible and surely not meant.
type Slip struct {
	What  SlipWhat
	Path  string   // of a rate, a time or a station, as in a scenario file: stations.letter.misfeed
	Value string   // of a rate, as it was given
	Size  float64  // the rate; the time, s; the speed asked for, cycles an hour; the warning level; the share of faults that are cut off
	Most  float64  // of a speed: the highest that a station is rated for; of a stock: what is used in Time; of what is cut off: the factor from which on
	Time  float64  // of a stock: walking to it and filling or emptying it, s
	Gates []string // that take nothing out
}

// SlipWhat is what is odd.
type SlipWhat int

// What can be odd.
const (
	SlipShift SlipWhat = iota // the shift is short
	SlipRate                  // a fault is frequent
	SlipTime                  // walking or clearing takes long
	SlipSpeed                 // more is asked for than any station is rated for
	SlipGates                 // gates stand there and no policy is stated, so that every fault stops the line
	SlipDry                   // a stock is used up before a free operator has filled or emptied it
	SlipCut                   // faults of the worst lots and days are cut off, as no attempt fails more often than it can
)

// What is beyond these can be, but is more likely a slip of the pen: a zero too few, seconds
// for minutes. Common practice, no source.
const (
	mostLikelyRate   = 0.05                 // of misfeeds, doubles and jams
	mostLikelyTime   = 30 * 60              // seconds, of walking and clearing
	leastLikelyShift = sim.Seconds(30 * 60) // of a shift
	mostCutOff       = 0.001                // of the faults of a station, by what lots and days can be at most
)

// likelyRates are the parameters that are rates of faults.
var likelyRates = []string{"misfeed", "double", "jam", "envelope_misfeed"}

// likelyRare reports whether a parameter is the rate of such a fault, whatever its station calls it.
func likelyRare(v model.Parameter) bool {
	f, is := v.Fault()
	return slices.Contains(likelyRates, v.Name) || is && slices.Contains([]model.Fault{model.Misfeed, model.Double, model.Jam}, f)
}

// Slips returns what of an alternative is possible and surely not meant. Its work is looked at only
// if it has some, and policy says whether it is stated what any fault leads to.
func Slips(a *Alternative, work, policy bool) []Slip {
	var slips []Slip
	lines := a.Lines()
	if shift := lines[0].Shift; work && !a.Job() && shift < leastLikelyShift {
		slips = append(slips, Slip{What: SlipShift, Size: float64(shift)})
	}
	for n, l := range lines {
		for _, v := range l.Parameters() {
			if v.Path() == "crew.walk" && n > 0 {
				continue // it is that of the first line
			}
			switch x := v.Size(); {
			case likelyRare(v) && x > mostLikelyRate:
				slips = append(slips, Slip{What: SlipRate, Path: v.Path(), Value: v.Value, Size: x})
			case (model.IsClearing(v.Name) || v.Name == "crew.walk") && x > mostLikelyTime:
				slips = append(slips, Slip{What: SlipTime, Path: v.Path(), Size: x})
			}
		}
		slips = append(append(slips, dry(l)...), cutOff(l)...)
		if most := fastest(l); most > 0 && l.Speed > most {
			slips = append(slips, Slip{What: SlipSpeed, Size: l.Speed, Most: most})
		}
	}
	if gates := idleGates(lines); !policy && gates != nil {
		slips = append(slips, Slip{What: SlipGates, Gates: gates})
	}
	return slips
}

// takesOut are the responses that need a gate, each of its own.
var takesOut = map[model.Role]model.Response{model.Diverts: model.Divert, model.Outsorts: model.Outsort}

// idleGates returns the gates of some lines that faults could use.
func idleGates(lines []*model.Line) []string {
	var gates []string
	for _, l := range lines {
		decisions := l.Decisions()
		for _, s := range l.Stations {
			r, gate := takesOut[s.Kind().Role]
			possible := func(d model.Decision) bool { return slices.Contains(d.Responses, r) }
			if gate && slices.ContainsFunc(decisions, possible) {
				gates = append(gates, s.Where().Name)
			}
		}
	}
	return gates
}

// fastest returns the highest rated speed of the stations; 0 if none has one.
func fastest(l *model.Line) float64 {
	most := 0.0
	for _, s := range l.Stations {
		most = max(most, s.Where().Rated)
	}
	return most
}

// dry returns the hoppers and belts that are used up even if an operator sets off as soon as he
// is called: what the line uses while he walks and works is more than the warning level. Bins of
// gates are left aside, as they fill with faults.
func dry(l *model.Line) []Slip {
	var slips []Slip
	for _, s := range l.Stations {
		stock, share := s.Stocked().Stock, l.ShareOf(s)
		role := s.Kind().Role
		if stock == nil || stock.Capacity == 0 || role == model.Diverts || role == model.Outsorts {
			continue
		}
		time := float64(l.Crew.Walk.Mean() + stock.Work.Mean())
		if time > mostLikelyTime {
			continue // that is the slip
		}
		if used := share * time * l.RunSpeed() / 3600; used > float64(stock.Warn) {
			slips = append(slips, Slip{What: SlipDry, Path: "stations." + s.Where().Name, Value: s.Stocked().UsedUp, Size: float64(stock.Warn), Most: used, Time: time})
		}
	}
	return slips
}

// cutOff returns the stations of which so many faults are cut off in the worst lots and on the worst
// days that the line is better than its rates say.
func cutOff(l *model.Line) (slips []Slip) {
	for _, x := range l.CutOffs() {
		if x.Share > mostCutOff {
			slips = append(slips, Slip{What: SlipCut, Path: "stations." + x.Station, Size: x.Share, Most: x.Most})
		}
	}
	return slips
}
