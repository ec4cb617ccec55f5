package present

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A question that is known is answered in its own words; of others nothing is made up.
func TestQuestionIsAnswered(t *testing.T) {
	c := variants(t)
	for question, want := range map[string]string{
		"Is the fastest line the best?": "No, the fastest line is not the best: the base runs fastest",
		"Does it pay?":                  "Yes, in good envelopes: “two operators” delivers ",
		"Does a second operator win back what the gate costs?":    "Yes, “two operators” wins it back.",
		"Can one operator do it instead of two?":                  "Yes: “two operators” is not shown to deliver less.",
		"Which of them is to be bought, and who is to attend it?": "",
	} {
		c.Origins[0].Scenario.Question = question
		got := c.inItsWords(false)
		assert.Contains(t, got, want, question)
		if want == "" {
			assert.Empty(t, got)
		}
	}
}
