package study

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func always(int, int) bool { return true }

// What is best for its money, where 70 counts as equal.
func TestFrontierOf(t *testing.T) {
	base := moneyPoint{figure: 7000, asItIs: true}
	for _, c := range []struct {
		name   string
		points []moneyPoint
		want   []int
	}{
		{"nothing", nil, nil},
		{"nothing to buy", []moneyPoint{base}, []int{0}},
		{"each gains more than counts as equal", []moneyPoint{base, {price: 10, figure: 7100}, {price: 20, figure: 7200}}, []int{0, 1, 2}},
		{"noise is no step", []moneyPoint{base, {price: 10, figure: 7500}, {price: 17, figure: 7500.08}, {price: 20, figure: 7600}}, []int{0, 1, 3}},
		{"one that is beaten is none", []moneyPoint{base, {price: 10, figure: 7500}, {price: 20, figure: 7400}, {price: 30, figure: 6000}}, []int{0, 1}},
		{"nor one that is beaten at its price", []moneyPoint{base, {price: 10, figure: 7200}, {price: 10, figure: 7500}}, []int{0, 2}},
		{"the best that costs nothing is the first", []moneyPoint{base, {figure: 7200}, {figure: 7150}, {price: 10, figure: 7400}}, []int{1, 3}},
		{"unless it counts as equal to nothing bought", []moneyPoint{base, {figure: 7060}, {price: 10, figure: 7400}}, []int{0, 2}},
		{"small gains add up to a step", []moneyPoint{base, {price: 10, figure: 7060}, {price: 20, figure: 7120}, {price: 30, figure: 7180}}, []int{0, 2, 3}},
		{"the last may gain less", []moneyPoint{base, {price: 10, figure: 7500}, {price: 20, figure: 7530}}, []int{0, 1, 2}},
		{"but is the cheapest that is as good as the best", []moneyPoint{base, {price: 10, figure: 7500}, {price: 20, figure: 7530}, {price: 29, figure: 7530.1}, {price: 40, figure: 7536}}, []int{0, 1, 2}},
		{"what is advised may gain less", []moneyPoint{base, {price: 10, figure: 7500}, {price: 20, figure: 7560, advised: true}, {price: 30, figure: 7590}}, []int{0, 1, 2, 3}},
		{"but not less than nothing", []moneyPoint{base, {price: 10, figure: 7500}, {price: 20, figure: 7499, advised: true}}, []int{0, 1}},
		{"of one price it comes before what counts as equal", []moneyPoint{base, {price: 10, figure: 7520}, {price: 10, figure: 7500, advised: true}}, []int{0, 2}},
		{"a sale comes before nothing bought", []moneyPoint{base, {price: -10, figure: 6000}, {price: 10, figure: 7500}}, []int{1, 0, 2}},
	} {
		assert.Equal(t, c.want, frontierOf(c.points, 70, always), c.name)
	}
	far := []moneyPoint{base, {price: 10, figure: 7500}, {price: 20, figure: 7600}}
	assert.Equal(t, []int{0, 1}, frontierOf(far, 70, func(of, _ int) bool { return of == 1 }), "what is not shown to gain is no step")
}

// Of random designs each step of the frontier gains more than what counts as equal, and nothing that is
// left out would on what is kept for no more money; only what is advised and the last may gain less.
func TestFrontierOfRandomDesigns(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	const equal = 70
	small := 0
	for range 500 {
		points := []moneyPoint{{figure: 7000, asItIs: true}}
		for range 1 + random.IntN(40) {
			price := float64(random.IntN(30))
			points = append(points, moneyPoint{price: price, figure: 6900 + 20*price + float64(random.Float64()*300)})
		}
		advised := random.IntN(len(points))
		points[advised].advised = true
		on := frontierOf(points, equal, always)
		for k := 1; k < len(on); k++ {
			x, before := points[on[k]], points[on[k-1]]
			require.Greater(t, x.price, before.price)
			least := float64(equal)
			switch {
			case x.advised:
				least = 0
			case k == len(on)-1:
				least = designNoMore * equal
			}
			require.Greater(t, x.figure-before.figure, least)
			if x.figure-before.figure <= equal {
				small++
			}
		}
		for _, x := range points {
			best := 0.0
			for _, i := range on {
				if points[i].price <= x.price {
					best = max(best, points[i].figure)
				}
			}
			require.LessOrEqual(t, x.figure-best, float64(equal), "%v is missed", x)
		}
		for _, room := range []int{3, 6} {
			some := thinned(points, on, room)
			require.LessOrEqual(t, len(some), max(room, min(len(on), 3)))
			require.Equal(t, on[0], some[0])
			require.Equal(t, on[len(on)-1], some[len(some)-1])
			require.Subset(t, on, some)
		}
	}
	assert.Positive(t, small, "the exceptions were not tried")
}

// Where there is no room for all, what goes first changes least what is to be had for a price; the corners of the
// concave hull go last, and what is advised stays.
func TestFrontierIsThinned(t *testing.T) {
	points := []moneyPoint{
		{price: 0, figure: 7200},
		{price: 12, figure: 7990},
		{price: 22, figure: 8230},
		{price: 24, figure: 9500},
		{price: 30, figure: 10280},
		{price: 42, figure: 10345, advised: true},
		{price: 43, figure: 10346},
		{price: 52, figure: 10375},
	}
	all := []int{0, 1, 2, 3, 4, 5, 6, 7}
	for room, want := range map[int][]int{
		8: all,
		7: {0, 1, 2, 3, 4, 5, 7}, // 1 for 9 is lost; without the third it is 240 for 2
		6: {0, 1, 3, 4, 5, 7},
		5: {0, 1, 4, 5, 7}, // neither is a corner: 1,510 for 6 are lost, and 790 for 12 would be
		4: {0, 4, 5, 7},
		3: {0, 5, 7},
		1: {0, 5, 7}, // there is nothing to do without
	} {
		assert.Equal(t, want, thinned(points, all, room), "room for %d", room)
	}
	assert.Equal(t, []int{0, 1, 2, 3, 4, 5, 6, 7}, all)
}
