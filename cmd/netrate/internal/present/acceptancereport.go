package present

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// AcceptanceSections returns the parts of the page for the contract.
func AcceptanceSections(x *Acceptance, r *page.Report) []plots.Section {
	a := x.AcceptanceAnswer
	var all []plots.Section
	if a.Result != nil {
		shown := plots.Section{Heading: "What the test has shown", Tables: []plots.Table{AcceptanceFound(a)}}
		if d := a.Result.Decided; d != nil && len(d.Looks) > 0 {
			shown.Tables = slices.Insert(shown.Tables, 0, AcceptanceLooks(a))
		}
		all = append(all, shown)
	}
	if a.Result != nil && a.Result.Cut != nil { // what was signed is of other hours: no second text is put beside it
		all = append(all, plots.Section{Heading: "A test of " + acceptanceHours(a.Hours) + " h, for information", Tables: []plots.Table{AcceptanceClauses(a)}})
	} else {
		all = append(all, acceptanceContract(x), acceptanceCounting(), acceptanceForm(a))
	}
	all = append(all, acceptanceReasons(a, r))
	if t := AcceptanceAlone(a); len(t.Rows) > 0 {
		all = append(all, acceptanceAlone(a, t))
	}
	return all
}

// acceptanceContract returns what a contract may say.
func acceptanceContract(x *Acceptance) plots.Section {
	a := x.AcceptanceAnswer
	var text []string
	first := ""
	if a.Stages != nil {
		text = append(text, "Two tests were planned, and a contract names one of them, before the first shift: A, of fixed length, or B, which may end after each shift.")
		first = "A. The test of fixed length. "
	}
	text = append(text, first+fmt.Sprintf("The line is run for %s of planned busy time. %s It passes if it shows:", acceptanceShifts(a), x.conditions()))
	number := 0
	for i := range a.Clauses {
		if c := &a.Clauses[i]; c.NoTest == "" {
			number++
			text = append(text, fmt.Sprintf("%d. %s: %s.", number, say.Capital(acceptanceName(c)), acceptanceDemand(c, a)))
		}
	}
	text = append(text, fmt.Sprintf("The seller bears the risk that a line as promised fails: %s were asked for. %s. "+
		"The buyer bears the risk that a line that is just unacceptable passes: %s were asked for. %s.",
		acceptanceAsked(a.Seller), acceptanceBorne(a, a.Clauses[0].Seller, a.FailsAny, a.Seller), acceptanceAsked(a.Buyer), acceptanceBorne(a, a.Clauses[0].Buyer, a.PassesAll, a.Buyer)))
	tables := []plots.Table{AcceptanceClauses(a)}
	if a.Stages != nil {
		text = append(text, "B. The test that may end after each shift. "+acceptanceSequential(x))
		tables = append(append(tables, AcceptanceStages(a)), acceptanceEnds(a)...)
	}
	text = append(text, acceptanceBrokenOff)
	return plots.Section{Heading: "For the contract", Text: acceptanceList(text...), Tables: tables}
}

// acceptanceBrokenOff is what a contract may say of a test that does not come to its end. Whoever sees a test go badly
// could else break it off and begin another, and the risks would be larger than those that are stated.
const acceptanceBrokenOff = "Broken off. A test is broken off if it stops before it is decided and is not gone on with within …… working days, for any other reason than what both sides sign for as excluded (see below; such hours are run again). " +
	"It is decided all the same where no further hour can make a difference: it has failed if one clause can no longer be kept, such as the number demanded at one envelope a cycle in the hours that are left; it has passed if every clause is kept whatever may come in them. A number that is reached alone decides nothing while another clause is open. " +
	"Otherwise, unless another rule is filled in here, it counts against the side that broke it off: failed if that was the seller, passed if it was the buyer. If it could begin anew at no cost, whoever sees it go badly would break it off, and both risks would be larger than those above. " +
	"If neither side broke it off, nothing is decided: it begins anew, and each side bears its own cost. Agreed instead: ……………………………………"

