package present

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// A question that is known is answered in its own words; of others nothing is made up.
func TestQuestionIsAnswered(t *testing.T) {
	c := variants(t)
	for question, want := range map[string]string{
		"Is the fastest line the best?": "No, the fastest line is not the best: the base runs fastest",
		"Does it pay?":                  "Yes, in good envelopes: “two operators” delivers ",
		"Does a second operator win back what the gate costs?":    "Yes, “two operators” wins it back.",
		"Can one operator do it instead of two?":                  "Yes: “two operators” delivers no less than the base.",
		"Which of them is to be bought, and who is to attend it?": "",
	} {
		c.Origins[0].Scenario.Question = question
		got := c.inItsWords()
		assert.Contains(t, got, want, question)
		if want == "" {
			assert.Empty(t, got)
		}
	}
}

// Yes, no and open follow from the probability that is stated beside them; so does whether a target is
// reached. A page once began with a bare "Yes.", and went on with a target reached in 0 % of shifts.
func TestAnswersFollowFromTheirProbability(t *testing.T) {
	for p, want := range map[float64][2]string{
		0: {"No", "not reached"}, 0.05: {"No", "not reached"},
		0.3:  {"That is open", "missed more often than not"},
		0.5:  {"That is open", "reached at least as often as not, but not surely"},
		0.7:  {"That is open", "reached at least as often as not, but not surely"},
		0.95: {"Yes", "reached"}, 1: {"Yes", "reached"},
	} {
		assert.Equal(t, want, [2]string{verdict(p), targetVerdict(p)}, "%g", p)
	}
	for rate, want := range map[float64]string{
		9000: "With “two operators” the target of 9,000 an hour is not reached: in 0 % of shifts, against 0 % with the base",
		100:  "With “two operators” the target of 100 an hour is reached: in 100 % of shifts, against 100 % with the base",
	} {
		c := variants(t, func(q *study.Comparison, _ *scenarios.Scenario) {
			for i := range q.Alternatives {
				q.Alternatives[i].Target = rate
			}
		})
		c.Origins[0].Scenario.Question = "Does it pay?"
		for _, page := range []bool{false, true} {
			text := c.asked(page)
			assert.Contains(t, text, want)
			assert.NotContains(t, text, "Yes. ")
		}
	}
}

// What is not shown is open, whichever way the question is put, and of draws with its probability.
func TestQuestionsThatAreOpen(t *testing.T) {
	c := variants(t)
	best := c.bestOther()
	c.Compared[0][best].Difference = sim.Estimate{Mean: -20, Half: 80, Level: 0.95, N: 60}
	for _, question := range []string{"Does it pay?", "Does it win back what it costs?", "Can one operator do it instead of two?"} {
		c.Origins[0].Scenario.Question = question
		assert.Contains(t, c.inItsWords(), "That is open: “two operators” is not shown to deliver more or less than the base.", question)
	}
	c.Uncertainty = &study.ComparisonUncertainty{Rival: study.UncertaintyAhead{Uncertainty: &study.Uncertainty{Draws: 100}}, Lines: make([]study.ComparisonUncertain, len(c.Lines))}
	c.Uncertainty.Lines[best].Sure = new(study.Number(0.3))
	got := c.inItsWords()
	require.NotEmpty(t, got)
	assert.Equal(t, "That is open: “two operators” delivers more than the base with a probability of 30 %.", got)
}
