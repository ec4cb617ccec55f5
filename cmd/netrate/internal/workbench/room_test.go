package workbench

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/sim"
)

// spreadAround returns rates of shifts, evenly up to so far around a mean.
func spreadAround(mean, by float64, n int) (all sim.Sample) {
	for i := range n {
		all = append(all, mean-by+2*by*float64(i)/float64(n-1))
	}
	return all
}

func TestRoom(t *testing.T) {
	var r room
	first := r.of(spreadAround(12_000, 500, 16))
	assert.InDelta(t, 12_000, (first[0]+first[1])/2, 1)
	for _, x := range []struct {
		what  string
		rates sim.Sample
		stays bool
	}{
		{"more shifts", spreadAround(12_010, 600, 1000), true},
		{"a line that is a little slower", spreadAround(11_700, 500, 16), true},
		{"one that is twice as fast", spreadAround(24_000, 500, 16), false},
		{"back", spreadAround(12_000, 500, 16), false},
		{"one that hardly varies", spreadAround(12_000, 20, 16), false},
	} {
		before := r
		got := r.of(x.rates)
		assert.Equal(t, x.stays, r == before, x.what)
		assert.LessOrEqual(t, got[0], x.rates.Quantile(0), x.what)
		assert.GreaterOrEqual(t, got[1], x.rates.Quantile(1), x.what)
	}
	assert.Nil(t, r.of(sim.Sample{3}), "one shift says nothing of how they spread")
}

// While an answer gets sharper, the axis of its first figure stays where it is; the report has it by itself.
func TestAxesStayWhileAnAnswerGetsSharper(t *testing.T) {
	var axes [][]string
	a := asker{show: func(_ int, regions map[string]string) {
		if regions["figures"] != "" {
			first, _, _ := strings.Cut(regions["figures"], "</svg>")
			axes = append(axes, regexp.MustCompile(`<text[^>]*>[0-9]+,[0-9]00</text>`).FindAllString(first, -1))
		}
	}}
	a.answer(t.Context(), task{text: textNamed(t, "direct-mail"), from: place{Title: "x"}}, nil)
	require.GreaterOrEqual(t, len(axes), 2)
	require.GreaterOrEqual(t, len(axes[0]), 3, axes[0])
	for _, x := range axes[1:] {
		assert.Equal(t, axes[0], x)
	}
	r, err := a.report.Report("x")
	require.NoError(t, err)
	alone, err := r.Figures[slices.IndexFunc(r.Figures, func(f desk.NamedFigure) bool { return f.Name == "distribution" })].Figure.Chart()
	require.NoError(t, err)
	assert.NotContains(t, string(alone), axes[0][0], "a report has room for its own shifts alone")
}

// Beside pins what stands in the text is called now in the figures of the page, and has its name in a report.
func TestFiguresBesidePins(t *testing.T) {
	text := textNamed(t, "direct-mail")
	var figures []string
	a := asker{show: func(_ int, regions map[string]string) {
		if regions["figures"] != "" {
			figures = append(figures, regions["figures"])
		}
	}}
	a.answer(t.Context(), task{text: text, from: place{Title: "x"}}, nil)
	a.answer(t.Context(), task{text: text + "# and\n", from: place{Title: "x"}, pins: []pin{{Name: "a", Text: text}}}, nil)
	assert.Contains(t, figures[0], ">Direct mail, six feeders</text>")
	last := figures[len(figures)-1]
	assert.NotContains(t, last, ">Direct mail, six feeders</text>")
	assert.Contains(t, last, ">now</text>")
	r, err := a.report.Report("x")
	require.NoError(t, err)
	assert.Contains(t, r.Page.Title, "Direct mail, six feeders")
}
