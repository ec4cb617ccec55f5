package present

import (
	"slices"
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
		"Is the fastest line the best?":                           "The base runs fastest, at ",
		"Do two operators pay?":                                   "Yes, in good envelopes: “two operators” delivers ",
		"How fast is it, and do “Two operators” pay for itself?":  "Yes, in good envelopes: “two operators” delivers ",
		"Do two operators win back what the gate costs?":          "Yes, “two operators” wins it back.",
		"Can two operators do it instead of three?":               "Yes: “two operators” delivers no less than the base.",
		"Which of them is to be bought, and who is to attend it?": "",
		"Does it pay?":                             "",
		"Does the dearer one pay?":                 "",
		"Does a second operator win it back?":      "",
		"When do two operators pay?":               "",
		"Do two operators pay at half the volume?": "",
		"What do we pay for two operators?":        "",
		"Do twenty-two operators pay?":             "",
	} {
		c.Origins[0].Scenario.Question = question
		got := c.inItsWords()
		assert.Contains(t, got, want, question)
		if want == "" {
			assert.Empty(t, got)
		}
	}
}

// Of several alternatives the one is answered of that is named, and it alone: "Does Offer Birch pay?" was once
// answered with the probability that another pays, and a question that names two with that of one of them.
func TestQuestionIsAnsweredOfWhatItNames(t *testing.T) {
	c := variants(t)
	c.Lines[0].Name, c.Lines[1].Name = "Alder", "Birch"
	c.Lines = append(slices.Clone(c.Lines[:2]), c.Lines[1])
	c.Lines[2].Name = "Birch S"
	for question, want := range map[string]int{
		"does birch pay?": 1, "does birch s pay?": 2, "does birch pay against alder?": 1, "does “birch s” pay?": 2,
		"does birch pay, or birch s?": 0, "does alder pay?": 0, "does birchwood pay?": 0, "does the dearer one pay?": 0,
	} {
		_, got := c.askedOf(question)
		assert.Equal(t, want, got, question)
	}
	c.Lines = c.Lines[:2]
	c.Lines[1].Name = "with a track gate"
	for question, want := range map[string]int{
		"does it pay?": 1, "does a track gate pay for itself?": 1, "what is it, and does it pay?": 1,
		"does the dearer one pay?": 0, "does alder pay?": 0, "does a gate pay?": 0, "does the base pay?": 0,
	} {
		asked, got := c.askedOf(question)
		assert.Equal(t, want, got, question)
		assert.Equal(t, want > 0, paysAsked.MatchString(asked), question)
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
		c.Origins[0].Scenario.Question = "Do two operators pay?"
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
	best := slices.IndexFunc(c.Lines, func(x study.LineAnswer) bool { return x.Name == "two operators" })
	c.Compared[0][best].Difference = sim.Estimate{Mean: -20, Half: 80, Level: 0.95, N: 60}
	for _, question := range []string{"Do two operators pay?", "Do two operators win back what they cost?", "Can two operators do it instead of three?"} {
		c.Origins[0].Scenario.Question = question
		assert.Contains(t, c.inItsWords(), "That is open: “two operators” is not shown to deliver more or less than the base.", question)
	}
	c.Uncertainty = &study.ComparisonUncertainty{Rival: study.UncertaintyAhead{Uncertainty: &study.Uncertainty{Draws: 100}}, Lines: make([]study.ComparisonUncertain, len(c.Lines))}
	c.Uncertainty.Lines[best].Sure = new(study.Number(0.3))
	got := c.inItsWords()
	require.NotEmpty(t, got)
	assert.Equal(t, "That is open: “two operators” delivers more than the base with a probability of 30 %.", got)
}
