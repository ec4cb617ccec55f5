package buy

import (
	"encoding/csv"
	"math"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model/study"
	"netrate/sim/accept"
)

// stageColumns are the columns of the limits of a test that may end after each shift. A limit is empty
// where none is: nothing is decided so soon.
var stageColumns = []string{"hours", "passes_at", "fails_below"}

// writeStages writes the limits after each shift, if that is asked for.
func (o *acceptFlags) writeStages(e desk.Env, stages *study.AcceptanceStages) error {
	if o.stagesOut == "" {
		return nil
	}
	if stages == nil {
		return desk.Wrong("--stages-out: no test that may end after each shift could be planned, so there are no limits to write")
	}
	f, err := desk.Create(e, "stages-out", o.stagesOut)
	if err != nil {
		return err
	}
	defer f.Drop()
	return desk.Fill(f, desk.Text(func() string {
		rows := []string{strings.Join(stageColumns, ",")}
		for _, s := range stages.Shifts {
			rows = append(rows, number(float64(s.Hours))+","+stageLimit(s.Passes)+","+stageLimit(s.Fails))
		}
		return strings.Join(rows, "\n") + "\n"
	}))
}

// stageLimit returns a limit as the file has it.
func stageLimit(x *study.Number) string {
	if x == nil {
		return ""
	}
	return number(float64(*x))
}

// readStages reads the limits after each shift of some hours.
func readStages(e desk.Env, file string, shift float64) (*accept.Stages, error) {
	from, err := e.Open(file)
	if err != nil {
		return nil, err
	}
	defer func() { _ = from.Close() }() // it was only read
	rows, err := csv.NewReader(from).ReadAll()
	if err != nil {
		return nil, desk.Wrong("%s: %v", desk.ShownFile(file), err)
	}
	if len(rows) == 0 || strings.TrimPrefix(strings.Join(rows[0], ","), "\ufeff") != strings.Join(stageColumns, ",") {
		return nil, desk.Wrong("%s does not begin with %s, as the files of --stages-out do", desk.ShownFile(file), strings.Join(stageColumns, ","))
	}
	s := &accept.Stages{}
	for i, row := range rows[1:] {
		hours, err := strconv.ParseFloat(strings.TrimSpace(row[0]), 64)
		if err != nil || math.Abs(hours-float64(float64(i+1)*shift)) > 1e-3 {
			return nil, desk.Wrong("%s: line %d is after %s h, want %s h: a row after each shift of the file", desk.ShownFile(file), i+2, row[0], number(float64(i+1)*shift))
		}
		pass, passErr := stageLimitOf(row[1], math.Inf(1))
		fail, failErr := stageLimitOf(row[2], math.Inf(-1))
		if passErr != nil || failErr != nil {
			return nil, desk.Wrong("%s: line %d has the limits %q and %q, want numbers of good envelopes, or nothing", desk.ShownFile(file), i+2, row[1], row[2])
		}
		s.Pass, s.Fail = append(s.Pass, pass), append(s.Fail, fail)
	}
	return s, nil
}

// stageLimitOf reads a limit.
func stageLimitOf(text string, none float64) (float64, error) {
	if text = strings.TrimSpace(text); text == "" || text == "–" {
		return none, nil
	}
	x, err := strconv.ParseInt(text, 10, 64)
	if err == nil && (x < 1 || x > mostCounted) {
		err = strconv.ErrRange
	}
	return float64(x), err
}
