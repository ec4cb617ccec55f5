package learn

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
)

const (
	foreignStops = "Beginn;Ort;Was;Dauer\n03.03.2026 06:10;Leser 2;Fehlabzug;1,5\n03.03.2026 06:40;Leser 2;Kaffee;2\n"
	foreignCount = "Ort;Takte\nLeser 2;9000\n"
)

// What fifteen flags say a file says that fit writes; with it the same log is read in the same way,
// and flags win over it.
func TestMapFile(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("stops.csv", []byte(foreignStops), 0o600))
	require.NoError(t, os.WriteFile("counts.csv", []byte(foreignCount), 0o600))
	run := func(args ...string) (string, error) {
		var out, says strings.Builder
		err := FitVerb().Run(append([]string{"stops.csv", "--counts", "counts.csv"}, args...), desk.Env{Out: &out, Err: &says, Getenv: os.Getenv})
		return out.String(), err
	}
	_, err := run()
	require.Error(t, err, "nobody knows what is what")
	first, err := run("--column", "when=Beginn", "--column", "station=Ort", "--column", "cause=Was", "--column", "length=Dauer", "--counts-column", "station=Ort",
		"--counts-column", "feeds=Takte", "--unit", "minutes", "--cause", "Fehlabzug=misfeed", "--kind", "Leser 2=feeder", "--map-out", "map.yaml")
	require.NoError(t, err)
	text, err := os.ReadFile("map.yaml")
	require.NoError(t, err)
	assert.Contains(t, string(text), "dates: dotted\n")
	assert.Contains(t, string(text), "#   \"Kaffee\" (1)\n")
	second, err := run("--map", "map.yaml")
	require.NoError(t, err)
	before := func(text string) string { return text[:strings.Index(text, "To repeat it")] }
	assert.Equal(t, before(first), before(second))
	assert.Contains(t, second, "netrate fit stops.csv --counts counts.csv --map map.yaml")
	third, err := run("--map", "map.yaml", "--cause", "Kaffee=double")
	require.NoError(t, err)
	assert.Contains(t, third, "Leser 2, double      1  9,000")
	require.NoError(t, os.WriteFile(filepath.Join(".", "bad.yaml"), []byte("colums: {a: b}\n"), 0o600))
	_, err = run("--map", "bad.yaml")
	require.ErrorContains(t, err, "bad.yaml is not a mapping")
	assert.Equal(t, 2, desk.Status(err))
}

// How dates are written is said of both files, of which one may write them in a way that is clear by
// itself. It was once read in the other's way, and the file that fit had written refused what it was
// written of.
func TestMapFileOfTwoWaysToWriteDates(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("stops.csv", []byte("start,station,cause,seconds\n02/03/2026 06:10,feeder 1,jam,40\n31/03/2026 06:10,feeder 1,jam,50\n"), 0o600))
	require.NoError(t, os.WriteFile("counts.csv", []byte("day,station,feeds\n2026-03-02,feeder 1,9000\n2026-03-31,feeder 1,7000\n"), 0o600))
	run := func(args ...string) (string, error) {
		var out, says strings.Builder
		err := FitVerb().Run(append([]string{"stops.csv", "--counts", "counts.csv"}, args...), desk.Env{Out: &out, Err: &says, Getenv: os.Getenv})
		return out.String() + says.String(), err
	}
	_, err := run("--map-out", "map.yaml")
	require.NoError(t, err)
	for _, args := range [][]string{{"--map", "map.yaml"}, {"--dates", "day first"}} {
		said, err := run(args...)
		require.NoError(t, err, said)
		assert.Contains(t, said, "written like 31/03/2026")
	}
}

// What is said to be run next has the mapping file in it, and not once more what that says.
func TestMapFileIsNamedOnce(t *testing.T) {
	t.Chdir(t.TempDir())
	for name, text := range map[string]string{
		"line.yaml": plainLineText, "map.yaml": "columns: {station: Ort}\ndates: day first\nline: north\n",
		"stops.csv":  "start,Ort,cause,seconds,line\n02/03/2026 06:10,letter,jam,40,north\n",
		"counts.csv": "line,station,feeds\nnorth,letter,9000\n",
	} {
		require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
	}
	var out strings.Builder
	args := strings.Fields("stops.csv --counts counts.csv --map map.yaml --into line.yaml --out fitted.yaml --cause Kaffee=double")
	require.NoError(t, FitVerb().Run(args, desk.Env{Out: &out, Err: &out, Getenv: os.Getenv}))
	_, next, _ := strings.Cut(out.String(), "To run it:\n")
	assert.Equal(t, "  netrate run fitted.yaml\n  netrate run fitted.yaml --against stops.csv --counts counts.csv --map map.yaml --cause Kaffee=double\n", next)
}

// The line whose rows are read is a part of how files are read; a flag wins over it.
func TestMapFileOfALine(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("stops.csv", []byte("start,line,station,cause,seconds\n2026-03-02 06:10,north,feeder 1,jam,40\n"), 0o600))
	require.NoError(t, os.WriteFile("counts.csv", []byte("line,station,feeds\nnorth,feeder 1,9000\nsouth,feeder 1,7000\n"), 0o600))
	run := func(args ...string) (string, error) {
		var out, says strings.Builder
		err := FitVerb().Run(append([]string{"stops.csv", "--counts", "counts.csv"}, args...), desk.Env{Out: &out, Err: &says, Getenv: os.Getenv})
		return out.String() + says.String(), err
	}
	_, err := run("--line", "north", "--map-out", "map.yaml")
	require.NoError(t, err)
	text, err := os.ReadFile("map.yaml")
	require.NoError(t, err)
	assert.Contains(t, string(text), "\nline: north\n")
	said, err := run("--map", "map.yaml")
	require.NoError(t, err)
	assert.Contains(t, said, "9,000")
	said, err = run("--map", "map.yaml", "--line", "south")
	require.Error(t, err)
	assert.Contains(t, said, `stops.csv: no row is of the line "south"`)
}
