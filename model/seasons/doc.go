// Package seasons simulates the work of some weeks, job after job: calendar, order of the jobs,
// changeovers, what is left at the end of each week.
//
//   - A [Season] is the weeks with their jobs; [RunSeason] simulates it many times, and
//     [SeasonStudy] is what it came to, job by job and week by week.
//   - [Together] is work of several lines that share a crew, each at a list of jobs; [RunTogether]
//     simulates it.
//   - A [Calendar] is the working time of a week; its [Clock] says which moment of the week an
//     hour of work is.
package seasons
