package present

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// sureties returns which choices of the advice are certain, which are toss-ups, and which would be better
// taken otherwise; a sentence each.
func (d Design) sureties() (notes []string) {
	if d.Goal == study.DesignOperators {
		return d.needed()
	}
	of := map[study.DesignVerdict][]string{}
	var kept []string          // of what is of little matter, what would be rid of something
	other := map[string]bool{} // options of which some choice is not certain
	var options, taken []string
	for i := range d.Turns {
		t := &d.Turns[i]
		if t.Why != "" {
			continue
		}
		if len(options) == 0 || options[len(options)-1] != t.Option {
			options, taken = append(options, t.Option), append(taken, t.Taken)
		}
		if t.Verdict != study.DesignCertain {
			other[t.Option] = true
			if t.Verdict == study.DesignSmall && d.simpler(t) {
				kept = append(kept, d.turnWords(t))
			} else {
				of[t.Verdict] = append(of[t.Verdict], d.turnWords(t))
			}
		}
	}
	var certain []string
	for i, name := range options {
		if !other[name] {
			certain = append(certain, quotedChoice(taken[i]))
		}
	}
	if len(certain) > 0 {
		notes = append(notes, sentences(fmt.Sprintf("Certain, each by itself with all else as it is%s: %s.", d.atMeans(), say.List(certain)), d.certainMeans()))
	}
	if small := of[study.DesignSmall]; len(small) > 0 {
		notes = append(notes, fmt.Sprintf("Less than the %s that count as equal, and so not advised: %s.", d.zone()+d.unit(), strings.Join(small, "; ")))
	}
	if kept != nil {
		notes = append(notes, fmt.Sprintf("Kept, although by itself it makes less than the %s that count as equal, since without it the lead of the best is not shown to be within them: %s.",
			d.zone()+d.unit(), strings.Join(kept, "; ")))
	}
	if tossed := of[study.DesignTossUp]; len(tossed) > 0 {
		notes = append(notes, "A toss-up, which the shifts of the search decided: "+strings.Join(tossed, "; ")+".")
	}
	if better := of[study.DesignBetter]; len(better) > 0 {
		notes = append(notes, "In the shifts of the table better than what is advised, which other shifts did choose: "+strings.Join(better, "; ")+".")
	}
	return notes
}

// simpler reports whether what is taken otherwise would be preferred, if it counted as equal: with a goal in money to
// have one change less, else to pay less.
func (d Design) simpler(t *study.DesignTurn) bool {
	if !d.Goal.InMoney() {
		return t.Price < 0
	}
	i := slices.IndexFunc(d.Options, func(o study.DesignOption) bool { return o.Name == t.Option })
	return i >= 0 && t.Instead == d.Options[i].Choices[0].Name
}

// certainMeans says, where something is drawn, that what is certain is so of means, and not of each draw.
func (d Design) certainMeans() string {
	m := d.Comparison.Money
	if d.Comparison.Uncertainty == nil && (m == nil || !d.Goal.InMoney() || !m.Ranges && !m.Uncertain) {
		return ""
	}
	return "That is said of means over all " + d.period() + "s (95 %). Between what single draws lie is another matter: in some of them a certain choice may be worth little or nothing."
}

// atMeans says that choices are turned with what is uncertain at its mean; "" if nothing is.
func (d Design) atMeans() string {
	if d.Comparison.Uncertainty == nil {
		return ""
	}
	return " and what is uncertain at its mean"
}

// turnWords returns what is taken instead of what, what that changes, and for what money.
func (d Design) turnWords(t *study.DesignTurn) string {
	text := d.insteadWords(t)
	if len(t.Without) > 0 {
		text += ", and without " + say.List(t.Without)
	}
	text += ", " + d.changeWords(t) + d.unit()
	switch {
	case t.Price < 0:
		text += ", for " + d.sum(-t.Price) + " less"
	case t.Price > 0:
		text += ", for " + d.sum(t.Price) + " more"
	}
	return text
}

// insteadWords returns what is taken otherwise: an option is added or left out, or one choice takes the
// place of another.
func (d Design) insteadWords(t *study.DesignTurn) string {
	for i := range d.Options {
		if o := &d.Options[i]; o.Name == t.Option && o.Optional {
			if t.Instead == o.Choices[0].Name {
				return "leaving " + quotedChoice(t.Taken) + " out"
			}
			return "adding " + quotedChoice(t.Instead)
		}
	}
	return quotedChoice(t.Instead) + " instead of " + quotedChoice(t.Taken)
}

