package sim

import (
	"math"

	"netrate/sim/portable"
)

// A ziggurat covers the curve of a density by layers of the same area: whoever falls well
// within his layer, as nearly all do, is under the curve for sure.
//
// The draws are those of math/rand/v2, whose code is not the same on every processor. The
// tables hold what a draw of integers is scaled by, below what it is accepted at once, and the
// height of the curve.
//
// Source: Marsaglia and Tsang, The Ziggurat Method for Generating Random Variables, Journal of
// Statistical Software 5 (2000) no. 8, whose tables these are.
type ziggurat[T [128]layer | [256]layer] struct {
	layers T
	edge   float64 // where the tail begins
}

type layer struct {
	accept uint32
	scale  float32
	height float32
}

var (
	expLayers  = exponentialLayers()
	normLayers = normalLayers()
)

func exponentialLayers() (z ziggurat[[256]layer]) {
	const area = 3.949659822581572e-3
	z.edge = 7.69711747013104972
	height := func(x float64) float64 { return portable.Exp(-x) }
	lower := func(x float64) float64 { return -portable.Log(area/x + height(x)) }
	stack(z.layers[:], z.edge, area, 1<<32, height, lower)
	return z
}

func normalLayers() (z ziggurat[[128]layer]) {
	const area = 9.91256303526217e-3
	z.edge = 3.442619855899
	height := func(x float64) float64 { return portable.Exp(-x * x / 2) }
	lower := func(x float64) float64 { return math.Sqrt(-2 * portable.Log(area/x+height(x))) }
	stack(z.layers[:], z.edge, area, 1<<31, height, lower)
	return z
}

// stack fills in the layers from the lowest, which has the tail, to the top. lower returns
// where the layer above the one that ends at x ends.
func stack(layers []layer, edge, area, unit float64, height, lower func(x float64) float64) {
	last := len(layers) - 1
	base := area / height(edge)
	layers[0] = layer{uint32(edge / base * unit), float32(base / unit), 1}
	layers[last].scale, layers[last].height = float32(edge/unit), float32(height(edge))
	x := edge
	for i := last - 1; i > 0; i-- {
		inner := lower(x)
		layers[i+1].accept = uint32(inner / x * unit)
		layers[i].scale, layers[i].height = float32(inner/unit), float32(height(inner))
		x = inner
	}
}

// under reports whether a point of a layer's overhang, at a random height, is under the curve.
func under(layers []layer, i int, u, curve float64) bool {
	rise := float32(float32(u) * (layers[i-1].height - layers[i].height))
	return layers[i].height+rise < float32(curve)
}

// Exponential returns a number from the exponential distribution with mean 1.
func (s *Stream) Exponential() float64 {
	for {
		u := s.Uint64()
		j, i := uint32(u), int(uint8(u>>32))
		l := &expLayers.layers[i]
		x := float64(float64(j) * float64(l.scale))
		switch {
		case j < l.accept:
			return x
		case i == 0:
			return expLayers.edge - portable.Log(s.Uniform())
		case under(expLayers.layers[:], i, s.Uniform(), portable.Exp(-x)):
			return x
		}
	}
}

// Normal returns a number from the normal distribution with mean 0 and variance 1.
func (s *Stream) Normal() float64 {
	for {
		u := s.Uint64()
		j, i := int32(u), int(u>>32&0x7f)
		l := &normLayers.layers[i]
		x := float64(float64(j) * float64(l.scale))
		switch {
		case uint32(max(j, -j)) < l.accept:
			return x
		case i == 0:
			return s.normalTail(j > 0)
		case under(normLayers.layers[:], i, s.Uniform(), portable.Exp(-x*x/2)):
			return x
		}
	}
}

func (s *Stream) normalTail(right bool) float64 {
	for {
		x := float64(-portable.Log(s.Uniform()) * (1 / normLayers.edge))
		y := -portable.Log(s.Uniform())
		if y+y >= x*x {
			if right {
				return normLayers.edge + x
			}
			return -normLayers.edge - x
		}
	}
}
