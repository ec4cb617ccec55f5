// Package say writes numbers, tables and sentences as people read them: with commas between
// thousands and no digit more than the interval bears (Measured, Rough, Percent, Exact), in lines
// of a width (Wrapped), in lists and with plurals (List, Plural). Differences are said so that none is claimed where none is shown
// (Gap, Differs).
//
// It knows nothing of lines, studies or files; it is given numbers and text, and returns text.
package say
