package workbench

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"netrate/scenarios"
)

// formShown is the form of what is selected: of a station or of a part of the file.
type formShown struct {
	Path    string
	Title   string
	About   string
	Broken  string // why it cannot be changed now
	Fields  []fieldShown
	More    []fieldShown // what is not given, and need not be
	Begin   []fieldShown // what is given together, of money of which nothing is said yet
	Station string       // the name of the station; "" of a part of the file
	Line    string
	At      int
}

type fieldShown struct {
	scenarios.Field
	ID     string
	Choice bool
	Wide   bool
	Inner  []fieldShown
	Hint   string // what holds where nothing is given
}

// parts are the parts of a file that have a form, besides stations.
var parts = []struct{ Path, Title string }{
	{"line", "Line"},
	{"crew", "Crew"},
	{"work", "Work"},
	{"policy", "What faults lead to"},
	{"costs", "Money"},
}

// fixedKeys are keys that are not changed in a form: a station of another kind is another one.
var fixedKeys = []string{"kind", "stations"}

// formOf returns the form of a path of a text. A text that is no scenario is changed in the text.
func formOf(text, path string) formShown {
	x := formShown{Path: path, Title: path}
	if _, err := scenarios.Load("text", []byte(text)); err != nil {
		x.Broken = "The text has a mistake, see above: it is mended there, and forms can be used again."
	}
	for _, p := range parts {
		if p.Path == path {
			x.Title = p.Title
		}
	}
	fields := scenarios.Fields([]byte(text), path)
	if before, name, is := strings.Cut("."+path, ".stations."); is {
		x.Station, x.Title = name, name
		x.Line = strings.TrimPrefix(before, ".lines.")
	}
	if path == "costs" {
		var begun bool
		if fields, begun = costFields(fields); !begun {
			for _, f := range fields {
				if f.Needed {
					x.Begin = append(x.Begin, fieldOf(f))
				}
			}
			return x
		}
	}
	for _, f := range fields {
		if f.Name == "kind" {
			x.About = f.Value
		}
		if slices.Contains(fixedKeys, f.Name) {
			continue
		}
		shown := fieldOf(f)
		if f.Given || f.Needed || f.Preset != "" {
			x.Fields = append(x.Fields, shown)
		} else {
			x.More = append(x.More, shown)
		}
	}
	return x
}

// costFields returns the fields of money, of which a life, a rate and, unless there are those of jobs, a
// volume are needed too, as a line has them; and whether anything is given. What is not given has a value to
// begin with, but for the volume.
func costFields(fields []scenarios.Field) (all []scenarios.Field, begun bool) {
	usual := map[string]string{"currency": "EUR", "life": "8", "rate": "8%"}
	ofJobs := slices.ContainsFunc(fields, func(f scenarios.Field) bool { return f.Name == "volumes" && f.Given })
	for _, f := range fields {
		f.Needed = f.Needed || f.Name == "life" || f.Name == "rate" || f.Name == "volume" && !ofJobs
		begun = begun || f.Given
		all = append(all, f)
	}
	for i := range all {
		if !begun {
			all[i].Value = usual[all[i].Name]
		}
	}
	return all, begun
}

// fieldOf returns a field as a form has it. Of a mapping what is given has fields of its own, and the
// whole can be written in one line.
func fieldOf(f scenarios.Field) fieldShown {
	x := fieldShown{Field: f, ID: "f-" + strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, f.Path) + "-" + sumOf(f.Path)[:6], Choice: len(f.Words) > 0, Wide: len(f.Value) > 24}
	switch {
	case f.Preset != "":
		x.Hint = "preset: " + f.Preset
	case f.Values != "":
		x.Hint = strings.TrimPrefix(f.Values, "a ")
	case f.Needed:
		x.Hint = "needed"
	}
	for _, inner := range f.Fields {
		if inner.Given || inner.Needed {
			x.Inner = append(x.Inner, fieldOf(inner))
		}
	}
	return x
}

// Label returns what a field is called: its key, as people read it.
func (f fieldShown) Label() string { return strings.ReplaceAll(f.Name, "_", " ") }

// Help returns what the field is about, and what may be written into it.
func (f fieldShown) Help() string {
	if f.Values == "" {
		return f.About
	}
	return fmt.Sprintf("%s (%s)", f.About, cmp.Or(f.Values, f.Holds))
}