func quotedChoice(name string) string { return "“" + name + "”" }

// changeWords returns what a turn changes, with its interval.
func (d Design) changeWords(t *study.DesignTurn) string { return say.Gap(d.changed(t)) }

// lastMoney says what the last of the money up to what is advised buys, and what the next step of the price would;
// where what is advised is no step of it, what the last of all buys. "" if there is one design only.
func (d Design) lastMoney() string {
	var to, next string
	for i := range d.Steps {
		s := &d.Steps[i]
		from, dearer := d.Finalists[s.From].Name, d.Finalists[s.To].Name
		switch d.Advice {
		case s.To:
			to = fmt.Sprintf("The last step of the price up to what is advised is from %s to %s: it %s.", from, dearer, d.stepSays(s))
		case s.From:
			next = fmt.Sprintf("The next step, from %s to %s, %s.", from, dearer, d.stepSays(s))
		}
	}
	switch {
	case len(d.Steps) == 0:
		return ""
	case to == "" && next == "":
		s := &d.Steps[0]
		return fmt.Sprintf("The last step of the price is from %s to %s: it %s.", d.Finalists[s.From].Name, d.Finalists[s.To].Name, d.stepSays(s))
	case next == "" && d.Limits.Price != nil:
		next = "What money beyond the limit of " + d.sum(study.Number(*d.Limits.Price)) + " would buy was not looked for."
	}
	return sentences(to, next)
}

// stepSays returns what a step of the price does, for how much, what it buys, and whether that matters.
func (d Design) stepSays(s *study.DesignStep) string {
	text := fmt.Sprintf("%s, for %s, and %s", stepWords(s), d.stepPrice(s), d.stepGain(s))
	if d.Goal != study.DesignCost && s.Between.Low > 0 {
		text += ": " + say.Rough(float64(s.PerGrand), 1000*stepEstimate(s).Half/float64(s.Price)) + " for each 1,000"
	}
	switch s.Verdict {
	case study.DesignSmall:
		text += ". That counts as equal"
	case study.DesignTossUp:
		text += ". The two are not told apart"
	case study.DesignCertain, study.DesignBetter:
	}
	return text
}

// stepPrice returns how much more a step takes; operators too, but for a goal in money, in which they are paid for.
func (d Design) stepPrice(s *study.DesignStep) string {
	price := d.sum(s.Price)
	switch more := d.Finalists[s.To].Operators - d.Finalists[s.From].Operators; {
	case d.Goal.InMoney():
	case more > 0:
		return price + " and " + say.Plural(more, "operator") + " more in all"
	case more < 0:
		return price + " more in all and " + say.Plural(-more, "operator") + " fewer"
	}
	return price + " more in all"
}

// stepWords returns what a step of the price adds, takes in the place of what, and leaves out.
func stepWords(s *study.DesignStep) string {
	quoted := func(names []string) string {
		var all []string
		for _, name := range names {
			all = append(all, quotedChoice(name))
		}
		return say.List(all)
	}
	var parts, replaced []string
	if len(s.Added) > 0 {
		parts = append(parts, "adds "+quoted(s.Added))
	}
	for _, r := range s.Replaced {
		replaced = append(replaced, quotedChoice(r.By)+" instead of "+quotedChoice(r.Was))
	}
	if replaced != nil {
		parts = append(parts, "takes "+say.List(replaced))
	}
	if len(s.Away) > 0 {
		parts = append(parts, "leaves out "+quoted(s.Away))
	}
	return strings.Join(parts, ", ")
}

// stepEstimate returns what a step of the price buys.
func stepEstimate(s *study.DesignStep) sim.Estimate {
	return sim.Estimate{Mean: float64(s.Gain), Half: float64(float64(s.Between.High-s.Between.Low) / 2), Level: float64(s.Between.Level)}
}

// stepGain returns what a step of the price buys, with its interval.
func (d Design) stepGain(s *study.DesignStep) string {
	e := stepEstimate(s)
	switch gain := say.Size(e); {
	case !d.Goal.InMoney():
		return "buys " + say.Gap(e) + d.unit()
	case d.Goal == study.DesignValue:
		if !say.Differs(e) {
			gain = "~ " + gain
		}
		more := "higher"
		if e.Mean < 0 {
			more = "lower"
		}
		return "its net present value is " + more + " by " + gain + " " + d.Origin.Scenario.Costs.Currency + d.ofDraws()
	default:
		return "saves " + gain + d.unit() + d.ofDraws()
	}
}