// acceptanceBorne says what a risk comes to, by the net rate and with all clauses.
func acceptanceBorne(a *study.AcceptanceAnswer, rate, all study.Proportion, asked study.Number) string {
	text := "By the net rate it comes to " + acceptanceAgainst(rate, asked)
	if len(a.Clauses) < 2 {
		return text
	}
	return text + ", by all clauses together to " + acceptanceAgainst(all, asked)
}

// acceptanceShifts returns of how many shifts a test is, and how long they are: many short ones would begin with
// full hoppers more often.
func acceptanceShifts(a *study.AcceptanceAnswer) string {
	whole, rest := acceptanceParts(a)
	text := say.Plural(whole, "shift") + " of exactly " + acceptanceHours(a.Shift) + " h"
	switch {
	case whole == 0:
		return acceptanceHours(a.Hours) + " h, within one shift of " + acceptanceHours(a.Shift) + " h,"
	case rest > 0:
		text += fmt.Sprintf(" and a last one of %s h", acceptanceHours(rest))
	case whole == 1:
		return text
	}
	return text + ", together " + acceptanceHours(a.Hours) + " h"
}

// conditions returns under what a test is run: all that a shift of it depends on.
func (x *Acceptance) conditions() string {
	work := "on the job and with the material that the form names"
	if job := x.Origin.Scenario.Job; job != "" {
		work = "on the job “" + job + "”, with the material that the form names"
	}
	return fmt.Sprintf("Each shift begins %s. The line runs at %s cycles an hour, with %s, %s.",
		x.Begins, say.Rounded(float64(x.Speed), 0), page.Operators(&x.Crew), work)
}

// acceptanceCounting returns what is counted, and what is left out.
func acceptanceCounting() plots.Section {
	return plots.Section{
		Heading: "What is counted, and what is excluded",
		Text: acceptanceList(
			"Hours are planned busy time (PBT in the words of ISO 22400-2): the clock runs from the first cycle to the end of the shift, through all stops, refills and waits for an operator. "+
				"Breaks, changeovers and maintenance that were agreed before the shift are planned stops: the clock stands still.",
			"A good envelope (good quantity, GQ) is delivered and as it should be. A set that is diverted, outsorted or spoiled is not good, and is not a defective envelope either: that is one that was delivered and is not as it should be. "+
				"It is found by looking: all that were delivered, or a sample whose size is agreed. The produced quantity (PQ) is the sets started.",
			"A stop for a fault is each standstill for a misfeed (one, or misfeeds in a row), double, jam, envelope misfeed, flap, insertion jam, no-read, mismatch, false alarm or wrong stock, whoever cleared it. "+
				"A breakdown, for which a technician has to come, is none, and is to be agreed on by itself; its time counts. A set that is diverted or outsorted while the line runs on is no stop: it is a good envelope less, and the net rate shows it. "+
				"A clause on diverted sets counts each that leaves at a track gate or an exit gate, whatever for; several may leave for one fault. Used-up hoppers, full bins, the belt and a line without documents are not faults, though their time counts. "+
				"The clearing time is that from the operator’s arrival to the end of the work, guards and lockout respected: a target for it is no reason to skip either.",
			"Excluded is only what both sides sign for at the time: material out of the specification that was agreed, measured before it is loaded; failures of power, air or the computer that feeds the line. "+
				"What is excluded is run again. Planned stops do not change the risks. What is struck out after it went badly does, and the more the worse it was: the part on how sure the decision is says by how much."),
	}
}

// formRows is how many parts of a test the form has room for, at most.
const formRows = 24

const excludedTitle = "Excluded, and why"

