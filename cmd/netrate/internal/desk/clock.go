package desk

import (
	"strconv"
	"time"
)

// Now returns when it is; or, for files that are to be the same each time, the time that the environment says:
// SOURCE_DATE_EPOCH, seconds since 1970, as reproducible builds have it.
func (e Env) Now() time.Time {
	if seconds, err := strconv.ParseInt(e.Getenv("SOURCE_DATE_EPOCH"), 10, 64); err == nil && seconds >= 0 {
		return time.Unix(seconds, 0).UTC()
	}
	return time.Now().UTC()
}
