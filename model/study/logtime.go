package study

// LogTime is what of a log is not of the same time as the rest, and was left out: see
// netrate/scenarios/stoplog.
type LogTime struct {
	Stops, Counts LogSpan   // from when to when they are; empty if it is not known
	Uncounted     []LogStop // of days or hours without feeds, planned ones apart
	Silent        []LogSpan // with feeds, which were left out, as no stop is written
	Expected      int       // stops in these, by the feeds of the others

	Strangers int  // stops that name a job which the counts do not have in their hour or shift
	Calendar  bool // stops have the date of the calendar at night, and counts that of the day on which the shift began

	TwiceStops, TwiceCounts int // rows that are there before, to the second: they were taken once
}

// LogSpan is a time from one day, hour or shift to another, as the counts name them.
type LogSpan struct{ From, To string }

// String returns both, or the one if they are the same.
func (s LogSpan) String() string {
	if s.From == s.To {
		return s.From
	}
	return s.From + " to " + s.To
}
