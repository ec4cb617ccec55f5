package weeks

import (
	"bufio"
	"bytes"
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

const (
	mostDone    = 1000 // rows of a file of what is done
	mostHeading = 4096 // bytes of its heading
)

// wantDone says what a file of what is done is to have.
const wantDone = "want the columns job, sets and line, and remakes where some lie at the bench"

// doneColumns is where the columns of a file of what is done stand; -1 for those that it has not.
type doneColumns struct{ job, sets, line, remakes int }

// readDone reads what is done of the jobs of a plan: a CSV file, with commas or with semicolons, whose heading
// names the columns job, sets and, perhaps, line and remakes. It also returns on which line of the file each
// row stands.
func readDone(e desk.Env, name string) ([]seasons.Progress, []int, error) {
	in, err := e.Open(name)
	if err != nil {
		return nil, nil, err
	}
	defer in.Close() //nolint:errcheck // it was read to its end
	from := bufio.NewReaderSize(in, mostHeading)
	rows := csv.NewReader(from)
	if rows.Comma, err = separator(from); err != nil {
		return nil, nil, desk.Wrong("%s: %v", desk.ShownFile(name), err)
	}
	rows.TrimLeadingSpace, rows.ReuseRecord = true, true
	at, err := doneHeading(name, rows)
	if err != nil {
		return nil, nil, err
	}
	done, seen := []seasons.Progress{}, map[string]bool{}
	var places []int
	var wrong []error // of the rows, all told at once
	for {
		row, err := rows.Read()
		switch {
		case errors.Is(err, io.EOF):
			return done, places, errors.Join(wrong...)
		case err != nil:
			return nil, nil, errors.Join(append(wrong, desk.Wrong("%s: %v", desk.ShownFile(name), err))...)
		case len(done)+len(wrong) == mostDone:
			return nil, nil, desk.Wrong("%s has more than %d rows", desk.ShownFile(name), mostDone)
		}
		line, _ := rows.FieldPos(0)
		one, err := at.read(row)
		if err == nil && seen[one.Job] {
			err = fmt.Errorf("job %q stands twice", one.Job)
		}
		if err != nil {
			wrong = append(wrong, desk.Wrong("%s:%d: %v", desk.ShownFile(name), line, err))
			continue
		}
		seen[one.Job] = true
		done, places = append(done, one), append(places, line)
	}
}

// separator returns what stands between the columns of a heading: semicolons are what spreadsheets write
// where the comma is that of decimals.
func separator(from *bufio.Reader) (rune, error) {
	start, _ := from.Peek(mostHeading) // an end is seen when it is read
	heading, _, _ := bytes.Cut(start, []byte("\n"))
	commas, semicolons := bytes.IndexByte(heading, ',') >= 0, bytes.IndexByte(heading, ';') >= 0
	switch {
	case commas && semicolons:
		return 0, errors.New("its heading has commas and semicolons, want one of them between all columns")
	case semicolons:
		return ';', nil
	}
	return ',', nil
}

// doneHeading reads the heading of a file of what is done.
func doneHeading(name string, rows *csv.Reader) (at doneColumns, err error) {
	heading, err := rows.Read()
	if errors.Is(err, io.EOF) {
		return at, desk.Wrong("%s is empty, %s", desk.ShownFile(name), wantDone)
	}
	if err != nil {
		return at, desk.Wrong("%s: %v", desk.ShownFile(name), err)
	}
	heading[0] = strings.TrimPrefix(heading[0], "\ufeff")
	column := func(title string) int {
		return slices.IndexFunc(heading, func(h string) bool { return strings.EqualFold(strings.TrimSpace(h), title) })
	}
	at = doneColumns{column("job"), column("sets"), column("line"), column("remakes")}
	for title, k := range map[string]int{"job": at.job, "sets": at.sets} {
		if k < 0 {
			return at, desk.Wrong("%s has no column %s, %s", desk.ShownFile(name), title, wantDone)
		}
	}
	return at, nil
}

// read returns what a row says.
func (c doneColumns) read(row []string) (one seasons.Progress, err error) {
	cell := func(k int) string {
		if k < 0 {
			return ""
		}
		return strings.TrimSpace(row[k])
	}
	one.Job, one.Line = cell(c.job), cell(c.line)
	if one.Sets, err = strconv.ParseInt(cell(c.sets), 10, 64); err != nil || one.Sets < 0 {
		return one, fmt.Errorf("sets is %q, want a whole number from 0 up", row[c.sets])
	}
	if text := cell(c.remakes); text != "" {
		if one.Remakes, err = strconv.ParseInt(text, 10, 64); err != nil || one.Remakes < 0 {
			return one, fmt.Errorf("remakes is %q, want a whole number from 0 up: those that lie at the bench", text)
		}
	}
	return one, nil
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
				if word := strings.ToLower(strings.TrimRight(e.Word, ": ")); word == "sum" || word == "total" {
					meant += ": a row that sums the others up is to be left out"
				}
			}
			errs = append(errs, desk.Wrong("%s: %v%s", at, err, meant))
		}
		if len(errs) > 0 {
			return errors.Join(errs...)
		}
	}
	return nil
}