// ofDraws says that ± of a figure in money is no interval of its mean.
func (d Design) ofDraws() string { return " (±: " + ofDraws + ")" }

// robust says how far the choice hangs on what is uncertain and on the volume, as far as was asked.
func (d Design) robust() (notes []string) {
	advice := d.Finalists[d.Advice].Name
	if d.Holds != nil { // with the fewest operators the share of the shifts is over the draws
		ahead := "has the highest net rate"
		if d.Goal.InMoney() {
			ahead = "costs least"
		}
		notes = append(notes, fmt.Sprintf("With what is uncertain drawn, %s %s of these designs, or counts as equal to the one that does, with a probability of %s. The search itself took it at its means.",
			advice, ahead, chance(d.Holds.Share, d.Comparison.Uncertainty.Rival.Draws)))
	}
	return append(notes, d.atVolumes()...)
}

// atVolumes says at which other volumes the advice holds, where buying nothing costs less or counts as equal, and where
// another of the designs would be advised.
func (d Design) atVolumes() (notes []string) {
	var same, nothing []string
	other := make([][]string, len(d.Finalists))
	advice, least, less := d.Finalists[d.Advice].Name, " costs least", "costs less"
	for i := range d.Volumes {
		v := &d.Volumes[i]
		times := say.Decimals(float64(v.Times), 2) + " times"
		switch {
		case v.Advice == d.Advice && v.Pays():
			same = append(same, times)
			if v.Cheapest != d.Advice {
				least = " costs least, or counts as equal to the one that does,"
			}
		case !v.Pays() || v.Advice == 0:
			nothing = append(nothing, times)
			if v.Pays() {
				less = "costs less, or counts as equal"
			}
		}
		if v.Advice != d.Advice && v.Advice != 0 {
			other[v.Advice] = append(other[v.Advice], times)
		}
	}
	if len(same) > 0 {
		notes = append(notes, fmt.Sprintf("Of these designs %s%s at %s the yearly volume too.", advice, least, say.List(same)))
	}
	if len(nothing) > 0 {
		notes = append(notes, fmt.Sprintf("At %s the yearly volume %s %s%s.", say.List(nothing), d.buyingNothing(), less, d.paysFrom()))
	}
	var others []string
	for i, times := range other {
		if len(times) > 0 {
			others = append(others, fmt.Sprintf("%s at %s the volume", d.Finalists[i].Name, say.List(times)))
		}
	}
	if len(others) > 0 {
		notes = append(notes, "At another yearly volume the same rule advises another of these designs, which costs least there or counts as equal to the one that does: "+say.List(others)+". Others, that are not compared here, may be better still: put the volume in the file and ask again.")
	}
	return notes
}

// buyingNothing returns what the line as it is is called as a choice.
func (d Design) buyingNothing() string {
	what := "buying nothing"
	if d.noPurchase() == "no change" {
		what = "changing nothing"
	}
	if !d.Finalists[0].Within {
		what += ", which is outside the limits,"
	}
	return what
}

// paysFrom says from which yearly volume the advice pays for itself; "" if that is not by its volume.
func (d Design) paysFrom() string {
	x := d.Comparison.Money.Lines[d.Advice].Against
	if x == nil || x.Pays != study.WorthPaysFrom {
		return ""
	}
	return fmt.Sprintf(": %s pays for itself from %s good envelopes a year on, in the median", d.Finalists[d.Advice].Name, say.TwoDigits(float64(x.BreakEven.P50)))
}

