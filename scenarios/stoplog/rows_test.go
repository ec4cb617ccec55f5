package stoplog

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/scenarios"
)

// cutAll returns the cells of all rows, or the first fault.
func cutAll(t *testing.T, in io.Reader, delimiter byte) (all [][]string, fault string) {
	t.Helper()
	r := newRows(in)
	r.delimiter = delimiter
	for {
		err := r.advance()
		if errors.Is(err, io.EOF) {
			return all, ""
		}
		require.NoError(t, err)
		if r.fault != "" {
			return all, r.fault
		}
		var row []string
		for _, c := range r.cells {
			row = append(row, string(c.text))
		}
		all = append(all, row)
	}
}

// The first four are the examples of RFC 4180, section 2, items 1, 2, 6 and 7.
func TestCells(t *testing.T) {
	for _, c := range []struct {
		name, text string
		delimiter  byte
		want       [][]string
	}{
		{"lines end with CRLF", "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", ',', [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"the last line does not end", "aaa,bbb,ccc\r\nzzz,yyy,xxx", ',', [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"a quoted line break", "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", ',', [][]string{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"a doubled quote", `"aaa","b""bb","ccc"`, ',', [][]string{{"aaa", `b"bb`, "ccc"}}},
		{"two texts with doubled quotes", `"a""a","b""b""",c`, ',', [][]string{{`a"a`, `b"b"`, "c"}}},
		{"blanks around fields", " a ,\t\"b \" , c\t\n", ',', [][]string{{"a", "b", "c"}}},
		{"a quote within a field", `belt 24" wide;6"`, ';', [][]string{{`belt 24" wide`, `6"`}}},
		{"tabs", "a\t\tc\n\t\t\n", '\t', [][]string{{"a", "", "c"}}},
		{"empty lines", "\n\r\na|b\n\n", '|', [][]string{{"a", "b"}}},
		{"nothing", "", ',', nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, fault := cutAll(t, strings.NewReader(c.text), c.delimiter)
			assert.Empty(t, fault)
			assert.Equal(t, c.want, got)
			slow, _ := cutAll(t, iotest.OneByteReader(strings.NewReader(c.text)), c.delimiter)
			assert.Equal(t, c.want, slow, "byte by byte")
		})
	}
}

// Lines may end with a carriage return alone, also where two reads meet.
func TestOldLineEnds(t *testing.T) {
	want := [][]string{{"a", "b"}, {"c", "d\ne"}, {"f", "g"}}
	for _, text := range []string{"a,b\rc,\"d\re\"\rf,g\r", "a,b\r\rc,\"d\re\"\r\r\rf,g", "a,b\rc,\"d\ne\"\nf,g\r\n"} {
		for _, in := range []io.Reader{strings.NewReader(text), iotest.OneByteReader(strings.NewReader(text)), iotest.DataErrReader(strings.NewReader(text))} {
			got, fault := cutAll(t, in, ',')
			assert.Empty(t, fault)
			assert.Equal(t, want, got)
		}
	}
	report, err := ReadCounts(strings.NewReader("station,feeds\rx,1\ry,oops\r"), Mapping{}, func(Count) error { return nil })
	require.ErrorContains(t, err, "log:3:3: feeds is")
	assert.EqualValues(t, 2, report.Rows)
}

// An error of reading comes after all that was read.
func TestLineEndsBeforeAnError(t *testing.T) {
	broken := iotest.ErrReader(errors.New("broken"))
	text, err := io.ReadAll(&lineEnds{in: io.MultiReader(strings.NewReader("a\r"), broken)})
	require.ErrorContains(t, err, "broken")
	assert.Equal(t, "a\n", string(text))
	long := strings.Repeat("\r", 3*maxRow)
	text, err = io.ReadAll(&lineEnds{in: strings.NewReader(long)})
	require.NoError(t, err)
	assert.Len(t, text, len(long))
}

// Names that look alike are one name, and what nobody sees is refused with its place.
func TestNamesThatLookAlike(t *testing.T) {
	var names []string
	read := func(text string) error {
		names = nil
		_, err := ReadCounts(strings.NewReader("station,feeds\n"+text), Mapping{}, func(c Count) error {
			names = append(names, c.Station)
			return nil
		})
		return err
	}
	require.NoError(t, read("h\u00e9,1\nhe\u0301,2\nhe\u0301,3\n"))
	assert.Equal(t, []string{"h\u00e9", "h\u00e9", "h\u00e9"}, names)
	for _, hidden := range []string{"\u3164", "a\u200bb", "a\u2800", "a\ufe0f", "a\u115f", "a\U000e0100"} {
		require.ErrorContains(t, read("ok,1\n"+hidden+",1\n"), "log:3:1: station is", hidden)
	}
	require.NoError(t, read("'=1+1,1\n''x,1\n'x,1\n',1\n"))
	assert.Equal(t, []string{"=1+1", "'x", "'x", "'"}, names, "the guard against formulas is taken off")
}

// Headings are shown without what a terminal would obey.
func TestHeadingsAreHarmless(t *testing.T) {
	report, err := ReadCounts(strings.NewReader("station,feeds,\x1b[31mred\n\u202ea,1,2\nb,1,2\n"), Mapping{SkipBad: true}, func(Count) error { return nil })
	require.NoError(t, err)
	assert.Equal(t, []string{"\ufffd[31mred"}, report.Layout.Unread)
	assert.NotContains(t, report.Problems.Error(), "\u202e")
}

// A file that ends too early is wrong at a place.
func TestFilesWithoutRows(t *testing.T) {
	for text, want := range map[string]string{
		"":                              "x.csv:1:1: the file is empty, want a header and rows",
		"# invented\n":                  "x.csv:2:1: the file is empty, want a header and rows",
		"station,feeds\n":               "x.csv:2:1: there are no rows, only what stands above them",
		"# invented\nstation,feeds\n\n": "x.csv:4:1: there are no rows, only what stands above them",
	} {
		_, err := ReadCounts(strings.NewReader(text), Mapping{File: "x.csv"}, func(Count) error { return nil })
		var problems scenarios.Problems
		require.ErrorAs(t, err, &problems)
		assert.Equal(t, want, err.Error())
	}
}

// A quote that is left open spoils its own line only, wherever the file ends.
func TestAQuoteLeftOpen(t *testing.T) {
	for _, lines := range []int{0, 1, maxLines - 2, maxLines - 1, maxLines, 3 * maxLines} {
		r := newRows(strings.NewReader("a,\"b\n" + strings.Repeat("c,d\n", lines)))
		r.delimiter = ','
		require.NoError(t, r.advance())
		assert.Equal(t, "this quote is not closed", r.fault)
		assert.Equal(t, 2, r.faultAt)
		for i := range lines {
			require.NoError(t, r.advance())
			assert.Empty(t, r.fault)
			assert.Equal(t, i+2, r.line)
		}
		assert.ErrorIs(t, r.advance(), io.EOF)
	}
}

// A row takes at most 20 lines.
func TestManyLinesInARow(t *testing.T) {
	for lines, want := range map[int]string{maxLines: "", maxLines + 1: "this quote is not closed"} {
		_, fault := cutAll(t, strings.NewReader("a,\"b"+strings.Repeat("\n", lines-1)+"\"\nc,d\n"), ',')
		assert.Equal(t, want, fault, lines)
	}
}

// A row of 64 KiB is the longest; the one after a longer one is found.
func TestLongRows(t *testing.T) {
	for _, c := range []struct {
		name string
		size int // without the line break
		ok   bool
	}{{"longest", maxRow, true}, {"too long", maxRow + 1, false}, {"far too long", 20 * maxRow, false}} {
		for _, end := range []string{"", "\n", "\nnext,row\n"} {
			t.Run(fmt.Sprintf("%s %q", c.name, end), func(t *testing.T) {
				r := newRows(strings.NewReader("a," + strings.Repeat("b", c.size-2) + end))
				r.delimiter = ','
				require.NoError(t, r.advance())
				assert.Equal(t, c.ok, r.fault == "", r.fault)
				if len(end) > 1 {
					require.NoError(t, r.advance())
					assert.Equal(t, 2, r.line)
					assert.Equal(t, "next", string(r.cells[0].text))
				}
				assert.ErrorIs(t, r.advance(), io.EOF)
			})
		}
	}
}

// What the CSV reader of the standard library makes of a text, this one does too: an
// independent reading of RFC 4180.
func FuzzCells(f *testing.F) {
	for _, text := range []string{
		"aaa,\"b\r\nbb\",\"c\"\"cc\"\r\nzzz,yyy,xxx", "\"a\n\n\n", "a,\"b\"c\n,,\n\n", "\r\r\n\"\"\"\",\"\"\n", "\"\n\",a\n\"", ",\n",
		"\"0\r\r\n0\"", "a,b\rc,d\r", "\"a\rb\"\r\r\"\"",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		plain := fed(text)
		if len(text) > maxRow/2 || strings.Count(plain, "\n") >= maxLines {
			return
		}
		reader := csv.NewReader(strings.NewReader(plain))
		reader.FieldsPerRecord = -1
		want, err := reader.ReadAll()
		got, fault := cutAll(t, strings.NewReader(text), ',')
		if err != nil {
			return // stricter where quotes stand without need
		}
		if fault != "" {
			t.Fatalf("%q: %s, but it reads %q", text, fault, want)
		}
		if a, b := canonical(want), canonical(got); a != b {
			t.Fatalf("%q: got %q, want %q", text, b, a)
		}
	})
}

// fed returns a text with a line feed for each line end: the standard library knows none that
// is a carriage return alone, and of several before a feed it leaves all but one in a field.
func fed(text string) string {
	return returns.ReplaceAllStringFunc(text, func(s string) string {
		if strings.HasSuffix(s, "\n") {
			return "\n"
		}
		return strings.Repeat("\n", len(s))
	})
}

var returns = regexp.MustCompile(`\r+\n?`)

// canonical returns rows as a text, without blanks around fields, empty rows and the carriage
// returns before line feeds in quoted fields.
func canonical(rows [][]string) string {
	var b bytes.Buffer
	for _, row := range rows {
		var line bytes.Buffer
		for _, cell := range row {
			line.WriteString(strings.Trim(fed(cell), " \t\r\n"))
			line.WriteByte(0)
		}
		if len(bytes.Trim(line.Bytes(), "\x00")) > 0 {
			b.Write(line.Bytes())
			b.WriteByte(1)
		}
	}
	return b.String()
}
