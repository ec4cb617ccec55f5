package learn

import (
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/scenarios/stoplog"
)

// mappingFlags say what the files do not say themselves.
type mappingFlags struct {
	columns, countColumns, causes, kinds []string // each NAME=MEANING
	dates, unit, thousands               string
	mapped                               string // a file that says the same; "" for none
	skipBad                              bool
	only                                 only
}

func (o *mappingFlags) addMapping(flags *pflag.FlagSet) {
	flags.StringArrayVar(&o.columns, "column", nil, "`A=B`: A is the column of the log headed B, or its number")
	flags.StringArrayVar(&o.countColumns, "counts-column", nil, "`A=B`: the same for the counts")
	flags.StringArrayVar(&o.causes, "cause", nil, "`A=B`: the word A in the log means the cause B")
	flags.StringVar(&o.mapped, "map", "", "read the files as `FILE` says, which fit --map-out writes; flags win")
	desk.Reads(flags, "map")
	flags.StringVar(&o.dates, "dates", "", "how dates and times are `WRITTEN`, where the files leave that open")
	flags.StringVar(&o.unit, "unit", "", "`UNIT` of the lengths of stops, where the heading does not say")
	flags.StringVar(&o.thousands, "thousands", "", "`MARK` of thousands in feeds and speeds: point, comma or apostrophe")
	flags.BoolVar(&o.skipBad, "skip-bad", false, "leave out rows that cannot be read, and count them")
	flags.StringVar(&o.only.line, "line", "", "take only the rows of both files that are of the line `NAME`")
	flags.Var(&o.only.speed, "speed", "take only the rows of both files at this speed, such as 12000/h")
	flags.StringVar(&o.only.job, "job", "", "take only the rows of both files that are of the job `NAME`")
}

// again returns the flags as they were given.
func (o *mappingFlags) again() string {
	var b strings.Builder
	if o.mapped != "" {
		b.WriteString(" --map " + desk.Quoted(o.mapped))
	}
	for _, f := range []struct {
		name   string
		values []string
	}{{"column", o.columns}, {"counts-column", o.countColumns}, {"cause", o.causes}, {"kind", o.kinds}, {"dates", filled(o.dates)}, {"unit", filled(o.unit)}, {"thousands", filled(o.thousands)}, {"speed", filled(o.only.speed.String())}, {"job", filled(o.only.job)}, {"line", filled(o.only.line)}} {
		for _, value := range f.values {
			b.WriteString(" --" + f.name + " " + desk.Quoted(value))
		}
	}
	if o.skipBad {
		b.WriteString(" --skip-bad")
	}
	return b.String()
}

func filled(value string) []string {
	if value == "" {
		return nil
	}
	return []string{value}
}

// writtenDates are the ways to write moments, by the words for them.
var writtenDates = map[string]stoplog.Times{
	"": "", "iso": stoplog.ISO, "dotted": stoplog.Dotted, "day first": stoplog.DayFirst, "month first": stoplog.MonthFirst, "seconds": stoplog.FromStart,
}

// marks are those of thousands, by the words for them.
var marks = map[string]byte{"": 0, "point": '.', "comma": ',', "apostrophe": '\''}

// mapping returns how the log is to be read, but for its name and columns.
func (o *mappingFlags) mapping() (stoplog.Mapping, error) {
	m := stoplog.Mapping{SkipBad: o.skipBad, Line: o.only.line, Unit: stoplog.Unit(o.unit), Causes: map[string]stoplog.Cause{}}
	var known bool
	if m.Times, known = writtenDates[o.dates]; !known {
		return m, desk.Wrong("--dates is %q, want iso, dotted, day first, month first or seconds", o.dates)
	}
	if m.Thousands, known = marks[o.thousands]; !known {
		return m, desk.Wrong("--thousands is %q, want point, comma or apostrophe", o.thousands)
	}
	for _, pair := range o.causes {
		word, name, err := halves("cause", pair)
		if err != nil {
			return m, err
		}
		if word == stoplog.NoCause {
			return m, desk.Wrong("--cause %s: an empty cell has nothing before the =, as in --cause \"=planned\"; in the file of --map its word is ''", desk.Quoted(pair))
		}
		if m.Causes[word], err = stoplog.CauseOf(name); err != nil {
			return m, desk.Wrong("--cause %s: %v", desk.Quoted(pair), err)
		}
	}
	return m, nil
}

// mappedColumns returns the columns that a flag names.
func mappedColumns(flag string, pairs []string) (map[stoplog.Column]string, error) {
	columns := map[stoplog.Column]string{}
	for _, pair := range pairs {
		name, heading, err := halves(flag, pair)
		if err != nil {
			return nil, err
		}
		columns[stoplog.Column(name)] = heading
	}
	return columns, nil
}

// halves returns what stands before the last = and after it. Of a cause nothing before it is no cause
// at all.
func halves(flag, pair string) (before, after string, err error) {
	k := strings.LastIndexByte(pair, '=')
	if k < 0 || k == 0 && flag != "cause" || k == len(pair)-1 { // a cause may be an empty cell
		return "", "", desk.Wrong("--%s is %q, want two words with = between", flag, pair)
	}
	return strings.TrimSpace(pair[:k]), strings.TrimSpace(pair[k+1:]), nil
}