// turnsTable returns the design that is advised with one choice taken otherwise, one after the other.
func (d Design) turnsTable() plots.Table {
	if d.Goal == study.DesignOperators {
		return d.neededTable()
	}
	change := "Change of the net rate"
	switch {
	case d.inValue():
		change = "Change of the net present value"
	case d.Goal.InMoney():
		change = "Change of the cost of 1,000"
	}
	t := plots.Table{
		Name:    "Choice by choice",
		Caption: "What is advised, with one choice taken otherwise and all else as it is" + d.atMeans() + ", in the " + d.period() + "s of the comparison; all intervals right at once (95 %).",
		Columns: []plots.Column{
			{Title: "Option"},
			{Title: "Taken"},
			{Title: "Instead"},
			{Title: "Price", Kind: plots.Number},
			{Title: change, Kind: plots.Number, Decimals: 2},
			{Title: "The choice is, in " + d.Finalists[d.Advice].Name},
		},
	}
	for i := range d.Turns {
		x := &d.Turns[i]
		instead := x.Instead
		if len(x.Without) > 0 {
			instead += ", without " + say.List(x.Without)
		}
		row := []plots.Entry{page.Words(x.Option), page.Words(x.Taken), page.Words(instead), {Number: float64(x.Price), Shown: say.Signed(float64(x.Price))}}
		if x.Why != "" {
			row = append(row, page.Value(math.NaN()), page.Words("not to be had otherwise: "+strings.TrimSuffix(x.Why, ".")))
		} else {
			verdict := map[study.DesignVerdict]string{study.DesignCertain: "certain", study.DesignSmall: "of little matter", study.DesignTossUp: "a toss-up", study.DesignBetter: "the worse one in these shifts"}[x.Verdict]
			row = append(row, plots.Entry{Number: d.changed(x).Mean, Shown: d.changeWords(x)}, page.Words(verdict))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// stepVerdicts say of two designs whether the dearer one is better. They are other words than those for one choice of
// what is advised: the same choice may matter in one design and not in another.
var stepVerdicts = map[study.DesignVerdict]string{
	study.DesignCertain: "better", study.DesignSmall: "equal", study.DesignTossUp: "not told apart", study.DesignBetter: "worse",
}

// stepsTable returns what each step of the price buys.
func (d Design) stepsTable() plots.Table {
	gain := plots.Column{Title: "Buys", Unit: "good envelopes/h", Kind: plots.Number}
	each := plots.Column{Title: "For each 1,000", Unit: "good envelopes/h", Kind: plots.Number, Decimals: 1}
	switch {
	case d.Goal == study.DesignValue:
		gain = plots.Column{Title: "Higher by", Unit: "net present value", Kind: plots.Number}
		each = plots.Column{Title: "For each 1,000", Unit: "net present value", Kind: plots.Number}
	case d.Goal.InMoney():
		gain = plots.Column{Title: "Saves", Unit: "a thousand", Kind: plots.Number, Decimals: 2}
		each = plots.Column{Title: "For each 1,000", Unit: "a thousand", Kind: plots.Number, Decimals: 4}
	}
	from, to := gain, gain
	from.Title, to.Title = "from", "to"
	t := plots.Table{
		Name:    "What the last money buys",
		Caption: "From each design that is best for its money to the next dearer one, which gains more than counts as equal, but for what is advised and the last; the price is the difference of the two, of all that is added, replaced and left out. The last column is of these two designs alone: beside other choices the same step may buy more or less, and what is certain in the design that is advised is in the table before.",
		Columns: []plots.Column{{Title: "Step"}, {Title: "What it does"}, {Title: "Price", Kind: plots.Number}, gain, from, to, each, {Title: "The dearer one is"}},
	}
	for i := range d.Steps {
		s := &d.Steps[i]
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(d.Finalists[s.From].Name + " to " + d.Finalists[s.To].Name), page.Words(stepWords(s)), page.Value(float64(s.Price)), page.Value(float64(s.Gain)),
			page.Value(float64(s.Between.Low)), page.Value(float64(s.Between.High)), page.Value(float64(s.PerGrand)), page.Words(stepVerdicts[s.Verdict]),
		})
	}
	return t
}

// sureSection returns how sure each choice is, and what the last money buys.
func (d Design) sureSection() plots.Section {
	notes := slices.Concat(d.equalInMoney(), d.sureties(), d.robust())
	if last := d.lastMoney(); last != "" {
		notes = append(notes, last)
	}
	s := plots.Section{Heading: "How sure is each choice?", Text: strings.Join(notes, "\n\n")}
	if len(d.Turns) > 0 {
		s.Tables = append(s.Tables, d.turnsTable())
	}
	if len(d.Steps) > 0 {
		s.Tables = append(s.Tables, d.stepsTable())
	}
	return s
}

// whySection returns why the advice delivers more than the line as it is, in the words of a comparison;
// nothing if it is the line as it is.
func (d Design) whySection(r *page.Report) []plots.Section {
	if d.Advice == 0 {
		return nil
	}
	return []plots.Section{Comparison{ComparisonAnswer: d.Comparison, Origins: []page.Origin{d.Origin}}.whySection(r)}
}
