// Package portable holds functions whose results have the same bits on every processor.
//
// Those of package math have not: some are in assembly on some processors, some even choose
// by what the processor at hand can do, and in all Go code x*y + z may become one fused
// instruction, which rounds once instead of twice. Here and in all packages that results come
// from, a product that is added to something is converted, float64(x*y) + z, which the
// language says is rounded; the test Fused of cmd/netrate finds those that are not.
//
//   - [Exp], [Expm1], [Log], [Log1p], [Log10], [Pow], [Lgamma] and [Erfc] are those of math.
//     What is not here, such as math.Sqrt, math.Floor or math.Mod, is exact anyway.
//   - [NormalQuantile], [StudentQuantile], [FQuantile], [GammaQuantile], [BetaQuantile]
//     and [TriangleQuantile], [NormalBelow], [GammaBelow], [GammaAbove] and [BetaBelow] are of the usual distributions.
//   - [Sum], [Mean] and [Variance] add in the order given.
package portable
