// Package page is what answers share beyond the screen: the report (NewReport with its
// Opening, Add, Done), the entries of its tables, what an answer rests on (Assumed), the
// parts of JSON documents, and what lines and stations are called wherever they are named
// (Period, Limits).
//
// It simulates nothing, and finds nothing.
package page
