package weeks

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model/seasons"
	"netrate/model/study"
)

// mostDone is how many rows a file of what is done may have.
const mostDone = 1000

// readDone reads what is done of the jobs of a plan: a CSV file whose heading names the columns job,
// sets and, perhaps, line. It also returns on which line of the file each row stands.
func readDone(e desk.Env, name string) ([]seasons.Progress, []int, error) {
	in, err := e.Open(name)
	if err != nil {
		return nil, nil, err
	}
	defer in.Close() //nolint:errcheck // it was read to its end
	rows := csv.NewReader(in)
	rows.TrimLeadingSpace, rows.ReuseRecord = true, true
	heading, err := rows.Read()
	if errors.Is(err, io.EOF) {
		return nil, nil, desk.Wrong("%s is empty, want the columns job, sets and line", desk.ShownFile(name))
	}
	if err != nil {
		return nil, nil, desk.Wrong("%s: %v", desk.ShownFile(name), err)
	}
	heading[0] = strings.TrimPrefix(heading[0], "\ufeff")
	var at [3]int
	for i, column := range []string{"job", "sets", "line"} {
		at[i] = slices.IndexFunc(heading, func(h string) bool { return strings.EqualFold(strings.TrimSpace(h), column) })
		if at[i] < 0 && column != "line" {
			return nil, nil, desk.Wrong("%s has no column %s, want job, sets and line", desk.ShownFile(name), column)
		}
	}
	done, seen := []seasons.Progress{}, map[string]bool{}
	var places []int
	for {
		row, err := rows.Read()
		switch {
		case errors.Is(err, io.EOF):
			return done, places, nil
		case err != nil:
			return nil, nil, desk.Wrong("%s: %v", desk.ShownFile(name), err)
		case len(done) == mostDone:
			return nil, nil, desk.Wrong("%s has more than %d rows", desk.ShownFile(name), mostDone)
		}
		line, _ := rows.FieldPos(0)
		one := seasons.Progress{Job: strings.TrimSpace(row[at[0]])}
		if one.Sets, err = strconv.ParseInt(strings.TrimSpace(row[at[1]]), 10, 64); err != nil || one.Sets < 0 {
			return nil, nil, desk.Wrong("%s:%d: sets is %q, want a whole number from 0 up", desk.ShownFile(name), line, row[at[1]])
		}
		if at[2] >= 0 {
			one.Line = strings.TrimSpace(row[at[2]])
		}
		if seen[one.Job] {
			return nil, nil, desk.Wrong("%s:%d: job %q stands twice", desk.ShownFile(name), line, one.Job)
		}
		seen[one.Job] = true
		done, places = append(done, one), append(places, line)
	}
}

// wrongDone returns what is wrong with what is done of the plans that are asked about, each with its
// row.
func wrongDone(name string, rows []int, q *study.Plans) error {
	for _, c := range q.Configurations {
		_, wrong := c.Plan.After(q.Now, q.Done)
		var errs []error
		for _, err := range wrong {
			at, meant := desk.ShownFile(name), ""
			if e, is := errors.AsType[*seasons.WrongProgress](err); is && e.Row >= 0 {
				at, meant = fmt.Sprintf("%s:%d", at, rows[e.Row]), desk.Meant(e.Word, e.Names, "")
			}
			errs = append(errs, desk.Wrong("%s: %v%s", at, err, meant))
		}
		if len(errs) > 0 {
			return errors.Join(errs...)
		}
	}
	return nil
}
