package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestForbiddenOf(t *testing.T) {
	for text, want := range map[string]Forbidden{
		"double=ship": {Double, Ship}, "no_read=divert": {NoRead, Divert}, "flap=stop": {Flap, Stop},
	} {
		x, err := ForbiddenOf(text)
		require.NoError(t, err)
		assert.Equal(t, want, x)
		assert.Equal(t, text, x.String())
	}
	for _, text := range []string{"", "double", "double=", "double=hide", "jam=stop", "no read=ship", "ship=double"} {
		_, err := ForbiddenOf(text)
		assert.ErrorContains(t, err, "want FAULT=RESPONSE such as double=ship", text)
	}
}

// What is forbidden is not among the responses, and all else is.
func TestPermitted(t *testing.T) {
	l := referenceLine()
	all := l.Decisions()
	some := Permitted(all, []Forbidden{{Double, Ship}, {Flap, Outsort}})
	require.Len(t, some, len(all))
	left, gone := 0, 0
	for k, d := range some {
		left += len(d.Responses)
		gone += len(all[k].Responses) - len(d.Responses)
		if d.Fault == Double {
			assert.Equal(t, []Response{Stop, Divert, Outsort}, d.Responses)
		}
	}
	assert.Equal(t, 7, gone, "six feeders and a flap")
	assert.Positive(t, left)
	assert.Equal(t, all, l.Decisions(), "what was passed is as it was")
}

func TestBreach(t *testing.T) {
	l := referenceLine()
	assert.Empty(t, l.Breach(nil))
	assert.Empty(t, l.Breach([]Forbidden{{Double, Ship}, {Misfeed, Stop}}))
	assert.Equal(t, "1 has the response divert to a double", l.Breach([]Forbidden{{Double, Divert}}))
	assert.Equal(t, "inserter could answer no flap at all", l.Breach([]Forbidden{{Flap, Stop}, {Flap, Outsort}}))
}
