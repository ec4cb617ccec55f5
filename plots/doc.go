// Package plots draws the charts of netrate, as SVG and as PNG, and makes its tables and
// its report.
//
//	how rates spread              Distribution, Cumulative, Boxes
//	which variant is better       Differences
//	where the rate went           Waterfall, Pareto, States, Stops
//	what the line is              Layout
//	how a shift went              Timeline, Fan
//	what would change the answer  Sweep, Heat, Tornado
//	which strategy to choose      Frontier, Fates
//	why a fault costs sets        Recovery
//	which line runs which job     Coverage
//	how a season goes             Fan, Week, Completion
//	what a log says               Cumulative, Quantiles, Rates
//
// Each takes a struct of plain data and returns a Figure. The title of a figure
// states the finding and the subtitle says what was measured, in which unit and of
// how many shifts; both are the caller's. What a bar, a band or a dot means stands
// below the chart. Every chart can be read in grey print and by colour-blind eyes:
// rows are named where they are drawn, and lines differ by their dashes. A line has one
// colour and one mark in all figures of a report, those of its [Role].
//
// The package draws what it is given and estimates nothing: it sorts, bins and
// places, that is all. Data that cannot be drawn (a NaN, a number above 10⁹,
// percentiles out of order) are an error that names them. No data at all makes a
// figure that says so.
//
// A [Table] is figures in rows, to be written as text, CSV, a sheet of a workbook or
// HTML; a [Report] is one page of figures, tables and assumptions around an answer.
//
// Positions on the page are in points, 1/72 inch, from the top left corner.
package plots
