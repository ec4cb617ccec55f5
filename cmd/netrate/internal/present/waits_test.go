package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/study"
)

func TestWaits(t *testing.T) {
	at := study.PlansMoment{At: 2*24*3600 + 10*3600}
	x := &study.PlansPlan{Lines: []study.PlansLine{{Jobs: []study.PlansJob{
		{Name: "insurer", Waits: &study.PlansWait{From: at, Hours: 3.42, Share: 1}},
		{Name: "wine club", Waits: &study.PlansWait{From: at, Hours: 1, Share: 0.25}},
		{Name: "none"},
		{Name: "a moment", Waits: &study.PlansWait{From: at, Hours: 0.01, Share: 1}},
	}}}}
	assert.Equal(t, "Insurer waits 3.4 h of working time, from week 1 day 3 10:00 on, for somebody who may change over. "+
		"Wine club waits 1.0 h of working time, from week 1 day 3 10:00 on, for somebody who may change over, in 25.0 % of the replications. ", Plans{}.waits(x))
}
