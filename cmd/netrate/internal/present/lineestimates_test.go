package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/cmd/netrate/internal/small"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// One defective envelope in 50 shifts of 1,000: the exact interval of 1 in 50,000 is 0.0253 to
// 5.572 in 50,000 (Garwood 1936, table of the Poisson mean, from memory), in a shift a fiftieth.
func TestDefectiveStaysAboveZero(t *testing.T) {
	_, _, s := small.Scenario(t, 50)
	for i := range s.Shifts {
		s.Shifts[i].Defective = 0
	}
	s.Shifts[7].Defective = 1
	s.Total.Sets.Good, s.Total.Sets.Defective = 49_999, 1
	var got []plots.Entry
	for _, f := range runs.Figures() {
		if f.Name == "defective" {
			got = figureEntries(s, f)
		}
	}
	assert.Equal(t, "0.02", got[0].Shown)
	assert.Equal(t, "0.00051 to 0.11", got[1].Text)
	assert.Contains(t, Run{RunAnswer: study.RunAnswerOf(s, nil), Command: "netrate run x.yaml"}.Text(), " 0.00051 to 0.11 ")
}
