// Package formats holds what an inserting line handles, as data and sums: envelopes,
// sheets, paper and folds. It knows nothing of lines.
//
//   - [Envelopes] and [Named] give the standard envelope sizes, each with its source.
//   - [Sheets], [Basis] and [Caliper] give paper; a [Piece] is paper folded, with its
//     size, thickness and weight.
//   - [Fits] says whether a set goes into an envelope.
//   - [USPostal] says what the United States post takes a finished piece for.
//
// Lengths are in millimetres, weights in grams, unless a comment says otherwise. Data are
// copied on every call: nobody can change them for another.
//
// The package gives no tolerances of manufacture, no prices and no postal advice, and
// knows nothing of windows, flaps, seams or stiffness.
package formats
