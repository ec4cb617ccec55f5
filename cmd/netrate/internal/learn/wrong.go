package learn

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios/stoplog"
)

// wrongLog returns what is wrong with a log as an error of the input, with the flags that may
// help; any other error as it is.
func wrongLog(err error) error {
	var lacks study.LogLacks
	var undated study.LogUndated
	var timed study.LogTimed
	var wrong study.LogError
	switch {
	case errors.As(err, &lacks):
		return wrongLacks(lacks)
	case errors.As(err, &undated):
		return desk.Wrong("%v: --against compares day by day; a date, or when a shift began, in a column day (--counts-column day=HEADING)", undated)
	case errors.As(err, &timed):
		return desk.Wrong("%v: --day-starts is for dates alone", timed)
	case errors.As(err, &wrong):
		return desk.Wrong("%v", wrong)
	}
	return err
}

// wrongLacks says what is to be taken of a log and is not there.
func wrongLacks(e study.LogLacks) error {
	flag := map[bool]string{false: "column", true: "counts-column"}[e.InCounts]
	switch {
	case e.Column != "":
		return desk.Wrong("--%s is about both files, and %v: --%s %s=HEADING says which it is", e.Column, e, flag, e.Column)
	case e.Job != "" && e.Speed != 0: // each is there, but no row of both
		return desk.Wrong("%s has no row of %s at %s/h", e.File, stoplog.OneLine(e.Job), say.Exact(e.Speed))
	case e.Job != "":
		return desk.Wrong("%v%s", e, nearestJob(e.Job, e.Jobs))
	}
	return desk.Wrong("%v%s", e, nearestSpeed(e.Speed, e.Speeds))
}

// shownJobs is how many jobs are named if none is near.
const shownJobs = 5

// nearestJob returns a hint at the job that was probably meant, or at some that there are.
func nearestJob(to string, jobs []string) string {
	if near := desk.Meant(to, jobs, ""); near != "" || len(jobs) == 0 {
		return near
	}
	if more := len(jobs) - shownJobs; more > 0 {
		jobs = append(slices.Clone(jobs[:shownJobs]), fmt.Sprintf("%d more", more))
	}
	return ": there are " + say.List(jobs)
}

// nearestSpeed returns a hint at the speed that is nearest, "" if there is none.
func nearestSpeed(to float64, speeds []float64) string {
	if len(speeds) == 0 {
		return ""
	}
	off := func(v float64) float64 { return math.Abs(v - to) }
	return ": did you mean " + study.LogSpeed(slices.MinFunc(speeds, func(a, b float64) int {
		return cmp.Compare(off(a), off(b))
	})) + "?"
}