// acceptanceForm returns a form to fill in.
func acceptanceForm(a *study.AcceptanceAnswer) plots.Section {
	t := plots.Table{
		Name: "Form",
		Caption: "To be filled in at the end of each shift and signed by both: hours of planned busy time, good envelopes, sets started, stops for faults, seconds of clearing of all faults together, defective envelopes delivered, sets diverted or outsorted. " +
			"What no clause needs may be left out" + acceptanceRowsOf(a) + ". As a file with these headings it is what --result takes; a Sum needs the Shift column, which names it.",
		Columns: []plots.Column{
			{Title: "Shift"},
			{Title: "hours"},
			{Title: "good"},
			{Title: "sets"},
			{Title: "stops"},
			{Title: "clearing_s"},
			{Title: "defective"},
			{Title: "diverted"},
			{Title: excludedTitle},
			{Title: "Signed"},
		},
		Names: 1,
		Form:  true,
	}
	if a.Stages != nil { // the stops of a log are placed in the shifts by when these ended
		t.Columns = slices.Insert(t.Columns, 1, plots.Column{Title: "until"})
	}
	blanks := func(name string) []plots.Entry {
		row := []plots.Entry{page.Words(name)}
		for range t.Columns[1:] {
			row = append(row, page.Words(""))
		}
		return row
	}
	shifts := acceptanceWhole(a, a.Hours)
	if a.Stages != nil {
		shifts = len(a.Stages.Shifts)
	}
	shifts = min(formRows, shifts)
	for i := range shifts {
		t.Rows = append(t.Rows, blanks(say.Thousands(i+1)))
	}
	t.Rows = append(t.Rows, blanks("Sum"))
	return plots.Section{
		Heading: "The form",
		Text: "Line and serial number: ……………………………………\n\n" +
			"Place and dates: ……………………………………\n\n" +
			"Job and material, with what was measured of it: ……………………………………\n\n" +
			"For the seller: …………………………………… For the buyer: ……………………………………",
		Tables: []plots.Table{t},
	}
}

// acceptanceRowsOf says which rows of the form a test of fixed length takes, where another is planned besides.
func acceptanceRowsOf(a *study.AcceptanceAnswer) string {
	if a.Stages == nil {
		return ""
	}
	return fmt.Sprintf("; test A takes %s, test B ends when its table says so", say.Plural(acceptanceWhole(a, a.Hours), "row"))
}

// acceptanceReasons returns how sure the decision is.
func acceptanceReasons(a *study.AcceptanceAnswer, r *page.Report) plots.Section {
	notes := AcceptanceNotes(a)
	s := plots.Section{Heading: "How sure is the decision?", Text: acceptanceList(notes[:len(notes)-1]...)}
	if a.NoWay != "" {
		s.Text += "\n\nThere is no operating characteristic: " + a.NoWay + "."
		return s
	}
	s.Figures = []*plots.Figure{r.Figure("operating-characteristic")(AcceptanceCurve(a))}
	s.Tables = []plots.Table{acceptancePoints(a)}
	return s
}

// AcceptanceCurve draws the operating characteristic.
func AcceptanceCurve(a *study.AcceptanceAnswer) (*plots.Figure, error) {
	c := &a.Clauses[0]
	d := plots.SweepData{
		Head: plots.Head{
			Title: fmt.Sprintf("How often a line passes that must deliver %s in %s h", acceptanceLimit(c), acceptanceHours(a.Hours)),
			Subtitle: fmt.Sprintf("Operating characteristic: the good line with its faults more and less often. Good is %s an hour, bad is %s.",
				say.Rounded(float64(c.Good), 0), say.Rounded(float64(c.Bad), 0)),
		},
		Parameter: "net rate of the line, good envelopes an hour", Axis: "tests that it passes, %",
		Marks: []plots.Crossing{
			{X: float64(c.Bad), Name: "bad: " + say.Rounded(float64(c.Bad), 0)},
			{X: float64(c.Good), Name: "good: " + say.Rounded(float64(c.Good), 0)},
		},
	}
	curve := plots.SweepCurve{Name: "passes"}
	for _, p := range byNetRate(a.Curve) {
		low, high := float64(100*p.Passes.Low), float64(100*p.Passes.High)
		curve.Points = append(curve.Points, plots.SweepPoint{
			X: float64(p.NetRate), Y: sim.Estimate{Mean: 100 * float64(p.Passes.Share), Half: (high - low) / 2, Level: float64(p.Passes.Level), N: a.Settings.Reps},
			Within: &plots.Within{Low: low, High: high},
		})
	}
	d.Curves = []plots.SweepCurve{curve}
	return plots.Sweep(d)
}

