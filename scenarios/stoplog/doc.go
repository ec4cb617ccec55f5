// Package stoplog reads what a line has really done: a log of its stops, one row a stop,
// and the counts beside it, where a row is a number of feeds of a station. Both are CSV files.
//
// [Read] hands over the stops of a log one by one, [ReadCounts] the counts; neither keeps
// them, so that a file of any length is read in the same memory. A [Mapping] says what the
// file does not say itself; the zero Mapping will do for a file with usual headings.
//
// # The file
//
// Rows are as in RFC 4180 (Common Format and MIME Type for CSV Files, 2005), section 2:
// fields in quotes where they hold a separator, a line break or a quote, and quotes doubled
// in them. Beyond it, fields may also be separated by semicolons, tabs or bars; blanks
// around a field do not count; a quote inside a field that does not begin with one is
// a character like any other; empty fields may be missing or in excess at the end of a row;
// rows with nothing in them are passed over, and so are lines before the header that begin
// with #; a first line sep=; names the separator. The text is UTF-8. A row has at most 64 KiB and takes at most 20 lines; a quote
// that is not closed by then spoils its own line only.
//
// # Dates, numbers and causes
//
// Moments are written like one of the [Times], durations as seconds, minutes or hours (the
// heading or the mapping says which) or as h:mm:ss. Causes are the words of [Cause] or usual
// words for them; what is not known is [Other] and counted under its own name.
//
// # What it refuses to do
//
// Nothing is guessed in silence. What the first row settles, such as a decimal comma or the
// order of day and month, holds for all rows after it, and [Layout] tells what was read as
// what. 03/04/2026 is read where another date of the file, such as 31/04/2026, leaves one
// way only, else when the mapping says which is the day; 1:30 is a duration where the unit is said, minutes or hours; and
// 1.234,5 is not a number. A row that cannot be read is
// reported with its place and with what was wanted, and no row is lost: the rows used and
// those skipped add up to the rows of the file.
package stoplog
