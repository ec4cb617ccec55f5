package scenarios

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPlace(t *testing.T) {
	s, err := Load("x", []byte(seasonal))
	require.NoError(t, err)
	for _, c := range []struct {
		keys         []string
		line, column int
	}{
		{nil, 1, 1},
		{[]string{"nothing"}, 1, 1},
	} {
		line, column := s.Place(c.keys...)
		assert.Equal(t, [2]int{c.line, c.column}, [2]int{line, column}, "%v", c.keys)
	}
	job, _ := s.Place("jobs", s.Products[0].Name)
	jobs, _ := s.Place("jobs")
	unknown, _ := s.Place("jobs", "none")
	assert.Equal(t, jobs, job, "the first is where the list begins")
	assert.Equal(t, jobs, unknown)
	line, column := (&Scenario{}).Place("jobs")
	assert.Equal(t, [2]int{1, 1}, [2]int{line, column})
}
