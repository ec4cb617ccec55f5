// Package money holds the sums of engineering economics that say whether a machine pays
// for itself. It knows nothing of lines.
//
//   - [NewFactors] gives the factors of the interest tables.
//   - [Flows] are sums of money by year: [Flows.NPV], [Flows.Payback],
//     [Flows.DiscountedPayback].
//   - A [Value] is a figure known only within a range, which [Value.Draw] draws from;
//     [ChanceOfGain] says of draws of a net present value how likely the machine is to pay.
//
// Sums are in a currency that is never named, the same throughout. A rate is a share for
// each period, usually a year: 0.08 is 8 %. Rate and sums must be of one kind: either both
// with inflation, or both without. Tax, financing and depreciation in the books are not
// here; who needs them puts them into the flows.
//
// What comes out is an estimate, as good as the figures put in. It is not financial advice.
package money
