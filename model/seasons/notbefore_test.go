package seasons

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// A job that is told to begin no sooner than it does anyway is done as in the whole plan, to the last bit, though what
// comes after it is left out: with what is uncertain drawn anew, at its means, and with a bench beside the lines.
func TestNotBeforeIsTheWholePlan(t *testing.T) {
	for name, change := range map[string]func(p *Plan, t *Together){
		"drawn":    func(*Plan, *Together) {},
		"at means": func(_ *Plan, t *Together) { t.Draws = false },
		"beside":   func(_ *Plan, t *Together) { t.Closing = model.Job{Closing: model.Beside, PerHour: 60} },
	} {
		t.Run(name, func(t *testing.T) {
			p := sixWeeks()
			for j := range p.Jobs {
				p.Jobs[j].Sets = 2000 + 300*int64(j)
			}
			p.Order = [][]int{{0, 3, 6, 9, 12, 15, 18}, {1, 4, 7, 10, 13, 16, 19}, {2, 5, 8, 11, 14, 17}}
			m := &Made{Plan: p, Horizon: p.Horizon()}
			m.Order = p.Order
			all := m.Together()
			change(p, all)
			run := func(w *Together) *TogetherStudy {
				s, err := RunTogether(context.Background(), w, sim.Plan{Seed: 3, Min: 4, Max: 4, Workers: 1}, nil)
				require.NoError(t, err)
				return s
			}
			whole := run(all)
			for _, j := range []int{0, 7, 19} {
				begun := sim.Seconds(whole.Jobs[j].Begun.Sorted()[0])
				assert.Equal(t, whole.Jobs[j], run(all.NotBefore(j, begun)).Jobs[j])
				late := run(all.NotBefore(j, begun+3*hour)).Jobs[j]
				for r := range late.Begun {
					assert.GreaterOrEqual(t, late.Begun[r], float64(begun+3*hour))
				}
			}
		})
	}
}
