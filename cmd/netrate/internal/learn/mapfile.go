package learn

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/present"
	"netrate/scenarios/stoplog"
)

// mapFile says what the two files of a log do not say themselves, in the place of flags.
type mapFile struct {
	Columns   map[string]string `yaml:"columns,omitempty"` // of the log: headings by what they are
	Counts    map[string]string `yaml:"counts,omitempty"`  // of the counts
	Causes    map[string]string `yaml:"causes,omitempty"`  // by the words for them
	Kinds     map[string]string `yaml:"kinds,omitempty"`   // by station
	Line      string            `yaml:"line,omitempty"`    // of whose rows both files are read
	Dates     string            `yaml:"dates,omitempty"`
	Unit      string            `yaml:"unit,omitempty"`
	Thousands string            `yaml:"thousands,omitempty"`
	DayStarts string            `yaml:"day_starts,omitempty"`
}

// largestMap is the size of the largest mapping file, in bytes.
const largestMap = 1 << 20

// readMap takes what a mapping file says, but for what flags say.
func (o *mappingFlags) readMap(e desk.Env, starts *dayTime) error {
	if o.mapped == "" {
		return nil
	}
	var m mapFile
	err := fromFile(e, o.mapped, func(from io.Reader) error {
		text, err := io.ReadAll(io.LimitReader(from, largestMap))
		if err != nil {
			return err
		}
		if err := yaml.Load(text, &m, yaml.WithKnownFields()); err != nil {
			return desk.Wrong("%s is not a mapping: %v; want columns, counts, causes, kinds, line, dates, unit, thousands, day_starts", desk.ShownFile(o.mapped), err)
		}
		return nil
	})
	if err != nil {
		return err
	}
	o.columns = append(pairs(m.Columns), o.columns...)
	o.countColumns = append(pairs(m.Counts), o.countColumns...)
	o.causes = append(pairs(m.Causes), o.causes...)
	o.kinds = append(pairs(m.Kinds), o.kinds...)
	if o.only.line == "" {
		o.only.line = m.Line
	}
	if o.dates == "" {
		o.dates = m.Dates
	}
	if o.unit == "" {
		o.unit = m.Unit
	}
	if o.thousands == "" {
		o.thousands = m.Thousands
	}
	if *starts == 0 && m.DayStarts != "" {
		if err := starts.Set(m.DayStarts); err != nil {
			return desk.Wrong("%s: day_starts is %q, %v", desk.ShownFile(o.mapped), m.DayStarts, err)
		}
	}
	return nil
}

// pairs returns what a mapping says as the flags have it, in the order of the names.
func pairs(m map[string]string) (all []string) {
	for _, name := range slices.Sorted(maps.Keys(m)) {
		all = append(all, name+"="+m[name])
	}
	return all
}

// mapText returns a mapping file by which both files of a log are read as they were, with the words
// that mean no cause as remarks.
func (o *mappingFlags) mapText(l present.Log, starts dayTime) string {
	m := mapFile{Columns: columnsOf(l.StopRows), Counts: columnsOf(l.CountRows), Causes: map[string]string{}, Kinds: map[string]string{}, Line: o.only.line, Thousands: o.thousands, Unit: string(l.StopRows.Layout.Unit)}
	for name, times := range writtenDates {
		if times == l.StopRows.Layout.Times && times != "" {
			m.Dates = name
		}
	}
	for _, pair := range o.causes {
		if word, cause, err := halves("cause", pair); err == nil {
			m.Causes[word] = cause
		}
	}
	for _, s := range l.Stations {
		if s.Kind != "" {
			m.Kinds[s.Name] = s.Kind
		}
	}
	for _, pair := range o.kinds {
		if column, kind, err := halves("kind", pair); err == nil && kind == noKind {
			m.Kinds[column] = noKind
		}
	}
	if starts > 0 {
		m.DayStarts = starts.String()
	}
	text, err := yaml.Dump(&m)
	if err != nil { // of texts and mappings of them there is none
		panic(fmt.Sprintf("learn: a mapping that cannot be written: %v", err))
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# How %s and %s are read: netrate fit --map THIS\n%s", stoplog.OneLine(l.StopFile.Name), stoplog.OneLine(l.CountFile.Name), text)
	if words := l.UnknownWords(); len(words) > 0 {
		b.WriteString("# Words that mean no known cause, to be taken into causes as WORD: CAUSE\n")
		for _, word := range stoplog.Frequent(words, len(words)) {
			if strings.HasPrefix(word, "no cause at all") {
				word = "'', " + word
			}
			b.WriteString("#   " + stoplog.OneLine(word) + "\n")
		}
	}
	return b.String()
}

// columnsOf returns the headings of a file by what they were read as; the numbers of columns that
// have none. Columns of stations are not among them, which are known by being nothing else.
func columnsOf(r stoplog.Report) map[string]string {
	columns := map[string]string{}
	wide := !slices.ContainsFunc(r.Layout.Columns, func(c stoplog.Reading) bool { return c.Column == stoplog.Station })
	for _, c := range r.Layout.Columns {
		if wide && c.Column == stoplog.Feeds {
			continue
		}
		if columns[string(c.Column)] = c.Heading; c.Heading == "" {
			columns[string(c.Column)] = fmt.Sprint(c.Number)
		}
	}
	return columns
}
