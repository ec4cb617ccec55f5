package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
)

func TestAgainstRefuses(t *testing.T) {
	directory := t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(directory, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	contents := func(name string) string {
		text, err := os.ReadFile(filepath.Join("internal", "learn", "testdata", name))
		require.NoError(t, err)
		return string(text)
	}
	line, stops := file("line.yaml", contents("plain.yaml")), file("stops.csv", contents("six-stops.csv"))
	days := file("days.csv", "Day,Station,Feeds\n2026-03-02,inserter,100\n2026-03-02,letter,5\n")
	clocks := file("clocks.csv", "Day,Station,Feeds\n2026-03-02 06:00,inserter,100\n2026-03-02 06:00,letter,5\n")
	dayless := file("dayless.csv", "Station,Feeds\ninserter,100\nletter,5\n")
	holes := file("holes.csv", "Day,Station,Feeds\n2026-03-02,inserter,100\n,letter,5\n")
	late := file("late.csv", "Day,Station,Feeds\n2026-04-02,inserter,100\n2026-04-02,letter,5\n")
	idle := file("idle.csv", "Day,Station,Feeds\n2026-03-02,inserter,0\n2026-03-02,letter,0\n")
	others := file("others.csv", "Start,Station,Cause,Duration (s)\n2026-03-02 07:00:00,folder,jam,5\n")
	folder := file("folder.csv", "Day,Station,Feeds\n2026-03-02,folder,100\n")
	group, err := filepath.Abs("testdata/group.yaml")
	require.NoError(t, err)
	jobs, err := filepath.Abs("testdata/jobs.yaml")
	require.NoError(t, err)
	for name, c := range map[string]struct {
		args []string
		want string
	}{
		"no counts":       {[]string{line, "--against", stops}, "--against wants the feeds of each station and day too: --counts FILE"},
		"no log":          {[]string{line, "--counts", days}, "--counts is about a log: --against says which"},
		"no log to start": {[]string{line, "--day-starts", "06:00"}, "--day-starts is about a log"},
		"csv":             {[]string{line, "--against", stops, "--counts", days, "--csv", "-"}, "--csv writes shifts"},
		"precision":       {[]string{line, "--against", stops, "--counts", days, "--precision", "1%"}, "--precision is about the net rate"},
		"uncertainty":     {[]string{line, "--against", stops, "--counts", days, "--uncertainty", "100"}, "--uncertainty can be 0 only"},
		"input twice":     {[]string{"-", "--against", stops, "--counts", "-"}, "only one of the scenario, the log and the counts"},
		"no day":          {[]string{line, "--against", stops, "--counts", dayless}, "dayless.csv does not say of which day its line 2 is"},
		"a hole":          {[]string{line, "--against", stops, "--counts", holes}, "holes.csv does not say of which day its line 3 is"},
		"starts twice":    {[]string{line, "--against", stops, "--counts", clocks, "--day-starts", "06:00"}, "--day-starts is for dates alone"},
		"no time of day":  {[]string{line, "--against", stops, "--counts", days, "--day-starts", "6 o'clock"}, "want a time of day such as 06:00"},
		"rows of no job":  {[]string{line, "--against", stops, "--counts", days, "--job", "nobody's"}, "has no column of jobs: --column job=HEADING says which it is"},
		"all before":      {[]string{line, "--against", stops, "--counts", late}, "stops are from 2026-03-02 to 2026-03-09, counts from 2026-04-02"},
		"no feeds":        {[]string{line, "--against", stops, "--counts", idle}, "has no feeds of any station"},
		"other stations":  {[]string{line, "--against", others, "--counts", folder}, "its stations are folder, and those of"},
		"several lines":   {[]string{group, "--against", stops, "--counts", days}, "has several lines, and --against compares one with its log"},
		"no job":          {[]string{jobs, "--against", stops, "--counts", days}, "names none of the jobs bills, bills and card, terms, flats, offers and notices: say with --job NAME"},
	} {
		t.Run(name, func(t *testing.T) {
			out, err := runIn(t, c.args...)
			require.ErrorContains(t, err, c.want)
			assert.Equal(t, 2, desk.Status(err))
			assert.Empty(t, out)
		})
	}
}
