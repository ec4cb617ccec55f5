// Package weeks is the verb season: the work of some weeks, job after job, in each
// configuration of a scenario, and what of it is late (SeasonVerb).
package weeks
