package buy

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// rate is a flag that is a number an hour: 12000, 12000/h.
type rate float64

// Set reads a rate above 0.
func (r *rate) Set(text string) error {
	x, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(text), "/h"), 64)
	if err != nil || !(x > 0 && x <= 1e6) {
		return errors.New("want good envelopes an hour, such as 12000")
	}
	*r = rate(x)
	return nil
}

func (r *rate) String() string { return number(float64(*r)) }

// Type returns what the help calls the value.
func (r *rate) Type() string { return "RATE" }

// hours is a flag that is a time: 60, 60h.
type hours float64

// Set reads hours above 0.
func (h *hours) Set(text string) error {
	x, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(text, "h")), 64)
	if err != nil || !(x > 0 && x <= 2000) {
		return errors.New("want hours, more than 0 and at most 2000, such as 60")
	}
	*h = hours(x)
	return nil
}

func (h *hours) String() string { return number(float64(*h)) }

// Type returns what the help calls the value.
func (h *hours) Type() string { return "HOURS" }

// envelopes is a flag that is a number of envelopes: 450000.
type envelopes float64

// Set reads a whole number above 0.
func (n *envelopes) Set(text string) error {
	x, err := strconv.ParseInt(strings.ReplaceAll(text, ",", ""), 10, 64)
	if err != nil || x < 1 || x > 1e10 {
		return errors.New("want a number of envelopes, such as 450000")
	}
	*n = envelopes(x)
	return nil
}

func (n *envelopes) String() string { return number(float64(*n)) }

// Type returns what the help calls the value.
func (n *envelopes) Type() string { return "N" }

// number returns a number as the command line has it; "" for 0.
func number(x float64) string {
	if x == 0 {
		return ""
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// clauses is a flag that may be repeated.
type clauses []study.AcceptanceLevels

// clauseNames are the clauses that can be added, and the units that their levels may carry.
var clauseNames = []struct {
	name, unit string
	of         study.AcceptanceFigure
}{
	{"stops", "", study.AcceptanceStops},
	{"clearing", "s", study.AcceptanceClearing},
	{"defective", "/1e6", study.AcceptanceDefective},
	{"diverted", "", study.AcceptanceTakenOut},
}

// clauseWords are the names of the clauses.
func clauseWords() (all []string) {
	for _, k := range clauseNames {
		all = append(all, k.name)
	}
	return all
}

// clauseList returns the names of the clauses in a sentence.
func clauseList() string { return say.Or(clauseWords()) }

// faultWords are what may be asked for, and no clause is about.
var faultWords = []string{"misfeed", "double", "jam", "flap", "fault"}

// Set reads a clause: NAME or NAME=GOOD:BAD.
func (c *clauses) Set(text string) error {
	name, given, levels := strings.Cut(text, "=")
	for _, k := range clauseNames {
		if k.name != name {
			continue
		}
		one := study.AcceptanceLevels{Of: k.of}
		if levels {
			good, bad, both := strings.Cut(given, ":")
			var errs [2]error
			one.Good, errs[0] = level(good, k.unit)
			one.Bad, errs[1] = level(bad, k.unit)
			if !both || errs[0] != nil || errs[1] != nil || !(one.Good > 0 && one.Bad > one.Good) {
				return fmt.Errorf("want %s=GOOD:BAD, two numbers above 0, the bad one larger", name)
			}
		}
		for _, other := range *c {
			if other.Of == k.of {
				return errors.New("it was given twice")
			}
		}
		*c = append(*c, one)
		return nil
	}
	if slices.Contains(faultWords, strings.ToLower(strings.TrimSuffix(name, "s"))) {
		return fmt.Errorf("want %s: there is no clause on one kind of fault. "+
			"Faults that stop the line are in stops, and sets that one takes out at a gate, diverted or outsorted, in diverted", clauseList())
	}
	return fmt.Errorf("want %s%s", clauseList(), desk.Meant(name, clauseWords(), ""))
}

// level reads a number that may carry its unit.
func level(text, unit string) (float64, error) {
	return strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), unit)), 64)
}

func (c *clauses) String() string {
	if c == nil || len(*c) == 0 {
		return ""
	}
	var all []string
	for _, one := range *c {
		all = append(all, clauseText(one))
	}
	return strings.Join(all, ", ")
}

// Type returns what the help calls the value.
func (c *clauses) Type() string { return "NAME" }

// clauseText returns a clause as the command line has it.
func clauseText(one study.AcceptanceLevels) string {
	for _, k := range clauseNames {
		if k.of == one.Of && one.Good > 0 {
			return k.name + "=" + number(one.Good) + ":" + number(one.Bad)
		} else if k.of == one.Of {
			return k.name
		}
	}
	return ""
}

// limits is a flag that may be repeated: the limits of clauses that a contract has.
type limits []study.AcceptanceLevels

