// Package modeltest holds the lines that the tests of the packages above model start from. Their
// figures are invented. (The tests of model itself, which cannot import it, have their own.)
//
//   - [ReferenceLine] is the usual one, [LettersLine] carries streams, [CalmLine] has no faults.
//   - [TruthLine] and [ZeroBufferLine] are those whose net rate is known without a simulation.
package modeltest
