package workbench

import (
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
)

// trackShown is a line drawn to its pitches, in the units of its drawing.
type trackShown struct {
	Line          string // "" of the only one
	Pitch         int    // how wide one is
	Width, Height int
	Stations      []stationShown
}

type stationShown struct {
	Name, Kind, Path string
	At, X            int
	Lines            []string // of the name
	Glyph            string
	Cost             int // how long its bar is
	Says             string
}

// How a track is drawn.
const (
	trackWidth = 980 // what a screen of 1024 has room for
	mostPitch  = 56
	leastPitch = 26
	costHeight = 22
	nameLength = 12 // of a line of a name, characters
)

// tracksOf returns the lines of a scenario, drawn to their pitches, with what each station costs on paper.
func tracksOf(sc *scenarios.Scenario) (all []trackShown) {
	if sc.LineGroup == nil {
		return []trackShown{trackOf("", sc.Line)}
	}
	for _, l := range sc.LineGroup.Lines {
		all = append(all, trackOf(l.Name, l))
	}
	return all
}

func trackOf(name string, l *model.Line) trackShown {
	layout := study.LayoutOf(l.AtMeans()) // beside rates by draws of what is uncertain
	n := len(layout.Stations)
	last := layout.Stations[n-1].At
	t := trackShown{Line: name, Pitch: min(mostPitch, max(leastPitch, trackWidth/(last+3))), Height: 118}
	t.Width = (last + 3) * t.Pitch
	most := 1.0
	for _, s := range layout.Stations {
		most = max(most, s.Lost)
	}
	path := "stations."
	if name != "" {
		path = "lines." + name + ".stations."
	}
	for _, s := range layout.Stations {
		x := stationShown{
			Name: s.Name, Kind: s.Kind.Name, Path: path + s.Name, At: s.At, X: (s.At + 1) * t.Pitch,
			Lines: twoLines(s.Name), Glyph: glyphs[s.Role], Cost: int(costHeight * s.Lost / most),
		}
		if s.Lost >= 0.5 {
			x.Says = "costs " + say.Rounded(s.Lost, 0) + " an hour on paper"
		}
		t.Stations = append(t.Stations, x)
	}
	return t
}

// twoLines returns a name on two lines at most, shortened to what fits.
func twoLines(name string) []string {
	lines := []string{""}
	for word := range strings.FieldsSeq(name) {
		last := &lines[len(lines)-1]
		switch {
		case *last == "":
			*last = word
		case utf8.RuneCountInString(*last)+1+utf8.RuneCountInString(word) <= nameLength || len(lines) == 2:
			*last += " " + word
		default:
			lines = append(lines, word)
		}
	}
	for i := range lines {
		if r := []rune(lines[i]); len(r) > nameLength+1 {
			lines[i] = string(r[:nameLength]) + "…"
		}
	}
	return lines
}

// glyphs are the marks of stations by what they do, drawn in a square of 16.
var glyphs = map[model.Role]string{
	model.Works:     "M3 3H13V8L10 13H6L3 8Z",
	model.Reads:     "M2 8Q8 2 14 8Q8 14 2 8ZM8 6.5A1.5 1.5 0 1 1 7.99 6.5Z",
	model.Gathers:   "M4 2H12V5H4ZM3 6H13V9H3ZM2 10H14V13H2Z",
	model.Envelopes: "M2 4H14V12H2ZM2 4L8 9L14 4",
	model.Diverts:   "M8 2V9M5 7L8 10L11 7M3 13H13",
	model.Inserts:   "M2 5H9M6 2L9 5L6 8M9 3H14V13H4V10",
	model.Outsorts:  "M3 4H13V9H3ZM8 9V13M6 11.5L8 13.5L10 11.5",
	model.Delivers:  "M2 11A2 2 0 1 0 2.01 11ZM14 11A2 2 0 1 0 14.01 11ZM2 9H14M4 3H11V7H4Z",
}