// Set reads a limit: NAME=X.
func (l *limits) Set(text string) error {
	name, given, _ := strings.Cut(text, "=")
	for _, k := range clauseNames {
		if k.name != name {
			continue
		}
		x, err := level(given, k.unit)
		if err != nil || !(x > 0 && x <= 1e9) {
			return fmt.Errorf("want %s=X, a number above 0", name)
		}
		for _, other := range *l {
			if other.Of == k.of {
				return errors.New("it was given twice")
			}
		}
		*l = append(*l, study.AcceptanceLevels{Of: k.of, Limit: x})
		return nil
	}
	return fmt.Errorf("want %s%s; the limit of the net rate is --demand", clauseList(), desk.Meant(name, clauseWords(), ""))
}

func (l *limits) String() string {
	if l == nil {
		return ""
	}
	return strings.Join(l.texts(), ", ")
}

// Type returns what the help calls the value.
func (l *limits) Type() string { return "NAME=X" }

// texts returns the limits as the command line has them.
func (l *limits) texts() (all []string) {
	for _, one := range *l {
		for _, k := range clauseNames {
			if k.of == one.Of {
				all = append(all, k.name+"="+number(one.Limit))
			}
		}
	}
	return all
}

// of returns clauses with these limits; a limit of none of them is a clause with the levels of the two lines.
func (l *limits) of(clauses []study.AcceptanceLevels) []study.AcceptanceLevels {
	all := slices.Clone(clauses)
	for _, one := range *l {
		i := slices.IndexFunc(all, func(c study.AcceptanceLevels) bool { return c.Of == one.Of })
		if i < 0 {
			all, i = append(all, study.AcceptanceLevels{Of: one.Of}), len(all)
		}
		all[i].Limit = one.Limit
	}
	return all
}

// command returns the command that asks the same, up to the seed and the number of tests.
func (o *acceptFlags) command(again string) string {
	add := func(flag, value string) {
		if value != "" {
			again += " --" + flag + " " + desk.Quoted(value)
		}
	}
	add("good", o.good)
	add("bad", o.bad)
	add("promised", o.promised.String())
	add("unacceptable", o.unacceptable.String())
	if o.Changed("seller-risk") {
		add("seller-risk", o.seller.String())
	}
	if o.Changed("buyer-risk") {
		add("buyer-risk", o.buyer.String())
	}
	add("hours", o.hours.String())
	add("demand", o.demand.String())
	for _, c := range o.clauses {
		add("clause", clauseText(c))
	}
	for _, text := range o.limits.texts() {
		add("limit", text)
	}
	if o.sequential {
		again += " --sequential"
	}
	add("stages", o.stages)
	add("result", o.result)
	add("result-stops", o.stops)
	add("result-map", o.mapped)
	return again
}

// judging returns the command that judges a test by the limits of a plan, up to the seed and the number
// of tests; "" of a test that was run.
func (o *acceptFlags) judging(again string, a *study.AcceptanceAnswer) string {
	if a.Result != nil || o.sequential && a.Stages == nil {
		return ""
	}
	signed := *o
	signed.limits, signed.result = nil, "counts.csv"
	signed.clauses = slices.DeleteFunc(slices.Clone(o.clauses), func(one study.AcceptanceLevels) bool {
		return slices.ContainsFunc(a.Clauses, func(c study.AcceptanceClause) bool { return c.Of == one.Of && c.NoTest != "" })
	})
	switch rate := &a.Clauses[0]; {
	case !o.sequential:
		signed.hours, signed.demand = hours(a.Hours), envelopes(rate.Limit)
	case o.stages == "":
		signed.stages = cmp.Or(o.stagesOut, plannedStages)
	}
	for _, c := range a.Clauses[1:] {
		if c.NoTest == "" {
			limit, _ := strconv.ParseFloat(strconv.FormatFloat(float64(c.Limit), 'g', 10, 64), 64) // without what rounding left
			signed.limits = append(signed.limits, study.AcceptanceLevels{Of: c.Of, Limit: limit})
		}
	}
	return signed.command(again)
}

// judgingFixed returns the command that judges the test of fixed length by the limits of a plan that has one besides
// that may end after each shift; "" of others.
func (o *acceptFlags) judgingFixed(again string, a *study.AcceptanceAnswer) string {
	if !o.sequential || a.Stages == nil || o.stages != "" {
		return ""
	}
	fixed := *o
	fixed.sequential, fixed.stagesOut = false, ""
	return fixed.judging(again, a)
}

// plannedStages is the file of the limits after each shift where the command names none.
const plannedStages = "stages.csv"

// writing returns the command that writes the limits after each shift which judging reads, up to the seed and the
// number of tests; "" if this one wrote them or was given them, or there are none.
func (o *acceptFlags) writing(again string, a *study.AcceptanceAnswer) string {
	if a.Result != nil || a.Stages == nil || o.stages != "" || o.stagesOut != "" {
		return ""
	}
	return o.command(again) + " --stages-out " + plannedStages
}
