// Package seasons simulates the work of some weeks, job after job: calendar, order of the jobs,
// changeovers, what is left at the end of each week.
package seasons
