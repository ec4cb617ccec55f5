package learn

import (
	"errors"
	"strconv"
	"strings"

	"netrate/model/study"
)

// only says which rows of both files are taken: those of a line, of a job, at a speed, or all.
type only struct {
	speed speedFlag // cycles per hour; 0: at any speed
	job   string    // "": of any job
	line  string    // "": of the one line there is
}

// speedFlag is a flag that is a speed, in cycles per hour.
type speedFlag float64

// Set reads a speed such as 12000/h or 200/min; a number alone is per hour, as in the files.
func (s *speedFlag) Set(text string) error {
	number, unit, _ := strings.Cut(text, "/")
	times, known := map[string]float64{"": 1, "h": 1, "min": 60, "s": 3600}[strings.TrimSpace(unit)]
	x, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if x *= times; err != nil || !known || !(x > 0 && x <= 1e6) {
		return errors.New("want a speed such as 12000/h or 200/min")
	}
	*s = speedFlag(x)
	return nil
}

func (s *speedFlag) String() string { return study.LogSpeed(float64(*s)) }

func (s *speedFlag) Type() string { return "SPEED" }
