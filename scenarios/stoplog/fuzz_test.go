package stoplog

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// rowsOf counts the rows below the header of a file without quotes and without lines out of
// the reach of a row, in another way than the package does.
func rowsOf(data []byte, delimiter byte, headless bool) (n int64) {
	header := !headless
	preface, named := true, false
	data = []byte(fed(string(data)))
	for line := range bytes.SplitSeq(bytes.TrimPrefix(data, byteOrderMark), newline) {
		text := bytes.TrimSpace(line)
		if preface && (len(text) == 0 || text[0] == '#' && !bytes.ContainsAny(text[1:min(2, len(text))], delimiters)) {
			continue
		}
		if preface && len(line) > 4 && bytes.EqualFold(line[:4], []byte("sep=")) && len(bytes.TrimRight(line, "\r\n")) == 5 && !named {
			named = true
			continue
		}
		preface = false
		empty := len(bytes.Trim(line, " \t\r\n"+string(delimiter))) == 0
		switch {
		case empty:
		case header:
			header = false
		default:
			n++
		}
	}
	return n
}

// Whatever the bytes, there is no panic, and every row is used or skipped.
func FuzzRead(f *testing.F) {
	files, err := filepath.Glob("testdata/bad/*.csv")
	if err != nil || len(files) == 0 {
		f.Fatal(files, err)
	}
	for i, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data, uint8(i))
	}
	f.Fuzz(func(t *testing.T, data []byte, how uint8) {
		m := Mapping{File: "fuzz.csv", SkipBad: how&1 > 0, Headless: how&2 > 0}
		if m.Headless {
			m.Columns = map[Column]string{When: "1", Station: "2", Reason: "3", Length: "4", Feeds: "2"}
			delete(m.Columns, map[bool]Column{true: Feeds, false: Length}[how&4 > 0])
		}
		if how&8 > 0 {
			m.Times, m.Unit = allTimes[int(how>>4)%len(allTimes)], Minutes
		}
		calls, last := int64(0), 0
		report, err := Read(bytes.NewReader(data), m, func(s Stop) error {
			if calls++; s.Line <= last || !(s.Seconds >= 0 && s.Seconds <= maxSeconds) || s.Station == "" {
				t.Fatalf("stop %+v after line %d", s, last)
			}
			last = s.Line
			return nil
		})
		check(t, data, m, report, err, calls)

		calls = 0
		report, err = ReadCounts(bytes.NewReader(data), m, func(c Count) error {
			if calls++; !(c.Feeds >= 0 && c.Feeds <= maxCount) || c.Station == "" {
				t.Fatalf("count %+v", c)
			}
			return nil
		})
		check(t, data, m, report, err, calls)
	})
}

// check compares a report with its error, with the calls made and with the file.
func check(t *testing.T, data []byte, m Mapping, r Report, err error, calls int64) {
	t.Helper()
	if r.Rows != r.Used+r.Skipped || r.Used != calls {
		t.Fatalf("%d rows, %d used, %d skipped, %d calls", r.Rows, r.Used, r.Skipped, calls)
	}
	if bad, is := errors.AsType[BadRows](err); is != (r.Skipped > 0 && !m.SkipBad) || is && bad.Skipped != r.Skipped {
		t.Fatalf("%d rows skipped, with error %v", r.Skipped, err)
	}
	if (r.Skipped > 0) != (len(r.Problems) > 0) && r.Rows > 0 {
		t.Fatalf("%d rows skipped, with %d problems", r.Skipped, len(r.Problems))
	}
	for _, p := range r.Problems {
		if p.Line < 1 || p.Column < 1 || p.Text == "" || p.Caret < 0 || p.Caret > excerptWidth {
			t.Fatalf("problem %#v", p)
		}
	}
	header := err != nil && r.Rows == 0
	if header || bytes.IndexByte(data, '"') >= 0 || len(data) > maxRow {
		return
	}
	if n := rowsOf(data, r.Layout.Delimiter, m.Headless); n != r.Rows {
		t.Fatalf("%d rows in the file, %d in the report", n, r.Rows)
	}
}

// The fuzz test is of use only if the check of it can fail.
func TestTheCountOfRowsSeesALostRow(t *testing.T) {
	data := []byte("# invented\n\nstation,feeds\na,1\n\n,,\nb,2\n")
	if n := rowsOf(data, ',', false); n != 2 {
		t.Fatalf("%d rows, want 2", n)
	}
	report, err := ReadCounts(bytes.NewReader(data), Mapping{}, func(Count) error { return nil })
	if err != nil || report.Rows != 2 || report.Blank != 3 {
		t.Fatalf("%+v, %v", report, err)
	}
}
