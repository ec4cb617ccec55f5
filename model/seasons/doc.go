// Package seasons simulates the work of some weeks, job after job: calendar, order of the jobs,
// changeovers, what is left at the end of each week.
//
//   - A [Season] is the weeks with their jobs; [RunSeason] simulates it many times, and
//     [SeasonStudy] is what it came to, job by job and week by week.
//   - [Together] is work of several lines that share a crew, each at a list of jobs; [RunTogether]
//     simulates it.
//     Where remakes are made by hand beside the line, a line is free for its next job when the last set
//     of the one before has left; that is finished when its last remake is made. The bench is one, for
//     all lines too, first come first served over all jobs, and works in working time.
//   - A [Calendar] is the working time of a week; its [Clock] says which moment of the week an
//     hour of work is.
package seasons
