package present

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What nobody may do is said once for the shifts in which it is the same, of many shifts the first three.
func TestUnattendedSentences(t *testing.T) {
	assert.Empty(t, unattendedSentences(nil))
	clear := unattended{"clear faults on flats", []string{"Wed 06:00"}}
	assert.Equal(t, "In the shift from Wed 06:00 nobody who is there may clear faults on flats, or change over on flats: what needs it waits. ",
		unattendedSentences([]unattended{clear, {"change over on flats", []string{"Wed 06:00"}}}))
	assert.Equal(t, "In the shift from Wed 06:00 nobody who is there may clear faults on flats: what needs it waits. "+
		"In the shifts from a, b, c and 2 others nobody who is there may fill: what needs it waits. ",
		unattendedSentences([]unattended{clear, {"fill", []string{"a", "b", "c", "d", "e"}}}))
	assert.Contains(t, unattendedSentences([]unattended{clear, {"1", nil}, {"2", []string{"b"}}, {"3", []string{"c"}}}), "There is 1 other sort of work")
}
