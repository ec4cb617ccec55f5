// Package present is how answers are said and drawn: for each kind of answer of
// [netrate/model/study] the sentences that state its finding, its tables and its figures, each a
// function of the answer alone. What is shown on a terminal, on a page, in a workbook or in a
// browser is written from these.
//
// It asks nothing, computes nothing and decides nothing: what is not in the answer is not said.
package present
