package page

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/plots"
)

// A figure with numbers that have no room on an axis costs itself alone; one that is wrong is an
// error.
func TestFigureTooLarge(t *testing.T) {
	r := NewReport("v", Opening{Title: "t", Lead: "Simulated: much."})
	good := &plots.Figure{}
	figures := []*plots.Figure{
		r.Figure("money")(nil, errors.Join(errors.New("plots: x"), fmt.Errorf("plots: y is 1e20, %w", plots.ErrTooLarge))),
		r.Figure("good")(good, nil),
	}
	r.Add(plots.Section{Heading: "Figures", Figures: figures})
	r, err := r.Done()
	require.NoError(t, err)
	assert.Equal(t, []*plots.Figure{good}, r.Page.Sections[0].Figures)
	assert.Len(t, r.Figures, 1)
	assert.Equal(t, "Simulated: much. Figures left out, because their numbers are too large to be drawn: money.", r.Page.Lead)

	r.Figure("wrong")(nil, errors.New("plots: a title is missing"))
	_, err = r.Done()
	require.ErrorContains(t, err, "figure wrong: plots: a title is missing")
}