// byNetRate returns the points from the slowest line to the fastest, one of those that are as fast. Lines whose faults
// are more and less often are in that order but for chance, which can turn two of them round in a short test.
func byNetRate(curve []study.AcceptancePoint) []study.AcceptancePoint {
	points := slices.Clone(curve)
	slices.Reverse(points)
	faster := func(a, b study.AcceptancePoint) int { return cmp.Compare(a.NetRate, b.NetRate) }
	slices.SortStableFunc(points, faster)
	return slices.CompactFunc(points, func(a, b study.AcceptancePoint) bool { return faster(a, b) == 0 })
}

func acceptancePoints(a *study.AcceptanceAnswer) plots.Table {
	t := plots.Table{
		Name: "Operating characteristic", Caption: "How often a line passes the clause of the net rate.",
		Columns: []plots.Column{
			{Title: "Faults, times those of the file", Kind: plots.Number, Decimals: 3},
			{Title: "Net rate", Unit: "good envelopes/h", Kind: plots.Number},
			{Title: "Passes", Kind: plots.Share, Decimals: 1},
			{Title: "from", Kind: plots.Share, Decimals: 1},
			{Title: "to", Kind: plots.Share, Decimals: 1},
		},
	}
	for _, p := range a.Curve {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Value(float64(p.Faults)), page.Value(float64(p.NetRate)),
			acceptanceShare(p.Passes, 1)[0], acceptanceEnd(p.Passes.Low, math.Floor), acceptanceEnd(p.Passes.High, math.Ceil),
		})
	}
	return t
}

// acceptanceEnd returns an end of the interval of a share that was counted, rounded outwards; "–" where it has
// none, since all or no tests were so.
func acceptanceEnd(x study.Number, outwards func(float64) float64) plots.Entry {
	e := page.Value(float64(x))
	if e.Shown = "–"; x > 0 && x < 1 {
		e.Shown = acceptanceComputed(study.Number(outwards(1000*float64(x)) / 1000))
	}
	return e
}

// acceptanceAlone returns the plans of the clauses by themselves.
func acceptanceAlone(a *study.AcceptanceAnswer, t plots.Table) plots.Section {
	text := []string{"A clause can also have a test of its own. Of fixed length: count to the length and see whether there were more than are allowed (of the clearing time, whether the mean is above). " +
		"These plans suppose that faults come independently of each other" + acceptanceBursts(a)}
	for i := range a.Clauses {
		c := &a.Clauses[i]
		x := c.Alone
		if x == nil {
			continue
		}
		sum, in := "the number counted", x.Unit
		if c.Of == study.AcceptanceClearing {
			sum, in = "the sum of the natural logarithms of the times in seconds", "times measured"
		}
		slope := acceptancePlain(float64(x.Slope))
		line := fmt.Sprintf("Sequential, %s: with n the %s, accept once %s is at most %s × n − %.4g, reject once it is at least %s × n + %.4g.",
			acceptanceName(c), in, sum, slope, float64(x.Accept), slope, float64(x.Reject))
		if x.End > 0 {
			line += fmt.Sprintf(" At %s at the latest: accept if there were no more than %s.", say.Rounded(float64(x.End), 0), say.Rounded(float64(x.AllowedAtEnd), 0))
		}
		text = append(text, line)
	}
	return plots.Section{Heading: "Each clause by itself", Text: acceptanceList(text...), Tables: []plots.Table{t}}
}

// acceptanceBursts says whether faults come independently in the model, as plans of events suppose.
func acceptanceBursts(a *study.AcceptanceAnswer) string {
	if a.Spread {
		return ". With bad lots or bad days they do not: more come together, and both risks are larger than these plans say."
	}
	return ", as they do in the model."
}

// acceptancePlain returns a number with five digits and no exponent.
func acceptancePlain(x float64) string {
	return strconv.FormatFloat(x, 'f', max(0, 4-say.Magnitude(x)), 64)
}
