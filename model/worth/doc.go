// Package worth says what a line costs a year, and what one line is worth against another.
//
//   - [Costs] are the prices, each certain or a range: [Costs.Check] says what is wrong with
//     those of one line, [Comparable] why those of several cannot be compared.
//   - [Weigh] draws prices and shifts and returns a [Worth]: the costs of a year by part, and
//     for each line after the first its [Gain]: saving, net present value, chance of gain.
//
// The sums themselves are those of package money.
package worth
